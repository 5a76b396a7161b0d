"""An open job: the one way to look at it and the one way to change it.

A view compares `step` with the one it showed last and asks for its page again where they differ; nothing is broadcast
but to the few that asked (`listen`). Every change goes through `enter`, `paste`, `act`, `answer`, `undo`, `redo` and
`sheets_printed`, comes back as an `Outcome`, and is in the file before it is shown.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from frontwright.core.findings import Check
from frontwright.core.job import Job
from frontwright.core.plan import Plan, derive
from frontwright.desk import guard
from frontwright.desk.acting import Acts
from frontwright.desk.contents import Listener, Outcome, PageContents, SheetLine, Tab, WorkingLine
from frontwright.desk.copies import copied
from frontwright.desk.drafts import Drafts
from frontwright.desk.edits import acts, record, veneer
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.entering import after_all, edit_of_cell, why_not_taken
from frontwright.desk.job_sheets import JobSheets
from frontwright.desk.keys import Place, key, parts_of
from frontwright.desk.lay_desk import LayDesk
from frontwright.desk.lists import LIST_FILES, ListDesk
from frontwright.desk.open_job import OpenJob, SessionError, now
from frontwright.desk.pages import pages
from frontwright.desk.pages.bill import bill_of
from frontwright.desk.pages.findings import tabs
from frontwright.desk.pages.view import View
from frontwright.desk.rack_acts import COUNTING_LIST, counting_list_pdf
from frontwright.desk.ways import finding_key
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.working import working
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.core.bill.result import WholeBill
    from frontwright.sheets.catalogue import Paper
    from frontwright.store.files import JobFile, ShopFile

__all__ = ["Session", "SessionError"]


class Session(OpenJob):
    """An open job file with its plan, what is selected, what is being typed, and the shop beside it."""

    def __init__(self, book: JobFile, shop_file: ShopFile | None = None, shop_problem: str = "") -> None:
        super().__init__(book, shop_file, shop_problem)
        self._sheets = JobSheets(self._bill)
        self.step = 0
        self._last_key = ""
        self._listeners: list[Listener] = []
        self._drafts = Drafts(book, lambda place, text: why_not_taken(self.job, place, text))
        # what is being laid out in a process beside this one
        self.lay = LayDesk(lambda: self._plan, self.do, self._rack, self.carry)
        self.lists = ListDesk(lambda: self._plan, self._bill, self._rack, self)
        self._acts = Acts(self, self._shop, self._rack, self._shown, now)

    def close(self) -> None:
        """Give both files back, and end what is being laid; a second time does nothing."""
        self.lay.stop()
        super().close()

    def listen(self, listener: Listener) -> None:
        """Have this called after each change."""
        self._listeners.append(listener)

    # -- pages

    @property
    def selected(self) -> str:
        """The subject that every table and drawing shows."""
        return self._shown.selected

    def select(self, subject: str) -> None:
        """Select a subject: every table and drawing shows it."""
        self._shown.selected = subject

    def choose(self, chapter: str, subject: str) -> None:
        """Stand the chooser of a page on a subject, and select that."""
        self._shown.choose(chapter, subject)
        if chapter not in ("shop", "site"):
            self.select(subject)

    def page(self, chapter: str, subject: str | None = None) -> PageContents:
        """The contents of a page; `subject` stands its chooser elsewhere. KeyError if there is no such page."""
        make = pages()[chapter]
        if subject is not None:
            self._shown.choose(chapter, subject)
        state = (self.step, self._drafts.texts, self._rack.seen)
        return self._shown.page(chapter, state, lambda: make(self._view(chapter)))

    def tabs(self) -> tuple[Tab, ...]:
        """The pages with their strongest findings."""
        states = [line.state for line in self._sheets.lines(self._plan, self.step)] if self._sheets.looked_at else []
        return tabs(self._view(""), states.count("stale"), states.count("held"), self._rack.to_see_to())

    def _view(self, chapter: str) -> View:
        return View(
            self.job,
            self._plan,
            self.shop,
            self._shown.chosen(chapter),
            self.selected,
            self._drafts.texts,
            self._drafts.problems,
            self._shown.wish,
            self._rack,
            self.lay,
            now()[:10],
        )

    def working(self, place: str, opened: Collection[str] = ()) -> tuple[str, tuple[WorkingLine, ...]]:
        """Title and lines of the working of the figure in a cell; no lines where the cell has no figure."""
        cell = self._shown.cells.get(place)
        if cell is None or cell.figure is None:
            return (cell.name if cell else ""), ()
        return cell.name or cell.figure.name, working(cell.figure, opened, self.display)

    # -- edits

    def enter(self, place: str, text: str) -> Outcome:
        """Take what was typed into a cell. Where it cannot stand it is kept as a draft and the outcome says why."""
        try:
            if self._acts.takes(place):
                outcome = self._acts.enter(place, text)
                self._drafts.forget(place)
                self.changed()
                return replace(outcome, next_key=self._shown.next(place))
            edit = self._entry(self.job, place, text)
            job, plan = self._tried(edit)
            if job is not self.job and (why := guard.refusal(Place.of(place), self._plan, plan)):
                raise Refused(why)
            outcome = self._applied(edit, plan)
        except (Refused, StoreError, ValueError) as refused:
            self._refuse(place, text, str(refused))
            return Outcome(problem=str(refused))
        self._forget(place)
        self._last_key = place
        return replace(outcome, next_key=self._shown.next(place))

    def paste(self, places: Sequence[str], texts: Sequence[str]) -> Outcome:
        """Take a block of cells as one edit; what cannot stand stays as a draft in its cell."""
        job, taken, problem = self.job, 0, ""
        changes: list[Edit] = []
        for place, text in zip(places, texts, strict=False):
            if self._acts.takes(place):
                outcome = self.enter(place, text)
                problem = problem or outcome.problem
                continue
            try:
                edit = self._entry(job, place, text, pasted=True)
                job = edit.change(job)
            except (Refused, ValueError) as refused:
                problem = problem or str(refused)
                self._refuse(place, text, str(refused))
                continue
            changes.append(edit)
            taken += 1
            self._forget(place)
        if not changes:
            return Outcome(problem=problem)
        whole = Edit(f"paste {count_of(taken, 'cell')}", lambda before: after_all(before, changes))
        outcome = self.do(whole)
        return replace(outcome, said=problem or outcome.said)

    def act(self, action: str) -> Outcome:
        """Do what a button or menu entry says."""
        verb, *objects = parts_of(action)
        try:
            if acts.is_edit(verb):
                outcome = self._gone_on(self.do(acts.edit_of(self.job, verb, tuple(objects))))
                if verb == "add-defect":
                    return replace(outcome, next_key=key("defects", list(self.job.defects)[-1], "what"))
                return outcome if outcome.next_key or verb != "new" else self._gone_to_shop(outcome, objects[0])
            if veneer.is_edit(verb):
                outcome = self.do(veneer.edit_of(self.job, self._plan, verb, tuple(objects)))
                return self._gone_on(outcome) if veneer.goes_on_there(verb) else outcome
            return self._acts.act(verb, objects)
        except (Refused, StoreError) as refused:
            return Outcome(problem=str(refused))

    def answer(self, finding: str, text: str) -> Outcome:
        """`It is so, because ...`: the reason is kept with the figures the finding stood at; empty takes it back."""
        check = self.finding(finding)
        if check is None:
            return Outcome(problem="This finding has gone; there is nothing to answer any more.")
        try:
            return self.do(record.answer(self.job, check, text))
        except Refused as refused:
            return Outcome(problem=str(refused))

    def undo(self) -> Outcome:
        """Take the last step back."""
        return self._back_or_forth(self.undo_name, "Undone", "There is nothing to undo.", back=True)

    def redo(self) -> Outcome:
        """Do the step that was taken back again."""
        return self._back_or_forth(self.redo_name, "Done again", "There is nothing to do again.", back=False)

    def _back_or_forth(self, name: str, word: str, nothing: str, *, back: bool) -> Outcome:
        if not name:
            return Outcome(problem=nothing)
        file = self._undone()
        try:
            notice = self._swapped(file, back=back)
        except (Refused, StoreError) as error:
            return Outcome(problem=str(error))
        self.take_anew(self._plan if file is not self._book else None)
        return Outcome(said=f"{word}: {name} {notice}".strip())

    def _entry(self, job: Job, place: str, text: str, *, pasted: bool = False) -> Edit:
        correcting = not pasted and place == self._last_key
        return edit_of_cell(job, self.shop, place, text, correcting=correcting, today=now()[:10])

    def _tried(self, edit: Edit) -> tuple[Job, Plan]:
        """What an edit would make of the job, and what would follow."""
        job = edit.change(self.job)
        return job, self._plan if job == self.job else derive(job, self.shop)

    def do(self, edit: Edit) -> Outcome:
        """Make an edit a step of the job."""
        try:
            outcome = self._applied(edit, self._tried(edit)[1])
        except (Refused, StoreError) as error:
            return Outcome(problem=str(error))
        self._last_key = ""
        return outcome

    def carry(self, step: Callable[[], str]) -> Outcome:
        """Make a step that the rack has its part in; the notice of it is said."""
        try:
            said = step()
        except (Refused, StoreError) as error:
            return Outcome(problem=str(error))
        self._shop.edited_last = False
        self.take_anew()
        return Outcome(said=said)

    def _applied(self, edit: Edit, plan: Plan) -> Outcome:
        before = self._book.step
        told = edit.tell(self._plan, plan) if edit.tell else ""
        done = self._rack.apply(edit)
        if self._book.step != before:
            self._shop.edited_last = False
            self.take_anew(plan if done.change is edit.change else None)
        if done.select:
            self.select(done.select)
        return Outcome(said=" ".join(part for part in (edit.said, told, done.said) if part), select=done.select)

    def take_anew(self, plan: Plan | None = None) -> None:
        """Take over this plan; the job worked out anew where there is none."""
        self._plan = plan or derive(self.job, self.shop)
        self._last_key = ""
        self.changed()

    def changed(self) -> None:
        """Have everybody look anew."""
        self.step += 1
        for listener in self._listeners:
            listener()

    def _gone_on(self, outcome: Outcome) -> Outcome:
        """Typing goes on in what was put in: in its first cell on the page that is shown."""
        chapter = self._shown.chapter
        return self._first_on(chapter, outcome) if chapter and outcome.select else outcome

    def _first_on(self, chapter: str, outcome: Outcome) -> Outcome:
        return replace(outcome, next_key=self._shown.first(self.page(chapter), outcome.select))

    def _gone_to_shop(self, outcome: Outcome, entries: str) -> Outcome:
        """What was put in has no cell on the page that is shown: the Shop page has all of them."""
        from frontwright.desk.pages.shop import TITLES

        if outcome.problem or entries not in TITLES:
            return outcome
        self._shown.choose("shop", TITLES[entries])
        return replace(self._first_on("shop", outcome), chapter="shop")

    def finding(self, finding: str) -> Check | None:
        return next((check for check in self._plan.checks if check.is_open and finding_key(check) == finding), None)

    # -- what is being typed

    def drafts(self) -> Mapping[str, str]:
        """Text by cell that is being typed, or that could not be taken."""
        return self._drafts.texts

    def keep_draft(self, place: str, text: str) -> None:
        """Keep half-typed text; it survives closing and a crash."""
        self._drafts.keep(place, text)

    def drop_draft(self, place: str) -> None:
        """Forget the text at a place: it was given up."""
        self._forget(place)

    def _refuse(self, place: str, text: str, why: str) -> None:
        self._drafts.refuse(place, text, why)
        self._last_key = ""
        self.changed()

    def _forget(self, place: str) -> None:
        if self._drafts.forget(place):
            self.changed()

    # -- sheets

    def sheets(self) -> tuple[SheetLine, ...]:
        """The list of sheets with the state of each: the page Sheets."""
        self._shown.chapter = "sheets"
        return self.sheets_now()

    def sheets_now(self) -> tuple[SheetLine, ...]:
        """The same list, whatever page is open."""
        return self._sheets.lines(self._plan, self.step)

    def sheet_pdf(self, keys: Sequence[str], paper: Paper | None = None) -> bytes | str:
        """These sheets as one PDF, the bytes that are previewed, saved and printed; or one sentence why not."""
        if tuple(keys) == (COUNTING_LIST,):
            return counting_list_pdf(self._rack, self.display.unit, paper or self.paper, now())
        return self._sheets.pdf(self._plan, keys, paper or self.paper, now(), self.step)

    def sheets_printed(self, keys: Sequence[str]) -> Outcome:
        """Note that these sheets were printed or saved: from now on they can be current or stale."""
        if tuple(keys) == (COUNTING_LIST,):
            return Outcome()  # it is no sheet of the job: nothing goes stale by it
        try:
            return self.do(self._sheets.printed(self._plan, keys, now(), self.step))
        except Refused as refused:
            return Outcome(problem=str(refused))

    # -- other forms

    def export(self, path: Path) -> Outcome:
        """Write the job to a place that is free: by its name as JSON, as lists, or else as another job file."""
        return self.lists.save(path) if path.suffix.lower() in LIST_FILES else copied(self._book, path)

    def _bill(self) -> WholeBill:
        """What is pulled, bought and paid, as the Bill page has it."""
        return bill_of(self._view("bill"))

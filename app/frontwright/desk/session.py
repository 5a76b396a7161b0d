"""An open job: the one way to look at it and the one way to change it.

A view compares `step` with the one it showed last and asks for its page again where they differ; nothing is broadcast
but to the few that asked (`listen`). Every change goes through `enter`, `paste`, `act`, `answer`, `undo`, `redo` and
`sheets_printed`, comes back as an `Outcome`, and is in the file before it is shown.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Self

from frontwright.core.findings import Check
from frontwright.core.job import Job, Shop, Table
from frontwright.core.job.references import REFERENCES
from frontwright.core.lengths import Display, show
from frontwright.core.plan import Plan, derive
from frontwright.desk import guard
from frontwright.desk.acting import Acts
from frontwright.desk.contents import Listener, Outcome, PageContents, SheetLine, Tab, WorkingLine
from frontwright.desk.drafts import Drafts
from frontwright.desk.edits import acts, making, record, veneer
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.entry import entered
from frontwright.desk.edits.rows import table
from frontwright.desk.edits.start import NewJob, new_job
from frontwright.desk.job_sheets import JobSheets
from frontwright.desk.keys import Place, key, parts_of
from frontwright.desk.lay_desk import LayDesk
from frontwright.desk.lists import LIST_FILES, ListDesk
from frontwright.desk.pages import pages
from frontwright.desk.pages.bill import bill_of
from frontwright.desk.pages.findings import tabs
from frontwright.desk.pages.view import View
from frontwright.desk.rack_acts import COUNTING_LIST
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.shop_desk import ShopDesk
from frontwright.desk.shown import Shown
from frontwright.desk.ways import finding_key
from frontwright.desk.whole_files import write_whole
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.working import working
from frontwright.store import StoreError, create, open_job, open_shop

if TYPE_CHECKING:
    from frontwright.core.bill.result import WholeBill
    from frontwright.sheets.catalogue import Paper
    from frontwright.store.files import JobFile, ShopFile

_UNITS = {"in": "inches", "mm": "millimetres"}


class SessionError(Exception):
    """A job cannot be opened or begun; the text is one sentence with the way out."""


class Session:
    """An open job file with its plan, what is selected, what is being typed, and the shop beside it."""

    def __init__(self, book: JobFile, shop_file: ShopFile | None = None, shop_problem: str = "") -> None:
        self._book = book
        self._shop = ShopDesk(shop_file, shop_problem)
        self._rack = RackDesk(book, shop_file, shop_problem, _now)
        self.rack_problem = self._rack.settle()  # what was cut short and cannot be finished; empty where all is well
        self._sheets = JobSheets(self._bill)
        self._shown = Shown()
        self.step = 0
        self._last_key = ""
        self._listeners: list[Listener] = []
        self._plan = derive(book.job, self.shop)
        self._drafts = Drafts(book, self._why)
        # what is being laid out in a process beside this one
        self.lay = LayDesk(lambda: self._plan, self.do, self._rack, self.carry)
        self.lists = ListDesk(lambda: self._plan, self._bill, self._rack, self)
        self._acts = Acts(self, self._shop, self._rack, self._shown, _now)

    # -- opening and closing

    @classmethod
    def open(cls, path: Path, shop: Path | None = None) -> Self:
        """Open a job file; SessionError, with the file left as it is, where it cannot be."""
        try:
            return cls._with_shop(open_job(path), shop)
        except StoreError as error:
            raise SessionError(str(error)) from error

    @classmethod
    def create(cls, path: Path, job: Job, shop: Path | None = None) -> Self:
        """Make a job file with this job in it and open it; SessionError where it cannot be made."""
        try:
            return cls._with_shop(create(path, job), shop)
        except StoreError as error:
            raise SessionError(str(error)) from error

    @classmethod
    def start(cls, path: Path, form: NewJob, shop: Path | None = None) -> Self:
        """Begin a job from the one form; SessionError names the field that keeps it from being begun."""
        try:
            return cls.create(path, new_job(form), shop)
        except Refused as refused:
            raise SessionError(str(refused)) from refused

    @classmethod
    def _with_shop(cls, book: JobFile, shop: Path | None) -> Self:
        """A shop file that cannot be opened is said and left; the job is whole without it."""
        try:
            return cls(book, open_shop(shop))
        except StoreError as error:
            return cls(book, None, str(error))
        except BaseException:
            book.close()
            raise

    def close(self) -> None:
        """Give both files back, and end what is being laid; a second time does nothing."""
        self.lay.stop()
        self._book.close()
        self._shop.close()

    # -- what is there

    @property
    def path(self) -> Path:
        return self._book.path

    @property
    def job(self) -> Job:
        return self._book.job

    @property
    def plan(self) -> Plan:
        return self._plan

    @property
    def shop(self) -> Shop:
        """The shop's own entries, as its file has them now."""
        return self._shop.shop

    @property
    def shop_problem(self) -> str:
        """Why there is no shop file open; empty where there is one."""
        return self._shop.problem

    @property
    def rack(self) -> RackDesk:
        """The rack of the shop, beside this job."""
        return self._rack

    @property
    def name(self) -> str:
        """What the job is called: by its heading, else by its file."""
        return self.job.heading.name or self.path.stem

    @property
    def display(self) -> Display:
        return self._plan.display

    @property
    def unit_words(self) -> str:
        """ "inches, shown to 1/32"."""
        return f"{_UNITS[self.display.unit]}, shown to {show(self.display.step, self.display)}"

    @property
    def undo_name(self) -> str:
        """The step that `undo` takes back, in words; empty if there is none."""
        return self._rack.undo_name if self._on_rack else self._undone().can_undo or ""

    @property
    def redo_name(self) -> str:
        return self._undone().can_redo or ""

    @property
    def _on_rack(self) -> bool:
        """Whether the step to be taken back is one of the rack alone: on its page, where that was the last one."""
        return self._shown.chapter == "rack" and self._rack.undoes_last

    def _undone(self) -> JobFile | ShopFile:
        """The file whose steps are taken back: on the Shop page the shop's, unless the job was edited last."""
        file = self._shop.file
        return file if file is not None and self._shown.chapter == "shop" and self._shop.edited_last else self._book

    @property
    def paper(self) -> Paper:
        """Letter for an inch job, A4 otherwise."""
        return "letter" if self.display.unit == "in" else "a4"

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
            _now()[:10],
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
        whole = Edit(f"paste {count_of(taken, 'cell')}", lambda before: _all(before, changes))
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
        return self._swapped(self.undo_name, "Undone", "There is nothing to undo.", back=True)

    def redo(self) -> Outcome:
        """Do the step that was taken back again."""
        return self._swapped(self.redo_name, "Done again", "There is nothing to do again.", back=False)

    def _swapped(self, name: str, word: str, nothing: str, *, back: bool) -> Outcome:
        if not name:
            return Outcome(problem=nothing)
        file, notice = self._undone(), ""
        try:
            if back and self._on_rack:
                notice = self._rack.undo()
            elif file is self._book:
                notice = self._rack.swap(back=back)
            else:
                _ = file.undo() if back else file.redo()
        except (Refused, StoreError) as error:
            return Outcome(problem=str(error))
        self.take_anew(self._plan if file is not self._book else None)
        return Outcome(said=f"{word}: {name} {notice}".strip())

    def _entry(self, job: Job, place: str, text: str, *, pasted: bool = False) -> Edit:
        """The edit of a cell; an entry of the shop that is chosen comes with it into the job."""
        where = Place.of(place)
        homes = REFERENCES.get(where.table, {}).get(where.field, ())
        home = next((h for h in homes if h in Shop.kinds() and text in table(self.shop, h)), None)
        if home is None or text in table(job, home):
            return entered(job, place, text, not pasted and place == self._last_key, _now()[:10])
        shop = self.shop
        edit = entered(making.taken_over(job, shop, home, text), place, text)
        return replace(edit, change=lambda before: edit.change(making.taken_over(before, shop, home, text)))

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

    def _why(self, place: str, text: str) -> str:
        """Why a draft of an earlier sitting was not taken; empty where it was only half typed."""
        if Acts.takes(place):
            return ""
        try:
            entered(self.job, place, text)
        except Refused as refused:
            return str(refused)
        except ValueError:
            return ""
        return ""

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
            return self._counting_list(paper or self.paper)
        return self._sheets.pdf(self._plan, keys, paper or self.paper, _now(), self.step)

    def _counting_list(self, paper: Paper) -> bytes | str:
        from frontwright.core.stock.counting import along_the_shelves, last_seen
        from frontwright.sheets.catalogue import Stamp, counting_list

        try:
            rack = self._rack.rack
        except StoreError as error:
            return str(error)
        shelves = along_the_shelves(replace(rack, pieces=Table(self._rack.pieces_in(self.display.unit).values())))
        return counting_list(shelves, last_seen(rack), paper, "", Stamp(1, _now()))

    def sheets_printed(self, keys: Sequence[str]) -> Outcome:
        """Note that these sheets were printed or saved: from now on they can be current or stale."""
        if tuple(keys) == (COUNTING_LIST,):
            return Outcome()  # it is no sheet of the job: nothing goes stale by it
        try:
            return self.do(self._sheets.printed(self._plan, keys, _now(), self.step))
        except Refused as refused:
            return Outcome(problem=str(refused))

    # -- other forms

    def export(self, path: Path) -> Outcome:
        """Write the job to a place that is free: by its name as JSON, as lists, or else as another job file."""
        if path.suffix.lower() in LIST_FILES:
            return self.lists.save(path)
        try:
            if path.suffix.lower() == ".json":
                from frontwright.exchange.json_form import job_to_json

                write_whole(path, job_to_json(self.job).encode())
            else:
                self._book.copy_to(path)
        except StoreError as error:
            return Outcome(problem=str(error))
        except OSError as error:
            return Outcome(problem=f"{path} cannot be written: {error.strerror or error}; choose another place.")
        return Outcome(said=f"A copy is in {path}")

    def _bill(self) -> WholeBill:
        """What is pulled, bought and paid, as the Bill page has it."""
        return bill_of(self._view("bill"))


def _all(job: Job, edits: Sequence[Edit]) -> Job:
    for edit in edits:
        job = edit.change(job)
    return job


def _now() -> str:
    return datetime.now().astimezone().strftime("%Y-%m-%d %H:%M")

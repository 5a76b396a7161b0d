"""What a person looks at in an open job: the page, its subject, what is selected. Nothing of it is in the job."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from frontwright.core.findings import Check
from frontwright.core.plan import Plan
from frontwright.desk.contents import Cell, PageContents
from frontwright.desk.edits.edit import Refused
from frontwright.desk.keys import Place
from frontwright.desk.order import cells_of, first_of, next_key
from frontwright.desk.pages.view import Wish
from frontwright.desk.ways import page_of

WISHES = ("look", "whole-look", "height", "search", "question", "counting", "compare")


class Shown:
    """The pages as they were shown last, each made anew only when what it is made from has changed."""

    def __init__(self) -> None:
        self.chapter = ""
        self.selected = ""
        self.wish = Wish()
        self._chosen: dict[str, str] = {}
        self._pages: dict[str, tuple[object, PageContents]] = {}
        self.cells: dict[str, Cell] = {}

    def chosen(self, chapter: str) -> str:
        """The subject that the chooser of a page stands on; "" where nobody chose."""
        return self._chosen.get(chapter, "")

    def choose(self, chapter: str, subject: str) -> None:
        self._chosen[chapter] = subject

    def page(self, chapter: str, state: object, made: Callable[[], PageContents]) -> PageContents:
        """The contents of a page; `state` is all it is made from beside what is shown."""
        state = (state, self.chosen(chapter), self.selected, self.wish)
        kept = self._pages.get(chapter)
        if kept is None or kept[0] != state:
            kept = (state, made())
            self._pages[chapter] = kept
        self.chapter = chapter
        self.cells = cells_of(kept[1])
        return kept[1]

    def next(self, place: str) -> str:
        """The next cell in measuring order on the page on which this one was shown last."""
        page = next((page for _, page in self._pages.values() if place in cells_of(page)), None)
        return next_key(page, place) if page is not None else ""

    def first(self, page: PageContents, subject: str) -> str:
        """The first cell of a subject on a page that is typed into."""
        return first_of(page, subject) if subject else ""

    def have(self, verb: str, objects: list[str]) -> None:
        """Take over what a person wishes to see: another look, the whole of it, a further height of a run."""
        if verb == "look" and objects:
            self.wish = replace(self.wish, look=objects[0])
        elif verb == "whole-look":
            self.wish = replace(self.wish, whole=not self.wish.whole)
        elif verb == "height" and len(objects) == 2:
            self.wish = replace(self.wish, heights=self.wish.heights | {f"{objects[0]}/{objects[1]}"})
        elif verb == "search":
            self.wish = replace(self.wish, search=objects[0] if objects else "")
        elif verb == "question" and objects:
            self.wish = replace(self.wish, question=objects[0])
        elif verb == "compare":
            self.wish = replace(self.wish, compare=not self.wish.compare)
        elif verb == "counting":
            self.wish = replace(self.wish, counting=not self.wish.counting)
        else:
            raise Refused(f"“{verb}” takes other objects than {', '.join(objects) or 'none'}.")

    def look_at(self, plan: Plan, check: Check, place: str) -> None:
        """Stand the pages on what a finding is about, and have the cell shown in which it is put right."""
        of = check.where[0]
        front = plan.fronts.fronts.get(of)
        if of in plan.job.repairs:
            of = plan.job.repairs[of].run
        of = next((one.run for one in plan.condition.surfaces if one.id == of), of)
        opening = plan.survey.openings.get(front.opening if front else of)
        run = opening.run if opening else next((r.id for r in plan.survey.runs if of in (r.id, *r.order)), "")
        if run:
            self._chosen |= {"survey": run, "fronts": run, "facing": run}
        if of in plan.making.fronts:
            self._chosen["making"] = of
        where = Place.of(place) if place else None
        if where is not None and where.table in ("allowances", "limits"):
            self._chosen["shop"] = where.table.capitalize()
        if page_of(place) == "site":
            self._chosen["site"] = "Fronts as made"
        look = where.row if where is not None and where.table == "looks" else self.wish.look
        self.wish = replace(self.wish, look=look, asked=place)

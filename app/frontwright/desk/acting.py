"""What buttons and cells do that is no plain edit of the job: ways out, the shop, the rack, cuts and laying."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from frontwright.core.drawing.section import finer
from frontwright.core.findings import Check, WayOut
from frontwright.desk.contents import Outcome, Table
from frontwright.desk.cut_desk import CUT_TABLE, CUT_VERBS, CutDesk
from frontwright.desk.edits import choices, condition, facing, learning, making, record, space, veneer
from frontwright.desk.edits.edit import Refused
from frontwright.desk.keys import ASK, Place
from frontwright.desk.lay_desk import LAY_VERBS
from frontwright.desk.pages.view import RACK, SHOP
from frontwright.desk.rack_acts import COUNTING_LIST, RACK_VERBS, rack_act
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.rack_entry import NEW_ON_RACK, entered_on_rack, new_on_rack
from frontwright.desk.shop_desk import SHOP_VERBS, ShopDesk
from frontwright.desk.shown import WISHES, Shown
from frontwright.desk.ways import cell_of, chapter_of, page_of, veneer_subject

if TYPE_CHECKING:
    from frontwright.desk.session import Session


class Acts:
    """The actions of one open job; all raise Refused, with one sentence, where something cannot be done."""

    def __init__(self, session: Session, shop: ShopDesk, rack: RackDesk, shown: Shown, now: Callable[[], str]) -> None:
        self._session, self._shop, self._rack, self._shown = session, shop, rack, shown
        self._cuts = CutDesk(rack, lambda: session.plan, lambda: session.name, now)

    # -- cells

    @staticmethod
    def takes(place: str) -> bool:
        """Whether a cell belongs to the shop's file, the rack or the cuts, and not to a table of the job."""
        return place.startswith((SHOP, RACK, f"{CUT_TABLE}/", f"{ASK}/"))

    def enter(self, place: str, text: str) -> Outcome:
        """Take what was typed into such a cell."""
        session = self._session
        if place.startswith(SHOP):
            return Outcome(said=self._shop.enter(place, text, session.display))
        if place.startswith(RACK):
            job = session.job
            said, select = entered_on_rack(self._rack, place.removeprefix(RACK), text, session.display)
            session.take_anew(session.plan if session.job is job else None)
            return Outcome(said=said, select=select)
        where = Place.of(place)
        if where.table == ASK:
            self._shown.have(where.field, [text])
            return Outcome()
        said = self._cuts.enter(where.row, where.field, text)
        session.take_anew()
        return Outcome(said=said)

    # -- buttons

    def act(self, verb: str, objects: list[str]) -> Outcome:
        """Do what a button says that is no edit."""
        session = self._session
        if verb == "way" and len(objects) == 2:
            return self._way(objects[0], objects[1])
        if verb == "lead" and len(objects) >= 2:
            return self._lead(*objects[:3])
        if verb == "take-over" and len(objects) == 2:
            return session.do(making.take_over(session.job, session.shop, objects[0], objects[1]))
        if verb == "take-look" and len(objects) == 2:
            return session.do(choices.take_look(session.plan, *objects))
        if verb == "use-learned" and objects:
            return session.do(learning.use_learned(session.job, session.shop, *objects[:2]))
        if verb == "learn":
            return self._learn(*objects[:2])
        if verb == "print-labels" and objects:
            return self._labels(objects[0])
        if verb == "print-counting":
            return Outcome(prints=(COUNTING_LIST,), said="The shelves in the order in which one walks along them")
        if verb in WISHES:
            self._shown.have(verb, objects)
            session.changed()
            return Outcome(next_key=self._first_to_count() if verb == "counting" else "")
        return self._wood(verb, objects)

    def _first_to_count(self) -> str:
        """Where the first number found is typed; "" where nobody counts or nothing is on the rack."""
        counts = [block for band in self._session.page("rack").bands for block in band if block.key == "counting"]
        rows = [row for block in counts if isinstance(block, Table) for row in block.rows]
        return next((cell.key for row in rows for cell in row.cells if cell.editable), "")

    def _labels(self, laid: str) -> Outcome:
        """Labels for what the cuts of a layout have freed, to be printed now."""
        subject = f"of {laid}"
        lines = self._session.sheets_now()
        found = next((one for one in lines if one.kind == "labels" and one.subject == subject), None)
        if found is None:
            raise Refused(f"No cut of {laid} has freed anything yet: tick the cuts that are made first.")
        return Outcome(prints=(found.key,), said=f"Labels for what came of {laid}")

    def _wood(self, verb: str, objects: list[str]) -> Outcome:
        """The rack, cuts, laying, and the shop's own entries."""
        session = self._session
        if verb in LAY_VERBS:
            outcome = session.lay.act(verb, objects)
            session.changed()
            return outcome
        if verb in CUT_VERBS and objects:
            outcome = self._cuts.act(verb, objects)
            session.take_anew()
            return outcome
        if verb in NEW_ON_RACK:
            return self._came(verb, objects)
        if verb in RACK_VERBS:
            said = rack_act(self._rack, verb, objects)
            session.take_anew()
            return Outcome(said=said)
        if verb in SHOP_VERBS and objects:
            outcome = self._shop.act(verb, objects, session.job)
            session.changed()
            return outcome
        raise Refused(f"Nothing is known by “{verb}”: choose a button of the page.")

    def _came(self, verb: str, objects: list[str]) -> Outcome:
        """What is new on the rack, its first cell ready for what is read off it."""
        session = self._session
        wood = next((one.species for one in session.job.door_builds.values() if one.species), "")
        made = new_on_rack(self._rack, verb, objects, session.selected, wood)
        session.select(made.select)
        session.take_anew()
        return made

    def _lead(self, chapter: str, place: str, subject: str = "") -> Outcome:
        """To a cell, on whatever page it stands; a page and its chooser are named with a colon between."""
        page, _, chosen = chapter.partition(":")
        if chosen:
            self._shown.choose(page, chosen)
        if subject:
            self._session.select(subject)
        self._session.changed()
        return Outcome(select=subject, next_key=place, chapter=page)

    # -- ways out of findings

    def _way(self, finding: str, number: str) -> Outcome:
        """A way out: carried out where the desk can, else the cell is shown in which it is done."""
        session = self._session
        check = session.finding(finding)
        if check is None or not number.isdigit() or int(number) >= len(check.ways):
            return Outcome(problem="This finding has gone; there is nothing to do any more.")
        way = check.ways[int(number)]
        edit = (
            veneer.way_out(session.job, session.plan, check, way)
            or condition.way_out(check, way)
            or space.way_out(check, way)
            or facing.way_out(session.job, check, way)
            or record.way_out(session.job, check, way)
        )
        if edit is not None:
            return session.do(edit)
        return self._led(check, way)

    def _led(self, check: Check, way: WayOut) -> Outcome:
        plan = self._session.plan
        place = cell_of(plan.job, check, way)
        chapter = page_of(place) if place else chapter_of(check)
        subject = way.of if not place or way.of in plan.fronts.fronts else check.where[0]
        self._shown.look_at(plan, check, place)
        self._shown.choose("veneer", veneer_subject(plan, place, way.of) or self._shown.chosen("veneer"))
        self._session.select(subject)
        return Outcome(select=subject, next_key=place, chapter=chapter)

    def _learn(self, billet: str = "", all_the_same: str = "") -> Outcome:
        """What was lost on a billet, or on all that are done, goes to the shop; an outlier only when asked for."""
        session = self._session
        wish = (billet, bool(all_the_same))
        outcome, counted = self._shop.learn(session.job, session.plan, session.name, finer(session.display), wish)
        if counted:
            session.do(learning.counted(counted))
            self._shop.edited_last = True
        return outcome

"""Cuts ticked as they are made: parts that are cut, leftovers that become pieces of the rack, cuts taken back.

Cuts are made in their order: ticking one ticks those before it, taking one back takes back those after it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from frontwright.core.job import Defect, Leftover, Piece
from frontwright.core.lengths import typed_length
from frontwright.core.plan import Plan
from frontwright.core.stock.born import born, born_bad
from frontwright.core.stock.cuts import LayoutCuts, cuts_of
from frontwright.core.stock.result import Clear, LayoutPlan, Remainder
from frontwright.desk.contents import Outcome
from frontwright.desk.edits import cuts as edits
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.wording.numbers import count_of

CUT_TABLE = "cuts"  # of the keys of ticks: layout and cut number
CUT_VERBS = ("cut-tick", "cut-back", "has-come")


@dataclass(frozen=True, slots=True)
class CutDesk:
    """The cuts of one open job, beside the rack. `plan` gives the job's plan now, `carried` takes it over anew."""

    rack: RackDesk
    plan: Callable[[], Plan]
    name: Callable[[], str]
    now: Callable[[], str]

    def enter(self, laid: str, cut: str, text: str) -> str:
        """A tick of a row of cuts, or its taking back; a notice comes back."""
        made = text.strip().casefold() in ("yes", "y", "true", "1", "x", "on")
        number = int(cut) if cut.isdigit() else 0
        return self.tick(laid, number) if made else self.take_back(laid, number)

    def act(self, verb: str, objects: list[str]) -> Outcome:
        """What a button says: tick the next row of cuts, take the last one back, wood that has come."""
        laid = objects[0]
        if verb == "has-come":
            return Outcome(said=self.come(laid), select=laid)
        layout, cuts, done = self._of(laid)
        rows = [row for row in cuts.rows if not set(row.cuts) <= done]
        if verb == "cut-tick":
            if not rows:
                raise Refused(f"All cuts of {layout.id} are made.")
            return Outcome(said=self.tick(laid, rows[0].cuts[-1]))
        last = [row for row in cuts.rows if set(row.cuts) & done]
        if not last:
            raise Refused(f"No cut of {layout.id} is made that could be taken back.")
        return Outcome(said=self.take_back(laid, last[-1].cuts[0]))

    def tick(self, laid: str, cut: int) -> str:
        """The cuts up to this one (with those of its row) are made."""
        layout, cuts, done = self._of(laid)
        row = next((one for one in cuts.rows if cut in one.cuts), None)
        if row is None:
            raise Refused(f"There is no cut {cut} on {laid}: choose another row.")
        piece = self.plan().job.pieces.get(layout.laid.piece or "")
        if piece is None:
            raise Refused(f"{laid} is still to be bought: say first that it has come.")
        if layout.faults and not done:
            raise Refused(f"{laid} does not hold any more: lay it anew before it is cut.")
        upto = max(row.cuts)
        new = [one.number for one in cuts.cuts if one.number <= upto and one.number not in done]
        if not new:
            return ""
        if piece.count > 1:
            return self._one_of_many(layout, piece, cut)
        return self._ticked(layout, cuts, done, new, piece)

    def _ticked(self, layout: LayoutPlan, cuts: LayoutCuts, done: frozenset[int], new: list[int], piece: Piece) -> str:
        was, now = set(cuts.free_after(done)), cuts.free_after(done | set(new))
        free = [name for name in now if name not in was]
        parts = [part for part in layout.parts if part.row in free]
        kept = [rest for rest in layout.remainders if rest.letter in free and rest.keep]
        born_ = list(self._born(piece, kept))
        bad = [one for rest, new in zip(kept, born_, strict=True) for one in self._bad(layout, piece, rest, new.id)]
        freed = _by_last_cut(cuts, [part.row for part in parts])
        when = self.now()
        change = edits.ticked(layout.id, new, freed, when)
        rows = [_leftover(layout, rest, one) for rest, one in zip(kept, born_, strict=True)]
        numbers = f"cut {new[0]}" if len(new) == 1 else f"cuts {new[0]} to {new[-1]}"
        edit = Edit(f"{numbers} of {layout.id}", lambda job: change(job).put(*rows))
        ends = len(done | set(new)) == len(cuts.cuts)
        said = self._carried(edit, piece, (born_, bad), [part.part for part in parts], ends=ends)
        labels = f"; print labels for {', '.join(one.id for one in born_)} now" if born_ else ""
        gives = f", {count_of(len(parts), 'part')} free" if parts else ""
        return f"{numbers[:1].upper()}{numbers[1:]} of {layout.id} made{gives}{labels}. {said}".strip()

    def _carried(
        self, edit: Edit, piece: Piece, left: tuple[list[Piece], list[Defect]], parts: list[str], *, ends: bool
    ) -> str:
        """On the rack too, where the rack has the piece; else the leftovers are the job's own pieces."""
        born_, bad = left
        if piece.id in self.rack.rack.pieces:
            return self.rack.cut(edit, piece.id, born_, parts=parts, ends=ends, bad=bad)

        state = replace(piece, state="used up" if ends else "in work")
        whole = replace(edit, change=lambda job: edit.change(job).put(state, *born_, *bad))
        return self.rack.apply(whole).said

    def take_back(self, laid: str, cut: int) -> str:
        """This cut (with its row) and those after it were ticked wrongly."""
        layout, cuts, done = self._of(laid)
        row = next((one for one in cuts.rows if cut in one.cuts), None)
        if row is None or not set(row.cuts) & done:
            return ""
        job = self.plan().job
        first = min(row.cuts)
        gone = [number for number in sorted(done) if number >= first]
        left = frozenset(done - set(gone))
        unborn = [
            rest
            for rest in layout.remainders
            if rest.letter in cuts.free_after(done) and rest.letter not in cuts.free_after(left)
        ]
        letters = [rest.letter for rest in unborn]
        names = [old.piece for x in letters if (old := job.leftovers.get(f"{laid} {x}")) is not None and old.piece]
        edit = Edit(f"take back cut {gone[0]} of {laid}", lambda before: edits.unticked(before, laid, gone, letters))
        piece = job.pieces.get(layout.laid.piece or "")
        if piece is not None and piece.id in self.rack.rack.pieces:
            said = self.rack.uncut(edit, piece.id, names, all_of_it=not left)
        else:
            said = self.rack.apply(_freed(edit, piece, left)).said
        return f"Cut {gone[0]} of {laid} and what came after it are taken back. {said}".strip()

    def come(self, laid: str) -> str:
        """What was to be bought for a layout is there."""
        plan = self.plan()
        layout = next((one for one in plan.stock.layouts if one.id == laid), None)
        if layout is None:
            raise Refused(f"“{laid}” is no longer laid: choose another.")
        group = next((one for one in plan.stock.groups if one.id == layout.group), None)
        edit = edits.has_come(plan.job, layout, group)
        done = self.rack.apply(edit)
        return f"{laid} has come; what is cut of it stands in the job now. {done.said}".strip()

    def _of(self, laid: str) -> tuple[LayoutPlan, LayoutCuts, frozenset[int]]:
        plan = self.plan()
        layout = next((one for one in plan.stock.layouts if one.id == laid), None)
        if layout is None:
            raise Refused(f"“{laid}” is no longer laid: choose another.")
        done = frozenset(row.cut for row in plan.job.cuts_done.values() if row.laid == laid)
        return layout, cuts_of(layout), done

    def _one_of_many(self, layout: LayoutPlan, piece: Piece, cut: int) -> str:
        """Of several alike pieces one is cut: it gets a name of its own, and the layout lies on that."""
        if piece.id not in self.rack.rack.pieces:
            raise Refused(f"{piece.id} are {piece.count} alike: enter the one that is cut as a piece of its own.")

        def edit(name: str) -> Edit:

            return Edit(
                f"take {name} for {layout.id}",
                lambda job: job.put(replace(job.laid[layout.id], piece=name)),
            )

        said = self.rack.take_one(edit, piece.id)
        return f"One of {piece.id} is taken for {layout.id}; tick cut {cut} once more. {said}".strip()

    def _bad(self, layout: LayoutPlan, piece: Piece, rest: Remainder, name: str) -> Iterator[Defect]:
        """The bad places that go with a leftover."""
        job = self.plan().job
        mine = [one for one in job.defects.values() if one.piece == piece.id]
        return born_bad(mine, layout.offer, _clear(rest), name, job.heading.unit)

    def _born(self, piece: Piece, kept: list[Remainder]) -> Iterator[Piece]:
        """The leftovers as pieces, under names counted on from their parent's."""
        job = self.plan().job
        taken = [*self.rack.rack.pieces, *job.pieces]
        unit = job.heading.unit
        for rest in kept:
            name = free_id(taken, piece.id)
            taken.append(name)
            sizes = (typed_length(rest.length, unit), typed_length(rest.width, unit), piece.thickness)
            shelf = rest.decided.shelf if rest.decided is not None and rest.decided.shelf else None
            yield born(piece, name, sizes, job=self.name(), when=self.now(), shelf=shelf, form=rest.form)


def _clear(rest: Remainder) -> Clear:
    return Clear(rest.along, rest.across, rest.length, rest.width)


def _leftover(layout: LayoutPlan, rest: Remainder, piece: Piece) -> Leftover:
    old = rest.decided
    why = old.why if old is not None else ""
    return Leftover(f"{layout.id} {rest.letter}", layout.id, keep=True, piece=piece.id, shelf=piece.shelf, why=why)


def _by_last_cut(cuts: LayoutCuts, parts: list[str]) -> dict[int, tuple[str, ...]]:
    """Cut -> the parts that it is the last one to free."""
    found: dict[int, tuple[str, ...]] = {}
    for part in parts:
        last = max(cuts.frees[part], default=0)
        found[last] = (*found.get(last, ()), part)
    return found


def _freed(edit: Edit, piece: Piece | None, left: frozenset[int]) -> Edit:
    if piece is None:
        return edit

    state = replace(piece, state="in work" if left else "free")
    return replace(edit, change=lambda job: edit.change(job).put(state))

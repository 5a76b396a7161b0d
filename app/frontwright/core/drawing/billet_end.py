"""The end of a billet as values: planned, as it is and would go on, the way out in hand; what lies where in each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.drawing.marks import Part
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.lengths import ZERO, Length, in_units
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import BilletPlan, Saving, SlicePlan

Which = Literal["planned", "as it is", "way out"]

CHANGES: dict[str, str] = {"thinner leaves": "Thinner leaves", "less kept back": "Less kept back"}


@dataclass(frozen=True, slots=True)
class Slot:
    """One slice of a view: where the leaf begins, its thickness and what goes after it, and what stands then.

    `apart`: kerf, wander and re-joint by themselves; without it only the kerf is known of `loss`. `exists`: is sawn.
    """

    id: str
    left: Length
    thick: Length
    kerf: Length
    wander: Length
    loss: Length
    after: Figure
    apart: bool
    exists: bool = False
    state: str = ""

    @property
    def right(self) -> Length:
        return self.left + self.thick

    @property
    def end(self) -> Length:
        return self.right + self.loss


@dataclass(frozen=True, slots=True)
class EndView:
    """The end of a billet in one state: its slices, what is kept back of the rest, where the saw is, what is lost."""

    which: Which
    title: tuple[Part, ...]
    slots: tuple[Slot, ...]
    rest: Figure
    keep_back: Figure
    saw: Length | None = None
    lost: tuple[SlicePlan, ...] = ()


def end_views(of: BilletPlan) -> tuple[EndView, ...]:
    """Planned; once leaves exist as it is; and, where a leaf is lost or at risk, the first way out that
    can be drawn."""
    views = [_planned(of)]
    if not any(s.leaf is not None for s in of.slices):
        return tuple(views)
    now = _as_it_is(of)
    views.append(now)
    way = next((w for w in of.ways if w.kind in CHANGES and w.to is not None), None)
    if of.seen is not None and way is not None:
        views.append(_way_out(of, way, [slot for slot in now.slots if slot.exists]))
    return tuple(views)


def plan_of(plan: Plan, billet_id: str) -> BilletPlan:
    """The plan of a billet; KeyError if there is none."""
    found = next((p for p in plan.veneer.plans if p.id == billet_id), None)
    if found is None:
        raise KeyError(billet_id)
    return found


def _planned(plan: BilletPlan) -> EndView:
    slots = tuple(_by_plan(plan, at) for at in range(plan.planned))
    rest = slots[-1].after if slots else plan.thickness
    return EndView("planned", (f"As planned: {_count(len(slots))}",), slots, rest, plan.losses.keep_back)


def _by_plan(plan: BilletPlan, before: int) -> Slot:
    """The slice after so many others. With nothing kept back the last leaf needs no cut."""
    losses, name = plan.losses, f"{plan.id}{before + 1}"
    left = (plan.slice.length + losses.together.length) * before
    uncut = before == plan.planned - 1 and not in_units(losses.keep_back.value)
    cuts = before if uncut else before + 1
    gone = [minus(losses.together, cuts)] if cuts else []
    after = total(f"billet left after {name}", plus(plan.thickness), minus(plan.slice, before + 1), *gone)
    sizes = (losses.kerf, losses.wander, losses.together)
    kerf, wander, loss = (ZERO if uncut else size.length for size in sizes)
    return Slot(name, left, plan.slice.length, kerf, wander, loss, after, apart=True)


def _as_it_is(plan: BilletPlan) -> EndView:
    """Leaves that exist by their readings, the rest by what was seen; without readings by the plan."""
    slots: list[Slot] = []
    for one in (s for s in plan.slices if s.leaf is not None and s.state != "to come"):
        slots.append(_sawn(plan, one, slots[-1].end if slots else ZERO))
    saw = slots[-1].end if slots else ZERO
    for one in (s for s in plan.slices if s.state == "to come"):
        slots.append(_next(plan, one, _coming(plan, one), slots, one.left_should))
    lost = tuple(s for s in plan.slices if s.state == "lost")
    rest = slots[-1].after if slots else plan.thickness
    return EndView("as it is", ("As it is, if the saw goes on so",), tuple(slots), rest, plan.keep_back, saw, lost)


def _sawn(plan: BilletPlan, one: SlicePlan, left: Length) -> Slot:
    """A slice that was made, with what its own saw and blade lose."""
    thick = one.thick.length if one.thick is not None else one.wanted.length
    state = one.state if one.state != "good" else ""
    losses = one.saw.losses
    if one.left_is is None:
        loss = losses.together
        standing = total(f"billet left after {one.id}", plus(plan.thickness), minus(Figure("so far", left)),
                         minus(Figure(one.id, thick)), minus(loss))  # fmt: skip
        return Slot(one.id, left, thick, losses.kerf.length, losses.wander.length, loss.length, standing,
                    apart=True, exists=True, state=state)  # fmt: skip
    built = Figure(one.left_is.name, one.left_is.value, "as-built", planned=one.left_should)
    gone = max(plan.thickness.length - one.left_is.length - left - thick, ZERO)
    kerf = min(losses.kerf.length, gone)
    return Slot(one.id, left, thick, kerf, ZERO, gone, built, apart=False, exists=True, state=state)


def _coming(plan: BilletPlan, one: SlicePlan) -> Figure:
    """How thick a leaf to come will be, if the saw goes on as it was seen to."""
    seen = plan.seen
    return one.wanted if seen is None else total(f"leaf {one.id}", plus(seen.pitch), minus(seen.loss))


def _next(plan: BilletPlan, one: SlicePlan, leaf: Figure, before: list[Slot], should: Figure | None = None) -> Slot:
    """The slice after others: by the loss seen, told apart from the kerf alone; unseen by what its saw loses.

    `should`: what then stands of the billet, where the plan tells it.
    """
    losses, seen = one.saw.losses, plan.seen
    loss = seen.loss if seen is not None else losses.together
    start, stands = (before[-1].end, before[-1].after) if before else (ZERO, plan.thickness)
    after = should or total(f"billet left after {one.id}", plus(stands), minus(leaf), minus(loss))
    kerf = min(losses.kerf.length, max(loss.length, ZERO))
    apart = seen is None or not seen.slices
    return Slot(one.id, start, leaf.length, kerf, losses.wander.length, loss.length, after, apart)


def _way_out(plan: BilletPlan, way: Saving, sawn: list[Slot]) -> EndView:
    """The same billet sawn on with leaves so thin, or with so little kept back, that none is lost."""
    thinner = way.to if way.kind == "thinner leaves" else None
    keep = way.to if way.kind == "less kept back" and way.to is not None else plan.keep_back
    slots = list(sawn)
    made = {slot.id for slot in sawn}
    for one in (s for s in plan.slices if s.id not in made and s.number <= plan.planned):
        slots.append(_next(plan, one, thinner or _coming(plan, one), slots))
    first = next((slot.id for slot in slots if not slot.exists), "")
    title = (f"{CHANGES[way.kind]}, ", *((way.to,) if way.to is not None else ()), f", from {first} on")
    saw = sawn[-1].end if sawn else ZERO
    return EndView("way out", title, tuple(slots), slots[-1].after, keep, saw)


def _count(leaves: int) -> str:
    return f"{leaves} {'leaf' if leaves == 1 else 'leaves'}"

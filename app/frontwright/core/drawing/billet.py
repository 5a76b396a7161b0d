"""A billet's end to scale, seen along it: as planned, as it is and would go on, and the way out in hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from frontwright.core.drawing.billet_end import EndView, Slot, end_views, plan_of
from frontwright.core.drawing.marks import (
    Badge,
    Box,
    Caption,
    Choice,
    Dimension,
    Drawing,
    Hatch,
    Label,
    Line,
    Mark,
    Outline,
    Point,
    Ring,
    RunningDimension,
    Stop,
    Text,
    Tone,
    words,
)
from frontwright.core.drawing.places import box, middle, part_way
from frontwright.core.drawing.section import finer
from frontwright.core.figures import Figure, plus, total
from frontwright.core.findings import CheckLevel
from frontwright.core.lengths import ZERO, Length, half_up, in_units
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import BilletPlan

Ground = Literal["screen", "bench"]

STOP_AFTER = 3  # F60: after so many slices the real loss is known well enough to plan the rest by it
HIGH = {"screen": Fraction(15, 100), "bench": Fraction(30, 100)}  # drawn height, of the thickness: it is broken off
APART = Fraction(26, 100)
UNDER = Fraction(5, 100)  # how far under the last view the legend's row is counted from
NARROW = 15  # a leaf under a fifteenth of the billet has its name upright
LEGEND = (("■", "kerf  "), ("▨", "wander  "), ("▧", "re-joint"))


def billet(plan: Plan, billet_id: str, ground: Ground = "screen") -> Drawing:
    """The end views of a billet one above the other at one scale; for the bench the one that sawing goes by.

    Raises KeyError if there is no such billet.
    """
    of = plan_of(plan, billet_id)
    views = end_views(of)
    shown = views if ground == "screen" else (views[1] if len(views) > 1 else views[0],)
    thick = of.thickness.length
    high = half_up(thick * HIGH[ground])
    step = high + half_up(thick * APART)
    level = _level(plan, of)
    marks: list[Mark] = []
    for number, view in enumerate(shown):
        low = step * (len(shown) - 1 - number)
        marks += _view(of, view, low, high, ground, level)
    left = ZERO
    if ground == "screen":
        marks += _legend(thick)
    else:
        left = half_up(thick * Fraction(-6, 100))
        marks += _fence(thick, high)
        marks += _stop_line(shown[0], high)
    bounds = box(left, ZERO, thick, step * (len(shown) - 1) + high)
    return Drawing("end view", "", tuple(marks), bounds, finer(plan.display), of.id, tuple(_strip(shown)))


def one_slice(plan: Plan, billet_id: str) -> Drawing:
    """What one slice takes of the billet with the blade mounted now, big: leaf, kerf, wander, re-joint, each with its
    name and figure.

    Raises KeyError if there is no such billet.
    """
    of = plan_of(plan, billet_id)
    losses = of.saw_now.losses
    sizes = (("slice", of.slice), ("kerf", losses.kerf), ("wander", losses.wander), ("re-joint", losses.rejoint))
    pitch = total("one slice takes", plus(of.slice), plus(losses.together))
    high = half_up(in_units(pitch.value) * Fraction(3, 5))
    slot = Slot("slice", ZERO, of.slice.length, losses.kerf.length, losses.wander.length, losses.together.length,
                pitch, apart=True, exists=True)  # fmt: skip
    marks = list(_slot(slot, ZERO, high, pitch.length))
    marks.append(Dimension((ZERO, high), (pitch.length, high), "above", pitch, bold=True))
    at = ZERO
    for number, (name, size) in enumerate(sizes):
        centre = part_way(at, at + size.length, Fraction(1, 2))
        marks += _led(name, size, centre, pitch.length, number, high)
        at = at + size.length
    bounds = box(ZERO, half_up(high * Fraction(-150, 100)), half_up(pitch.length * Fraction(104, 100)), high)
    return Drawing("one slice", "", tuple(marks), bounds, finer(plan.display), of.id)


def _strip(shown: Sequence[EndView]) -> Iterator[Text]:
    """What the signs of the drawing mean, the one that is needed most first: a narrow board has no room for all."""
    signs = ["▩ not told apart"] if any(not slot.apart for view in shown for slot in view.slots) else []
    signs += ["▼ the saw"] if any(view.saw is not None for view in shown) else []
    if signs:
        yield words(", ".join(signs), size="caption")
    yield words("below: what is left", size="caption")
    yield words("fence at the left", size="caption")


def _level(plan: Plan, of: BilletPlan) -> CheckLevel:
    """How strongly the loss of a leaf of this billet is said."""
    found = (c for c in plan.checks if c.code == "resaw-yield" and c.where == (of.id,) and c.case == "lost")
    return next((c.level for c in found), "warn")


def _view(of: BilletPlan, view: EndView, low: Length, high: Length, ground: Ground, level: CheckLevel) -> list[Mark]:
    top, thick = low + high, of.thickness.length
    marks: list[Mark] = [Outline(box(ZERO, low, thick, top).corners, "paper", "none")]
    for slot in view.slots:
        marks += _slot(slot, low, high, thick)
    marks += _rest(of, view, low, high)
    for slice_, at in zip(view.lost, _lost_places(of, view), strict=True):
        marks += _lost(slice_.id, box(at[0], low, at[1], top), level)
    marks += _billet_edge(low, high, thick, view.slots[-1].end if view.slots else ZERO)
    if view.slots:
        marks.append(_left_over(view, thick, low))
    if view.saw is not None:
        marks += _saw_here(view.saw, low, top, thick)
    if ground == "screen":
        lane = 3 if _names_losses(view) else 1
        marks.append(Caption((ZERO, top), words(*view.title, bold=True), "above", lane, top, "left"))
        marks += _loss_names(of, view, top)
    return marks


def _slot(slot: Slot, low: Length, high: Length, whole: Length) -> Iterator[Mark]:
    """A leaf and what goes beside it: kerf black, wander hatched, re-joint the other way; crossed if not told apart."""
    top = low + high
    leaf = box(slot.left, low, slot.right, top)
    yield Outline(leaf.corners, "wood", "outline" if slot.exists else "joint", slot.id)
    cut = slot.right + slot.kerf
    if slot.loss > ZERO:
        yield from _hatched(slot, cut, low, top)
        yield Outline(box(slot.right, low, cut, top).corners, "solid", "joint")
    if slot.state:
        yield Ring((middle(leaf)[0], part_way(low, top, Fraction(1, 6))), cross=True, pen="joint")
    yield _name(slot, leaf, whole)


def _hatched(slot: Slot, cut: Length, low: Length, top: Length) -> Iterator[Mark]:
    split = cut + slot.wander if slot.apart else slot.end
    if slot.apart:
        for place, angle in ((box(cut, low, split, top), 45), (box(split, low, slot.end, top), -45)):
            yield from _hatch(place, 45 if angle == 45 else -45)
    elif slot.end > cut:
        for angle in (45, -45):
            yield from _hatch(box(cut, low, slot.end, top), 45 if angle == 45 else -45)


def _hatch(place: Box, angle: Literal[45, -45]) -> Iterator[Mark]:
    yield Hatch(place.corners, angle, pen="outline", close=True)
    yield Outline(place.corners, "none", "joint")


def _name(slot: Slot, leaf: Box, whole: Length) -> Label:
    name = words(slot.id, size="id", bold=True)
    small = words(slot.id, size="caption", bold=True)
    state = (Choice(0, (name, words(slot.state, size="caption", tone="warn"))),) if slot.state else ()
    upright = slot.thick * (NARROW if len(slot.id) < 3 else NARROW - 6) < whole
    give = half_up(in_units(min(slot.kerf, slot.thick)) / Fraction(6))
    room = Box(slot.left - give, leaf.bottom, slot.right + give, leaf.top)
    choices = (*state, Choice(0, (name,)), Choice(0, (small,)))
    return Label(middle(leaf), choices, room, knocked_out=False, subject=slot.id, turned=upright)


def _rest(of: BilletPlan, view: EndView, low: Length, high: Length) -> Iterator[Mark]:
    """The rest as a remainder with its size, and over it what is kept back."""
    thick, top = of.thickness.length, low + high
    start = _rest_start(of, view)
    if start >= thick:
        return
    place = box(start, low, thick, top)
    yield Line((start, low), (thick, top), "joint")
    text = (Choice(0, (words("rest", bold=True), words(view.rest, size="figure", bold=True))),
            Choice(0, (words(view.rest, size="caption", bold=True),)))  # fmt: skip
    at = (middle(place)[0], part_way(low, top, Fraction(11, 20)))
    yield Label(at, text, place)
    keep = view.keep_back
    if in_units(keep.value) > 0:
        back = thick - keep.length
        yield Line((back, low), (back, top), "hidden")
        named = "kept back" if view.which == "planned" else ""
        yield Dimension((back, top), (thick, top), "above", keep, base=top, before=named, outside="before")


def _rest_start(of: BilletPlan, view: EndView) -> Length:
    places = _lost_places(of, view)
    if places:
        return places[-1][1]
    return view.slots[-1].end if view.slots else ZERO


def _lost_places(of: BilletPlan, view: EndView) -> list[tuple[Length, Length]]:
    """Where the lost leaves would have lain, as far as the billet reaches."""
    at = view.slots[-1].end if view.slots else ZERO
    thick, found = of.thickness.length, list[tuple[Length, Length]]()
    for _ in view.lost:
        end = min(at + of.slice.length, thick)
        found.append((min(at, thick), end))
        at = end
    return found


def _lost(name: str, place: Box, level: CheckLevel) -> Iterator[Mark]:
    tone: Tone = "stop" if level == "stop" else "warn"
    if place.left == place.right:
        return
    yield Outline(place.corners, "none", "assumed", name, tone=tone)
    x = middle(place)[0]
    up = part_way(place.bottom, place.top, Fraction(3, 4))
    yield Badge((x, up), level if level in ("warn", "stop") else "warn")
    at = (x, part_way(place.bottom, place.top, Fraction(1, 4)))
    yield Label(at, (Choice(0, (words(name, size="caption", bold=True, tone=tone),)),), None)


def _billet_edge(low: Length, high: Length, thick: Length, end: Length) -> Iterator[Mark]:
    """The billet's own edge; its height is broken off below, with one zigzag under the rest."""
    top = low + high
    for a, b in (((ZERO, low), (ZERO, top)), ((ZERO, top), (thick, top)), ((thick, top), (thick, low))):
        yield Line(a, b, "outline")
    over, zig = half_up(thick * Fraction(2, 100)), half_up(thick * Fraction(15, 1000))
    at = max(part_way(end, thick, Fraction(3, 4)), zig)
    spots: list[Point] = [
        (ZERO - over, low), (at - zig, low), (at - half_up(zig / 2), low + zig), (at + half_up(zig / 2), low - zig),
        (at + zig, low), (thick + over, low),
    ]  # fmt: skip
    yield from (Line(a, b, "joint") for a, b in pairwise(spots))


def _left_over(view: EndView, thick: Length, low: Length) -> RunningDimension:
    """What stands of the billet after each slice, from its far face."""
    stops = tuple(Stop(slot.end, slot.after, low, subject=slot.id) for slot in view.slots)
    return RunningDimension((thick, low), stops, "below", base=low, zero=False, level=True)


def _saw_here(at: Length, low: Length, top: Length, thick: Length) -> Iterator[Mark]:
    over = half_up(thick * Fraction(2, 100))
    yield Line((at, low - over), (at, top + over), "outline", tone="blue")
    yield Label((at, top), (Choice(0, (words("▼", tone="blue"),)),), knocked_out=False)


def _names_losses(view: EndView) -> bool:
    return view.which == "planned" and bool(view.slots)


def _loss_names(of: BilletPlan, view: EndView, top: Length) -> Iterator[Mark]:
    """Each loss by its name and figure over the plan, each at another slice so that they do not crowd."""
    if not _names_losses(view):
        return
    losses = of.losses
    sizes = (("slice", of.slice), ("kerf", losses.kerf), ("wander", losses.wander), ("re-joint", losses.rejoint))
    for number, (name, size) in enumerate(sizes):
        slot = view.slots[min(number, len(view.slots) - 1)]
        starts = {"slice": slot.left, "kerf": slot.right, "wander": slot.right + slot.kerf}
        start = starts.get(name, slot.right + slot.kerf + slot.wander)
        at = part_way(start, start + size.length, Fraction(1, 2))
        yield Caption((at, top), words(f"{name} ", size, size="caption"), "above", 2, top, stub=True)


def _legend(thick: Length) -> Iterator[Caption]:
    """What the hatchings mean, in one row under the views: captions of a row keep clear of each other."""
    for sign, name in LEGEND:
        for text in (words(sign, size="entry"), words(name, size="caption")):
            yield Caption((half_up(thick / 2), ZERO), text, "below", 2, half_up(thick * -UNDER))


def _fence(thick: Length, high: Length) -> Iterator[Mark]:
    """The fence at the left, a little taller than what is drawn of the billet."""
    left, right = half_up(thick * Fraction(-6, 100)), half_up(thick * Fraction(-15, 1000))
    over = half_up(high * Fraction(4, 100))
    place = box(left, ZERO - over, right, high + over)
    yield Hatch(place.corners, 45, pen="outline")
    yield Outline(place.corners, "none", "outline")
    at = (part_way(left, right, Fraction(1, 2)), high)
    yield Caption(at, words("fence", size="caption"), "above", 1, high + over)


def _stop_line(view: EndView, high: Length) -> Iterator[Mark]:
    """After slice three: stop, enter, look at the new plan."""
    if len(view.slots) <= STOP_AFTER or sum(slot.exists for slot in view.slots) >= STOP_AFTER:
        return
    at = view.slots[STOP_AFTER - 1].end
    over = half_up(high * Fraction(10, 100))
    yield Line((at, ZERO - over), (at, high + over), "wall")
    yield Caption((at, high), words("STOP", size="id", bold=True), "above", 1, high + over)


def _led(name: str, size: Figure, at: Length, right: Length, number: int, high: Length) -> Iterator[Mark]:
    """A name and figure under the slice at the right, led to its place by a bent line."""
    low = half_up(high * Fraction(-(22 + 38 * number), 100))
    turn = half_up(right * Fraction(104, 100))
    yield Line((at, half_up(high * Fraction(-4, 100))), (at, low), "joint")
    yield Line((at, low), (turn, low), "joint")
    text = Text((f"{name}   ", Text((size,), "figure", bold=True)), "word")
    yield Caption((turn, low), text, "right", base=turn)

"""A laid piece to scale: cuts numbered in rings where they begin, remainders by name, waste hatched, grain, defects."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from frontwright.core.drawing.marks import (
    Arrow,
    Box,
    Choice,
    Drawing,
    GrainLines,
    Hatch,
    Label,
    Line,
    Mark,
    Outline,
    Point,
    Ring,
    Ringed,
    Text,
    words,
)
from frontwright.core.drawing.places import box, middle, part_way
from frontwright.core.lengths import ZERO, Length, half_up, in_units
from frontwright.core.plan import Plan
from frontwright.core.stock.cuts import LayoutCut, LayoutCuts, cuts_of
from frontwright.core.stock.result import Clear, LaidOut, LayoutPlan, Remainder

Ground = Literal["screen", "bench"]
RINGS = {"screen": Fraction(1, 34), "bench": Fraction(1, 28)}  # room of a ring, of the length of what is drawn


def layout(
    plan: Plan, laid: str, ground: Ground = "screen", *, room: Length | None = None, stretch: int = 1
) -> Drawing:
    """A laid piece with its cuts. Raises KeyError if there is none of that name.

    `room`: what a ring takes of the piece's length at the scale it will have. `stretch`: its width is drawn so many
    times too big, so that a long narrow board can be read; the sizes that are told stay true.
    """
    true = next((one for one in plan.stock.layouts if one.id == laid), None)
    if true is None:
        raise KeyError(laid)
    of, sizes = _stretched(true, stretch), _sizes(true)
    cuts = _cuts_stretched(cuts_of(true), stretch)
    done = {row.cut for row in plan.job.cuts_done.values() if row.laid == laid}
    whole = box(ZERO, ZERO, of.offer.length, of.offer.width)
    marks: list[Mark] = [Outline(whole.corners, "paper", "none")]
    marks.append(Hatch(whole.corners, 45, pen="outline", close=True))
    for rest in of.remainders:
        marks += _remainder(of, rest, sizes[rest.letter], ground)
    for part in of.parts:
        marks += _part(of, part, sizes[part.row])
    marks += [_kerf(cut) for cut in cuts.cuts]
    for defect in of.offer.defects:
        marks += bad_place(_box(defect))
    marks.append(Outline(whole.corners, "none", "outline"))
    longest = max(of.offer.length, of.offer.width, key=lambda one: one.units)
    marks += _rings(of, cuts, done, room or half_up(longest * RINGS[ground]))
    strip = (
        words("a number stands where its cut begins", size="caption"),
        words("kerf ", of.kerf, size="caption"),
        words("hatched: waste", size="caption"),
    )
    side = "good face up" if of.group.partition(" ")[0] in ("sheet", "core") else "seen from above"
    said = f"width drawn {stretch} times" if stretch > 1 else ""
    return Drawing(of.id, side, tuple(marks), whole, plan.display, of.id, strip, exaggerated=said)


def _sizes(of: LayoutPlan) -> dict[str, tuple[Length, Length]]:
    """What is told of each part (by row) and remainder (by letter)."""
    told = {part.row: (part.length, part.width) for part in of.parts}
    return told | {rest.letter: (rest.length, rest.width) for rest in of.remainders}


def _stretched(of: LayoutPlan, times: int) -> LayoutPlan:
    """The layout with everything so many times as wide."""
    if times == 1:
        return of
    left, right, lower, upper = of.offer.trims
    offer = replace(
        of.offer,
        width=of.offer.width * times,
        trims=(left, right, lower * times, upper * times),
        defects=tuple(_wider(one, times) for one in of.offer.defects),
    )
    parts = tuple(replace(one, across=one.across * times, width=one.width * times) for one in of.parts)
    rests = tuple(replace(one, across=one.across * times, width=one.width * times) for one in of.remainders)
    return replace(of, offer=offer, parts=parts, remainders=rests)


def _cuts_stretched(cuts: LayoutCuts, times: int) -> LayoutCuts:
    if times == 1:
        return cuts
    return replace(cuts, cuts=tuple(replace(c, band=_wider(c.band, times), of=_wider(c.of, times)) for c in cuts.cuts))


def _wider(one: Clear, times: int) -> Clear:
    return replace(one, across=one.across * times, width=one.width * times)


# -- parts, remainders, kerf, defects


def _box(clear: Clear) -> Box:
    return box(clear.along, clear.across, clear.along + clear.length, clear.across + clear.width)


def _part(of: LayoutPlan, part: LaidOut, told: tuple[Length, Length]) -> Iterator[Mark]:
    place = box(part.along, part.across, part.along + part.length, part.across + part.width)
    grain: Literal["vertical", "horizontal"] = "vertical" if part.turned else "horizontal"
    wrong = any(part.part in (fault.part, fault.other) for fault in of.faults)
    tone = "stop" if wrong else "ink"
    yield Outline(place.corners, "wood", "joint", part.row, tone="stop" if wrong else "ink")
    yield GrainLines(place, grain, of.id, part.row)
    name = words(f"{part.part} ✓" if part.cut else part.part, size="id", bold=True, tone="stop" if wrong else "ink")
    size = words(told[0], " × ", told[1], size="caption", tone="stop" if wrong else "ink")
    arrow = words(Arrow(grain))
    pinned = (words("by hand", size="caption"),) if part.pinned else ()
    small = words(part.part, size="caption", bold=True, tone="stop" if tone == "stop" else "ink")
    choices = (
        Choice(60, (name, size, *pinned, arrow)),
        Choice(44, (name, size)),
        Choice(24, (name,)),
        Choice(0, (small,)),
    )
    yield Label(middle(place), choices, place, subject=part.row)


def _remainder(of: LayoutPlan, rest: Remainder, told: tuple[Length, Length], ground: Ground) -> Iterator[Mark]:
    """What is kept has no tone, one thin diagonal, name and size; what goes to burn stays hatched."""
    place = box(rest.along, rest.across, rest.along + rest.length, rest.across + rest.width)
    subject = f"{of.id} {rest.letter}"
    if not rest.keep:
        yield Outline(place.corners, "none", "joint", subject)
        return
    yield Outline(place.corners, "paper", "joint", subject)
    yield Line((place.left, place.bottom), (place.right, place.top), "joint")
    size = words(told[0], " × ", told[1], size="caption")
    long = words(f"remainder {rest.letter}", size="id", bold=True)
    name = words(rest.letter, size="id", bold=True)
    keep = (words("keep", size="caption"),) if ground == "screen" else ()
    line = words(Text((rest.letter,), bold=True), "  ", told[0], " × ", told[1], size="caption")
    choices = (
        Choice(110, (long, size, *keep)),
        Choice(60, (name, size, *keep)),
        Choice(60, (line,)),
        Choice(24, (name,)),
    )
    yield Label(middle(place), choices, place, subject=subject)


def _kerf(cut: LayoutCut) -> Outline:
    return Outline(_box(cut.band).corners, "solid", "joint")


def bad_place(place: Box) -> Iterator[Mark]:
    """A crossed ring over the bad place, which is bounded by a hidden line."""
    long, wide = (
        Fraction(in_units(place.right) - in_units(place.left)),
        Fraction(in_units(place.top) - in_units(place.bottom)),
    )
    yield Outline(place.corners, "none", "hidden")
    yield Ring(middle(place), half_up(min(long, wide)), cross=True, pen="joint")


# -- rings


def _rings(of: LayoutPlan, cuts: LayoutCuts, done: set[int], room: Length) -> Iterator[Mark]:
    """A ring where each cut begins; those that begin at the edge of the piece stand outside it, clear of each other."""
    outside: dict[bool, list[tuple[Length, LayoutCut]]] = {True: [], False: []}
    for cut in cuts.cuts:
        across = cut.direction == "across"
        at_edge = _begins_at_edge(of, cut)
        at = part_way(*_ends(cut), Fraction(1, 2))
        if at_edge:
            outside[across].append((at, cut))
            continue
        band = _box(cut.band)
        spot: Point = middle(band) if across else (band.left, at)
        yield _ring(spot, cut.number, done)
    for across, found in outside.items():
        yield from _beside(of, found, across, room, done)


def _begins_at_edge(of: LayoutPlan, cut: LayoutCut) -> bool:
    """A crosscut begins at the upper edge, a rip at the left end; inside the trims counts as the edge."""
    left, _, _, upper = of.offer.trims
    if cut.direction == "along":
        return cut.of.along <= left
    return cut.of.across + cut.of.width >= of.offer.width - upper and (cut.turn < 2 or cut.of.across <= upper)


def _ends(cut: LayoutCut) -> tuple[Length, Length]:
    if cut.direction == "across":
        return cut.band.along, cut.band.along + cut.band.length
    return cut.band.across, cut.band.across + cut.band.width


def _beside(
    of: LayoutPlan, found: Sequence[tuple[Length, LayoutCut]], across: bool, room: Length, done: set[int]
) -> Iterator[Mark]:
    """In lanes outwards: a ring that would touch its neighbour stands one lane further out."""
    lanes: list[Length] = []
    for at, cut in sorted(found, key=lambda one: one[0].units):
        lane = next((n for n, last in enumerate(lanes) if at - last >= room), len(lanes))
        lanes[lane : lane + 1] = [at]
        out = half_up(room * Fraction(13, 20)) + room * lane
        spot: Point = (at, of.offer.width + out) if across else (ZERO - out, at)
        edge: Point = (at, of.offer.width) if across else (ZERO, at)
        yield Line(edge, spot, "joint")
        yield _ring(spot, cut.number, done)


def _ring(at: Point, number: int, done: set[int]) -> Label:
    ring = Ringed("✓" if number in done else str(number), clear=True)
    return Label(at, (Choice(0, (words(ring, size="figure"),)),), knocked_out=False)

"""Where a piece comes from, run down: the board, what was cut of it, the billet's end, and what it went into.

Only the line that leads to the chosen piece has the tone of wood. Every bar is to the scale of the board; a billet's
end is drawn larger, as the strip says.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.drawing.layout import bad_place
from frontwright.core.drawing.marks import (
    Box,
    Caption,
    Choice,
    Dimension,
    Drawing,
    GrainLines,
    Label,
    Line,
    Mark,
    Outline,
    Point,
    Text,
    words,
)
from frontwright.core.drawing.places import box, middle, part_way
from frontwright.core.figures import Figure
from frontwright.core.job import Defect, Piece
from frontwright.core.lengths import ZERO, Length, Typed, half_up
from frontwright.core.plan import Plan
from frontwright.core.stock.ancestry import Descent, MadeInto
from frontwright.core.veneer.result import BilletPlan

LEAST_HIGH = Fraction(6, 100)  # of the board's length: a thin piece is drawn at least so high
BETWEEN = Fraction(30, 100)  # room for a size, an arrow and the title of the next bar
END_HIGH = Fraction(22, 100)
MOST_USES = 6


@dataclass(frozen=True, slots=True)
class _Bit:
    """A stretch of a bar: a piece or billet cut of it, to its length."""

    name: str
    length: Length
    on: bool


def ancestry(
    plan: Plan, descent: Descent, states: Mapping[str, str] | None = None, bad: Sequence[Defect] = ()
) -> Drawing:
    """The line of a piece, from the board it was bought as down to what it went into.

    `states`: how pieces stand on the rack, where that is more than their own state tells (reserved ones); `bad`: the
    bad places of the piece.
    """
    piece = descent.piece
    line = (*descent.came_of, piece)
    long = max((_size(one.length) for one in line), key=lambda one: one.units) or Length.mm(1000)
    marks: list[Mark] = []
    top, before = ZERO, None
    for at, one in enumerate(line):
        following = line[at + 1] if at + 1 < len(line) else None
        bits = _bits(plan, descent, one, following)
        place = _place(one, top)
        marks += _title(one, place, long, (states or {}).get(one.id, one.state))
        marks += _bar(one, place, bits, chosen=one.id == piece.id)
        if one.id == piece.id:
            marks += [mark for each in bad for mark in _bad(each, place)]
        if before is not None:
            marks += _arrow(before, (part_way(place.left, place.right, Fraction(1, 2)), place.top))
        before = _from(place, bits)
        top = place.bottom - half_up(long * BETWEEN)  # type: ignore[operator]  # places are lengths
    low, enlarged = top, ""
    billet = _billet(plan, piece)
    if billet is not None and before is not None:
        end, marks_of, times = _end(billet, low, long)
        marks += [*marks_of, *_arrow(before, (part_way(ZERO, end.right, Fraction(1, 2)), end.top))]
        marks += _leaves_to(plan, billet, end, long)
        low, enlarged = end.bottom - half_up(long * Fraction(38, 100)), f"end view {times} times"  # type: ignore[operator]
    else:
        made = [use for use in descent.uses if use.piece == piece.id] or list(descent.uses)
        marks += _uses(made, before, low, long)
        low = low - half_up(long * Fraction(16, 100))
    bounds = box(ZERO, low, long, half_up(long * Fraction(7, 100)))
    title = "where it comes from"
    return Drawing(title, "", tuple(marks), bounds, plan.display, piece.id, exaggerated=enlarged)


def _size(typed: Typed | None) -> Length:
    return typed.value if typed is not None and typed.value is not None else ZERO


def _plain(text: str) -> bool:
    """Whether a size is shown as it was typed: a bare decimal is never rounded."""
    return text.replace(".", "", 1).isdecimal()


def _place(piece: Piece, top: Length) -> Box:
    """The bar of a piece, its face to scale; what is very narrow a little higher, so that a name goes in."""
    long = _size(piece.length) or Length.mm(300)
    high = max(_size(piece.width), half_up(long * LEAST_HIGH), key=lambda one: one.units)
    return box(ZERO, top - high, long, top)


def _title(piece: Piece, place: Box, long: Length, state: str) -> Iterator[Mark]:
    wood = " ".join(word for word in (piece.species, piece.batch) if word)
    sizes: list[Length | str] = []
    for size in (piece.thickness, piece.width, piece.length):
        if _size(size):
            sizes += [" × " if sizes else "", size.text if size is not None and _plain(size.text) else _size(size)]
    what = f"  {piece.form}{', ' + wood if wood else ''}{', ' if sizes else ''}"
    text = Text((Text((piece.id,), bold=True), what, *sizes), "caption")
    yield Caption((ZERO, place.top), text, "above", 1, place.top, "left", subject=piece.id)
    yield Caption((long, place.top), words(state, size="caption", tone="ink_soft"), "above", 1, place.top, "right")


# -- what was cut of a piece


def _bits(plan: Plan, descent: Descent, piece: Piece, following: Piece | None) -> list[_Bit]:
    """Billets that the job cut of it, then the pieces born of it, as they lie one after the other."""
    billets = [one for one in plan.veneer.plans if one.billet.piece == piece.id]
    found = [_Bit(one.id, one.length.length, on=False) for one in billets]
    kin = (*descent.came_of, descent.piece, *descent.born)
    for one in kin:
        if one.from_piece == piece.id and _size(one.length):
            found.append(_Bit(one.id, _size(one.length), on=following is not None and one.id == following.id))
    return found


def _bar(piece: Piece, place: Box, bits: Sequence[_Bit], *, chosen: bool) -> Iterator[Mark]:
    yield Outline(place.corners, "wood", "outline", piece.id)
    yield GrainLines(place, "horizontal", piece.id, piece.id)
    at = ZERO
    end = place.right
    for bit in bits:
        stop = min(at + bit.length, end, key=lambda one: one.units if isinstance(one, Length) else 0)
        if not isinstance(stop, Length) or stop <= at:
            break
        part = Box(at, place.bottom, stop, place.top)
        yield Outline(part.corners, "none", "joint", bit.name, tone="blue" if bit.on else "ink")
        name = words(bit.name, size="caption", bold=True)
        yield Label(middle(part), (Choice(0, (name,)),), part, subject=bit.name)
        size = Figure("length", bit.length, "derived")
        yield Dimension((at, place.bottom), (stop, place.bottom), "below", size, 1, place.bottom)
        at = stop
    if not bits:
        name = words(piece.id, size="caption", bold=chosen)
        yield Label(middle(place), (Choice(0, (name,)),), place, subject=piece.id)


def _bad(row: Defect, place: Box) -> Iterator[Mark]:
    """A bad place of a piece, as far as it lies on it."""
    bottom, top, end = (_length(one) for one in (place.bottom, place.top, place.right))
    left, low = _size(row.along), bottom + _size(row.across)
    right, high = min(left + _size(row.length), end), min(low + _size(row.width), top)
    if left < right and low < high:
        yield from bad_place(Box(left, low, right, high))


def _from(place: Box, bits: Sequence[_Bit]) -> Point:
    """Where the line goes on: at the stretch that leads to the chosen piece, else at the middle."""
    at = ZERO
    for bit in bits:
        if bit.on:
            return part_way(at, at + bit.length, Fraction(1, 2)), place.bottom
        at = at + bit.length
    return part_way(place.left, place.right, Fraction(1, 2)), place.bottom


def _arrow(a: Point, b: Point) -> Iterator[Mark]:
    """A thin line down to what comes next, its head a small stroke each side."""
    start = (a[0], part_way(a[1], b[1], Fraction(45, 100)))
    tip = (b[0], part_way(a[1], b[1], Fraction(72, 100)))
    head = half_up(Fraction(abs(_units(a[1]) - _units(b[1])), 14))
    yield Line(start, tip, "joint")
    for side in (ZERO - head, head):
        yield Line((_length(tip[0]) + side, _length(tip[1]) + head), tip, "joint")


def _units(value: object) -> int:
    return value.units if isinstance(value, Length) else 0


def _length(value: object) -> Length:
    return value if isinstance(value, Length) else ZERO


# -- a billet's end, and the fronts that its leaves go to


def _billet(plan: Plan, piece: Piece) -> BilletPlan | None:
    """The billet of this job that was cut of a piece and has leaves."""
    return next((one for one in plan.veneer.plans if one.billet.piece == piece.id and one.slices), None)


def _end(billet: BilletPlan, top: Length, long: Length) -> tuple[Box, list[Mark], int]:
    """Its end with the leaves side by side and what is left, as many times larger as fills the width."""
    thick = billet.thickness.length
    times = max(1, long.units // max(1, thick.units))
    top = top - half_up(long * Fraction(5, 100))
    low = top - half_up(long * END_HIGH)
    place = box(ZERO, low, thick * times, top)
    marks: list[Mark] = [Outline(place.corners, "paper", "outline", billet.id)]
    title = words(Text((billet.id,), bold=True), f"  billet, end view, {times} times", size="caption")
    marks.append(Caption((ZERO, top), title, "above", 1, top, "left"))
    pitch = (billet.slice.length + billet.losses.together.length) * times
    at = ZERO
    for one in billet.slices:
        right = at + billet.slice.length * times
        if right > thick * times:
            break
        leaf = box(at, low, right, top)
        marks.append(Outline(leaf.corners, "wood" if one.leaf is not None else "none", "joint", one.id))
        name = words(one.id, size="caption", bold=True)
        marks.append(Label(middle(leaf), (Choice(0, (name,)),), leaf, knocked_out=False, subject=one.id, turned=True))
        marks.append(Outline(box(right, low, min(at + pitch, thick * times), top).corners, "solid", "none"))
        at = at + pitch
    if at < thick * times:
        rest = box(at, low, thick * times, top)
        marks.append(Line((rest.left, rest.bottom), (rest.right, rest.top), "joint"))
        marks.append(Label(middle(rest), (Choice(0, (words("rest", size="caption"),)),), rest))
    return place, marks, times


def _leaves_to(plan: Plan, billet: BilletPlan, end: Box, long: Length) -> Iterator[Mark]:
    """The panels and strips that leaves of a billet go to, each leaf led there by a thin line."""
    seats = [seat for seat in plan.veneer.seats if seat.billet == billet.id]
    homes = list(dict.fromkeys(seat.of or seat.side for seat in seats))[:MOST_USES]
    if not homes:
        return
    top = _length(end.bottom) - half_up(long * Fraction(16, 100))
    low = top - half_up(long * Fraction(16, 100))
    room = half_up(long * Fraction(1, len(homes)))
    wide = half_up(room * Fraction(8, 10))
    pitch = (billet.slice.length + billet.losses.together.length) * (
        _length(end.right).units // max(1, billet.thickness.length.units)
    )
    places = {one.id: n for n, one in enumerate(billet.slices)}
    for number, home in enumerate(homes):
        left = room * number + half_up(room * Fraction(1, 10))
        place = box(left, low, left + wide, top)
        yield Outline(place.corners, "wood", "outline", home)
        mine = [seat.leaf for seat in seats if (seat.of or seat.side) == home and seat.leaf in places]
        lines = (words(home, size="caption", bold=True), words(" ".join(mine), size="caption"))
        yield Label(middle(place), (Choice(0, lines), Choice(0, lines[:1])), place, subject=home)
        for n, leaf in enumerate(mine):
            from_ = pitch * places[leaf] + half_up(pitch / 3)
            to = left + half_up(wide * Fraction(2 * n + 1, 2 * len(mine)))
            knee = part_way(_length(end.bottom), top, Fraction(1, 2))
            yield Line((from_, end.bottom), (from_, part_way(_length(end.bottom), knee, Fraction(1, 3))), "joint")
            yield Line((from_, part_way(_length(end.bottom), knee, Fraction(1, 3))), (to, knee), "joint")
            yield Line((to, knee), (to, top), "joint")


def _uses(uses: Sequence[MadeInto], before: Point | None, top: Length, long: Length) -> Iterator[Mark]:
    """What jobs made of it, as their own records name it; nothing where it has gone into nothing yet."""
    boxes = [(use.name, use.parts) for use in uses][:MOST_USES]
    if not boxes:
        text = words("nothing was made of it yet", size="caption", tone="ink_soft")
        yield Caption((ZERO, top), text, "above", 1, top, "left")
        return
    room = half_up(long * Fraction(1, len(boxes)))
    low = top - half_up(long * Fraction(14, 100))
    for number, (name, parts) in enumerate(boxes):
        left = room * number + half_up(room * Fraction(1, 20))
        place = box(left, low, left + half_up(room * Fraction(9, 10)), top)
        yield Outline(place.corners, "none", "joint")
        said = [part.removeprefix("part ").removeprefix("leaf ") for part in parts]
        short = ", ".join(said[:4]) + (f" and {len(said) - 4} more" if len(said) > 4 else "")
        lines = (words(name or "a job", size="caption", bold=True), words(short, size="caption"))
        yield Label(middle(place), (Choice(0, lines), Choice(0, lines[:1])), place)
        if before is not None:
            yield from _arrow(before, (part_way(place.left, place.right, Fraction(1, 2)), place.top))

"""Hinges moved clear of shelves, drawers behind the door and dowels in the stile (F25), onto the job's step."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.hinges import along_hinges, hinge_row, step_of
from frontwright.core.hardware.result import CupPlan
from frontwright.core.job import Inside
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Exact, down, in_units, up
from frontwright.core.making.result import Dowels, FrontMaking
from frontwright.core.survey.result import OpeningPlan

OLD_PLATE = "onto the old plate"


@dataclass(frozen=True, slots=True)
class Zone:
    """Where no hinge centre may stand, above the door's bottom edge, and what stands there (an id, or words)."""

    low: Figure
    high: Figure
    of: str

    def holds(self, height: Exact) -> bool:
        return in_units(self.low.value) < in_units(height) < in_units(self.high.value)


@dataclass(frozen=True, slots=True)
class Cleared:
    """Heights as moved; by hinge what it was moved clear of, and what it could not be moved clear of."""

    heights: tuple[Figure, ...]
    moved: tuple[str, ...]
    blocked: tuple[str, ...]


def on_old_plates(index: JobIndex, opening: OpeningPlan, front: FrontPlan, even: Sequence[Figure]) -> dict[int, Figure]:
    """By hinge, counted from 0: the height of the old plate that it goes onto, where those stay and their heights were
    read; each plate takes the hinge that is nearest to it."""
    row = index.job.old_hinges.get(front.opening)
    if row is None or row.use not in ("again", "same borings") or front.hinge_side == "top":
        return {}
    read = [measured(getattr(row, f"plate_{n}"), f"old plate {n} of {front.opening}") for n in range(1, 6)]
    low = [plus(opening.bottom)] if opening.bottom is not None else []
    found: dict[int, Figure] = {}
    for plate in read:
        if plate is None:
            continue
        at = total("old plate", plus(plate), *low, minus(front.bottom), how="over the edge of the door")
        nearest = min(range(len(even)), key=lambda n: _apart(even[n], at))
        inside = 0 < in_units(at.value) < in_units(front.height.value)
        if inside and (nearest not in found or _apart(even[nearest], at) < _apart(even[nearest], found[nearest])):
            found[nearest] = Figure(even[nearest].name, at.value, "derived", "on the old plate", (*at.terms,))
    return found


def cleared(
    zones: Sequence[Zone], index: JobIndex, front: FrontPlan, even: Sequence[Figure], old: Mapping[int, Figure]
) -> Cleared:
    """Each hinge on its old plate, else at the nearest height that is clear of every zone and of the hinges before."""
    heights: list[Figure] = []
    moved: list[str] = []
    blocked: list[str] = []
    plate = entered(index.unit, hinge_row(index, front).plate_long, "plate long")
    for at, height in enumerate(even):
        if at in old:
            heights.append(old[at])
            moved.append(OLD_PLATE if old[at].value != height.value else "")
            blocked.append("")
            continue
        taken = next((zone for zone in zones if zone.holds(height.value)), None)
        better = None if taken is None else _nearest(zones, index, front, height, heights, plate)
        heights.append(better or height)
        moved.append(taken.of if taken is not None and better is not None else "")
        blocked.append(taken.of if taken is not None and better is None else "")
    return Cleared(tuple(heights), tuple(moved), tuple(blocked))


def _nearest(
    zones: Sequence[Zone],
    index: JobIndex,
    front: FrontPlan,
    height: Figure,
    before: Sequence[Figure],
    plate: Figure,
) -> Figure | None:
    """The clear height that is nearest, the lower one of two; None where the door has none."""
    cup = entered(index.unit, hinge_row(index, front).cup, "cup")
    edge = Fraction(in_units(cup.value)) / 2 + in_units(assumed(index.unit, "hole wall").value)
    most = Fraction(in_units(along_hinges(front).value)) - edge
    found = [
        figure
        for zone in zones
        for figure in _beside(index, height, zone)
        if edge <= in_units(figure.value) <= most
        and not any(other.holds(figure.value) for other in zones)
        and all(_apart(figure, one) >= in_units(plate.value) for one in before)
    ]
    return min(found, key=lambda one: (_apart(one, height), in_units(one.value)), default=None)


def _apart(one: Figure, other: Figure) -> Fraction:
    return abs(Fraction(in_units(one.value)) - in_units(other.value))


def _beside(index: JobIndex, height: Figure, zone: Zone) -> Iterator[Figure]:
    """Just under and just over a zone, on the step."""
    step = step_of(index)
    looked = Term(height, 0)
    for edge, value, word in (
        (zone.low, down(zone.low.value, step), "down"),
        (zone.high, up(zone.high.value, step), "up"),
    ):
        note = "" if value == edge.value else f"rounded {word} to the step"
        yield Figure(height.name, value, "derived", f"moved clear of {zone.of}", (Term(edge), looked), note)


# -- what stands in the way


def zones_of(
    index: JobIndex, opening: OpeningPlan, front: FrontPlan, made: FrontMaking, cup: CupPlan
) -> tuple[Zone, ...]:
    """Shelves and drawers behind a door hung at a side, and the dowels of its stile."""
    if front.hinge_side == "top":
        return ()
    inside = [
        zone
        for row in index.job.insides.values()
        if row.opening == front.opening
        for zone in _behind(index, opening, front, row)
    ]
    return (*inside, *(zone for dowels in made.dowels for zone in _dowel_zones(index, front, made, cup, dowels)))


def _behind(index: JobIndex, opening: OpeningPlan, front: FrontPlan, row: Inside) -> Iterator[Zone]:
    """A shelf's plate stands clear of it; a drawer only counts where the hinge reaches its side."""
    at = measured(row.at, f"height of {row.id}")
    if at is None:
        return
    thick = _thick(index, opening, front, row)
    if thick is None:
        return
    half = share("half a plate", entered(index.unit, hinge_row(index, front).plate_long, "plate long"), 2)
    room = assumed(index.unit, "clear of plate")
    low = total(f"under {row.id}", plus(at), minus(front.bottom), minus(half), minus(room))
    high = total(f"over {row.id}", plus(at), plus(thick), minus(front.bottom), plus(half), plus(room))
    yield Zone(low, high, row.id)


def _thick(index: JobIndex, opening: OpeningPlan, front: FrontPlan, row: Inside) -> Figure | None:
    """How high what stands inside is; None where that is not known, or the hinge does not reach it."""
    if row.kind == "shelf":
        return entered(index.unit, row.height, "shelf")
    return measured(row.height, f"height of {row.id}") if _reached(index, opening, front, row) else None


def _reached(index: JobIndex, opening: OpeningPlan, front: FrontPlan, row: Inside) -> bool:
    """Whether a hinge and its plate stand so far in that a drawer behind the door would run against them."""
    stands_in = entered(index.unit, hinge_row(index, front).stands_in, "stands in")
    wide = measured(row.width, f"width of {row.id}")
    if wide is None:
        beside: Figure = entered(index.unit, row.runner, "runner")
    else:
        beside = share("beside it", total("both sides", plus(opening.width_least), minus(wide)), 2)
    return in_units(beside.value) < in_units(stands_in.value)


def _dowel_zones(index: JobIndex, front: FrontPlan, made: FrontMaking, cup: CupPlan, dowels: Dowels) -> Iterator[Zone]:
    """A cup keeps clear of the dowels that end in its stile: half a cup, half a dowel and the wall between."""
    wall = assumed(index.unit, "hole wall")
    reach = total("free of dowels, from the edge", plus(made.build.stile), minus(made.build.dowel_depth), minus(wall))
    if in_units(cup.far_edge.value) <= in_units(reach.value):
        return
    half = total(
        "cup clear of a dowel",
        plus(share("half a cup", cup.diameter, 2)),
        plus(share("half a dowel", made.build.dowel, 2)),
        plus(wall),
    )
    for middle in _dowel_heights(front, made, dowels):
        of = f"a dowel of the {dowels.rail}"
        yield Zone(total(f"under {of}", plus(middle), minus(half)), total(f"over {of}", plus(middle), plus(half)), of)


def _dowel_heights(front: FrontPlan, made: FrontMaking, dowels: Dowels) -> Iterator[Figure]:
    name = f"dowel of the {dowels.rail} of {front.id}"
    for out in dowels.from_outer_edge:
        if dowels.rail == "bottom rail":
            yield out
        elif dowels.rail == "top rail":
            yield total(name, plus(front.height), minus(out))
        else:
            yield from (total(name, plus(low), plus(out)) for low in made.mid_rail_low)

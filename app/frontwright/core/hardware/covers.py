"""The cover a hinge gives, and the cover each must give at its own height (F26)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from frontwright.core.assumed import entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import HingeType, Member
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.returns import covered_opening, moved_in
from frontwright.core.skins import inside_edge
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.result import OpeningPlan, SurveyPlan

type _Place = tuple[Fraction, Figure]  # how far up the run in units, and where the edge was read there


@dataclass(frozen=True, slots=True)
class Given:
    """What a hinge gives: `cover` as it comes, `without` any plate (K + A of F26) where that is known, and how far it
    can be adjusted to each side."""

    cover: Figure | None
    without: Figure | None
    adjust: Figure


def given_by(index: JobIndex, row: HingeType) -> Given:
    """F26: the cover as told, or the middle of the told range, else edge distance and constant less the plate."""
    adjust = entered(index.unit, row.adjust, "hinge adjust")
    edge = entered(index.unit, row.edge_distance, "edge distance")
    constant, plate = measured(row.constant, "constant of the hinge"), measured(row.plate, "height of the plate")
    without = None if constant is None else total("cover without plate", plus(edge), plus(_chosen(constant)))
    if (told := measured(row.cover, "cover of the hinge")) is not None:
        cover = _chosen(told)
        if without is None and plate is not None:
            without = total("cover without plate", plus(cover), plus(_chosen(plate)))
        return Given(cover, without, adjust)
    if (span := _range(row)) is not None:
        least, most = span
        middle = share(
            "cover of the hinge", total("twice the middle", plus(least), plus(most)), 2, "middle of its range"
        )
        half = share("half of its range", total("its range", plus(most), minus(least)), 2)
        return Given(middle, without, half)
    if without is None or plate is None:
        return Given(None, without, adjust)
    return Given(
        total("cover of the hinge", plus(edge), plus(constant or edge), minus(_chosen(plate))), without, adjust
    )


def _range(row: HingeType) -> tuple[Figure, Figure] | None:
    least, most = (
        measured(row.cover_least, "least cover of the hinge"),
        measured(row.cover_most, "most cover of the hinge"),
    )
    if least is None or most is None or in_units(least.value) > in_units(most.value):
        return None
    return _chosen(least), _chosen(most)


def _chosen(figure: Figure) -> Figure:
    return Figure(figure.name, figure.value, "chosen")


def needed_covers(
    index: JobIndex, survey: SurveyPlan, front: FrontPlan, heights: Sequence[Figure]
) -> tuple[Figure, ...]:
    """F26: the cover that each hinge must give, from the surface its plate sits on; empty where there is no frame.

    Where the frame's edge leans, each height has its own: by the running tape where it met that edge at several heights
    of the run, else by the lean of the opening and by what it is wider at the top, as far as those are more than
    reading errors.
    """
    side, opening = front.hinge_side, survey.openings[front.opening]
    cover = front.overlay[side] if side is not None else None
    if side is None or cover is None:
        return ()
    seen_covered = front.look.scheme == "inset"  # its gaps count from the covered edge already (F17)
    upright = _from_squared(index, opening, side)
    if upright is not None:  # the plate sits on an edge that leans no more
        moved = () if seen_covered else (plus(upright),)
        squared = total(f"cover {side} of {front.id}, from the squared edge", plus(cover), *moved)
        return tuple(squared for _ in heights)
    strip = inside_edge(index, front.run)
    if strip is not None and not seen_covered:  # the plate sits on the strip that covers the inside edge
        cover = total(f"cover {side} of {front.id}, from the covered edge", plus(cover), plus(strip))
    if side == "top":
        return tuple(cover for _ in heights)
    edge = _taped_edge(index, survey, opening, side)
    position = opening.left if side == "left" else opening.right
    if position is not None and _differ(index, [at for _, at in edge]):
        return tuple(_by_tape(front, cover, height, position, edge) for height in heights)
    terms = _leaning_terms(index, opening, side)
    return tuple(_by_lean(opening, front, cover, height, terms) for height in heights)


def _from_squared(index: JobIndex, opening: OpeningPlan, side: str) -> Figure | None:
    """How far the upright edge of a squared opening lies inward of its bare one, at mid height; None: not squared."""
    found = covered_opening(index, opening)
    return moved_in(opening, found, side) if found is not None and found.squared else None


def _outward(side: str) -> int:
    """The cover grows as the frame's edge moves to the right at a left side, to the left at a right one."""
    return 1 if side == "left" else -1


def _by_tape(front: FrontPlan, cover: Figure, height: Figure, position: Figure, edge: Sequence[_Place]) -> Figure:
    """The cover with the edge where it really is at this height, straight between the places where it was read."""
    up = Fraction(in_units(height.value)) + in_units(front.bottom.value)
    (low, at_low), (high, at_high) = next((pair for pair in pairwise(edge) if up <= pair[1][0]), (edge[-2], edge[-1]))
    part, outward = (up - low) / (high - low), _outward(front.hinge_side or "left")
    terms = (Term(at_low, outward * (1 - part)), Term(at_high, outward * part), Term(position, -outward))
    return total(
        f"cover needed at {height.name}", plus(cover), *terms, how="the edge by the running tape, at this height"
    )


def _by_lean(
    opening: OpeningPlan, front: FrontPlan, cover: Figure, height: Figure, terms: Sequence[tuple[Figure, Fraction]]
) -> Figure:
    if not terms:
        return cover
    low = in_units(opening.bottom.value) if opening.bottom is not None else 0
    up = Fraction(in_units(height.value)) + in_units(front.bottom.value) - low
    over_middle = up / in_units(opening.height.value) - Fraction(1, 2)
    return total(
        f"cover needed at {height.name}",
        plus(cover),
        *(Term(size, factor * over_middle) for size, factor in terms),
        how="the edge of the leaning opening, at this height",
    )


def _leaning_terms(index: JobIndex, opening: OpeningPlan, side: str) -> list[tuple[Figure, Fraction]]:
    """What moves an edge between bottom and top: the lean (F3), and half of what top and bottom width differ, as the
    front is set evenly (F20). Widths that differ by less than twice the error of two readings count as alike."""
    found: list[tuple[Figure, Fraction]] = []
    error = Fraction(in_units(reading_error_of(index).value))
    if opening.lean is not None and abs(Fraction(in_units(opening.lean.value))) > error:
        found.append((opening.lean, Fraction(-_outward(side))))
    top, _, bottom = opening.widths
    read = top.source == bottom.source == "taped"
    if read and (Fraction(in_units(top.value)) - in_units(bottom.value)) ** 2 > 8 * error**2:
        found += [(top, Fraction(-1, 2)), (bottom, Fraction(1, 2))]
    return found


def _differ(index: JobIndex, edge: Sequence[Figure]) -> bool:
    """Whether an edge was read at several heights, and further apart than the tape errs."""
    values = [Fraction(in_units(at.value)) for at in edge]
    return len(values) > 1 and max(values) - min(values) > in_units(reading_error_of(index).value)


def _taped_edge(index: JobIndex, survey: SurveyPlan, opening: OpeningPlan, side: str) -> list[_Place]:
    """Where the running tape met the frame's edge beside the hinges, from the bottom up: the edge is seen from the
    lower edge of its column's lowest opening to the upper edge of the highest one."""
    others = [one for one in survey.openings.values() if one.column == opening.column]
    lows = [Fraction(in_units(one.bottom.value)) for one in others if one.bottom is not None]
    highs = [Fraction(in_units(one.top.value)) for one in others if one.top is not None]
    if not lows or not highs or max(highs) <= min(lows):
        return []
    low, high = min(lows), max(highs)
    heights = {"bottom": low, "mid": (low + high) / 2, "top": high}
    of, what = _neighbour(index, opening, side), "edge right" if side == "left" else "edge left"
    found: list[_Place] = []
    for at, up in heights.items():
        row = index.readings.get((of, what, at))
        value = measured(row.value, f"{what} of {of}, {at}") if row is not None else None
        if value is not None:
            found.append((up, value))
    return found


def _neighbour(index: JobIndex, opening: OpeningPlan, side: str) -> str:
    """The upright member beside an opening."""
    order = index.uprights(opening.run)
    at = next((n for n, item in enumerate(order) if item.id == opening.column and not isinstance(item, Member)), None)
    if at is None:
        return ""
    beside = at - 1 if side == "left" else at + 1
    return order[beside].id if 0 <= beside < len(order) else ""

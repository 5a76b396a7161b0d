"""The cover a hinge gives, and the cover each must give at its own height (F26)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import HingeType, Member
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.returns import covered_opening
from frontwright.core.skins import inside_edge
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.result import OpeningPlan


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
    index: JobIndex, opening: OpeningPlan, front: FrontPlan, heights: Sequence[Figure]
) -> tuple[Figure, ...]:
    """F26: the cover that each hinge must give, from the surface its plate sits on; empty where there is no frame.

    Where the frame's edge leans, each height has its own: by the running tape where it met that edge above and below,
    else by the lean of the opening, if that is more than the reading error.
    """
    side = front.hinge_side
    cover = front.overlay[side] if side is not None else None
    if side is None or cover is None:
        return ()
    upright = _from_squared(index, opening, side)
    if upright is not None:  # the plate sits on an edge that leans no more
        squared = total(f"cover {side} of {front.id}, from the squared edge", plus(cover), plus(upright))
        return tuple(squared for _ in heights)
    strip = inside_edge(index, front.run)
    if strip is not None:  # the plate sits on the strip that covers the inside edge
        cover = total(f"cover {side} of {front.id}, from the covered edge", plus(cover), plus(strip))
    if side == "top":
        return tuple(cover for _ in heights)
    taped = _taped_edge(index, opening, front, side)
    return tuple(_needed(index, opening, front, cover, height, taped) for height in heights)


def _from_squared(index: JobIndex, opening: OpeningPlan, side: str) -> Figure | None:
    """How far the upright edge of a squared opening lies inward of its bare one, at mid height; None: not squared."""
    found = covered_opening(index, opening)
    if found is None or not found.squared or side not in found.returns:
        return None
    if side == "left":
        return found.shift[0]
    if side == "right":
        name = f"right edge of {opening.id} moved by"
        return total(name, plus(opening.width), minus(found.shift[0]), minus(found.widths[1]))
    return found.returns[side].strip


def _needed(
    index: JobIndex,
    opening: OpeningPlan,
    front: FrontPlan,
    cover: Figure,
    height: Figure,
    taped: tuple[Figure, Figure] | None,
) -> Figure:
    lean = opening.lean
    error = in_units(reading_error_of(index).value)
    name = f"cover needed at {height.name}"
    outward = 1 if front.hinge_side == "left" else -1  # the cover grows as the frame's edge moves so
    share_up = _share_up(opening, front, height) - Fraction(1, 2)
    if taped is not None and abs(Fraction(in_units(taped[0].value)) - in_units(taped[1].value)) > error:
        high, low = taped
        terms = (plus(cover), Term(high, outward * share_up), Term(low, -outward * share_up))
        return total(name, *terms, how="the edge by the running tape, at this height")
    if lean is None or abs(Fraction(in_units(lean.value))) <= error:
        return cover
    return total(
        name, plus(cover), Term(lean, -outward * share_up), how="the edge of the leaning opening, at this height"
    )


def _share_up(opening: OpeningPlan, front: FrontPlan, height: Figure) -> Fraction:
    """How far up its opening a height stands: 0 at the lower edge, 1 at the upper."""
    up = Fraction(in_units(height.value)) + in_units(front.bottom.value)
    low = in_units(opening.bottom.value) if opening.bottom is not None else 0
    return (up - low) / in_units(opening.height.value)


def _taped_edge(index: JobIndex, opening: OpeningPlan, front: FrontPlan, side: str) -> tuple[Figure, Figure] | None:
    """Where the running tape met the frame's edge beside the hinges at the top and at the bottom of the run."""
    column = opening.column
    of = [
        (column, f"edge {side}"),
        (_neighbour(index, front.run, column, side), "edge right" if side == "left" else "edge left"),
    ]
    for item, what in of:
        found = [index.readings.get((item, what, at)) for at in ("top", "bottom")]
        values = [measured(row.value, f"{what} of {item}, {row.at}") for row in found if row is not None]
        if len(values) == len(found) and values[0] is not None and values[1] is not None:
            return values[0], values[1]
    return None


def _neighbour(index: JobIndex, run: str, column: str, side: str) -> str:
    """The upright member beside a column."""
    order = index.uprights(run)
    at = next((n for n, item in enumerate(order) if item.id == column and not isinstance(item, Member)), None)
    if at is None:
        return ""
    beside = at - 1 if side == "left" else at + 1
    return order[beside].id if 0 <= beside < len(order) else ""

"""Plans of the cutting room as rows of the job: layouts with their parts, under names as they stand on paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from frontwright.core.job import Job, Laid, LaidPart
from frontwright.core.lengths import Length, Unit, typed_length
from frontwright.core.stock.result import Group
from frontwright.cutting.values import Layout, Placed
from frontwright.cutting.values import Plan as CutPlan
from frontwright.desk.edits.rows import without
from frontwright.desk.laying import ToLay, at_least, up


@dataclass(frozen=True, slots=True)
class NewRows:
    """Layouts of a plan, ready to be put in the job."""

    laid: tuple[Laid, ...]
    parts: tuple[LaidPart, ...]


def with_plans(job: Job, laid: Sequence[tuple[ToLay, CutPlan]], called: Mapping[str, str] | None = None) -> Job:
    """The job with these plans in place of the layouts that make room for them.

    `called`: under which name a piece of the rack is the job's, where that is another.
    """
    for one, _ in laid:
        job = without(job, "laid", *one.gone)
    for one, plan in laid:
        rows = _rows(job, one, plan, called or {})
        job = job.put(*rows.laid, *rows.parts)
    return job


def _rows(job: Job, one: ToLay, plan: CutPlan, called: Mapping[str, str]) -> NewRows:
    unit = job.heading.unit
    left = [list(numbers) for numbers in one.numbers]
    pinned = _numbers_of_pins(one, left)
    place = max((row.place for row in job.laid.values()), default=-1) + 1
    names = _Names(job)
    kerf = typed_length(one.group.kerf, unit)
    least = at_least(one, plan) if one.whole and plan.whole else None
    laid: list[Laid] = []
    parts: list[LaidPart] = []
    for layout in sorted(plan.layouts, key=lambda one: one.stock):
        source = one.sources[layout.stock]
        piece = called.get(source.piece, source.piece) if source.piece is not None else None
        for _ in range(layout.copies):
            name = names.next(one.group, piece)
            at = place + len(laid)
            laid.append(Laid(name, piece, source.size or None, at, one.group.id, kerf, least=least))
            parts += _parts(one, layout, name, left, pinned, unit)
    return NewRows(tuple(laid), tuple(parts))


def _numbers_of_pins(one: ToLay, left: list[list[int]]) -> dict[Placed, list[LaidPart]]:
    """Placed parts keep their numbers; these are not given to others."""
    found: dict[Placed, list[LaidPart]] = {}
    for row, placed in one.pinned:
        if row.number in left[placed.item]:
            left[placed.item].remove(row.number)
        found.setdefault(placed, []).append(row)
    return found


def _parts(
    one: ToLay, layout: Layout, name: str, left: list[list[int]], pinned: dict[Placed, list[LaidPart]], unit: Unit
) -> Iterator[LaidPart]:
    for placed in sorted(layout.placed, key=lambda p: (p.x, p.y)):
        want = one.wants[placed.item]
        held = pinned.get(placed)
        row = held.pop(0) if held else None
        number = row.number if row is not None else left[placed.item].pop(0)
        turned = placed.width != up(want.length, one.grid) or placed.height != up(want.width, one.grid)
        yield LaidPart(
            id=f"{want.id} {number}" if want.copies > 1 else want.id,
            laid=name,
            part=want.id,
            number=number,
            along=typed_length(Length(placed.x * one.grid.units), unit),
            across=typed_length(Length(placed.y * one.grid.units), unit),
            length=typed_length(want.length, unit),
            width=typed_length(want.width, unit),
            turned=turned,
            pinned=row is not None,
        )


class _Names:
    """Names of layouts on paper: the piece's own, else "sheet 1", "board 1", counted on."""

    def __init__(self, job: Job) -> None:
        self._taken = set(job.laid)

    def next(self, group: Group, piece: str | None) -> str:
        word = {"sheets": "core" if group.form == "core" else "sheet"}.get(group.cut, "board")
        if piece is not None and piece not in self._taken:
            name = piece
        else:
            stem = word if piece is None else piece
            name = next(n for n in (f"{stem} {k}" for k in range(1, 10_000)) if n not in self._taken)
        self._taken.add(name)
        return name


def taken_free(laid: Sequence[tuple[ToLay, CutPlan]]) -> dict[str, int]:
    """Pieces of the rack that are nobody's and that these plans lie on, and how many of each."""
    found: dict[str, int] = {}
    for one, plan in laid:
        for layout in plan.layouts:
            source = one.sources[layout.stock]
            if source.free and source.piece is not None:
                found[source.piece] = found.get(source.piece, 0) + layout.copies
    return found


def used(one: ToLay, plan: CutPlan) -> dict[str, int]:
    """The pieces that a plan lies on, and how many of each."""
    found: dict[str, int] = {}
    for layout in plan.layouts:
        if (piece := one.sources[layout.stock].piece) is not None:
            found[piece] = found.get(piece, 0) + layout.copies
    return found

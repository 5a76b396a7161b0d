"""The parts of a job as a list, out with every size, in with the sizes that were measured on the things made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.job import AsBuilt
from frontwright.core.lengths import Length, Typed, typed_length
from frontwright.core.making.result import Part
from frontwright.core.plan import Plan
from frontwright.exchange.tables import Cell, Column, Row, Table, headed, raw_rows

NOUN = "parts list"
type Size = Literal["length", "width", "thickness"]
SIZES: tuple[Size, ...] = ("length", "width", "thickness")
COLUMNS = (
    Column("part", needed=True),
    Column("front"),
    Column("kind"),
    Column("pieces", "count"),
    *(Column(name, "length") for name in SIZES),
    Column("rough length", "length"),
    Column("rough width", "length"),
    Column("material"),
    Column("species"),
    Column("grain"),
    *(Column(f"is {name}", "length") for name in SIZES),
)
FIXED = ("front", "kind", "pieces", *SIZES, "rough length", "rough width", "material", "species", "grain")


def parts_table(plan: Plan) -> Table:
    """Every part, front by front: finished sizes as planned, rough ones, and what was measured."""
    built = _built(plan)
    rows = tuple(tuple(_cells(plan, part, built)) for part in plan.making.parts)
    return Table("parts", COLUMNS, rows, plan.job.heading.unit)


def _cells(plan: Plan, part: Part, built: Mapping[tuple[str, str], AsBuilt]) -> Iterator[Cell]:
    yield from (part.id, part.front, part.kind, part.qty)
    for figure in (part.length, part.width, part.thickness):
        yield (figure.planned or figure).length
    yield from (_length(part.rough_length), _length(part.rough_width), part.material)
    yield from (_species(plan, part), part.grain)
    for size in SIZES:
        row = built.get((part.id, size))
        yield _typed(row.value) if row is not None else None


def _built(plan: Plan) -> dict[tuple[str, str], AsBuilt]:
    return {(row.of, row.what): row for row in plan.job.as_built.values()}


def _length(figure: Figure | None) -> Length | None:
    return figure.length if figure is not None else None


def _typed(given: Typed | None) -> Length | str | None:
    return None if given is None else given.text if given.value is None else given.value


def _species(plan: Plan, part: Part) -> str:
    row = plan.job.species.get(part.species or "")
    return (row.name if row is not None else "") or part.species or ""


def sizes_from(plan: Plan, name: str, content: bytes) -> tuple[AsBuilt, ...]:
    """What a parts list that comes in has measured otherwise than the job knows it.

    What stands under `is length`, `is width` and `is thickness` is taken; an empty cell says nothing. BadTable for a
    list that is none, a part that the job does not have, a size that cannot be read, and a planned size that was
    changed in the list: nothing of it may be taken in then.
    """
    known = {part.id: part for part in plan.making.parts}
    told = {cells[0]: cells for cells in parts_table(plan).rows}
    built = _built(plan)
    found: dict[str, AsBuilt] = {}
    seen: dict[str, int] = {}
    for row in headed(raw_rows(name, content), COLUMNS, NOUN):
        part = row.text("part")
        if part not in known:
            raise row.bad("part", f"there is no part “{part}” in this job." if part else "the part is not named.")
        if part in seen:
            raise row.bad("part", f"“{part}” stands in row {seen[part]} already.")
        seen[part] = row.number
        _must_agree(plan, row, told[part])
        for size in _measured(plan, row, known[part], built):
            found[size.id] = size
    return tuple(found.values())


def _must_agree(plan: Plan, row: Row, cells: tuple[Cell, ...]) -> None:
    """A planned size is worked out: a list that says another one was changed by hand, or is of another day."""
    for column, cell in zip(COLUMNS, cells, strict=True):
        if column.name not in FIXED or not row.told(column.name):
            continue
        if column.kind == "length":
            unit = plan.job.heading.unit
            agrees = isinstance(cell, Length) and row.says(column.name, cell, unit)
            if not agrees:
                row.length(column.name, unit)  # says what is wrong with it where it is no length
        else:
            agrees = row.text(column.name) == str(cell)
        if not agrees:
            raise row.bad(column.name, _worked_out(plan, row, cell))


def _worked_out(plan: Plan, row: Row, cell: Cell) -> str:
    own = typed_length(cell, plan.job.heading.unit).text if isinstance(cell, Length) else str(cell or "nothing")
    way = "write what was measured under “is length”, “is width” or “is thickness”, or empty the cell"
    return f"the job has {own} for {row.text('part')}, and it is worked out: {way}."


def _measured(plan: Plan, row: Row, part: Part, built: Mapping[tuple[str, str], AsBuilt]) -> Iterator[AsBuilt]:
    for size in SIZES:
        column = f"is {size}"
        before = built.get((part.id, size))
        unit = plan.job.heading.unit
        stands = before.value if before is not None else None
        if stands is not None and (stands.text == row.text(column) or row.says(column, stands.value, unit)):
            continue
        given = row.length(column, unit)
        if given is None:
            continue
        yield AsBuilt(f"{part.id} {size}" if before is None else before.id, part.id, size, given)

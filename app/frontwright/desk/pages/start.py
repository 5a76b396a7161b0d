"""What the new-job form shows beside its fields: the drawing, the first numbers, what is most worth reading."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.new_job import first_front
from frontwright.core.figures import Figure
from frontwright.core.job import Shop
from frontwright.core.lengths import IN_HALF_MM, IN_THIRTYSECONDS, Display
from frontwright.core.making.result import FrontMaking, Part
from frontwright.core.plan import Plan, derive
from frontwright.desk.contents import Cell, Column, Table, TableRow
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.start import NewJob, new_job

_EXAMPLE = {"in": ("21", "26 1/2"), "mm": ("450", "600")}


@dataclass(frozen=True, slots=True)
class StartContents:
    """`problem`: one sentence why the job cannot be started yet, else empty; then `numbers` has no rows.

    `drawing` shows an example where nothing was read. `worth`: readings that would replace most, each with its reason.
    """

    problem: str
    drawing: Drawing | None
    numbers: Table
    worth: tuple[tuple[str, str], ...]
    display: Display


def start_contents(form: NewJob, shop: Shop | None = None) -> StartContents:
    """What to show for a form as it stands, finished or not."""
    display = IN_THIRTYSECONDS if form.unit == "in" else IN_HALF_MM
    problem = ""
    try:
        plan = derive(new_job(form), shop)
    except Refused as refused:
        problem = str(refused)
        plan = _example(form, shop)
    numbers = _numbers(plan if not problem else None)
    return StartContents(problem, first_front(plan), numbers, worth_reading(plan), display)


def _example(form: NewJob, shop: Shop | None) -> Plan:
    """A job like the form's, of a usual size where the form has none that can be."""
    width, height = _EXAMPLE[form.unit]
    for given in (
        NewJob(form.unit, form.width, height, form.pair, form.scheme, form.amount, form.door_kind),
        NewJob(form.unit, width, form.height, form.pair, form.scheme, form.amount, form.door_kind),
        NewJob(form.unit, form.width, form.height, form.pair, form.scheme, "", form.door_kind),
    ):
        try:
            return derive(new_job(given), shop)
        except Refused:
            continue
    return derive(new_job(NewJob(form.unit, width, height, form.pair, form.scheme, "", form.door_kind)), shop)


def _numbers(plan: Plan | None) -> Table:
    columns = (
        Column("", axis=False, share=3),
        Column("", axis=False),
        Column(""),
        Column(""),
        Column(""),
    )
    rows = tuple(_rows(plan)) if plan else ()
    return Table(
        "first numbers", "First numbers", "(in brackets): rests on something nobody has read yet", columns, rows
    )


def _rows(plan: Plan) -> Iterable[TableRow]:
    made = list(plan.making.fronts.values())
    if not made:
        return
    first, count = made[0], len(made)
    front = plan.fronts.fronts[first.front]
    yield _row("door", count, (front.width, front.height, first.build.thickness), bold=True)
    for word, part, pieces in _parts(first):
        yield _row(word, pieces * count, (part.length, part.width, part.thickness))
    leaves = [leaf for leaf in plan.veneer.leaves if leaf.use == "panels"]
    if leaves and first.chain:
        across = plan.veneer.usable_width
        yield _row(
            "leaves, both faces", sum(leaf.count for leaf in leaves), (leaves[0].length, across, first.chain.slice)
        )


def _parts(made: FrontMaking) -> Iterable[tuple[str, Part, int]]:
    if made.slab:
        return
    for part in made.parts:
        if part.kind in ("core", "lipping"):
            continue
        word = {"stile": "stiles"}.get(part.kind, part.kind)
        yield word, part, part.qty


def _row(word: str, count: int, sizes: tuple[Figure, Figure, Figure], *, bold: bool = False) -> TableRow:
    figures = tuple(Cell(f"{word} {n}", "figure", figure=size, name=word, bold=bold) for n, size in enumerate(sizes))
    return TableRow(word, (Cell(f"{word}", "words", word, bold=bold), Cell("", "words", str(count)), *figures))


_WORTH = {
    "core thickness": ("core thickness", "sets panel and rabbet"),
    "sheet thickness": ("sheet thickness", "sets the groove"),
    "second width": ("second width", "is the frame parallel?"),
    "second height": ("second height", "is it level?"),
    "diagonals": ("both diagonals", "does it lean?"),
    "hinge and its cover": ("the hinge and its cover", "sets plate and boring"),
    "billet": ("the billet at hand", "how many leaves does it give?"),
}


def worth_reading(plan: Plan) -> tuple[tuple[str, str], ...]:
    """The three readings that would replace most of what is assumed, each with what it tells."""
    return tuple(_WORTH.get(wanted.what, (wanted.what, "")) for wanted in plan.read_next[:3])

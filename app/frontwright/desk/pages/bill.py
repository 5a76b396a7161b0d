"""The Bill page: what the job takes, what of it is at hand, what it lacks."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.bill.result import BillLine
from frontwright.core.job import Piece
from frontwright.core.job.declared import Declared
from frontwright.desk.contents import Action, Cell, Column, PageContents, Table, TableRow
from frontwright.desk.edits.rows import fields_of
from frontwright.desk.keys import key
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of, decimal

PIECE_FIELDS: tuple[Declared, ...] = tuple(field for field in fields_of(Piece) if field.name != "id")
_FORMS = ("board", "billet", "leaf", "strip", "panel", "sheet", "core")


def bill_page(view: View) -> PageContents:
    """The whole page."""
    lacking = sum(1 for line in view.plan.bill.lines if line.lacks)
    advice = f"{count_of(lacking, 'line')} still lacking" if lacking else "Everything on the bill is at hand"
    return PageContents(
        chapter="bill",
        title="Bill",
        choosers=(),
        chosen="",
        advice=advice if view.plan.bill.lines else "",
        bands=((_bill(view),), (_pieces(view),), (_leaves(view),)),
        board=None,
        findings=finding_lines(view, "bill"),
        actions=tuple(Action(key("add-piece", form), f"Add a {form}") for form in _FORMS),
    )


def _bill(view: View) -> Table:
    columns = (
        Column("form", axis=False),
        Column("wood", axis=False, share=2),
        Column("thick"),
        Column("width"),
        Column("length"),
        Column("pieces"),
        Column("finished", "content"),
        Column("rough", "content"),
        Column("", "content", axis=False),
        Column("at hand"),
        Column("lacks"),
    )
    rows = tuple(_bill_row(line, at) for at, line in enumerate(view.plan.bill.lines))
    return Table(
        "bill", "What the job takes", "solid by thickness and width, the rest by size", columns, rows, tall=True
    )


def _bill_row(line: BillLine, at: int) -> TableRow:
    subject = f"bill {at}"
    cells: tuple[Cell, ...] = (
        words(line.form, subject, bold=True),
        words(line.species, subject),
        worked(line.thickness, subject, "thickness"),
        worked(line.width, subject, "width"),
        worked(line.length, subject, "length"),
        words(str(line.qty), subject),
        words(_content(line.finished), subject),
        words(_content(line.rough), subject),
        words(line.measure, subject),
        words(_content(line.at_hand), subject),
        words(_content(line.lacks) if line.lacks else "", subject, bold=bool(line.lacks)),
    )
    return TableRow(subject, cells)


def _content(number: Fraction | int | None) -> str:
    return "" if number is None else decimal(number, 3)


def _pieces(view: View) -> Table:
    rows = tuple(
        TableRow(
            piece,
            (view.name("pieces", piece), *(view.entry("pieces", piece, field.name) for field in PIECE_FIELDS)),
        )
        for piece in view.job.pieces
    )
    heads = [Column(field_word("pieces", f.name), axis=f.kind in ("length", "count")) for f in PIECE_FIELDS]
    actions = [Action(key("add-piece", form), f"Add a {form}") for form in _FORMS]
    if view.selected in view.job.pieces:
        one = view.selected
        actions += [
            Action(key("copy-piece", one), f"Another like {one}", one),
            Action(key("delete", "pieces", one), f"Take out {one}", one),
        ]
    aside = "wood for this job; length along the grain"
    return Table("pieces", "At hand", aside, (Column("", axis=False), *heads), rows, tuple(actions), tall=True)


def _leaves(view: View) -> Table:
    veneer = view.plan.veneer
    rows = [
        TableRow(
            f"leaves {at}",
            (
                words(f"leaves for {leaf.use}", bold=True),
                worked(leaf.length, f"leaves {at}", "length"),
                words(str(leaf.count)),
                words(f"and {leaf.spares} to spare" if leaf.spares else ""),
            ),
        )
        for at, leaf in enumerate(veneer.leaves)
    ]
    rows += [
        TableRow(
            billet.id,
            (
                words(billet.machine, billet.id),
                worked(billet.length, billet.id, f"length, {billet.machine}"),
                words(str(billet.leaves), billet.id),
                worked(billet.rest, billet.id, f"rest, {billet.machine}"),
            ),
        )
        for billet in veneer.billets
    ]
    columns = (Column("", axis=False, share=2), Column("length"), Column("leaves"), Column("rest"))
    return Table("leaves", "Leaves", "wanted, and what a billet gives", columns, tuple(rows))

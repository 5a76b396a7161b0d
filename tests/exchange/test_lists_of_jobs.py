"""The parts and the pieces of a job go out as lists and come back; the bill goes out."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import replace

import pytest
from frontwright.core.job import Job, Piece, amount
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, billed_whole, derive, quoted
from frontwright.exchange.json_form import job_from_json
from frontwright.exchange.orders import order_tables
from frontwright.exchange.parts_list import parts_table, sizes_from
from frontwright.exchange.rack_list import pieces_from, pieces_table
from frontwright.exchange.tables import BadTable, Table, table_bytes
from frontwright.resources import resource
from openpyxl import load_workbook

SAMPLES = ["laundry-pair", "kitchen-run"]
BOTH = ["list.xlsx", "list.csv"]


def plan_of(sample: str) -> Plan:
    return derive(job_from_json(resource("samples", f"{sample}.json").read_text("utf-8")))


def with_cell(content: bytes, part: str, column: str, text: str) -> bytes:
    """A CSV list with one cell of the row of this name written over."""
    rows = list(csv.reader(io.StringIO(content.decode("utf-8-sig"))))
    at = next(n for n, head in enumerate(rows[0]) if head.partition(" (")[0] == column)
    next(row for row in rows[1:] if row[0] == part)[at] = text
    out = io.StringIO()
    csv.writer(out).writerows(rows)
    return out.getvalue().encode()


@pytest.mark.parametrize("sample", SAMPLES)
@pytest.mark.parametrize("name", BOTH)
def test_a_parts_list_that_comes_back_as_it_went_out_brings_nothing(name: str, sample: str) -> None:
    plan = plan_of(sample)
    assert len(parts_table(plan).rows) == len(plan.making.parts)
    assert sizes_from(plan, name, table_bytes(name, [parts_table(plan)])) == ()


HOSTILE = ["=1+1", "3/4", "1-2", "+A1", "@x", "'=0"]


@pytest.mark.parametrize("text", HOSTILE)
def test_lists_of_a_job_full_of_such_texts_have_no_date_and_no_formula_and_come_back(text: str) -> None:
    job = plan_of("laundry-pair").job
    species = [replace(one, name=text) for one in job.species.values()]
    wood = [Piece(f"{text} {n}", species=text, batch=text, shelf=text, note=text, length=typed("23 5/8", "in"))
            for n in range(2)]  # fmt: skip
    plan = derive(job.put(replace(job.heading, client=text), *species, *wood))
    bill = billed_whole(plan)
    parts, pieces = parts_table(plan), pieces_table(wood, "in")
    lists = [parts, pieces, *order_tables(plan, bill, quoted(plan, bill), lambda _: [text]).values()]
    book = load_workbook(io.BytesIO(table_bytes("a.xlsx", lists)))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s", "n"}
    assert not any(cell.is_date for cell in cells)
    assert sum(cell.value == text for cell in cells) > 4
    numbers = [cell for cell in book["parts"][2] if cell.data_type == "n" and cell.value is not None]
    assert len(numbers) >= 4
    assert all(isinstance(cell.value, int | float) for cell in numbers)
    for name in BOTH:
        assert sizes_from(plan, name, table_bytes(name, [parts])) == ()
        brought = pieces_from(name, table_bytes(name, [pieces]), "in", {})
        assert [(one.id, one.species, one.batch, one.shelf, one.note) for one in brought.new] == [
            (one.id, text, text, text, text) for one in wood
        ]


def test_a_size_written_under_is_length_comes_in_as_built_and_goes_out_again() -> None:
    plan = plan_of("laundry-pair")
    part = plan.making.parts[0]
    content = with_cell(table_bytes("a.csv", [parts_table(plan)]), part.id, "is length", "23 1/2")
    (size,) = sizes_from(plan, "a.csv", content)
    assert (size.of, size.what, size.value) == (part.id, "length", typed("23 1/2", "in"))
    after = derive(plan.job.put(size))
    again = table_bytes("a.xlsx", [parts_table(after)])
    assert sizes_from(after, "a.xlsx", again) == ()
    assert sizes_from(plan, "a.xlsx", again)[0].value == typed("23.5", "in")


@pytest.mark.parametrize(
    ("column", "text", "sentence"),
    [
        ("length", "99", "column length: the job has .* for .*, and it is worked out"),
        ("is width", "2 1/", "column is width: “2 1/” is no length"),
        ("part", "ZZ", "column part: there is no part “ZZ” in this job."),
        ("pieces", "7", "column pieces: the job has "),
    ],
)
def test_a_parts_list_that_is_wrong_in_one_cell_names_row_and_column(column: str, text: str, sentence: str) -> None:
    plan = plan_of("laundry-pair")
    content = with_cell(table_bytes("a.csv", [parts_table(plan)]), plan.making.parts[1].id, column, text)
    with pytest.raises(BadTable, match=rf"^Row 3, {sentence}"):
        sizes_from(plan, "a.csv", content)


def test_a_part_that_stands_twice_in_a_list_is_refused() -> None:
    plan = plan_of("laundry-pair")
    part = plan.making.parts[0].id
    with pytest.raises(BadTable, match="stands in row 2 already"):
        sizes_from(plan, "a.csv", f"part\n{part}\n{part}\n".encode())


def pieces() -> Job:
    return Job().put(
        Piece("L-01", "board", "white ash", "AS1", typed("96 1/2", "in"), typed("6", "in"), typed("1", "in"), 3, "B2"),
        Piece(
            "=L-2", "leaf", "oak", length=typed("60", "in"), moisture=amount("7,5"), planed=True, grade="show",
            price=amount("12.50"), note="+ a knot, \"small\"", state="in work", end_trim=typed("12 5/", "in"),
        ),
    )  # fmt: skip


@pytest.mark.parametrize("name", BOTH)
def test_a_list_of_pieces_that_comes_back_as_it_went_out_brings_nothing(name: str) -> None:
    there = pieces().pieces
    brought = pieces_from(name, table_bytes(name, [pieces_table(there.values(), "in")]), "in", there)
    assert (brought.new, brought.changed) == ((), ())


@pytest.mark.parametrize("name", BOTH)
def test_a_list_of_pieces_fills_an_empty_rack(name: str) -> None:
    there = {"L-01": pieces().pieces["L-01"]}
    content = table_bytes(name, [pieces_table(there.values(), "in")])
    brought = pieces_from(name, content, "in", {})
    assert brought.changed == ()
    (new,) = brought.new
    assert (new.id, new.form, new.batch, new.count, new.shelf) == ("L-01", "board", "AS1", 3, "B2")
    assert new.length is not None
    assert new.length.value == typed("96 1/2", "in").value


def test_a_list_of_pieces_changes_what_it_says_and_leaves_the_rest() -> None:
    there = pieces().pieces
    brought = pieces_from("a.csv", b"piece,shelf,moisture\nL-01,C4,8\nL-03,A1,\n", "in", there)
    assert [(p.id, p.shelf, p.moisture, p.batch) for p in brought.changed] == [("L-01", "C4", amount("8"), "AS1")]
    assert [(p.id, p.shelf) for p in brought.new] == [("L-03", "A1")]


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        ("L-01,burned,1,", "column state: L-01 is free"),
        ("L-09,in work,1,", "column state: L-09 is free"),
        ("L-01,,0,", "column count: there is one of a piece at least"),
        ("L-01,,1,plank", "column form: “plank” is none of board, billet"),
        (",,1,", "column piece: the piece is not named"),
    ],
)
def test_a_list_of_pieces_that_is_wrong_in_one_cell_names_it(row: str, sentence: str) -> None:
    with pytest.raises(BadTable, match=rf"^Row 2, {sentence}"):
        pieces_from("a.csv", f"piece,state,count,form\n{row}\n".encode(), "in", pieces().pieces)


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_lists_of_a_bill_say_what_the_bill_says(sample: str) -> None:
    plan = plan_of(sample)
    bill = billed_whole(plan)
    tables = order_tables(plan, bill, quoted(plan, bill), lambda provisos: [one.kind for one in provisos])
    assert [row[:2] for row in tables["pull"].rows] == [(one.shelf, one.piece) for one in bill.pull]
    sold_as = {"skin": "sheet", "leaf": "billet"}
    lacking = {sold_as.get(one.line.form, one.line.form) for one in bill.lines if one.lacks}
    assert {one.what for one in bill.purchases} == lacking
    assert [row[7] for row in tables["stock"].rows] == [one.line.rough for one in bill.lines]
    assert [row[13] for row in tables["purchases"].rows] == [one.cost for one in bill.purchases]
    assert tables["costs"].rows[-1] == ("total", "", None, bill.costs.total)
    assert _widths_agree(tables.values())
    assert table_bytes("a.xlsx", tuple(tables.values())).startswith(b"PK")


def _widths_agree(tables: Iterable[Table]) -> bool:
    return all(len(row) == len(table.columns) for table in tables for row in table.rows)

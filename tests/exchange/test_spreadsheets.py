"""Lists go out with typed cells and come back as they were; what is none is said in one sentence with its place."""

from __future__ import annotations

import io
import re
import zipfile
from fractions import Fraction

import pytest
from frontwright.core.lengths import Length
from frontwright.exchange.tables import BadTable, Column, Row, Table, headed, raw_rows, table_bytes
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

COLUMNS = (Column("part", needed=True), Column("length", "length"), Column("count", "count"), Column("cost", "money"))
FORMULAS = ["=1+1", "+49 30", "-3", "@SUM(A1)", '=HYPERLINK("x")', "\t=1", "'=1", "=cmd|' /C calc'!A0"]
DATES = ["3/4", "1-2", "1.5", "2026-11-25", "3-Mar", "MAR1", "Sept 7", "12:30", "007", "1E5"]
NUMBERS = ["1 1/2", "5%", "(5)", "€5", "1.234", "1.5e3", "1E+5", "12345678901234567890", "TRUE", "7 pm", ".5", "0.50"]
BOTH = ["list.xlsx", "list.csv"]


def table(*rows: tuple[str | int | Fraction | Length | None, ...], unit: str = "in") -> Table:
    return Table("parts", COLUMNS, rows, "in" if unit == "in" else "mm", "EUR")


def back(name: str, content: bytes) -> list[Row]:
    return list(headed(raw_rows(name, content), COLUMNS, "list"))


def cells_of(content: bytes) -> list[list[object]]:
    sheet = load_workbook(io.BytesIO(content)).worksheets[0]
    return [list(row) for row in sheet.iter_rows(min_row=2)]


def changed(content: bytes, part: str, old: bytes, new: bytes) -> bytes:
    """A workbook with some bytes of one of its parts replaced."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as to:
        for name in source.namelist():
            data = source.read(name)
            if name == part:
                assert old in data
                data = data.replace(old, new)
            to.writestr(name, data)
    return out.getvalue()


@pytest.mark.parametrize("text", FORMULAS)
def test_a_text_that_begins_like_a_formula_stays_text_in_a_workbook(text: str) -> None:
    (row,) = cells_of(table_bytes("a.xlsx", [table((text, None, None, None))]))
    assert row[0].data_type == "s"  # type: ignore[attr-defined]
    assert row[0].value == text  # type: ignore[attr-defined]


@pytest.mark.parametrize("text", [*DATES, *NUMBERS, "Mar 3 2026"])
def test_a_text_that_looks_like_a_date_or_a_number_stays_text_and_comes_back(text: str) -> None:
    (row,) = cells_of(table_bytes("a.xlsx", [table((text, None, None, None))]))
    assert (row[0].data_type, row[0].value, row[0].number_format) == ("s", text, "@")  # type: ignore[attr-defined]
    content = table_bytes("a.csv", [table((text, None, None, None))])
    assert content.decode("utf-8-sig").splitlines()[1].startswith(f"'{text},")
    for name, out in (("a.csv", content), ("a.xlsx", table_bytes("a.xlsx", [table((text, None, None, None))]))):
        assert back(name, out)[0].text("part") == text


@pytest.mark.parametrize("text", ["board 27", "12", "0", "AS1", "B2", "oak", "27 x 195 x 2500", "maple", "marine ply"])
def test_a_text_that_every_spreadsheet_leaves_alone_gets_no_apostrophe(text: str) -> None:
    content = table_bytes("a.csv", [table((text, None, None, None))])
    assert content.decode("utf-8-sig").splitlines()[1].startswith(f"{text},")


@pytest.mark.parametrize("text", FORMULAS)
def test_no_cell_of_a_csv_begins_like_a_formula_and_the_text_comes_back(text: str) -> None:
    content = table_bytes("a.csv", [table((text, None, None, None))])
    cell = content.decode("utf-8-sig").splitlines()[1]
    assert cell.lstrip('"')[0] == "'"
    assert back("a.csv", content)[0].text("part") == text


def test_a_length_in_inches_is_a_number_shown_as_a_fraction_and_never_a_date() -> None:
    content = table_bytes("a.xlsx", [table(("S", Length.inch("3/4"), 2, Fraction(287780)))])
    (row,) = cells_of(content)
    assert [(cell.value, cell.number_format, cell.is_date) for cell in row[1:]] == [  # type: ignore[attr-defined]
        (0.75, "# ??/??", False),
        (2, "General", False),
        (2877.8, "0.00", False),
    ]


def test_a_length_in_a_csv_has_its_unit_so_that_no_spreadsheet_makes_a_date_of_it() -> None:
    content = table_bytes("a.csv", [table(("S", Length.inch("3/4"), 2, Fraction(287780)))])
    assert content.decode("utf-8-sig").splitlines() == ["part,length (in),count,cost (EUR)", "S,3/4 in,2,2877.80"]


@pytest.mark.parametrize("name", BOTH)
@settings(max_examples=60, deadline=None)
@given(
    text=st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=20).map(str.strip).filter(bool),
    units=st.integers(1, 8_000 * 80_000),
    unit=st.sampled_from(["in", "mm"]),
)
def test_text_and_length_come_back_as_they_went_out(name: str, text: str, units: int, unit: str) -> None:
    content = table_bytes(name, [table((text, Length(units), 7, None), unit=unit)])
    (row,) = back(name, content)
    found = row.length("length", "in")
    assert found is not None
    assert (row.text("part"), found.value, row.count("count", 0)) == (text, Length(units), 7)


def test_letters_that_no_workbook_can_hold_do_not_stop_it() -> None:
    (row,) = back("a.xlsx", table_bytes("a.xlsx", [table(("a\x00b\ud800", None, None, None))]))
    assert row.text("part").startswith("a")


def test_a_list_in_millimetres_is_understood_in_a_job_in_inches() -> None:
    (row,) = back("a.csv", b"part,length (mm)\r\nS,716\r\n")
    found = row.length("length", "in")
    assert found is not None
    assert (found.text, found.value) == ("716 mm", Length.mm(716))


@pytest.mark.parametrize("mark", [b",", b";", b"\t"])
def test_semicolons_and_tabs_part_cells_as_commas_do(mark: bytes) -> None:
    (row,) = back("a.csv", b"part,count\nS,3\n".replace(b",", mark))
    assert row.count("count", 0) == 3


def workbook(*rows: list[object]) -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


HEADS: list[object] = ["part", "length", "count"]
GOOD = workbook(HEADS, ["S", 12.5, 2])
SHEET = "xl/worksheets/sheet1.xml"


def test_a_date_that_the_spreadsheet_made_is_named() -> None:
    from datetime import datetime

    with pytest.raises(BadTable, match=r"^Row 2, column length: the spreadsheet has made a date of it: "):
        back("a.xlsx", workbook(HEADS, ["S", datetime(2026, 3, 4), 1]))  # noqa: DTZ001


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (workbook(HEADS, ["S", "=1+1", 2]), "Row 2, column length: a formula stands there"),
        (workbook(HEADS, ["S", "#REF!", 2]), "Row 2, column length: #REF! stands there"),
        (workbook(["part", "breadth"]), "“breadth” is no column of a list"),
        (workbook(["length"], [3]), "the column “part” is missing"),
        (workbook(["part", "part"]), "two columns “part”"),
        (workbook(["part"], ["S", "more"]), "Row 2, column 2: “more” stands under no name of a column."),
        (workbook(), "The list is empty"),
        (workbook(HEADS, *(["S", 1, 1] for _ in range(10_001))), "more than 10,000 rows"),
        (workbook(HEADS, ["S", *range(150)]), "Row 2 has more than 100 columns."),
        (b"PK\x03\x04 and no more", "no XLSX workbook"),
        (b"", "no XLSX workbook"),
        (b"\xd0\xcf\x11\xe0 old", "of the old form, or it has a password"),
        (changed(GOOD, SHEET, b'r="2"', b'r="1000000000"'), "more than 10,000 rows"),
        (changed(GOOD, SHEET, b'ref="A1:C2"', b'ref="A1:C1000000000"'), ""),
        (changed(GOOD, SHEET, b"<sheetData>", b"<sheetData><row>"), "no XLSX workbook"),
        (changed(GOOD, SHEET, b"</sheetData>", b"</sheetData>" + b" " * 110_000_000), "unpacks to more than 100 MB"),
        (changed(GOOD, "xl/workbook.xml", b"<workbook", b"<!DOCTYPE x [<!ENTITY a 'aaaa'>]><workbook"), "no XLSX work"),
    ],
)  # fmt: skip
def test_a_workbook_that_is_no_list_is_one_sentence(content: bytes, sentence: str) -> None:
    if not sentence:  # a false claim of its size alone: the rows that are there are read
        assert back("a.xlsx", content)[0].text("part") == "S"
        return
    with pytest.raises(BadTable, match=re.escape(sentence)) as told:
        back("a.xlsx", content)
    assert "\n" not in str(told.value)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"part,length\nS,12 5/\n", "Row 2, column length: “12 5/” is no length: "),
        (b"part,length\nS,-3\n", "Row 2, column length: “-3” is not above nought."),
        (b"part,count\nS,2.5\n", "Row 2, column count: “2.5” is no whole number"),
        (b"part,count\nS,\xc2\xb2\n", "Row 2, column count: “²” is no whole number"),
        ("part\nStäb".encode("latin-1"), "not text in UTF-8"),
        (b"part\n\0\n", "The file is no text"),
        (b'part\n"S\n', "Row 2 is not CSV: "),
        (b"part\n" + b"S\n" * 10_001, "more than 10,000 rows"),
        (b"part\n" + b"x" * 200_000, "Row 2 is not CSV: "),
        (b"part" + b",x" * 200, "Row 1 has more than 100 columns."),
        (b" " * 21_000_000, "larger than 20 MB"),
    ],
)  # fmt: skip
def test_a_csv_that_is_no_list_is_one_sentence(content: bytes, sentence: str) -> None:
    with pytest.raises(BadTable, match=re.escape(sentence)):
        _understood(content)


def _understood(content: bytes) -> None:
    for row in back("a.csv", content):
        row.length("length", "in")
        row.count("count", 1)


def test_other_forms_are_refused_by_name() -> None:
    with pytest.raises(BadTable, match=r"“\.ods” is neither"):
        raw_rows("a.ods", b"x")
    with pytest.raises(BadTable, match="one list"):
        table_bytes("a.csv", [table(), table()])


def test_a_text_longer_than_a_cell_takes_is_named_with_its_row() -> None:
    with pytest.raises(BadTable, match=r"^Row 3 of the list parts: “x+…” is longer than a cell takes"):
        table_bytes("a.xlsx", [table(("S", None, None, None), ("x" * 40_000, None, None, None))])

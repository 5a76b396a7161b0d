"""Lists as XLSX with typed cells: lengths and money as numbers, text as text whatever it begins with."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, time, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import ParseError

from frontwright.core.lengths import UNITS_IN, Length, Unit
from frontwright.exchange.tables import (
    MOST_COLUMNS,
    MOST_ROWS,
    NO,
    YES,
    BadTable,
    Cell,
    Column,
    Raw,
    RawRow,
    Table,
    Wrong,
)
from frontwright.exchange.tables_numbers import number_of

if TYPE_CHECKING:
    from openpyxl.worksheet._write_only import WriteOnlyWorksheet

MOST_UNPACKED = 100 * 1024 * 1024
MOST_PARTS = 1_000
LONGEST = 32_767  # letters in a cell, by the form itself
WIDEST = 40
OLD_FORM = b"\xd0\xcf\x11\xe0"
FRACTIONS = ((64, "# ??/??"), (128, "# ???/???"))  # of an inch, shown as such
NOT_ONE = "The file is no XLSX workbook, or a damaged one: save it anew as .xlsx."


def xlsx_from(tables: Sequence[Table]) -> bytes:
    """A workbook with a sheet for each list. BadTable where a text is longer than a cell takes."""
    from openpyxl import Workbook

    for table in tables:
        _must_fit(table)
    book = Workbook(write_only=True)
    book.properties.creator = "Frontwright"
    for table in tables:
        _fill(book.create_sheet(table.name[:31]), table)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _fill(sheet: WriteOnlyWorksheet, table: Table) -> None:
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    sheet.freeze_panes = "A2"
    for at, column in enumerate(table.columns):
        said = [len(str(row[at])) for row in table.rows if isinstance(row[at], str)]
        wide = max([len(table.head(column)), *said], default=0)
        sheet.column_dimensions[get_column_letter(at + 1)].width = min(WIDEST, wide + 3)
    sheet.append([_text_cell(sheet, table.head(column), Font(bold=True)) for column in table.columns])
    for row in table.rows:
        sheet.append([_cell(sheet, c, column, table.unit) for c, column in zip(row, table.columns, strict=True)])


def _must_fit(table: Table) -> None:
    """Refuses a text that is longer than a cell takes, before anything is written."""
    for number, row in enumerate(table.rows, 2):
        long = next((cell for cell in row if isinstance(cell, str) and len(cell) > LONGEST), None)
        if long is not None:
            where = f"Row {number} of the list {table.name}"
            raise BadTable(f"{where}: “{long[:30]}…” is longer than a cell takes; shorten it.")


def _cell(sheet: WriteOnlyWorksheet, cell: Cell, column: Column, unit: Unit) -> object:
    if cell is None or cell == "":
        return None
    if isinstance(cell, str):
        return _text_cell(sheet, cell)
    if isinstance(cell, Length):
        return _number_cell(sheet, _decimal(Fraction(cell.units, UNITS_IN[unit])), _length_format(cell, unit))
    return _number_cell(sheet, number_of(cell, column), "0.00" if column.kind == "money" else "General")


def _decimal(number: Fraction) -> Decimal:
    """As many digits as a cell holds: more than a length has."""
    return Decimal(number.numerator) / Decimal(number.denominator)


def _length_format(length: Length, unit: Unit) -> str:
    if unit == "mm":
        return "General"
    inch = UNITS_IN["in"]
    return next((form for part, form in FRACTIONS if length.units * part % inch == 0), "0.0000##")


def _number_cell(sheet: WriteOnlyWorksheet, number: Decimal, form: str) -> object:
    from openpyxl.cell import WriteOnlyCell

    cell = WriteOnlyCell(sheet, value=number)
    cell.number_format = form
    return cell


def _text_cell(sheet: WriteOnlyWorksheet, text: str, font: object = None) -> object:
    """A cell that stays text, even when somebody opens and leaves it in a spreadsheet."""
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    clean = ILLEGAL_CHARACTERS_RE.sub("\ufffd", text.encode("utf-8", "replace").decode("utf-8"))
    cell = WriteOnlyCell(sheet, value=clean)
    cell.data_type = "s"
    cell.number_format = "@"
    cell.quotePrefix = True
    if font is not None:
        cell.font = font
    return cell


def rows_of_xlsx(content: bytes) -> list[RawRow]:
    """The rows of the first sheet of a workbook. BadTable where it is none, or larger than a list can be."""
    if content.startswith(OLD_FORM):
        raise BadTable("The workbook is of the old form, or it has a password: save it as .xlsx without one.")
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        _weigh(content)
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=False, keep_links=False)
        sheets = book.worksheets
        if not sheets:
            raise BadTable("The workbook has no sheet.")
        sheet = sheets[0]
        sheet.reset_dimensions()
        return _rows(sheet.iter_rows(max_row=MOST_ROWS + 2, max_col=MOST_COLUMNS + 1))
    except (
        InvalidFileException,
        zipfile.BadZipFile,
        zlib.error,
        ParseError,
        KeyError,
        ValueError,
        TypeError,
        AttributeError,
        IndexError,
        EOFError,
        OverflowError,
        RuntimeError,
        OSError,
    ) as error:  # what the library lets through of a file that is none
        raise BadTable(NOT_ONE) from error


def _weigh(content: bytes) -> None:
    """Refuses what would swell when it is unpacked."""
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        parts = packed.infolist()
        if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
            raise BadTable("The workbook unpacks to more than 100 MB, which is too much for a list.")


def _rows(rows: Iterable[Sequence[Any]]) -> list[RawRow]:
    found: list[RawRow] = []
    for number, row in enumerate(rows, 1):
        if number > MOST_ROWS + 1:
            raise BadTable(f"The list has more than {MOST_ROWS:,} rows: divide it into several.")
        cells = list(_read(row))
        if any(cells[MOST_COLUMNS:]):
            raise BadTable(f"Row {number} has more than {MOST_COLUMNS} columns.")
        if any(cells):
            found.append((number, cells))
    return found


def _read(row: Sequence[Any]) -> Iterator[Raw]:
    for cell in row:
        yield _raw(cell.value, getattr(cell, "data_type", "n"))


def _raw(value: object, kind: str) -> Raw:
    if kind == "f":
        return Wrong("a formula stands there: put its value in its place.")
    if kind == "e":
        return Wrong(f"{value} stands there, which is an error of the spreadsheet.")
    if isinstance(value, date | time | timedelta):
        return Wrong("the spreadsheet has made a date of it: type it as text, or with its unit.")
    if value is None:
        return ""
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 10**15 else f"{Decimal(repr(value)):f}"
    return str(value).strip()

"""Lists as CSV: UTF-8 with its mark, so that a spreadsheet reads every letter; lengths with their unit, never a date.

A text that a spreadsheet would work out, or take for a date or another number (a shelf `1-2`, a name `007`), gets an
apostrophe before it, and loses it when the list comes back.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import islice

from frontwright.core.lengths import Length, Unit, typed_length
from frontwright.exchange.tables import MOST_COLUMNS, MOST_ROWS, BadTable, Cell, Column, Raw, RawRow, Table
from frontwright.exchange.tables_numbers import number_text

WORKED_OUT = ("=", "+", "-", "@", "\t", "\r", "\n")
MARKS = (",", ";", "\t")
_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
_PLAIN = r"(?:0|[1-9]\d{0,14})\Z"  # a whole number of as many digits as a spreadsheet keeps
_OTHERWISE = re.compile(  # what spreadsheets turn into a date, a time, a truth, or a number written otherwise
    rf"(?!{_PLAIN})(?=\D*\d)[\d\s.,:/%()$€£’-]+|\d[\d.,]*e[-+]?\d+|true|false|\d[\d:.]*\s*[ap]\.?m?\.?"
    rf"|(?:\d{{1,4}}[-/ .]*)?{_MONTH}[-/ .]*\d{{0,4}}(?:,?\s*\d{{4}})?",
    re.IGNORECASE,
)


def csv_from(table: Table) -> bytes:
    """The list, its heads in the first row."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([_safe(table.head(column)) for column in table.columns])
    for row in table.rows:
        writer.writerow([_text(cell, column, table.unit) for cell, column in zip(row, table.columns, strict=True)])
    return codecs.BOM_UTF8 + out.getvalue().encode("utf-8", "replace")


def rows_of_csv(content: bytes) -> list[RawRow]:
    """The rows of a text with commas, semicolons or tabs between its cells. BadTable where it is none."""
    text = _decoded(content)
    lines = text.splitlines()
    mark = max(MARKS, key=(lines[0] if lines else "").count)
    found: list[RawRow] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    try:
        for row in islice(reader, MOST_ROWS + 2):
            if len(row) > MOST_COLUMNS:
                raise BadTable(f"Row {len(found) + 1} has more than {MOST_COLUMNS} columns.")
            found.append((len(found) + 1, list(_read(row))))
    except csv.Error as error:
        raise BadTable(f"Row {len(found) + 1} is not CSV: {error}.") from error
    if len(found) > MOST_ROWS + 1:
        raise BadTable(f"The list has more than {MOST_ROWS:,} rows: divide it into several.")
    return found


def _decoded(content: bytes) -> str:
    wide = content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = content.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadTable("The file is not text in UTF-8: save it as “CSV UTF-8”, or as .xlsx.") from error
    if "\0" in text:
        raise BadTable("The file is no text: save it as “CSV UTF-8”, or as .xlsx.")
    return text


def _read(row: Iterable[str]) -> Iterator[Raw]:
    for cell in row:
        plain = cell.strip()
        yield plain[1:] if plain.startswith("'") and _changes(plain[1:]) else plain


def _text(cell: Cell, column: Column, unit: Unit) -> str:
    if cell is None:
        return ""
    if isinstance(cell, Length):
        text = typed_length(cell, unit).text
        return text if text.endswith("mm") else f"{text} {unit}"
    if isinstance(cell, int | Fraction):
        return number_text(cell, column)
    return _safe(cell)


def _safe(text: str) -> str:
    """A text that no spreadsheet takes for a formula, a date or a number."""
    return f"'{text}" if _changes(text) else text


def _changes(text: str) -> bool:
    """Whether a spreadsheet would not leave this text as it is."""
    return text.startswith((*WORKED_OUT, "'")) or _OTHERWISE.fullmatch(text) is not None

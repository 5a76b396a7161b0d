"""Lists for other programs: what stands in their cells, and how a list that comes in is understood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import PurePath
from typing import Literal

from frontwright.core.job import Amount, amount
from frontwright.core.lengths import Length, Typed, Unit, read

Kind = Literal["text", "length", "count", "number", "money", "yes"]
type Cell = str | int | Fraction | Length | None
MOST_BYTES = 20 * 1024 * 1024
MOST_ROWS = 10_000
MOST_COLUMNS = 100
LONGEST_TEXT = 20_000
YES, NO = "yes", "no"


@dataclass(frozen=True, slots=True)
class Column:
    """A column by its name; `kind`: what stands in it. `needed`: a list that comes in must have it."""

    name: str
    kind: Kind = "text"
    needed: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A list that goes out. Lengths are told in `unit`, money in `currency`, its cells in the smallest unit of it."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    unit: Unit
    currency: str = ""

    def head(self, column: Column) -> str:
        """What stands over a column: its name and its unit."""
        said = {"length": self.unit, "money": self.currency}.get(column.kind, "")
        return f"{column.name} ({said})" if said else column.name


class BadTable(Exception):
    """A list cannot be taken in, or not be written; `str()` is one sentence that names row and column."""


@dataclass(frozen=True, slots=True)
class Wrong:
    """A cell that cannot be taken as it is, and why."""

    why: str


type Raw = str | Wrong
type RawRow = tuple[int, Sequence[Raw]]  # its number as its program counts, and its cells


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a list that came in: its number, its cells by column; bare lengths in the unit over their column."""

    number: int
    cells: Mapping[str, str]
    units: Mapping[str, Unit]

    def bad(self, column: str, why: str) -> BadTable:
        return BadTable(f"Row {self.number}, column {column}: {why}")

    def text(self, column: str) -> str:
        """What stands there, empty for nothing."""
        return self.cells.get(column, "")

    def told(self, column: str) -> bool:
        """Whether the list has this column and something stands in it."""
        return bool(self.text(column))

    def length(self, column: str, unit: Unit) -> Typed | None:
        """A length above nought as this job reads it, None for nothing; BadTable where it cannot be read."""
        text = self.text(column)
        if not text:
            return None
        over = self.units.get(column, unit)
        found = read(text, over)
        if found.value is None:
            raise self.bad(column, f"“{_short(text)}” is no length: {found.problem or 'it cannot be read.'}")
        if found.value.units <= 0:
            raise self.bad(column, f"“{_short(text)}” is not above nought.")
        if over != unit and read(text, unit).value != found.value:
            return Typed(f"{text} {over}", found.value)
        return Typed(text, found.value)

    def says(self, column: str, length: Length | None, unit: Unit) -> bool:
        """Whether what stands there is this very length, however unlikely it is."""
        return length is not None and read(self.text(column), self.units.get(column, unit)).value == length

    def count(self, column: str, otherwise: int) -> int:
        """A whole number from nought up."""
        text = self.text(column)
        if not text:
            return otherwise
        if not text.isascii() or not text.isdecimal() or int(text[:12]) > 1_000_000:
            raise self.bad(column, f"“{_short(text)}” is no whole number up to 1,000,000.")
        return int(text)

    def amount(self, column: str) -> Amount | None:
        """A plain number."""
        text = self.text(column)
        if not text:
            return None
        found = amount(text)
        if found.value is None:
            raise self.bad(column, f"“{_short(text)}” is no plain number: write it as 7.5.")
        return found

    def yes(self, column: str, otherwise: bool = False) -> bool:
        text = self.text(column).casefold()
        if text not in ("", YES, NO):
            raise self.bad(column, f"“{_short(text)}” is neither yes nor no.")
        return text == YES if text else otherwise

    def one_of[W: str](self, column: str, words: Sequence[W], otherwise: W) -> W:
        """One of these words."""
        text = self.text(column).casefold()
        if not text:
            return otherwise
        for word in words:
            if word == text:
                return word
        named = ", ".join(word for word in words if word)
        raise self.bad(column, f"“{_short(text)}” is none of {named}.")


def table_bytes(name: str, tables: Sequence[Table]) -> bytes:
    """These lists in the form that the file's name asks for; of CSV there is one list a file.

    BadTable for another form, or where a text is longer than a cell takes.
    """
    suffix = PurePath(name).suffix.lower()
    if suffix == ".xlsx":
        from frontwright.exchange.tables_xlsx import xlsx_from

        return xlsx_from(tables)
    if suffix == ".csv":
        from frontwright.exchange.tables_csv import csv_from

        if len(tables) != 1:
            raise BadTable("A CSV file holds one list: name one of them, or a file ending in .xlsx.")
        return csv_from(tables[0])
    raise BadTable(f"A list is written as .xlsx or .csv, and “{suffix}” is neither.")


def raw_rows(name: str, content: bytes) -> list[RawRow]:
    """The rows of a list that comes in, empty ones left out. BadTable where it is none."""
    if len(content) > MOST_BYTES:
        raise BadTable("The file is larger than 20 MB, which is too much for a list.")
    suffix = PurePath(name).suffix.lower()
    if suffix == ".xlsx":
        from frontwright.exchange.tables_xlsx import rows_of_xlsx

        rows = rows_of_xlsx(content)
    elif suffix == ".csv":
        from frontwright.exchange.tables_csv import rows_of_csv

        rows = rows_of_csv(content)
    else:
        raise BadTable(f"A list is read from .xlsx or .csv, and “{suffix}” is neither.")
    full = [row for row in rows if any(row[1])]
    if not full:
        raise BadTable("The list is empty: its first row names the columns.")
    return full


def headed(rows: Sequence[RawRow], columns: Sequence[Column], noun: str) -> Iterator[Row]:
    """The rows under the heads of the first one. BadTable where a column is strange, missing, or named twice."""
    number, first = rows[0]
    known = {column.name: column for column in columns}
    names: list[str] = []
    units: dict[str, Unit] = {}
    for cell in first:
        name, unit = _head(cell)
        if name and name not in known:
            listed = ", ".join(known)
            raise BadTable(f"Row {number}: “{_short(name)}” is no column of a {noun}; its columns are {listed}.")
        if name and name in names:
            raise BadTable(f"Row {number}: there are two columns “{name}”.")
        names.append(name)
        if unit is not None:
            units[name] = unit
    missing = [column.name for column in columns if column.needed and column.name not in names]
    if missing:
        raise BadTable(f"Row {number}: the column “{missing[0]}” is missing, without it this is no {noun}.")
    for at, cells in rows[1:]:
        yield Row(at, dict(_cells(at, names, cells)), units)


def names_of(rows: Sequence[RawRow]) -> tuple[str, ...]:
    """The names of the columns that a list says it has."""
    return tuple(_head(cell)[0] for cell in rows[0][1])


def _cells(number: int, names: Sequence[str], cells: Sequence[Raw]) -> Iterator[tuple[str, str]]:
    for at, cell in enumerate(cells):
        name = names[at] if at < len(names) else ""
        if isinstance(cell, Wrong):
            raise BadTable(f"Row {number}, column {name or at + 1}: {cell.why}")
        if cell and not name:
            raise BadTable(f"Row {number}, column {at + 1}: “{_short(cell)}” stands under no name of a column.")
        if len(cell) > LONGEST_TEXT:
            raise BadTable(f"Row {number}, column {name}: the text is longer than {LONGEST_TEXT:,} letters.")
        if name:
            yield name, cell


def _head(cell: Raw) -> tuple[str, Unit | None]:
    """The name of a column, and the unit behind it."""
    text = "" if isinstance(cell, Wrong) else cell.strip()
    name, bracket, said = text.partition("(")
    unit: Unit | None = None
    match said.rstrip(") ").strip().casefold() if bracket else "":
        case "in":
            unit = "in"
        case "mm":
            unit = "mm"
    return " ".join(name.split()).casefold(), unit


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:39]}…"

"""How tables take their room: which cells reach over several columns, how wide blocks stand beside each other."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from frontwright.desk.contents import Cell, TableRow

SLACK = 1.3  # a table by itself, beside what its columns need


class Standing(Protocol):
    """A block that stands beside others."""

    @property
    def wanted(self) -> int: ...

    @property
    def least_width(self) -> int: ...

    @property
    def is_form(self) -> bool: ...

    @property
    def is_narrow(self) -> bool: ...


def spans_of(row: TableRow, columns: int) -> dict[int, int]:
    """Cells that reach over more columns than their own: a head over all, words over blank cells after them."""
    if row.head:
        return {0: columns} if columns > 1 else {}
    blank = [number >= len(row.cells) or _is_blank(row.cells[number]) for number in range(columns)]
    spans = {}
    for number in range(columns):
        end = number + 1
        while end < columns and blank[end]:
            end += 1
        if not blank[number] and _is_prose(row.cells[number]) and end > number + 1:
            spans[number] = end - number
    return spans


def _is_prose(cell: Cell) -> bool:
    """Words, and not a plain number that belongs under the head of its column."""
    return cell.kind == "words" and cell.text.strip("~0123456789.,") != ""


def _is_blank(cell: Cell) -> bool:
    return cell.kind == "words" and not cell.text and cell.figure is None


def shared(room: int, blocks: Sequence[Standing], form_most: int, alone_most: int) -> list[int]:
    """How wide each block of a band stands. `form_most`: a form is not made wider than this without need; `alone_most`:
    nor a table of few columns that stands by itself, or they would lie too far apart to be read across."""
    if len(blocks) == 1 and blocks[0].is_narrow and not blocks[0].is_form:
        return [min(room, max(alone_most, round(SLACK * blocks[0].wanted)))]
    widths = [min(block.least_width, room) for block in blocks]
    spare = room - sum(widths)
    for forms in (False, True):
        for number, block in enumerate(blocks):
            if block.is_form is forms and spare > 0:
                more = min(spare, max(0, block.wanted - widths[number]))
                widths[number], spare = widths[number] + more, spare - more
    tables = [number for number, block in enumerate(blocks) if not block.is_form]
    for number in tables:
        widths[number] += max(0, spare) // len(tables)
    if not tables and blocks and spare > 0:
        widths = [min(width + spare // len(blocks), max(width, form_most)) for width in widths]
    return widths

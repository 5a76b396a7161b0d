"""Plain rows of a list: words in columns, boxes to tick and to write in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from frontwright.sheets.base import Page
from frontwright.sheets.listing import Band, spread
from frontwright.sheets.words import POINT, Part, Words, fit, words, wrap

LEAD = 4.6


@dataclass(frozen=True, slots=True)
class Cells:
    """A row: parts of each column in turn; `bold` columns; `ticks` and `boxes`: columns with one of them instead."""

    parts: tuple[tuple[Part, ...], ...]
    bold: frozenset[int] = frozenset()
    ticks: frozenset[int] = frozenset()
    boxes: frozenset[int] = frozenset()
    size: float = 10.5
    least: float = 8.6
    box: float = 9.0


def cells_band(columns: Sequence[float], row: Cells, width: float) -> Band:
    """The row as a band; what is too long for its column goes on in further lines.

    `columns` in millimetres of 169 across a page that is `width` wide inside.
    """
    unit = width / 169
    ends = [*(column * unit for column in columns[1:]), width]
    starts = [column * unit for column in columns]
    lines = [
        wrap(words(*part, size=row.size, bold=at in row.bold), max(ends[at] - starts[at] - 2, 4)) if part else []
        for at, part in enumerate(row.parts)
    ]
    deep = max((len(of) for of in lines), default=1)
    height = max(row.least, deep * LEAD + 4.0, row.box + 2.0 if row.boxes else 0.0)
    return Band(height, lambda page, y: _draw(page, y, columns, row, lines, height))


def _draw(
    page: Page, y: float, columns: Sequence[float], row: Cells, lines: Sequence[Sequence[Words]], height: float
) -> None:
    x = (*spread(page, columns), page.x1)
    for at, of in enumerate(lines):
        base = y + 2.2 + row.size * POINT
        for line in of:
            page.pen.words(x[at], base, fit(line, max(x[at + 1] - x[at] - 1, 4)))
            base += LEAD
    for at in row.ticks:
        page.pen.tick(x[at] + 0.5, y + (height - 5) / 2)
    for at in row.boxes:
        page.pen.pencil(x[at], y + (height - row.box) / 2, x[at + 1] - x[at] - 2, row.box)

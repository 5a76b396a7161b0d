"""Rows of a list put on pages: heights added up, a page broken only between rows, the column heads on each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from frontwright.sheets.base import SIZES, Page
from frontwright.sheets.info import Paper
from frontwright.sheets.pen import OUTLINE, THIN
from frontwright.sheets.words import Words, fit, words

COLUMN_HEAD = 7.0


@dataclass(frozen=True, slots=True)
class Band:
    """A row: its height and what draws it from its upper edge. `keep`: never the last on a page (a group's head)."""

    height: float
    draw: Callable[[Page, float], None]
    keep: bool = False
    heavy: bool = False


def inside(paper: Paper, landscape: bool = False) -> tuple[float, float]:
    """Width between the inner margins, and height between the frame's top and the foot, in millimetres."""
    width, height = SIZES[paper] if not landscape else SIZES[paper][::-1]
    return width - 18 - 11 - 12, height - 2 * 11 - 13


def paged(bands: Sequence[Band], first: float, later: float) -> list[list[Band]]:
    """Bands shared out over pages with so much room on the first and on each later one; at least one page."""
    pages: list[list[Band]] = [[]]
    room = first
    for number, band in enumerate(bands):
        needed = band.height + (bands[number + 1].height if band.keep and number + 1 < len(bands) else 0)
        if needed > room and pages[-1]:
            pages.append([])
            room = later
        pages[-1].append(band)
        room -= band.height
    return pages


def draw_bands(page: Page, y: float, bands: Sequence[Band]) -> float:
    """The bands one under the other with a thin line between them; gives the height below."""
    for band in bands:
        band.draw(page, y)
        y += band.height
        page.pen.line(page.left, y, page.right, y, OUTLINE if band.heavy else THIN)
    return y


def column_heads(page: Page, y: float, heads: Sequence[tuple[str, float]]) -> float:
    """Small words over the columns and a line under them; gives the height below."""
    for label, x in heads:
        page.pen.words(x, y + 4.7, words(label, size=9, condensed=True))
    page.rule(y + COLUMN_HEAD, OUTLINE)
    return y + COLUMN_HEAD


def spread(page: Page, columns: Sequence[float]) -> tuple[float, ...]:
    """Where columns begin that are told in millimetres for a page with 169 between its inner margins."""
    unit = (page.x1 - page.x0) / 169
    return tuple(page.x0 + x * unit for x in columns)


@dataclass(frozen=True, slots=True)
class ListHead:
    """What stands over the rows of a list: its title, what is told at the right, a caution, and its columns."""

    title: str
    right: str
    note: str
    heads: tuple[str, ...]
    columns: tuple[float, ...]


def list_drawer(head: ListHead, bands: Sequence[Band], box: Words) -> Callable[[Page], None]:
    """Draws a page of a list, with what it rests on in a box where that is told."""

    def draw(page: Page) -> None:
        y = page.title(head.title, head.right, (head.note,))
        y = page.sentence(y, box) if box else y
        y = column_heads(page, y, tuple(zip(head.heads, spread(page, head.columns), strict=True)))
        draw_bands(page, y, bands)

    return draw


def title_band(line: Words, height: float = 9.0) -> Band:
    """A head inside the list."""
    return Band(height, lambda page, y: _title(page, y, line, height), keep=True)


def text_band(rows: Sequence[Words], lead: float = 5.6) -> Band:
    """Lines of words, already broken to the width."""
    return Band(len(rows) * lead + 3.0, lambda page, y: _rows(page, y, rows, lead))


def _title(page: Page, y: float, line: Words, height: float) -> None:
    page.pen.words(page.x0, y + height - 2.8, fit(line, page.x1 - page.x0))


def _rows(page: Page, y: float, rows: Sequence[Words], lead: float) -> None:
    for number, row in enumerate(rows):
        page.pen.words(page.x0, y + 5.4 + number * lead, row)

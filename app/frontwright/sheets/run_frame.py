"""The frame of a sheet of one run: its drawing across the first page, a list under it that goes on over more pages."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from frontwright.core.drawing.marks import Drawing
from frontwright.core.lengths import Display
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, paged
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.words import Words, words

HEAD = 13.5


@dataclass(frozen=True, slots=True)
class RunFrame:
    """What differs from sheet to sheet. `picture`: the height of the drawing on paper, in mm; `columns`: where each
    column begins on a page; `big`: whether it is said what the drawing shows larger than it is."""

    run: str
    title: str
    seen_from: str
    drawing: Drawing
    picture: float
    heads: Sequence[str]
    columns: Callable[[Page], tuple[float, ...]]
    bands: Callable[[float], Sequence[Band]]
    big: bool = False


def run_leaves(frame: RunFrame, info: SheetInfo, display: Display, paper: Paper, number: str) -> list[Leaf]:
    """The pages of the sheet with this number: the drawing and the list, on more pages for more of it."""
    width, height = inside(paper, landscape=True)
    box = standing(info, display)
    placed = Placed(frame.drawing, medium("bench"))
    scale = placed.scale(width, frame.picture - 3)
    room = height - HEAD - COLUMN_HEAD
    pages = paged(list(frame.bands(width)), room - frame.picture - sentence_height(box, width), room)
    cells = (("seen from", frame.seen_from), ("scale", said_scale(scale)))

    def drawer(bands: Sequence[Band], first: bool) -> Callable[[Page], None]:
        def draw(page: Page) -> None:
            y = page.head(frame.run, words(frame.title, size=15, bold=True), _said_big(frame), HEAD)
            if first:
                y = page.sentence(y, box) if box else y
                placed.draw(page, page.x0, y + 1.5, page.x1 - page.x0, frame.picture - 3, scale)
                y += frame.picture
                page.rule(y)
            heads = tuple(zip(frame.heads, frame.columns(page), strict=True))
            draw_bands(page, column_heads(page, y, heads), bands)

        return draw

    name = f"{number}  {info.title}"
    return [Leaf(drawer(page, not at), name, cells, landscape=True) for at, page in enumerate(pages)]


def _said_big(frame: RunFrame) -> Words:
    return words(frame.drawing.exaggerated, size=10) if frame.big else ()

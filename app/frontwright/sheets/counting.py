"""The list of counting day: shelf by shelf what is thought to lie there, with boxes for what is found."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from frontwright.core.job import HardwareLot, Piece
from frontwright.core.stock.counting import Shelf
from frontwright.sheets.base import Leaf, Page, title_height
from frontwright.sheets.info import Paper
from frontwright.sheets.listing import (
    COLUMN_HEAD,
    Band,
    ListHead,
    inside,
    list_drawer,
    paged,
    spread,
    title_band,
)
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.words import fit, strong, typed_size, words

TITLE = "Counting day"
NOTE = (
    "Walk along the shelves. Write how many are there; none is 0. What lies elsewhere, or is of another size: write it "
    "beside."
)
HEADS = ("piece", "what", "length × width × thickness", "thought", "found", "remarks", "last seen")
COLUMNS = (0.0, 22.0, 62.0, 106.0, 121.0, 136.0, 150.0)
ROW, BOX = 9.0, 12.0


def leaves(shelves: Sequence[Shelf], seen: Mapping[str, str], paper: Paper) -> list[Leaf]:
    """The shelves one after the other; `seen`: the day each piece was last seen. At least one page."""
    width, height = inside(paper)
    room = height - title_height((NOTE,), width) - COLUMN_HEAD
    pages = paged(list(_bands(shelves, seen)), room, room)
    count = sum(len(shelf.pieces) + len(shelf.lots) for shelf in shelves)
    said = f"{count} {'entry' if count == 1 else 'entries'}"
    head = ListHead(TITLE, said, NOTE, HEADS, COLUMNS)
    cells = (("goes to", "rack"), ("counted by", ""))
    return [Leaf(list_drawer(head, page, ()), "12  counting day", cells) for page in pages]


def _bands(shelves: Sequence[Shelf], seen: Mapping[str, str]) -> Iterator[Band]:
    for shelf in shelves:
        yield title_band(words(strong(f"Shelf {shelf.name}" if shelf.name else "Without a shelf"), size=12))
        yield from (_piece(piece, seen.get(piece.id, "")) for piece in shelf.pieces)
        yield from (_lot(lot) for lot in shelf.lots)


def _piece(piece: Piece, seen: str) -> Band:
    what = " ".join(text for text in (piece.species, piece.form, piece.batch) if text)
    size = "".join(typed_size(piece.length, piece.width, piece.thickness))
    state = f"{what}, {piece.state}" if piece.state == "in work" else what
    return Band(ROW, _drawer((piece.id, state, size, str(piece.count), "", "", seen or "never")))


def _lot(lot: HardwareLot) -> Band:
    return Band(ROW, _drawer((lot.id, lot.what, "", str(lot.count), "", "", "")))


def _drawer(texts: Sequence[str]) -> Callable[[Page, float], None]:
    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, spread(page, COLUMNS), y + 6.2
        for at, (text, left) in enumerate(zip(texts, x, strict=True)):
            end = x[at + 1] if at + 1 < len(x) else page.x1
            line = words(text, size=11 if at != 6 else 8.5, bold=at == 0, condensed=at == 6)
            if text:
                pen.words(left, base, fit(line, end - left - 1.5))
        left, high, right, low = x[4], y + 1.5, x[4] + BOX, y + ROW - 1.5
        for a, b in ((left, high), (right, high)), ((left, low), (right, low)):
            pen.line(*a, *b, OUTLINE)
        for at_x in (left, right):
            pen.line(at_x, high, at_x, low, OUTLINE)

    return draw

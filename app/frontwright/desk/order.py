"""The order in which a page's cells are filled: as things are measured, so that Enter moves to the next reading."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.desk.contents import Cell, PageContents, Table
from frontwright.desk.keys import parts_of

_TYPED_INTO = ("length", "number", "count")
_FROM_THE_END = ("edge left", "edge right", "edge low", "edge high")


def cells(page: PageContents) -> Iterator[Cell]:
    """Every cell of a page, band by band, table by table, row by row."""
    for band in page.bands:
        for block in band:
            if isinstance(block, Table):
                for row in block.rows:
                    yield from row.cells
            else:
                for line in block.lines:
                    yield line.cell


def cells_of(page: PageContents) -> dict[str, Cell]:
    """The cells of a page by their keys."""
    return {cell.key: cell for cell in cells(page) if cell.key}


def measuring_order(page: PageContents) -> tuple[str, ...]:
    """Keys of the cells that can be filled, in their order."""
    return tuple(cell.key for cell in cells(page) if cell.editable)


def next_key(page: PageContents, key: str) -> str:
    """The cell after this one in measuring order: the next that is typed into and not chosen; empty after the last.

    A run is read either across, member by member, or from one end of the tape: after a reading of one kind those of
    the other are passed over, for they are worked out.
    """
    order = [cell for cell in cells(page) if cell.editable]
    at = next((i for i, cell in enumerate(order) if cell.key == key), None)
    if at is None:
        return ""
    if order[at].then:
        return order[at].then
    if order[at].kind in _TYPED_INTO:
        other = _other_way(key)
        rest = (cell.key for cell in order[at + 1 :] if cell.kind in _TYPED_INTO)
        return next((place for place in rest if _what(place) not in other), "")
    return next((cell.key for cell in order[at + 1 :]), "")


def first_of(page: PageContents, subject: str) -> str:
    """The first cell of a subject that is typed into, else the first that can be filled; empty where it has none."""
    own = [cell for cell in cells(page) if cell.editable and cell.subject == subject]
    return next((cell.key for cell in own if cell.kind in _TYPED_INTO), own[0].key if own else "")


def _what(key: str) -> str:
    """What a reading is of ("across", "edge left"); empty for any other cell."""
    parts = parts_of(key)
    return parts[2] if parts[0] == "readings" and len(parts) > 2 else ""


def _other_way(key: str) -> tuple[str, ...]:
    what = _what(key)
    return ("across",) if what in _FROM_THE_END else _FROM_THE_END if what == "across" else ()

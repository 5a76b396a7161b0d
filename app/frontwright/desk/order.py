"""The order in which a page's cells are filled: as things are measured, so that Enter moves to the next reading."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.desk.contents import Cell, PageContents, Table


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
    """The cell after this one in measuring order: the next that is typed into and not chosen; empty after the last."""
    order = [cell for cell in cells(page) if cell.editable]
    at = next((i for i, cell in enumerate(order) if cell.key == key), None)
    if at is None:
        return ""
    if order[at].then:
        return order[at].then
    typed_into = ("length", "number", "count")
    if order[at].kind in typed_into:
        return next((cell.key for cell in order[at + 1 :] if cell.kind in typed_into), "")
    return next((cell.key for cell in order[at + 1 :]), "")

"""Counting day: the shelves in the order in which one walks along them; and the lots of hardware."""

from __future__ import annotations

from frontwright.core.job import HardwareLot, Piece
from frontwright.core.stock.counting import Shelf, along_the_shelves, last_seen
from frontwright.core.stock.lots import kept_of
from frontwright.core.stock.rack import Rack, in_unit
from frontwright.desk.contents import Action, Cell, Column, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.view import RACK, View, words
from frontwright.desk.rack_entry import COUNTED, KEPT
from frontwright.desk.wording.numbers import count_of, length_text


def counting_table(view: View, rack: Rack) -> Table:
    """What is thought to lie on each shelf; the number found is typed: another one is a correction in the ledger."""
    columns = (
        Column("shelf, piece", axis=False),
        Column("what", axis=False, share=2),
        Column("size", axis=False),
        Column("thought"),
        Column("counted"),
        Column("last seen", axis=False),
    )
    seen = last_seen(rack)
    rows: list[TableRow] = []
    for shelf in along_the_shelves(rack):
        aside = count_of(len(shelf.pieces) + len(shelf.lots), "entry", "entries")
        rows.append(
            TableRow("", (words(f"Shelf {shelf.name}" if shelf.name else "Without a shelf"),), head=True, aside=aside)
        )
        rows += [_piece_row(view, piece, seen.get(piece.id, "")) for piece in shelf.pieces]
        rows += [_lot_row(lot) for lot in shelf.lots]
    aside = "along the shelves; the same number again: it was looked at"
    return Table("counting", "Counting day", aside, columns, tuple(rows), _actions(view, rack))


def _actions(view: View, rack: Rack) -> tuple[Action, ...]:
    """Everything on the shelf of the selected piece is there."""
    shelf = next((one for one in along_the_shelves(rack) if view.selected in {p.id for p in one.pieces}), None)
    if shelf is None:
        shelf = next((one for one in along_the_shelves(rack) if one.pieces), None)
    return (_all_there(shelf),) if shelf is not None else ()


def _all_there(shelf: Shelf) -> Action:
    name = f"shelf {shelf.name}" if shelf.name else "what has no shelf"
    return Action(key("rack-look", *(piece.id for piece in shelf.pieces)), f"All of {name} is there")


def _piece_row(view: View, piece: Piece, seen: str) -> TableRow:
    piece = in_unit(piece, view.unit)
    what = " ".join(word for word in (piece.species, piece.form, piece.batch) if word)
    sizes = [
        one.value for one in (piece.length, piece.width, piece.thickness) if one is not None and one.value is not None
    ]
    size = " × ".join(length_text(one, view.display) for one in sizes)
    cells = (
        words(piece.id, piece.id, bold=True),
        words(what, piece.id),
        words(size, piece.id),
        words(str(piece.count), piece.id),
        _counted("pieces", piece.id),
        words(seen or "never", piece.id),
    )
    return TableRow(piece.id, cells)


def _lot_row(lot: HardwareLot) -> TableRow:
    cells = (
        words(lot.id, lot.id, bold=True),
        words(lot.what, lot.id),
        words("", lot.id),
        words(str(lot.count), lot.id),
        _counted("lots", lot.id),
        words("", lot.id),
    )
    return TableRow(lot.id, cells)


def _counted(table: str, row: str) -> Cell:
    return Cell(key(f"{RACK}{table}", row, COUNTED), "count", "", None, (), row, f"counted, {row}")


def lots_table(view: View, rack: Rack) -> Table:
    """Hardware on hand, and how many of each are kept for this job and for others."""
    columns = (
        Column("lot", axis=False),
        Column("what", axis=False, share=2),
        Column("pieces"),
        Column("for this job", axis=False),
        Column("for others", axis=False),
        Column("shelf", axis=False),
        Column("price"),
        Column("note", axis=False, share=2),
    )
    there = view.rack is not None and view.rack.is_there
    rows = tuple(_kept_row(view, rack, lot) for lot in rack.lots.values())
    actions = (Action(key("rack-lot"), "A new lot"),) if there else ()
    return Table("lots", "Hardware on hand", "hinges by the name of their type", columns, rows, actions)


def _kept_row(view: View, rack: Rack, lot: HardwareLot) -> TableRow:
    mine, others = kept_of(rack.reservations.values(), lot.id, view.rack.mark if view.rack is not None else "")
    place = key(f"{RACK}lots", lot.id, KEPT)
    kept = Cell(place, "count", str(mine or ""), None, (), lot.id, f"kept for this job, of {lot.id}")
    what, count, shelf, price, note = (
        view.rack_entry("lots", lot, name) for name in ("what", "count", "shelf", "price", "note")
    )
    cells = (words(lot.id, lot.id, bold=True), what, count, kept, words(str(others or ""), lot.id), shelf, price, note)
    return TableRow(lot.id, cells)

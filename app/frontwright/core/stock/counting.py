"""Counting day: the shelves in the order in which one walks along them, and what nobody has looked at for a year."""

from __future__ import annotations

import re
from dataclasses import dataclass

from frontwright.core.job import HardwareLot, Piece
from frontwright.core.stock.rack import GONE, Rack


@dataclass(frozen=True, slots=True)
class Shelf:
    """A shelf with what the rack believes to lie on it; "" holds what has no place."""

    name: str
    pieces: tuple[Piece, ...]
    lots: tuple[HardwareLot, ...]


def along_the_shelves(rack: Rack) -> tuple[Shelf, ...]:
    """Every shelf with something on it, A2 before A10; what has no place comes last."""
    pieces = [piece for piece in rack.pieces.values() if piece.state not in GONE]
    names = {piece.shelf.strip() for piece in pieces} | {lot.shelf.strip() for lot in rack.lots.values()}
    return tuple(_shelf(rack, pieces, name) for name in sorted(names, key=lambda name: (not name, in_order(name))))


def _shelf(rack: Rack, pieces: list[Piece], name: str) -> Shelf:
    here = sorted((one for one in pieces if one.shelf.strip() == name), key=lambda one: in_order(one.id))
    lots = sorted((one for one in rack.lots.values() if one.shelf.strip() == name), key=lambda one: in_order(one.id))
    return Shelf(name, tuple(here), tuple(lots))


def in_order(name: str) -> tuple[tuple[bool, int, str], ...]:
    """A key by which names sort as people count: B2 before B10."""
    return tuple((not part.isdecimal(), int(part) if part.isdecimal() else 0, part) for part in _parts(name))


def _parts(name: str) -> list[str]:
    return [part for part in re.split(r"(\d{1,9})", name.casefold()) if part]


def last_seen(rack: Rack) -> dict[str, str]:
    """The day each piece was last seen, reserved or moved, by its own dates and the ledger; empty if never."""
    last = {piece.id: max(piece.looked[:10], piece.came[:10]) for piece in rack.pieces.values()}
    for made in rack.moves.values():
        for name in (made.line.piece, *made.line.born):
            last[name] = max(made.line.when[:10], last.get(name, ""))
    return last


def not_looked_at(rack: Rack, today: str) -> tuple[Piece, ...]:
    """The pieces that are there and that nobody has seen or moved for a year, `today` being written 2026-12-20."""
    since, seen = year_before(today), last_seen(rack)
    return tuple(one for one in rack.pieces.values() if one.state not in GONE and seen[one.id] < since)


def year_before(today: str) -> str:
    """The same day of the year before, as text; text that is no date gives the empty one, before which nothing is."""
    found = re.fullmatch(r"(\d{4})(-\d\d-\d\d).*", today, re.DOTALL)
    return f"{int(found[1]) - 1:04}{found[2]}" if found else ""

"""What the buttons of the rack do: verbs with the pieces they are about."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from inspect import signature
from typing import TYPE_CHECKING

from frontwright.core.job import Table
from frontwright.core.lengths import Unit
from frontwright.desk.edits.edit import Refused
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.wording.numbers import count_of
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.sheets.catalogue import Paper

Said = str
COUNTING_LIST = "counting day"  # the key by which the list of counting day is printed


def _reserve(rack: RackDesk, *pieces: str) -> Said:
    said = rack.reserve(pieces)
    return said or f"{_these(pieces)} reserved for this job"


def _reserve_until(rack: RackDesk, piece: str, until: str, why: str = "") -> Said:
    return rack.reserve((piece,), until=until, why=why) or f"{piece} is reserved to {until}"


def _reserve_some(rack: RackDesk, piece: str, count: str) -> Said:
    return rack.reserve((piece,), count=_number(piece, count)) or f"{count} of {piece} are reserved"


def _release(rack: RackDesk, piece: str) -> Said:
    return rack.release(piece) or f"{piece} is free for others"


def _release_for(rack: RackDesk, piece: str, why: str) -> Said:
    return rack.release_for(piece, why) or f"{piece} is free; the job that held it is told"


def _let_go(rack: RackDesk, piece: str) -> Said:
    return rack.let_go(piece) or f"The job counts on {piece} no longer"


def _take(rack: RackDesk, piece: str) -> Said:
    return rack.take(piece) or f"{piece} is in work"


def _use_up(rack: RackDesk, piece: str) -> Said:
    return rack.use_up(piece) or f"{piece} is used up"


def _burn(rack: RackDesk, piece: str) -> Said:
    return rack.burn(piece) or f"{piece} is burned"


def _look(rack: RackDesk, *pieces: str) -> Said:
    return rack.look(pieces) or f"{_these(pieces)} seen today"


def _count(rack: RackDesk, piece: str, count: str, why: str) -> Said:
    return rack.count(piece, _number(piece, count), why) or f"{piece}: {count} counted"


def _take_in(rack: RackDesk) -> Said:
    return rack.take_into_rack() or "The rack has the pieces of this job now, reserved for it"


def _take_over(rack: RackDesk, piece: str) -> Said:
    return rack.take_over(piece) or f"{piece} is in the job as it is on the rack"


def _take_back(rack: RackDesk) -> Said:
    name = rack.undo_name
    return rack.undo() or f"Taken back: {name}"


def _no_defect(rack: RackDesk, piece: str, defect: str) -> Said:
    rest = [one for one in rack.rack.defects_of(piece) if one.id != defect]
    return rack.change_defects(piece, rest) or f"{piece} is without the bad place {defect}"


def _these(pieces: tuple[str, ...]) -> str:
    return f"{pieces[0]} is" if len(pieces) == 1 else f"{count_of(len(pieces), 'piece')} are"


def _number(piece: str, text: str) -> int:
    if not text.strip().isdecimal() or len(text) > 6:
        raise Refused(f"{piece}: “{text}” is no number of pieces; write one such as 4.")
    return int(text)


RACK_VERBS: dict[str, Callable[..., Said]] = {
    "rack-reserve": _reserve,
    "rack-reserve-until": _reserve_until,
    "rack-reserve-some": _reserve_some,
    "rack-release": _release,
    "rack-release-for": _release_for,
    "rack-let-go": _let_go,
    "rack-take": _take,
    "rack-use-up": _use_up,
    "rack-burn": _burn,
    "rack-look": _look,
    "rack-count": _count,
    "rack-take-in": _take_in,
    "rack-take-over": _take_over,
    "rack-take-back": _take_back,
    "rack-no-defect": _no_defect,
}


def rack_act(rack: RackDesk, verb: str, objects: list[str]) -> Said:
    """Do what a button of the rack says; a notice comes back. Refused with one sentence where it cannot be."""
    act = RACK_VERBS[verb]
    try:
        signature(act).bind(rack, *objects)
    except TypeError as wrong:
        raise Refused(f"“{verb}” takes other objects than {', '.join(objects) or 'none'}.") from wrong
    return act(rack, *objects)


def counting_list_pdf(rack: RackDesk, unit: Unit, paper: Paper, when: str) -> bytes | str:
    """The list of counting day as a PDF, sizes in this unit; one sentence where the rack cannot be read."""
    from frontwright.core.stock.counting import along_the_shelves, last_seen
    from frontwright.sheets.catalogue import Stamp, counting_list

    try:
        whole = rack.rack
    except StoreError as error:
        return str(error)
    shelves = along_the_shelves(replace(whole, pieces=Table(rack.pieces_in(unit).values())))
    return counting_list(shelves, last_seen(whole), paper, "", Stamp(1, when))

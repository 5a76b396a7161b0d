"""Lists for a spreadsheet, out of an open job and into it: its parts, what it takes and costs, the pieces of wood."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from frontwright.core.job import AsBuilt, Piece
from frontwright.core.plan import Plan, quoted
from frontwright.core.stock.lots import kept_of
from frontwright.core.stock.rack import GONE, Rack, in_unit
from frontwright.desk.contents import Outcome
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.whole_files import write_whole
from frontwright.desk.wording.numbers import count_of
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.core.bill.result import WholeBill
    from frontwright.desk.rack_desk import RackDesk
    from frontwright.exchange.rack_list import PiecesIn
    from frontwright.exchange.tables import Table

LIST_FILES = (".xlsx", ".csv")
LISTS = ("parts", "stock", "pull", "purchases", "costs", "hours", "quote", "rack", "defects", "hardware")


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What a list brings: sizes that were measured, or pieces of wood."""

    sizes: tuple[AsBuilt, ...] = ()
    pieces: PiecesIn | None = None

    @property
    def empty(self) -> bool:
        """Whether the job has it all already."""
        return not self.sizes and (self.pieces is None or not (self.pieces.new or self.pieces.changed))

    @property
    def edit(self) -> Edit:
        """The edit that takes the sizes in."""
        said = f"{count_of(len(self.sizes), 'size')} as built taken in"
        return Edit("take in a parts list", lambda job: job.put(*self.sizes), said=said)


def tables(
    plan: Plan, bill: WholeBill, pieces: Iterable[Piece], rack: Rack | None = None, mark: str = ""
) -> dict[str, Table]:
    """Every list of a job by its name.

    `rack`: bad places and hardware are those of the whole rack, which knows the job by its mark; else the job's own.
    """
    from frontwright.exchange.orders import order_tables
    from frontwright.exchange.parts_list import parts_table
    from frontwright.exchange.rack_list import defects_table, hardware_table, pieces_table
    from frontwright.sheets.bill_words import conditions

    found = {"parts": parts_table(plan), **order_tables(plan, bill, quoted(plan, bill), conditions)}
    unit, there = plan.job.heading.unit, rack or Rack()
    others = [in_unit(one, unit) for one in there.defects.values() if one.piece not in plan.job.pieces]
    kept = {lot: kept_of(there.reservations.values(), lot, mark) for lot in there.lots}
    return found | {
        "rack": pieces_table(pieces, unit),
        "defects": defects_table([*plan.job.defects.values(), *others], unit),
        "hardware": hardware_table(there.lots.values(), kept, unit),
    }


def list_bytes(name: str, found: dict[str, Table], which: str = "") -> bytes:
    """The list called `which` in the form that the file's name asks for; else all in a workbook, the parts as CSV.

    Refused where there is no such list, or where it cannot be written.
    """
    from frontwright.exchange.tables import BadTable, table_bytes

    if which and which not in found:
        raise Refused(f"There is no list “{which}”: the lists are {', '.join(found)}.")
    chosen = which or ("parts" if name.lower().endswith(".csv") else "")
    try:
        return table_bytes(name, [found[chosen]] if chosen else list(found.values()))
    except BadTable as bad:
        raise Refused(str(bad)) from bad


def taken_in(plan: Plan, name: str, content: bytes, there: dict[str, Piece]) -> TakenIn:
    """What a list brings, parts or pieces by its columns; `there`: the pieces that the job and the rack have.

    Refused, in one sentence with row and column, where any cell of it cannot be taken in.
    """
    from frontwright.exchange.parts_list import sizes_from
    from frontwright.exchange.rack_list import pieces_from
    from frontwright.exchange.tables import BadTable, names_of, raw_rows

    try:
        columns = names_of(raw_rows(name, content))
        if "part" in columns:
            return TakenIn(sizes_from(plan, name, content))
        if "piece" in columns:
            return TakenIn(pieces=pieces_from(name, content, plan.job.heading.unit, there))
    except BadTable as bad:
        raise Refused(str(bad)) from bad
    raise Refused("A list is of parts or of pieces: its first row names a column “part” or “piece”.")


class Changing(Protocol):
    """An open job that edits are made on."""

    def do(self, edit: Edit) -> Outcome:
        """Make an edit a step of the job."""

    def take_anew(self) -> None:
        """Work out what follows from the job as it is now."""


class ListDesk:
    """The lists of an open job."""

    def __init__(self, plan: Callable[[], Plan], bill: Callable[[], WholeBill], rack: RackDesk, job: Changing) -> None:
        self._plan = plan
        self._bill = bill
        self._rack = rack
        self._job = job

    def save(self, path: Path, which: str = "") -> Outcome:
        """Write the lists to a place, or the one called `which`."""
        try:
            write_whole(path, self.content(path.name, which))
        except (Refused, StoreError) as error:
            return Outcome(problem=str(error))
        except OSError as error:
            return Outcome(problem=f"{path} cannot be written: {error.strerror or error}; choose another place.")
        return Outcome(said=f"{path.name} is written")

    def content(self, name: str, which: str = "") -> bytes:
        """What stands in a file of this name: the lists, or the one called `which`; Refused where it cannot be."""
        return list_bytes(name, self._tables(), which)

    def _tables(self) -> dict[str, Table]:
        rack = self._rack.rack if self._rack.is_there else None
        return tables(self._plan(), self._bill(), self._wood().values(), rack, self._rack.mark)

    def take_in(self, path: Path) -> Outcome:
        """Take a list of parts or of pieces in, whole or not at all."""
        try:
            brought = taken_in(self._plan(), path.name, _content(path), self._wood())
            if brought.empty:
                return Outcome(said=f"{path.name} brings nothing new")
            if brought.pieces is None:
                return self._job.do(brought.edit)
            new, changed = brought.pieces.new, brought.pieces.changed
            said = self._rack.take_in(new, changed)
        except (Refused, StoreError) as error:
            return Outcome(problem=f"{path.name}: {error}")
        except OSError as error:
            return Outcome(problem=f"{path} cannot be read: {error.strerror or error}.")
        self._job.take_anew()
        return Outcome(said=f"{count_of(len(new), 'new piece')}, {len(changed)} changed. {said}".strip())

    def _wood(self) -> dict[str, Piece]:
        """The pieces of the rack and of the job, in its unit."""
        job = self._plan().job
        there = self._rack.rack.pieces.values() if self._rack.is_there else ()
        found = {one.id: in_unit(one, job.heading.unit) for one in there if one.state not in GONE}
        return found | dict(job.pieces.items())


def _content(path: Path) -> bytes:
    """What is in a file; Refused where it is too much for a list."""
    from frontwright.exchange.tables import MOST_BYTES

    if path.stat().st_size > MOST_BYTES:
        raise Refused("it is larger than 20 MB, which is too much for a list.")
    return path.read_bytes()

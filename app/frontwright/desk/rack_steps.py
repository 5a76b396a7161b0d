"""The rack beside an open job, and both sides of every step that moves wood.

A step of the job that moves wood goes three ways, each whole by itself: the job keeps the step with what it means to do
on the rack; the rack does it; the job hears that it is done. Where the rack refuses, the step is taken back. What was
cut short between is finished when the job is opened next.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from frontwright.core.job import Defect, Job, Move, MoveKind, Piece, Reservation
from frontwright.core.lengths import Unit, typed
from frontwright.core.stock.agreement import known_to
from frontwright.core.stock.ancestry import not_yet_told
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.moves import after_all
from frontwright.core.stock.rack import Rack, RackMove, RackRow, in_unit
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id
from frontwright.desk.rack_following import (
    all_renamed,
    made_differs,
    named,
    of_this_rack,
    renamed_piece,
    touched,
    with_defects,
)
from frontwright.desk.remembered import Remembered, RowByRow
from frontwright.desk.wording.numbers import count_of
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.store.files import JobFile, ShopFile
    from frontwright.store.outbox import Intent

_KEPT = (
    "The rack's file could not be written, nor the job's to take the step back: the job keeps it, and the rack follows "
    "by itself once there is room on the disk."
)
_NO_RACK = "There is no shop file open, and the rack is in it."


class RackSteps:
    """The rack for one open job; `now` gives the day and time that moves are noted with."""

    def __init__(self, book: JobFile, file: ShopFile | None, problem: str, now: Callable[[], str]) -> None:
        self._book = book
        self._file = file
        self._problem = problem
        self._now = now
        self._seen: Rack | None = None
        self._changes = 0
        self.remembered = Remembered()
        self._each = RowByRow[Piece]()
        self._made_here: list[tuple[RackMove, int]] = []  # moves of the rack alone, made in this sitting

    @property
    def is_there(self) -> bool:
        """Whether there is a shop file, and so a rack."""
        return self._file is not None

    @property
    def problem(self) -> str:
        """Why there is no shop file, in a sentence; empty where there is one, or none was asked for."""
        return "" if self.is_there else self._problem

    @property
    def rack(self) -> Rack:
        """The rack as its file has it now, empty where there is no shop file; StoreError if it cannot be read."""
        return self._file.rack if self._file is not None else Rack()

    def pieces_in(self, unit: Unit) -> Mapping[str, Piece]:
        """Every piece of the rack with its lengths in this unit."""
        pieces = self.rack.pieces
        return self.remembered.get(
            "in unit", (pieces, unit), lambda: self._each.of(pieces, unit, lambda piece: in_unit(piece, unit))
        )

    @property
    def seen(self) -> int:
        """How often the rack was seen changed, by whatever program; 0 where it cannot be read."""
        if self._file is None:
            return 0
        try:
            rack = self._file.rack
        except StoreError:
            return 0
        if rack is not self._seen:
            self._seen, self._changes = rack, self._changes + 1
        return self._changes

    @property
    def mark(self) -> str:
        """What the rack knows this job by."""
        return self._book.mark

    @property
    def today(self) -> str:
        """The day of what is done now."""
        return self._now()[:10]

    def next_name(self, like: str, given: Sequence[str] = ()) -> str:
        """A name for a new piece, counted on from one like it, that is none of rack, job and those `given` just now."""
        return free_id([*self.rack.pieces, *self._book.job.pieces, *given], like)

    def apply(self, edit: Edit) -> Edit:
        """Make an edit of the job a step; what it does to pieces that the rack has, or gets by it, is done there too.

        The edit as it was done comes back: new pieces under names that are free on the rack, and a notice in `said`.
        Refused with the rack's sentence, the job as it was, where the wood does not allow it.
        """
        before = self._book.job
        after = edit.change(before)
        if self._file is None or (after.pieces == before.pieces and after.defects == before.defects):
            self._book.apply(edit.name, edit.change, edit.field)
            return replace(edit, said=self._told(before))
        edit = self._named_freely(edit, before, after)
        return replace(edit, said=self._carried(edit, self._followed(before, edit.change(before))))

    def swap(self, *, back: bool) -> str:
        """Take the job's last step back, or do it again, on the rack too; Refused, all as it was, if it is too late."""
        before = self._book.job
        if self._file is None and self._book.carries(back=back):
            raise Refused(f"This step moved wood on the rack. {self._problem or _NO_RACK}")
        self._finished()
        _ = self._book.undo() if back else self._book.redo()
        return self._finished() or self._told(before)

    def settle(self) -> str:
        """Finish what was cut short; a notice of what could not be, empty where all is well."""
        if self._file is None:
            waiting = sum(len(intent.moves) for intent in self._book.intents())
            return f"{count_of(waiting, 'move')} of wood wait for the rack. {self._problem}" if waiting else ""
        try:
            return self._finished() or self._told(None)
        except (Refused, StoreError) as error:
            return str(error)

    def make(self, *moves: RackMove) -> str:
        """Moves that are no step of the job, all or none; Refused with the rack's sentence."""
        self._try(moves)
        assert self._file is not None  # noqa: S101  else `_try` has refused
        try:
            made = self._file.make(*moves)
            self._made_here += [(one, self._book.step) for one in made]
        except MoveRefused as refused:
            raise Refused(str(refused)) from refused
        return ""

    def _carried(self, edit: Edit, moves: Sequence[RackMove]) -> str:
        """A step with its moves; those are tried before anything is written."""
        before = self._book.job
        if not moves:
            self._book.apply(edit.name, edit.change, edit.field)
            return self._told(before)
        self._finished()
        self._try(moves)
        self._book.apply(edit.name, edit.change, edit.field, outbox=moves)
        return self._finished() or self._told(before)

    def _try(self, moves: Sequence[RackMove]) -> Rack:
        """The rack as it would be; Refused with its sentence."""
        if self._file is None:
            raise Refused(self._problem or _NO_RACK)
        try:
            return after_all(self.rack, moves)
        except MoveRefused as refused:
            raise Refused(str(refused)) from refused

    def _finished(self) -> str:
        """Make and confirm what the job means to do."""
        if self._file is None:
            return ""
        for intent in self._book.intents():
            self._finish(self._file, intent)
        return ""

    def _finish(self, file: ShopFile, intent: Intent) -> None:
        try:
            file.make(*of_this_rack(file.rack, intent))
        except MoveRefused as refused:
            if not self._book.take_back(intent):
                raise Refused(f"{refused} The job has gone on since: put it right there.") from refused
            raise Refused(str(refused)) from refused
        except StoreError as error:
            self._not_written(file, intent, error)
        with suppress(StoreError):  # both sides have it; what cannot be written now is confirmed with the next step
            self._book.confirm(*(move.id for move in intent.moves))

    def _not_written(self, file: ShopFile, intent: Intent, error: StoreError) -> None:
        """The shop file cannot be written. If it can be read, and the moves are not in it, the job's step goes back."""
        try:
            rack = file.rack
            made = all(move.id in rack.moves for move in of_this_rack(rack, intent))
        except StoreError:
            raise StoreError(
                f"{error} The job keeps its step; the rack follows when its file is there again."
            ) from error
        if made:
            return
        try:
            self._book.take_back(intent)
        except StoreError as full:
            raise StoreError(_KEPT) from full
        raise error

    def _named_freely(self, edit: Edit, before: Job, after: Job) -> Edit:
        """The edit with new pieces under names that no other piece of the rack has."""
        there = self.rack.pieces
        fresh = [piece for piece in after.pieces if piece not in before.pieces and piece in there]
        if not fresh or renamed_piece(before, after):
            return edit
        anew: dict[str, str] = {}
        for old in fresh:
            anew[old] = free_id([*there, *after.pieces, *anew.values()], old)
        change = edit.change
        return replace(
            edit, change=lambda job: all_renamed(change(job), anew), select=anew.get(edit.select, edit.select)
        )

    def _followed(self, before: Job, after: Job) -> list[RackMove]:
        """The moves that an edit of the job's pieces is for the rack."""
        rack = self.rack
        called = renamed_piece(before, after)
        known = known_to(rack, self.mark)
        if called:
            return [self._move("rename", called[0], born=(called[1],))] if called[0] in known else []
        moves: list[RackMove] = []
        for piece in touched(before, after):
            moves += self._follow(rack, known, before, after, piece)
        return moves

    def _follow(self, rack: Rack, known: set[str], before: Job, after: Job, piece: str) -> list[RackMove]:
        was, now = with_defects(before, piece), with_defects(after, piece)
        if not was and piece not in known:
            return self._brought(now)
        if piece not in known or piece not in rack.pieces:
            return []
        if not now:
            held = rack.reservations.get(piece)
            return [self._move("release", piece)] if held is not None and held.job == self.mark else []
        return [self._move("change", piece, rows=now, was=was)]

    def _brought(self, rows: tuple[RackRow, ...]) -> list[RackMove]:
        piece = rows[0].id
        return [self._move("come", piece, rows=rows), self._move("reserve", piece, rows=(self._reservation(piece),))]

    def _move(self, kind: MoveKind, piece: str, **given: Any) -> RackMove:
        from frontwright.store.outbox import new_id

        rows, was = given.pop("rows", ()), given.pop("was", ())
        line = Move(new_id(), kind, piece, job=self.mark, name=self._name, when=self._now(), **given)
        return RackMove(line, tuple(rows), tuple(was))

    @property
    def _name(self) -> str:
        return self._book.job.heading.name or self._book.path.stem

    def _reservation(self, piece: str, until: str = "", why: str = "", much: str = "") -> Reservation:
        length = typed(much, self._book.job.heading.unit) if much else None
        return Reservation(piece, self.mark, self._name, length, until=until, why=why)

    def _copied(self, rack: Rack, pieces: Sequence[str]) -> Callable[[Job], Job]:
        """The job with its copies of these pieces, lengths in its own unit."""

        def change(job: Job) -> Job:
            unit = job.heading.unit
            for name in pieces:
                row = in_unit(rack.pieces[name], unit)
                defects = [in_unit(one, unit) for one in rack.defects_of(name)]
                job = job.drop(Defect, *(one.id for one in job.defects.values() if one.piece == name))
                job = job.put(row, *defects)
            return job

        return change

    def _told(self, before: Job | None) -> str:
        """The ledger has what became of each piece; told anew where the job's own record of it changed."""
        job = self._book.job
        if self._file is None or (before is not None and not made_differs(before, job)):
            return ""
        lines = list(not_yet_told(self.rack, job, self.mark, self._name))
        if not lines:
            return ""
        try:
            self._file.make(*(self._move("made into", line.piece, parts=line.parts) for line in lines))
        except (StoreError, MoveRefused) as error:
            return f"What was made of {named([line.piece for line in lines])} is not in the ledger yet: {error}"
        return ""

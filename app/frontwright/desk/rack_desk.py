"""The rack beside an open job: what the job takes of it, what it brings, and both sides of every such step.

A step of the job that moves wood goes three ways, each whole by itself: the job keeps the step with what it means to do
on the rack; the rack does it; the job hears that it is done. Where the rack refuses, the step is taken back. What was
cut short between is finished when the job is opened next.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from frontwright.core.assumed import wettest
from frontwright.core.job import Defect, HardwareLot, Job, Move, MoveKind, Piece, Reservation
from frontwright.core.lengths import Display, typed
from frontwright.core.stock.agreement import disagreements, known_to, not_in_rack
from frontwright.core.stock.ancestry import made_by, names, not_yet_told, pieces_of
from frontwright.core.stock.counting import not_looked_at
from frontwright.core.stock.moves import MoveRefused, after_all
from frontwright.core.stock.rack import Rack, RackMove, RackRow, in_unit, over
from frontwright.core.stock.search import Asking, Search, found, understood
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, renamed, without
from frontwright.desk.remembered import Remembered
from frontwright.desk.wording.numbers import count_of
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.store.files import JobFile, ShopFile
    from frontwright.store.outbox import Intent

_DONE = {"come": "new", "look": "looked at", "rename": "name of", "use up": "used up"}
_NO_RACK = "There is no shop file open, and the rack is in it."


class RackDesk:
    """The rack for one open job; `now` gives the day and time that moves are noted with."""

    def __init__(self, book: JobFile, file: ShopFile | None, problem: str, now: Callable[[], str]) -> None:
        self._book = book
        self._file = file
        self._problem = problem
        self._now = now
        self._seen: Rack | None = None
        self._changes = 0
        self.remembered = Remembered()
        self._made_here: list[tuple[RackMove, int]] = []  # moves of the rack alone, made in this sitting

    # -- what is there

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

    def disagreements(self) -> tuple[str, ...]:
        """One sentence each where this job and the rack say different things of a piece."""
        return tuple(disagreements(self._book.job, self.rack, self.mark))

    def to_be_taken_in(self) -> tuple[Piece, ...]:
        """The pieces of this job that the rack has never had: an older job's, or entered while it was not there."""
        return not_in_rack(self._book.job, self.rack, self.mark) if self._file is not None else ()

    def search(self, text: str, display: Display, selected: str = "") -> tuple[Search, tuple[Piece, ...]]:
        """A question as a person asks it, as it was understood, and the pieces that answer it, lengths in this unit."""
        rack, job = self.rack, self._book.job
        asked = [front for front in job.fronts if front.casefold() in text.casefold() or front == selected]
        batches = {front: {piece.batch for piece in self.came_of(front)} for front in asked}
        limits = job.limits.get("limits")
        asking = Asking(rack, display, batches, selected, wettest(limits.moisture_most if limits else None))
        search = understood(text, asking)
        return search, tuple(in_unit(piece, display.unit) for piece in found(rack, search))

    def came_of(self, subject: str) -> tuple[Piece, ...]:
        """The pieces that a front, part, leaf or billet of this job came of."""
        made = made_by(self._book.job)
        own = [piece for piece, parts in made.items() if any(names(part, subject) for part in parts)]
        here = tuple(self._book.job.pieces[piece] for piece in own if piece in self._book.job.pieces)
        return tuple({piece.id: piece for piece in (*here, *pieces_of(self.rack, subject, self.mark))}.values())

    def over(self) -> tuple[Reservation, ...]:
        """The reservations, of whatever job, that are past their date."""
        return tuple(over(self.rack, self._now()))

    def not_looked_at(self) -> tuple[Piece, ...]:
        """The pieces that nobody has seen or moved for a year."""
        return not_looked_at(self.rack, self._now())

    # -- steps of the job

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
            file.make(*_of_this_rack(file.rack, intent))
        except MoveRefused as refused:
            if not self._book.take_back(intent):
                raise Refused(f"{refused} The job has gone on since: put it right there.") from refused
            raise Refused(str(refused)) from refused
        except StoreError as error:
            self._not_written(file, intent, error)
        self._book.confirm(*(move.id for move in intent.moves))

    def _not_written(self, file: ShopFile, intent: Intent, error: StoreError) -> None:
        """The shop file cannot be written. If it can be read, and the moves are not in it, the job's step goes back."""
        try:
            rack = file.rack
            made = all(move.id in rack.moves for move in _of_this_rack(rack, intent))
        except StoreError:
            raise StoreError(
                f"{error} The job keeps its step; the rack follows when its file is there again."
            ) from error
        if not made:
            self._book.take_back(intent)
            raise error

    # -- what an edit of the job does to the rack

    def _named_freely(self, edit: Edit, before: Job, after: Job) -> Edit:
        """The edit with new pieces under names that no other piece of the rack has."""
        there = self.rack.pieces
        fresh = [piece for piece in after.pieces if piece not in before.pieces and piece in there]
        if not fresh or _renamed_piece(before, after):
            return edit
        anew: dict[str, str] = {}
        for old in fresh:
            anew[old] = free_id([*there, *after.pieces, *anew.values()], old)
        change = edit.change
        return replace(
            edit, change=lambda job: _all_renamed(change(job), anew), select=anew.get(edit.select, edit.select)
        )

    def _followed(self, before: Job, after: Job) -> list[RackMove]:
        """The moves that an edit of the job's pieces is for the rack."""
        rack = self.rack
        called = _renamed_piece(before, after)
        known = known_to(rack, self.mark)
        if called:
            return [self._move("rename", called[0], born=(called[1],))] if called[0] in known else []
        moves: list[RackMove] = []
        for piece in _touched(before, after):
            moves += self._follow(rack, known, before, after, piece)
        return moves

    def _follow(self, rack: Rack, known: set[str], before: Job, after: Job, piece: str) -> list[RackMove]:
        was, now = _with_defects(before, piece), _with_defects(after, piece)
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

    # -- what a job does with pieces of the rack

    def reserve(
        self, pieces: Sequence[str], *, count: int | None = None, until: str = "", why: str = "", much: str = ""
    ) -> str:
        """Count on these pieces, or on `count` of alike ones, or on so `much` of their length: the job has them."""
        rack = self.rack
        moves: list[RackMove] = []
        taken: list[str] = []
        for piece in pieces:
            stands = rack.pieces.get(piece)
            wanted = stands.count if stands is not None and count is None else count or 0
            part = stands is not None and wanted < stands.count
            taken.append(self.next_name(piece, taken) if part else piece)
            held = self._reservation(piece, until, why, much)
            moves.append(self._move("reserve", piece, count=wanted, born=(taken[-1],) if part else (), rows=(held,)))
        after = self._try(moves)
        return self._carried(Edit(f"reserve {_named(taken)}", self._copied(after, taken)), moves)

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

    def release(self, piece: str) -> str:
        """Count on a piece no longer: the job is without it, and it is free for others."""
        edit = Edit(f"release {piece}", lambda job: without(job, "pieces", piece))
        return self._carried(edit, [self._move("release", piece)])

    def let_go(self, piece: str) -> str:
        """The job is without a piece that is another's by now; the rack stays as it is."""
        return self._carried(Edit(f"let {piece} go", lambda job: without(job, "pieces", piece)), [])

    def take(self, piece: str) -> str:
        """Take a piece from its shelf: it is in work."""
        return self._moved(piece, "take", f"take {piece}")

    def use_up(self, piece: str, count: int | None = None) -> str:
        """Nothing is left of a piece, or of so many of alike ones."""
        return self._moved(piece, "use up", f"use up {piece}", count)

    def burn(self, piece: str, count: int | None = None) -> str:
        """A piece, or so many of alike ones, is not worth its place."""
        return self._moved(piece, "burn", f"burn {piece}", count)

    def _moved(self, piece: str, kind: MoveKind, name: str, count: int | None = None) -> str:
        stands = self.rack.pieces.get(piece)
        move = self._move(kind, piece, count=count or (stands.count if stands else 1))
        after = self._try([move])
        if kind != "take" and piece not in self._book.job.pieces:
            return self.make(move)
        return self._carried(Edit(name, self._copied(after, [piece])), [move])

    def cut(
        self,
        edit: Edit,
        piece: str,
        born: Sequence[Piece] = (),
        *,
        parts: Sequence[str] = (),
        ends: bool = True,
        count: int = 1,
        bad: Sequence[Defect] = (),
    ) -> str:
        """A ticked cut: the job's edit, and on the rack what is left of the piece (`core.stock.born.born`) with its
        bad places.

        `ends`: it was the last cut, the piece is used up; else it is in work. `parts`: what the job has of it.
        """
        move = self._move("cut", piece, rows=(*born, *bad), parts=tuple(parts), ends=ends, count=count)
        move = replace(move, line=replace(move.line, born=tuple(one.id for one in born)))
        copy = self._copied(self._try([move]), [piece])
        return self._carried(replace(edit, change=lambda job: copy(edit.change(job))), [move])

    def uncut(self, edit: Edit, piece: str, letting_go: Sequence[str], *, all_of_it: bool) -> str:
        """Ticked cuts taken back: the job's edit, and on the rack these leftovers were never born; others of it stay.

        `all_of_it`: nothing was cut of the piece, it is as before; else it is in work.
        """
        move = self._move("join back", piece, born=tuple(letting_go), ends=all_of_it)
        copy = self._copied(self._try([move]), [piece])
        return self._carried(replace(edit, change=lambda job: copy(edit.change(job))), [move])

    def take_one(self, edit: Callable[[str], Edit], piece: str) -> str:
        """One of several alike pieces under a name of its own; `edit` is made with that name."""
        name = self.next_name(piece)
        move = self._move("reserve", piece, count=1, born=(name,), rows=(self._reservation(name),))
        copy = self._copied(self._try([move]), [piece, name])
        made = edit(name)
        return self._carried(replace(made, change=lambda job: made.change(copy(job))), [move])

    def take_into_rack(self) -> str:
        """What the job has and the rack has never had goes to the rack, reserved for this job, under free names."""
        rack, pieces = self.rack, self.to_be_taken_in()
        if not pieces:
            raise Refused("The rack has all pieces of this job already.")
        anew: dict[str, str] = {}
        for piece in pieces:
            taken = [*rack.pieces, *self._book.job.pieces, *anew.values()]
            anew[piece.id] = free_id(taken, piece.id) if piece.id in rack.pieces else piece.id

        def change(job: Job) -> Job:
            return _all_renamed(job, anew)

        after = change(self._book.job)
        moves = [move for name in anew.values() for move in self._brought(_with_defects(after, name, free=True))]
        return self._carried(Edit(f"take {_named(list(anew.values()))} into the rack", change), moves)

    @property
    def today(self) -> str:
        """The day of what is done now."""
        return self._now()[:10]

    def next_name(self, like: str, given: Sequence[str] = ()) -> str:
        """A name for a new piece, counted on from one like it, that is none of rack, job and those `given` just now."""
        return free_id([*self.rack.pieces, *self._book.job.pieces, *given], like)

    def moved_on(self) -> tuple[Piece, ...]:
        """The job's pieces of which the rack now says something else than the job's copy, as the rack has them."""
        rack, job = self.rack, self._book.job
        known = known_to(rack, self.mark)
        there = [
            in_unit(rack.pieces[name], job.heading.unit) for name in job.pieces if name in known & set(rack.pieces)
        ]
        return tuple(piece for piece in there if piece != job.pieces[piece.id])

    def take_over(self, piece: str) -> str:
        """What the rack says of a piece goes into the job's copy."""
        return self._carried(Edit(f"take over {piece} from the rack", self._copied(self.rack, [piece])), [])

    # -- what is done on the rack alone

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

    def come(self, piece: Piece, defects: Sequence[Defect] = ()) -> str:
        """A new piece on the rack."""
        return self.make(self._move("come", piece.id, rows=(piece, *defects)))

    def look(self, pieces: Sequence[str]) -> str:
        """These pieces were seen in their places."""
        return self.make(*(self._move("look", piece) for piece in pieces))

    def count(self, name: str, count: int, why: str, found_as: Piece | None = None) -> str:
        """Counting day: so many are there (none: it is gone), of these sizes and on this shelf where that differs."""
        return self.make(self._move("count", name, count=count, why=why, rows=(found_as,) if found_as else ()))

    def release_for(self, piece: str, why: str) -> str:
        """End another job's reservation, with the reason; that job is told when it is opened."""
        return self.make(self._move("release", piece, why=why))

    def change(self, piece: Piece) -> str:
        """Other fields of a piece, here and in this job where it has the piece."""
        if piece.id in self._book.job.pieces:
            return self.apply(Edit(f"change {piece.id}", lambda job: job.put(piece))).said
        rack = self.rack
        stands, defects = rack.pieces.get(piece.id), rack.defects_of(piece.id)
        was = () if stands is None else (in_unit(stands, self._book.job.heading.unit), *defects)
        return self.make(self._move("change", piece.id, rows=(piece, *defects), was=was))

    def take_in(self, new: Sequence[Piece], changed: Sequence[Piece]) -> str:
        """The pieces of a list, all or none: those that the job has in the job, the others on the rack if there is one.

        A piece of which the list counts more or less than there were is corrected by counting.
        """
        mine = [one for one in (*new, *changed) if self._file is None or one.id in self._book.job.pieces]
        others = [self._listed(one) for one in (*new, *changed) if one not in mine]
        if others:
            self._try(others)
        said = self.apply(Edit("take in a list of pieces", lambda job: job.put(*mine))).said if mine else ""
        return said if not others else " ".join(part for part in (said, self.make(*others)) if part)

    def _listed(self, piece: Piece) -> RackMove:
        """The move that makes a piece of the rack what a list says."""
        rack = self.rack
        stands, defects = rack.pieces.get(piece.id), rack.defects_of(piece.id)
        if stands is None:
            return self._move("come", piece.id, rows=(piece,))
        if piece.count != stands.count:
            return self._move("count", piece.id, count=piece.count, why="as a list says", rows=(piece,))
        unit = self._book.job.heading.unit
        was = (in_unit(stands, unit), *(in_unit(one, unit) for one in defects))
        return self._move("change", piece.id, rows=(piece, *was[1:]), was=was)

    def change_defects(self, piece: str, defects: Sequence[Defect]) -> str:
        """The bad places of a piece, all of them as they are now, here and in this job where it has the piece."""
        if piece in self._book.job.pieces:
            return self.apply(Edit(f"bad places of {piece}", lambda job: _with_bad_places(job, piece, defects))).said
        rack, unit = self.rack, self._book.job.heading.unit
        stands = in_unit(rack.pieces[piece], unit)
        was = (stands, *(in_unit(one, unit) for one in rack.defects_of(piece)))
        return self.make(self._move("change", piece, rows=(stands, *defects), was=was))

    def rename(self, piece: str, new: str) -> str:
        """Another name on the label of a piece, here and in this job where it has the piece."""
        job = self._book.job
        if new in job.pieces:
            raise Refused(f"There is {new} in this job already: choose another name.")
        if piece in job.pieces:
            return self.apply(Edit(f"rename {piece} {new}", lambda before: renamed(before, "pieces", piece, new))).said
        return self.make(self._move("rename", piece, born=(new,)))

    def put_lot(self, lot: HardwareLot) -> str:
        """A lot of hardware that has come, or other fields of one that is there."""
        stands = self.rack.lots.get(lot.id)
        if stands is None:
            return self.make(self._move("come", lot.id, rows=(lot,)))
        return self.make(self._move("change", lot.id, rows=(lot,), was=(stands,)))

    @property
    def undo_name(self) -> str:
        """The move of the rack alone that `undo` takes back; empty if there was none in this sitting."""
        if not self._made_here:
            return ""
        line = self._made_here[-1][0].line
        return f"{_DONE.get(line.kind, line.kind)} {line.piece}"

    @property
    def undoes_last(self) -> bool:
        """Whether the last thing done was on the rack alone: no step of the job came after it."""
        return bool(self._made_here) and self._made_here[-1][1] == self._book.step

    def undo(self) -> str:
        """Take back the last move that was made on the rack alone in this sitting."""
        if not self._made_here:
            raise Refused("Nothing was done on the rack alone that could be taken back.")
        last, _ = self._made_here.pop()
        counter = self._move("take back", last.line.piece, undoes=last.id)
        self._try([counter])
        assert self._file is not None  # noqa: S101
        self._file.make(counter)
        return ""

    # -- what the job made of the wood

    def _told(self, before: Job | None) -> str:
        """The ledger has what became of each piece; told anew where the job's own record of it changed."""
        job = self._book.job
        if self._file is None or (before is not None and not _made_differs(before, job)):
            return ""
        lines = list(not_yet_told(self.rack, job, self.mark, self._name))
        if not lines:
            return ""
        try:
            self._file.make(*(self._move("made into", line.piece, parts=line.parts) for line in lines))
        except (StoreError, MoveRefused) as error:
            return f"What was made of {_named([line.piece for line in lines])} is not in the ledger yet: {error}"
        return ""


def _of_this_rack(rack: Rack, intent: Intent) -> list[RackMove]:
    """The moves of an intent without those that take back what this rack never did: it is another, or new."""
    return [move for move in intent.moves if move.line.kind != "take back" or move.line.undoes in rack.moves]


def _made_differs(before: Job, after: Job) -> bool:
    names = ("billets", "leaves", "laid", "laid_parts", "cuts_done")
    if all(getattr(before, name) is getattr(after, name) for name in names):
        return False
    return made_by(before) != made_by(after)


def _with_bad_places(job: Job, piece: str, defects: Sequence[Defect]) -> Job:
    return job.drop(Defect, *(one.id for one in job.defects.values() if one.piece == piece)).put(*defects)


def _all_renamed(job: Job, anew: dict[str, str]) -> Job:
    for old, new in anew.items():
        job = job if old == new else renamed(job, "pieces", old, new)
    return job


def _named(pieces: Sequence[str]) -> str:
    return pieces[0] if len(pieces) == 1 else count_of(len(pieces), "piece")


def _with_defects(job: Job, piece: str, *, free: bool = False) -> tuple[RackRow, ...]:
    """A piece of the job with its bad places; nothing if the job has it not."""
    found = job.pieces.get(piece)
    if found is None:
        return ()
    row = replace(found, state="free") if free else found
    return (row, *(one for one in job.defects.values() if one.piece == piece))


def _touched(before: Job, after: Job) -> list[str]:
    """The pieces that differ between two states of a job, in themselves or by a bad place."""
    pieces = [
        key for key in dict.fromkeys([*before.pieces, *after.pieces]) if before.pieces.get(key) != after.pieces.get(key)
    ]
    defects = [
        row.piece
        for key in dict.fromkeys([*before.defects, *after.defects])
        if before.defects.get(key) != after.defects.get(key)
        for row in (before.defects.get(key), after.defects.get(key))
        if row is not None
    ]
    return list(dict.fromkeys([*pieces, *defects]))


def _renamed_piece(before: Job, after: Job) -> tuple[str, str] | None:
    """Old and new name, where all that happened to the pieces is that one is called otherwise."""
    gone = [piece for piece in before.pieces if piece not in after.pieces]
    new = [piece for piece in after.pieces if piece not in before.pieces]
    if len(gone) != 1 or len(new) != 1:
        return None
    same = replace(before.pieces[gone[0]], id=new[0]) == after.pieces[new[0]]
    return (gone[0], new[0]) if same else None

"""What a job does with pieces of the rack: count on them, take them, cut them, let them go."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from frontwright.core.job import Defect, Job, MoveKind, Piece
from frontwright.core.stock.agreement import disagreements, known_to, not_in_rack
from frontwright.core.stock.ancestry import made_by, names, pieces_of
from frontwright.core.stock.candidates import Wood, wood
from frontwright.core.stock.rack import RackMove, in_unit
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, without
from frontwright.desk.rack_following import all_renamed, named, with_defects
from frontwright.desk.rack_steps import RackSteps

LAID_ON = "parts of the job are laid on it"  # why a piece is reserved by laying


class JobWood(RackSteps):
    """Pieces of the rack for one open job."""

    def disagreements(self) -> tuple[str, ...]:
        """One sentence each where this job and the rack say different things of a piece."""
        return tuple(disagreements(self._book.job, self.rack, self.mark))

    def to_be_taken_in(self) -> tuple[Piece, ...]:
        """The pieces of this job that the rack has never had: an older job's, or entered while it was not there."""
        return not_in_rack(self._book.job, self.rack, self.mark) if self._file is not None else ()

    def came_of(self, subject: str) -> tuple[Piece, ...]:
        """The pieces that a front, part, leaf or billet of this job came of."""
        made = made_by(self._book.job)
        own = [piece for piece, parts in made.items() if any(names(part, subject) for part in parts)]
        here = tuple(self._book.job.pieces[piece] for piece in own if piece in self._book.job.pieces)
        return tuple({piece.id: piece for piece in (*here, *pieces_of(self.rack, subject, self.mark))}.values())

    def moved_on(self) -> tuple[Piece, ...]:
        """The job's pieces of which the rack now says something else than the job's copy, as the rack has them."""
        rack, job = self.rack, self._book.job
        known = known_to(rack, self.mark)
        there = [
            in_unit(rack.pieces[name], job.heading.unit) for name in job.pieces if name in known & set(rack.pieces)
        ]
        return tuple(piece for piece in there if piece != job.pieces[piece.id])

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
        return self._carried(Edit(f"reserve {named(taken)}", self._copied(after, taken)), moves)

    def reserve_for(self, wanted: Mapping[str, int], why: str, edit: Callable[[Mapping[str, str]], Edit]) -> str:
        """So many of each of these pieces, and an edit of the job that needs them, as one step.

        `edit` is made with the names that the pieces have in the job: of alike ones a part gets a name of its own.
        """
        rack, called, moves = self.rack, dict[str, str](), list[RackMove]()
        for piece, count in wanted.items():
            stands = rack.pieces.get(piece)
            part = stands is not None and count < stands.count
            called[piece] = self.next_name(piece, list(called.values())) if part else piece
            held = self._reservation(piece, why=why)
            moves.append(self._move("reserve", piece, count=count, born=(called[piece],) if part else (), rows=(held,)))
        copied, made = self._copied(self._try(moves), list(called.values())), edit(called)
        return self._carried(replace(made, change=lambda job: made.change(copied(job))), moves)

    def free_wood(self) -> Wood:
        """The pieces of the rack that are nobody's and this job's own none, lengths in its unit."""
        rack, job = self.rack, self._book.job

        def made() -> Wood:
            unit = job.heading.unit
            nobodys = [
                piece
                for piece in self.pieces_in(unit).values()
                if piece.state == "free" and piece.id not in rack.reservations and piece.id not in job.pieces
            ]
            return wood(nobodys, (in_unit(one, unit) for one in rack.defects.values()))

        return self.remembered.get("free", (rack, job.pieces, job.heading), made)

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
            return all_renamed(job, anew)

        after = change(self._book.job)
        moves = [move for name in anew.values() for move in self._brought(with_defects(after, name, free=True))]
        return self._carried(Edit(f"take {named(list(anew.values()))} into the rack", change), moves)

    def take_over(self, piece: str) -> str:
        """What the rack says of a piece goes into the job's copy."""
        return self._carried(Edit(f"take over {piece} from the rack", self._copied(self.rack, [piece])), [])

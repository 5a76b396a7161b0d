"""What is done on the rack alone, beside the job's own steps: what comes, counting day, fields, lots; and its undo."""

from __future__ import annotations

from collections.abc import Sequence

from frontwright.core.job import Defect, HardwareLot, Piece
from frontwright.core.stock.rack import RackMove, in_unit
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import renamed
from frontwright.desk.rack_following import with_bad_places
from frontwright.desk.rack_steps import RackSteps

_DONE = {"come": "new", "look": "looked at", "rename": "name of", "use up": "used up"}


class RackAlone(RackSteps):
    """Moves of the rack that are no steps of a job."""

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
            return self.apply(Edit(f"bad places of {piece}", lambda job: with_bad_places(job, piece, defects))).said
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

    def keep_of_lot(self, lot: str, count: int) -> str:
        """Keep so many of a lot for this job, in place of what it kept before; none: it keeps nothing any more."""
        if count == 0:
            return self.make(self._move("release", lot))
        return self.make(self._move("reserve", lot, count=count))

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

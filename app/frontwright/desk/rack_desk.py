"""The rack for one open job, whole: what the job takes of it, what is done on it alone, and how it is searched."""

from __future__ import annotations

from frontwright.core.assumed import wettest
from frontwright.core.job import Piece, Reservation
from frontwright.core.lengths import Display
from frontwright.core.stock.counting import not_looked_at
from frontwright.core.stock.rack import Rack, over
from frontwright.core.stock.search import Asking, Search, found, understood
from frontwright.desk.rack_alone import RackAlone
from frontwright.desk.rack_wood import JobWood
from frontwright.store import StoreError


class RackDesk(JobWood, RackAlone):
    """The rack beside an open job."""

    _to_see_to: tuple[Rack, object, str, int] | None = None  # what was counted last, and of what

    def search(self, text: str, display: Display, selected: str = "") -> tuple[Search, tuple[Piece, ...]]:
        """A question as a person asks it, as it was understood, and the pieces that answer it, lengths in this unit."""
        rack, job = self.rack, self._book.job
        asked = [front for front in job.fronts if front.casefold() in text.casefold() or front == selected]
        batches = {front: {piece.batch for piece in self.came_of(front)} for front in asked}
        limits = job.limits.get("limits")
        asking = Asking(rack, display, batches, selected, wettest(limits.moisture_most if limits else None), self.today)
        search = understood(text, asking)
        here = self.pieces_in(display.unit)
        return search, tuple(here[piece.id] for piece in found(rack, search))

    def over(self) -> tuple[Reservation, ...]:
        """The reservations, of whatever job, that are past their date."""
        return tuple(over(self.rack, self._now()))

    def not_looked_at(self) -> tuple[Piece, ...]:
        """The pieces that nobody has seen or moved for a year."""
        return not_looked_at(self.rack, self._now())

    def to_see_to(self) -> int:
        """How many things the rack asks to be seen to: what job and rack say differently, reservations that are over.

        One where the rack cannot be read.
        """
        try:
            rack = self.rack
        except StoreError:
            return 1
        if not self.is_there:
            return 0
        of = (rack, self._book.job.pieces, self.today)
        kept = self._to_see_to
        if kept is None or kept[0] is not rack or kept[1] is not of[1] or kept[2] != of[2]:
            self._to_see_to = kept = (*of, len(self.disagreements()) + len(self.over()))
        return kept[3]

"""The rack for one open job, whole: what the job takes of it, what is done on it alone, and how it is searched."""

from __future__ import annotations

from frontwright.core.assumed import wettest
from frontwright.core.job import Piece, Reservation
from frontwright.core.lengths import Display
from frontwright.core.stock.counting import not_looked_at
from frontwright.core.stock.rack import over
from frontwright.core.stock.search import Asking, Search, found, understood
from frontwright.desk.rack_alone import RackAlone
from frontwright.desk.rack_wood import JobWood


class RackDesk(JobWood, RackAlone):
    """The rack beside an open job."""

    def search(self, text: str, display: Display, selected: str = "") -> tuple[Search, tuple[Piece, ...]]:
        """A question as a person asks it, as it was understood, and the pieces that answer it, lengths in this unit."""
        rack, job = self.rack, self._book.job
        asked = [front for front in job.fronts if front.casefold() in text.casefold() or front == selected]
        batches = {front: {piece.batch for piece in self.came_of(front)} for front in asked}
        limits = job.limits.get("limits")
        asking = Asking(rack, display, batches, selected, wettest(limits.moisture_most if limits else None))
        search = understood(text, asking)
        here = self.pieces_in(display.unit)
        return search, tuple(here[piece.id] for piece in found(rack, search))

    def over(self) -> tuple[Reservation, ...]:
        """The reservations, of whatever job, that are past their date."""
        return tuple(over(self.rack, self._now()))

    def not_looked_at(self) -> tuple[Piece, ...]:
        """The pieces that nobody has seen or moved for a year."""
        return not_looked_at(self.rack, self._now())

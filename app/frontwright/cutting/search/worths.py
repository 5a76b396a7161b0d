"""What it costs to leave a part out, learned: parts that find no place for long come to cost more.

A search may stand for long at plans that all leave out the same few parts. Once these cost more than others it leaves
out others and rearranges the pieces on the way. All parts of one size change together, and the sum of all stays.
"""

from __future__ import annotations

import numpy as np

from frontwright.cutting.search.rebuild import Work, left_out
from frontwright.cutting.search.tree import LOST, Trees

PATIENCE = 1000  # rounds without a gain
GROWTH = 1.3


class Worths:
    """The worth of each part in one search."""

    def __init__(self, work: Work) -> None:
        self.work = work._replace(worth=work.worth.copy())
        self._least, self._waited = np.inf, 0

    def learn(self, best: Trees, rounds: int) -> bool:
        """Hear what was left out at least after so many rounds more; whether the worths have changed by it.

        Then what was least before means nothing any longer.
        """
        least = left_out(best, self.work)
        if least < self._least:
            self._least, self._waited = least, 0
        else:
            self._waited += rounds
        if self._waited < PATIENCE:
            return False
        self._raise(best)
        self.forget()
        return True

    def forget(self) -> None:
        """Begin to wait anew."""
        self._least, self._waited = np.inf, 0

    def _raise(self, best: Trees) -> None:
        """Let the parts without a place cost more, with all that have the same size."""
        work = self.work
        lost = best.lost[: int(best.state[LOST])]
        sizes = np.sort(work.sizes, axis=1).astype(np.int64)
        kinds = sizes[:, 0] * (int(sizes.max()) + 1) + sizes[:, 1]
        total = work.worth.sum()
        work.worth[np.isin(kinds, kinds[lost])] *= GROWTH
        work.worth[:] *= total / work.worth.sum()

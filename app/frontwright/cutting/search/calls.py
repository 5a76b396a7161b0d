"""When the packing library is called, and for how long.

Beside a search whose steps are counted in rounds the moments of the calls do not hang on how long the search may last,
so that a longer search goes through the steps of a shorter one first. Elsewhere a call has a share of the time.
"""

from __future__ import annotations

from frontwright.cutting.counting import plan_of
from frontwright.cutting.search.caller import Caller
from frontwright.cutting.search.keep import Clock, Keeper
from frontwright.cutting.values import Layout

FIRST, TIMES = 2.0, 5  # seconds that the first call serves; each later one serves so many times as long
SHARE, AHEAD = 0.2, 0.35  # of these seconds that it has; the second where it was better than ours


class Calls:
    """The library's calls beside one search."""

    def __init__(self, keeper: Keeper, clock: Clock, caller: Caller) -> None:
        self._keeper, self._clock, self._caller = keeper, clock, caller
        self._whole = clock.deadline - clock.start
        self._due, self._end = 0.0, FIRST

    def when_due(self) -> None:
        """Call it at the start, and again after 2, 10, 50 s; where it was behind, one of these is left out."""
        elapsed = self._clock.now - self._clock.start
        if elapsed < self._due or self._keeper.proven:
            return
        while self._end <= elapsed:
            self._step()
        keeps_up = self._keeps_up(min(self._end, self._whole))
        self._step()
        if not keeps_up:
            self._step()

    def _step(self) -> None:
        self._due, self._end = self._end, self._end * TIMES

    def for_a_share(self) -> None:
        """Call it now for its share of the whole time."""
        self._keeps_up(self._whole)

    def _keeps_up(self, seconds: float) -> bool:
        """Call it for its share of these seconds, for longer where it is better; whether it is as good as ours."""
        keeper, costs = self._keeper, list[int]()

        def found(layouts: list[Layout]) -> None:
            plan = plan_of(keeper.order, layouts, keeper.bound)
            costs.append(plan.cost)
            keeper.keep(plan)

        for share in (SHARE, AHEAD):
            before = keeper.best
            if not keeper.proven:
                self._caller.lay(min(self._clock.left, share * seconds), found)
            if keeper.best.cost == before.cost and keeper.best.whole == before.whole:
                break
        return bool(costs) and min(costs) <= keeper.best.cost

"""One search by taking away and putting back: begun from nothing, driven on below each plan it finds."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic

import numpy as np

from frontwright.cutting.search.narrowing import narrow, used
from frontwright.cutting.search.rebuild import (
    Manner,
    Work,
    emptiest,
    leave_piece,
    left_out,
    put_back,
    rounds,
    sow,
    use_piece,
)
from frontwright.cutting.search.tree import LIMIT, LOST, OPEN_PRICE, Trees, copy, empty, twin
from frontwright.cutting.search.work import Task, layouts_of
from frontwright.cutting.search.worths import Worths
from frontwright.cutting.values import Layout

_NO_LIMIT = 2**62
_UNKNOWN = 1e300
_STRETCH = 2000  # rounds between two looks at what is worth most
_MOST_ROUNDS = 400  # between two looks at the clock
_BURST = 40_000  # rounds times parts between two looks at the clock

Found = Callable[[list[Layout]], None]

STEADY = Manner(0.01, 7.0, 0.3, 0.0, 0.2, 200, np.array((0, 0, 1, 2, 3), np.int64))
CHOOSING = STEADY._replace(rules=np.array((0, 5, 6, 6, 6), np.int64))  # where not all can be laid
CHANGING = STEADY._replace(swap=0.02, lean=1.0)  # where pieces of several sizes are to be chosen from


def manner_for(task: Task) -> Manner:
    """How to search where pieces are alike, and where they are to be chosen."""
    return STEADY if len(task.forms) == 1 else CHANGING


class Climb:
    """The state of one search. Same task, manner, seed and number of rounds: same trees."""

    def __init__(self, task: Task, manner: Manner, seed: int) -> None:
        """Everything laid once by best fit, with as many pieces as that takes."""
        work = task.work
        self.task, self.manner = task, manner._replace(lean=manner.lean / _largest(task))
        self.trees = empty(len(task.items), len(work.type_of), len(work.regions))
        self.trees.state[LIMIT] = _NO_LIMIT
        self._history = np.full(manner.history, _UNKNOWN)
        sow(seed)
        for piece in np.flatnonzero(work.kept).tolist():
            use_piece(self.trees, work, piece)
        put_back(self.trees, work, self.manner._replace(blink=0.0), np.zeros(len(task.items)))
        self.best, self._spare = twin(self.trees), twin(self.trees)
        self.harvest: Found | None = None  # hears how pieces are laid now and then, whole or not
        self.good: Trees | None = None  # the last in which every part had a place
        self._worths: Worths | None = None  # where all parts shall find a place below a limit, they are learned

    @property
    def whole(self) -> bool:
        """Every part has a place."""
        return int(self.trees.state[LOST]) == 0

    @property
    def price(self) -> int:
        """Of the pieces in use."""
        return int(self.trees.state[OPEN_PRICE])

    @property
    def left_out(self) -> float:
        """Worth of what has no place in the best trees since the limit was last lowered."""
        return float(left_out(self.best, self._work))

    @property
    def _work(self) -> Work:
        return self.task.work if self._worths is None else self._worths.work

    def layouts(self) -> list[Layout]:
        """Of the trees that leave out least of all since the limit was last lowered."""
        return layouts_of(self.task, self.best)

    def keep(self) -> None:
        """Remember the trees as good ones."""
        self.afresh()
        self.good = twin(self.trees)

    def lower(self, limit: int) -> None:
        """Take pieces out of use, the emptiest first, until they come to no more than the limit."""
        if self._worths is None:
            self._worths = Worths(self.task.work)
        self.trees.state[LIMIT] = limit
        while self.price > limit:
            piece = emptiest(self.trees, self.task.work)
            if piece < 0:
                break
            leave_piece(self.trees, self.task.work, piece)
        self.afresh()

    def afresh(self) -> None:
        """Forget how earlier rounds stood, and what was best."""
        self._history[:] = _UNKNOWN
        copy(self.trees, self.best)
        if self._worths is not None:
            self._worths.forget()

    def go(self, count: int, deadline: float) -> int:
        """Search on until every part has a place, for so many rounds or to the deadline; rounds there were."""
        done, burst = 0, max(20, min(_MOST_ROUNDS, _BURST // max(1, len(self.task.items))))
        while done < count and not self.whole and monotonic() < deadline:
            most = min(burst, count - done)
            made = rounds(self.trees, self._spare, self.best, self._work, self.manner, self._history, most)
            done += made
            self._learn(made)
            if self.harvest is not None:
                self.harvest(layouts_of(self.task, self.trees))
        return done

    def _learn(self, made: int) -> None:
        if self._worths is not None and not self.whole and self._worths.learn(self.best, made):
            self.afresh()

    def rearrange(self, trees: Trees) -> None:
        """Go on from these trees."""
        copy(trees, self.trees)
        self.afresh()

    def depth_of(self, region: int, side: int) -> int:
        """How much of a region is in use along a side."""
        return int(used(self.trees, int(self.trees.roots[region]), side))

    def cut_down(self, region: int, side: int, size: int) -> None:
        """Make a region no larger than so much along a side; what stands there loses its place."""
        root = int(self.trees.roots[region])
        over = int(self.trees.nodes[root, side]) - size
        if over > 0:
            narrow(self.trees, root, side, over)
        self.afresh()


def _largest(task: Task) -> float:
    regions = task.work.regions.astype(np.int64)
    return float((regions[:, 0] * regions[:, 1]).max()) if len(regions) else 1.0


def fewer(climb: Climb, target: int, count: int, deadline: float, found: Found) -> bool:
    """Lower the price of the pieces in use, plan by plan; True where the target is reached."""
    if not climb.whole:
        count -= climb.go(count, deadline)
    while climb.whole:
        climb.keep()
        found(climb.layouts())
        if climb.price <= target:
            return True
        if count <= 0 or monotonic() >= deadline:
            return False
        climb.lower(climb.price - 1)
        count -= climb.go(count, deadline)
    return False


def lower_edge(climb: Climb, region: int, side: int, bound: int, count: int, deadline: float, found: Found) -> int:
    """Bring down what is used of a region along a side, plan by plan, while every part fits; what was reached."""
    reached = climb.depth_of(region, side)
    while climb.whole and reached > bound and count > 0 and monotonic() < deadline:
        climb.cut_down(region, side, reached - 1)
        count -= climb.go(count, deadline)
        if climb.whole:
            climb.keep()
            reached = climb.depth_of(region, side)
            found(climb.layouts())
    return reached


def most(climb: Climb, count: int, deadline: float, found: Found) -> None:
    """Lay what is worth most; the rest is left out."""
    found(climb.layouts())
    while count > 0 and monotonic() < deadline and not climb.whole:
        before = climb.left_out
        count -= climb.go(min(count, _STRETCH), deadline)
        if climb.left_out < before:
            found(climb.layouts())

"""A longer search takes the steps of a shorter one first; the library is called at the same moments in both."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field

import pytest
from frontwright.cutting.search import run
from frontwright.cutting.search.caller import Caller
from frontwright.cutting.search.calls import Calls
from frontwright.cutting.search.climb import Climb, Found
from frontwright.cutting.search.keep import Keeper
from frontwright.cutting.search.prepare import PREPARING
from frontwright.cutting.values import Layout, Order, Placed, Plan, Stock, Wanted

HALF, WHOLE = Placed(0, 0, 0, 50, 80), Placed(0, 50, 0, 50, 80)
ORDER = Order((Wanted("a", 50, 80, 2),), (Stock("s", 100, 80, None),))
TWO_SHEETS = [Layout(0, (HALF,), 2)]
ONE_SHEET = [Layout(0, (HALF, WHOLE))]


@dataclass
class TimeTold:
    """A clock that a test sets."""

    deadline: float
    start: float = 0.0
    now: float = 0.0

    @property
    def left(self) -> float:
        return self.deadline - self.now


@dataclass
class LibraryTold:
    """Calls noted, each answered with a plan."""

    answer: list[Layout]
    calls: list[float] = field(default_factory=list)

    def lay(self, seconds: float, found: Found) -> None:
        self.calls.append(round(seconds, 3))
        found(self.answer)


def called(whole: float, answer: list[Layout], ours: list[Layout], moments: tuple[float, ...]) -> list[float]:
    keeper, clock, library = Keeper(ORDER, lambda _plan: None, None), TimeTold(whole), LibraryTold(answer)
    keeper.offer(ours)
    calls = Calls(keeper, clock, library)  # type: ignore[arg-type]
    for clock.now in moments:
        calls.when_due()
    return library.calls


def test_the_library_is_called_at_moments_that_do_not_hang_on_the_whole_time() -> None:
    moments = (0.1, 1.9, 2.1, 9.0, 10.5, 11.0)
    assert called(60.0, TWO_SHEETS, TWO_SHEETS, moments) == [0.4, 2.0, 10.0]
    assert called(10.0, TWO_SHEETS, TWO_SHEETS, moments[:4]) == [0.4, 2.0]
    assert called(1.0, TWO_SHEETS, TWO_SHEETS, moments[:1]) == [0.2]  # no more than its share


def test_where_the_library_is_behind_a_call_is_left_out() -> None:
    assert called(60.0, TWO_SHEETS, ONE_SHEET, (0.1, 2.1, 9.0, 10.5)) == [0.4, 10.0]


def test_where_the_library_is_ahead_it_is_called_again_for_longer() -> None:
    assert called(10.0, ONE_SHEET, TWO_SHEETS, (0.1, 2.1)) == [0.4, 0.7, 2.0]


Step = tuple[int, float, float]


def steps(order: Order, seconds: float, monkeypatch: pytest.MonkeyPatch) -> tuple[list[Step], Plan]:
    """What a search does, on a clock that goes on a little whenever it is looked at.

    Of each spell: its rounds, what was left out after it, and when it ended.
    """
    now, done, go = [0.0], list[Step](), Climb.go

    def tick() -> float:
        now[0] += 0.02
        return now[0]

    def noted(climb: Climb, count: int, deadline: float) -> int:
        rounds = go(climb, count, deadline)
        done.append((rounds, climb.left_out, now[0]))
        return rounds

    with monkeypatch.context() as patch:
        for name, module in list(sys.modules.items()):
            if name.startswith("frontwright.cutting.search") and hasattr(module, "monotonic"):
                patch.setattr(module, "monotonic", tick)
        patch.setattr(sys.modules["frontwright.cutting.search.run"], "_SHORT", 20_000)
        patch.setattr(sys.modules["frontwright.cutting.search.run"], "_SPELL", 2_000)
        patch.setattr(Caller, "lay", lambda *_: None)
        patch.setattr(Climb, "go", noted)
        plan = run(order, seconds, 1, lambda _plan: None)
    return done, plan


def test_a_longer_search_takes_the_steps_of_a_shorter_one_first(monkeypatch: pytest.MonkeyPatch) -> None:
    PREPARING.done(60)
    parts = tuple(Wanted(str(n), 22 + (n * 17) % 47, 19 + (n * 29) % 51, turns=True) for n in range(24))
    order = Order(parts, (Stock("s", 100, 100, None),))
    (short, plan), (long, later) = steps(order, 2.0, monkeypatch), steps(order, 4.0, monkeypatch)
    assert plan.cost > (plan.bound or 0)  # neither ends before its time
    whole = [step for step in short if step[2] < 0.9 * 2.0]
    assert len(whole) > 4
    assert whole == long[: len(whole)]
    assert later.cost <= plan.cost

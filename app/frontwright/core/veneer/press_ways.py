"""Ways out of a pressing that is too slow, too weak or too large: each tried before it is offered."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from frontwright.core.job import Lie
from frontwright.core.job.index import JobIndex
from frontwright.core.veneer.pressing import Bench, bench_of, rehearsed, with_lie
from frontwright.core.veneer.result import PressingPlan

Change = Literal["helper", "glue", "clamps", "press", "lie", "panels", "panels helped"]
HELPED = "with a helper"  # halves, and a helper with them


@dataclass(frozen=True, slots=True)
class Tried:
    """One change of a pressing and what it would come to; `plans`: two of halves."""

    change: Change
    to: str
    plans: tuple[PressingPlan, ...]

    @property
    def minutes(self) -> Fraction:
        """Of the slower one."""
        return max(plan.minutes for plan in self.plans)

    @property
    def pressure(self) -> Fraction:
        """Of the weaker one."""
        return min(plan.pressure for plan in self.plans)


def in_time(index: JobIndex, bench: Bench, here: PressingPlan) -> Iterator[Tried]:
    """What brings a pressing within the glue's time, in the order of trouble; halves with a helper only where neither
    of the two is enough by itself. `here`: the pressing as it is rehearsed."""
    found = [one for one in _quicker(index, bench, here) if _all(one, lambda p: p.in_time and p.pressure >= p.least)]
    found = [one for one in found if _all(one, lambda p: p.fits) or not here.fits]
    yield from found
    if not any(one.change in ("helper", "panels") for one in found) and not here.helped:
        yield from (one for one in _halves(bench, helped=True) if _all(one, lambda p: p.in_time))


def helper_in_time(here: PressingPlan) -> Iterator[Tried]:
    """A helper, where it is in time with one."""
    return (one for one in _helped(here) if _all(one, lambda p: p.in_time))


def in_full(index: JobIndex, bench: Bench, here: PressingPlan) -> Iterator[Tried]:
    """What brings a pressing to the full pressure without making it late."""
    for one in (*_more_clamps(bench, here), *_stacked(bench), *_presses(index, bench)):
        if _all(one, lambda p: p.pressure >= p.goal and p.fits and (p.in_time or not here.in_time)):
            yield one


def on_bed(index: JobIndex, bench: Bench) -> Iterator[Tried]:
    """What brings everything onto the bed and between the clamps."""
    other: Lie = "stacked" if bench.row.lie == "side by side" else "side by side"
    laid = [Tried("lie", other, (rehearsed(with_lie(bench, other)),))] if len(bench.panels) > 1 else []
    for one in (*laid, *_halves(bench), *_presses(index, bench)):
        if _all(one, lambda p: p.fits):
            yield one


def slower_glue(bench: Bench, here: PressingPlan) -> int:
    """How many minutes to the last clamp a glue must leave for this pressing, up to the next whole one."""
    return math.ceil(here.minutes / bench.of("used_share"))


def _all(one: Tried, holds: Callable[[PressingPlan], bool]) -> bool:
    return all(holds(plan) for plan in one.plans)


def _quicker(index: JobIndex, bench: Bench, here: PressingPlan) -> Iterator[Tried]:
    yield from _helped(here)
    yield from _glues(index, bench)
    yield from _fewer_clamps(bench, here)
    yield from _presses(index, bench)
    yield from _halves(bench)


def _helped(here: PressingPlan) -> Iterator[Tried]:
    """The same with a helper, who takes half of the spreading."""
    if not here.helped:
        spread = here.spread_minutes / 2
        yield Tried("helper", "yes", (replace(here, helped=True, spread_minutes=spread, minutes=here.with_helper),))


def _glues(index: JobIndex, bench: Bench) -> Iterator[Tried]:
    for glue in index.job.glues:
        if glue != bench.glue.id:
            yield Tried("glue", glue, (rehearsed(bench_of(index, replace(bench.row, glue=glue), bench.panels)),))


def _presses(index: JobIndex, bench: Bench) -> Iterator[Tried]:
    """The other presses, each with its own clamps."""
    for press in index.job.presses:
        if press != bench.press.id:
            row = replace(bench.row, press=press, clamps=None)
            yield Tried("press", press, (rehearsed(bench_of(index, row, bench.panels)),))


def _fewer_clamps(bench: Bench, here: PressingPlan) -> Iterator[Tried]:
    """As many clamps as there is time for."""
    each = here.clamp_minutes / here.clamps if here.clamps else Fraction(0)
    room = here.limit - (here.minutes - here.clamp_minutes)
    if each > 0 and room >= each * here.clamps_for_floor:
        yield _clamped(bench, min(here.clamps, math.floor(room / each)))


def _more_clamps(bench: Bench, here: PressingPlan) -> Iterator[Tried]:
    """As many as the full pressure takes, where the shop has them."""
    have = bench.press.clamps
    if not bench.in_bag and (have is None or here.clamps_for_goal <= have):
        yield _clamped(bench, here.clamps_for_goal)


def _clamped(bench: Bench, count: int) -> Tried:
    return Tried("clamps", str(count), (rehearsed(replace(bench, row=replace(bench.row, clamps=count))),))


def _stacked(bench: Bench) -> Iterator[Tried]:
    if len(bench.panels) > 1 and bench.row.lie == "side by side":
        yield Tried("lie", "stacked", (rehearsed(with_lie(bench, "stacked")),))


def _halves(bench: Bench, *, helped: bool = False) -> Iterator[Tried]:
    """The panels in two goes, as the page halves them."""
    if len(bench.panels) > 1:
        half = -(-len(bench.panels) // 2)
        whole = replace(bench, row=replace(bench.row, helper=True)) if helped else bench
        parts = (replace(whole, panels=part) for part in (bench.panels[:half], bench.panels[half:]))
        yield Tried("panels helped" if helped else "panels", HELPED if helped else "", tuple(map(rehearsed, parts)))

"""What runs in a search's own process: the floor, the search that fits the order, the library's plain call beside."""

from __future__ import annotations

import os
import pickle
import sys
import threading
import time
import traceback
from typing import IO

from frontwright.cutting.asking import is_boards
from frontwright.cutting.counting import fits, improves, is_mixed
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.own_first import of_whole, only_own, own_only, time_for_own, without_shared
from frontwright.cutting.tidy import tidied
from frontwright.cutting.values import Order, Plan
from frontwright.cutting.worker import Told, say

_ALONE = 0.4  # the share of the time that our own search has before the library's call begins beside it
_ALONE_SHEETS = 0.5  # seconds that it has to say something where it makes such calls itself


class _Voice:
    """Says each better plan once, whichever thread it comes from."""

    def __init__(self, stream: IO[bytes], order: Order) -> None:
        self._stream, self._order, self._lock = stream, order, threading.Lock()
        self.best: Plan | None = None
        self.said = 0

    def plan(self, plan: Plan) -> None:
        plan = tidied(self._order, plan)
        with self._lock:
            if self.best is None or improves(self._order, plan, self.best):
                self.best = plan
                self.said += 1
                say(self._stream, Told(plan))

    def last(self, trouble: str = "") -> None:
        with self._lock:
            say(self._stream, Told(None, last=True, trouble=trouble))


def main() -> None:
    """Read an order, when it must be done, a seed and what to run; say plans until then. Never returns."""
    stream = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # libraries speak there
    order, ends, seed, plain = pickle.loads(sys.stdin.buffer.read())  # noqa: S301 - written by our own parent
    voice = _Voice(stream, order)
    trouble = ""
    try:
        deadline = time.monotonic() + ends - time.time()
        if plain:
            _call(order, deadline, voice)
        else:
            search(order, deadline, seed, voice)
    except Exception:  # noqa: BLE001 - whatever it is, the parent shall hear of it and keep the best so far
        trouble = traceback.format_exc(limit=3)
    voice.last(trouble)
    os._exit(0)  # a library's thread may still be at work


def search(order: Order, deadline: float, seed: int, voice: _Voice) -> None:
    """The floor first, then what fits the order until a monotonic time."""
    if not any(fits(stock, wanted) for stock in order.stock for wanted in order.wanted):
        voice.plan(floor_plan(order))
        return
    if is_boards(order):
        from frontwright.cutting import boards

        beside = _beside(order, deadline, voice)
        plan = boards.run(order, deadline, seed, voice.plan)
        voice.plan(plan)
        if plan.bound != plan.cost and not is_mixed(order):  # the library's call does not know what goes first
            beside.join(max(0.0, deadline - time.monotonic()))
        return
    voice.plan(floor_plan(order))
    _beside(order, deadline, voice, unless_said=2)  # the search makes such calls itself, once it has begun
    from frontwright.cutting.search.run import run

    if not _early(order, deadline, seed, voice):
        voice.plan(run(order, deadline, seed, voice.plan))


def _early(order: Order, deadline: float, seed: int, voice: _Voice) -> bool:
    """Where some stock goes before other, less of it first; whether nothing can be better then."""
    from frontwright.cutting.search.settled import Least

    own, less, least = own_only(order), without_shared(order), Least(order)

    def over() -> bool:
        return voice.best is not None and least.settles(voice.best, voice.best.bound)

    if own is None or over():
        return own is not None
    if least.bought == 0 and not (voice.best is not None and only_own(order, voice.best)):
        _of_part(order, own, time_for_own(deadline, time.monotonic()), seed, voice)
    if less is not None and not over():
        _of_part(order, less, time_for_own(deadline, time.monotonic()), seed, voice)
    return over()


def _of_part(order: Order, part: Order, deadline: float, seed: int, voice: _Voice) -> None:
    """The best on a part of the stock alone: by the library's call, else by the search."""
    from frontwright.cutting.library import plain
    from frontwright.cutting.search.run import run

    plan = plain(part, (deadline - time.monotonic()) / 2)
    if plan is None or not plan.whole:
        plan = run(part, deadline, seed, lambda _plan: None)
    voice.plan(of_whole(order, part, plan))


def _beside(order: Order, deadline: float, voice: _Voice, unless_said: int = 0) -> threading.Thread:
    """Begin the library's plain call in a thread, after a while; it ends with the process.

    `unless_said`: not if so many plans are said by then.
    """

    def call() -> None:
        time.sleep(_ALONE_SHEETS if unless_said else max(0.0, _ALONE * (deadline - time.monotonic())))
        if not unless_said or voice.said < unless_said:
            _call(order, deadline, voice)

    thread = threading.Thread(target=call, daemon=True)
    thread.start()
    return thread


def _call(order: Order, deadline: float, voice: _Voice) -> None:
    from frontwright.cutting.library import plain

    plan = plain(order, deadline - time.monotonic(), voice.plan)
    if plan is not None:
        voice.plan(plan)

"""A search in a process of its own, watched, stopped and ended at will; what it finds is checked before it is shown.

The child (`child`) is run by the same Python: it reads an order from its standard input and writes plans, each
with its length before it, to its standard output. Nothing of the window is in it.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import queue
import signal
import struct
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Self

from frontwright.cutting.asking import is_boards, refuse
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import better, firmer
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.preparing import prepare_beside
from frontwright.cutting.values import Order, Plan

_HEAD = struct.Struct(">I")
_GRACE = 0.15  # seconds past its time before a child is ended


@dataclass(frozen=True, slots=True)
class Told:
    """What a child says: a plan, whether it is its last word, or what went wrong."""

    plan: Plan | None
    last: bool = False
    trouble: str = ""


class Running:
    """A search under way. `best`: the best plan so far, checked; `trouble`: what went wrong, if anything did.

    `plain`: the packing library's own call alone, for comparing.
    Raises `BadOrder` where the order means nothing. Use it in a `with`, or `stop` it: then its process is gone.
    """

    def __init__(self, order: Order, seconds: float, seed: int = 1, plain: bool = False) -> None:
        refuse(order)
        if not (plain or is_boards(order)):
            prepare_beside()
        self.order, self.trouble = order, ""
        self.best: Plan | None = None
        self._ends = time.monotonic() + max(0.0, seconds)
        self._heard: queue.SimpleQueue[Told | None] = queue.SimpleQueue()
        self._over = False
        asked = pickle.dumps((order, time.time() + seconds, seed, plain))
        self._child = _start()
        self._ear = threading.Thread(target=_converse, args=(self._child, asked, self._heard), daemon=True)
        self._ear.start()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.end()

    @property
    def over(self) -> bool:
        """Whether nothing better will come."""
        return self._over

    def poll(self, wait: float = 0.0) -> Plan | None:
        """The next better plan, or None if there is none yet; waits so many seconds for one. For a window's timer."""
        until = min(time.monotonic() + wait, self._ends + _GRACE)
        while not self._over:
            left = until - time.monotonic()
            try:
                told = self._heard.get(timeout=left) if left > 0 else self._heard.get_nowait()
            except queue.Empty:
                if time.monotonic() >= self._ends + _GRACE:
                    self.end()
                return None
            if self._taken(told):
                return self.best
        return None

    def plans(self) -> Iterator[Plan]:
        """Each better plan as it comes, until the search is over."""
        while not self._over:
            plan = self.poll(0.5)
            if plan is not None:
                yield plan

    def stop(self) -> Plan:
        """End the search; gives the best plan so far, a quick one where there is none yet."""
        self.end()
        return self.result()

    def end(self) -> None:
        """End the search, whatever it has found: the child and all that it began are gone after this."""
        self._over = True
        if self._child.poll() is None and hasattr(os, "killpg"):
            os.killpg(self._child.pid, signal.SIGKILL)  # it leads a group of its own
        self._child.kill()
        self._child.wait()
        self._ear.join(1.0)
        if self._child.stdout is not None and not self._ear.is_alive():
            self._child.stdout.close()
        while True:
            try:
                self._taken(self._heard.get_nowait())
            except queue.Empty:
                break

    def result(self) -> Plan:
        """The best plan so far, a quick one where there is none yet."""
        if self.best is None:
            self.best = floor_plan(self.order)
        return self.best

    def _taken(self, told: Told | None) -> bool:
        """Take in what was heard; whether it was a better plan. None: the child is gone."""
        if told is None or told.last:
            self._over = True
        if told is None:
            return False
        self.trouble = told.trouble or self.trouble
        plan = told.plan
        if plan is None or (self.best is not None and not _improves(self.order, plan, self.best)):
            return False
        fault = first_fault(self.order, plan)
        if fault is not None:
            self.trouble = f"A plan was set aside: {fault}"
            return False
        self.best = plan
        return True


def lay(order: Order, seconds: float, seed: int = 1) -> Plan:
    """The best plan for an order that so many seconds bring. Raises `BadOrder` where the order means nothing.

    Parts that find no place are `missing`; `asking.missing_sentences` says why. The same order and seed give the
    same plan wherever the seconds suffice for the search's steps.
    """
    with Running(order, seconds, seed) as running:
        for _ in running.plans():
            pass
        return running.stop()


def _improves(order: Order, plan: Plan, best: Plan) -> bool:
    return better(order, plan, best) or (firmer(plan, best) and not better(order, best, plan))


def _start() -> subprocess.Popen[bytes]:
    home = str(Path(__file__).parents[2])
    code = f"import sys; sys.path.insert(0, {home!r}); from frontwright.cutting.child import main; main()"
    return subprocess.Popen(
        [sys.executable, "-P", "-c", code],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )


def _converse(child: subprocess.Popen[bytes], asked: bytes, heard: queue.SimpleQueue[Told | None]) -> None:
    """Ask, and put into the queue what is said until the child is gone. Large orders take their time to be read."""
    if child.stdin is not None:
        with contextlib.suppress(OSError), child.stdin as stream:  # a child gone already will be heard below
            stream.write(asked)
    while child.stdout is not None:
        head = child.stdout.read(_HEAD.size)
        if len(head) < _HEAD.size:
            break
        body = child.stdout.read(_HEAD.unpack(head)[0])
        try:
            heard.put(pickle.loads(body))  # noqa: S301 - written by our own child
        except (pickle.UnpicklingError, EOFError):
            break  # cut off in the middle
    heard.put(None)


def say(stream: IO[bytes], told: Told) -> None:
    """Write what a child says."""
    body = pickle.dumps(told)
    stream.write(_HEAD.pack(len(body)) + body)
    stream.flush()

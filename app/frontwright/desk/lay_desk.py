"""Laying beside an open job: one group of parts after the other in a process of its own, watched, stopped, used.

Nothing of it is in the job until the best so far is used; then it is one edit. Stopped, the job is as it was.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from frontwright.core.plan import Plan
from frontwright.core.stock.candidates import Wood
from frontwright.core.stock.result import Group
from frontwright.desk.contents import Outcome
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.rack_wood import LAID_ON
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.wording.stock import group_word
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.cutting import Running
    from frontwright.cutting.values import Plan as CutPlan
    from frontwright.desk.laying import ToLay
    from frontwright.desk.rack_desk import RackDesk

SECONDS = 20.0  # for all groups of a job; what is found to be the best earlier ends earlier
LEAST = 2.0  # for one group
PART = 0.3  # a part more, until the share of its group is used up
LAY_VERBS = ("lay", "lay-use", "lay-stop")


@dataclass(frozen=True, slots=True)
class Progress:
    """How a laying stands: what is laid, the best so far in words, how much of its time is gone (0 to 1)."""

    what: str
    best: str
    share: float


class LayDesk:
    """What is being laid, if anything is.

    `plan`, `do` and `carried` are the open job's: its plan now, how an edit is made, and one that the rack has its part
    in (a notice comes back of that).
    """

    def __init__(
        self,
        plan: Callable[[], Plan],
        do: Callable[[Edit], Outcome],
        rack: RackDesk,
        carried: Callable[[Callable[[], str]], Outcome],
    ) -> None:
        self._plan, self._do, self._rack, self._carried = plan, do, rack, carried
        self._groups: tuple[Group, ...] = ()
        self._tasks: list[ToLay] = []
        self._running: Running | None = None
        self._found: list[tuple[ToLay, CutPlan]] = []
        self._began = self._group_began = 0.0
        self.seconds = SECONDS
        self.took = 0.0  # seconds that the last laying took

    @property
    def busy(self) -> bool:
        """Whether something is being laid."""
        return bool(self._tasks)

    def act(self, verb: str, objects: list[str]) -> Outcome:
        """Begin (`lay`: "open" or "anew", and a group where it is one only), use the best so far, or stop."""
        if verb == "lay":
            return self.begin(anew="anew" in objects[:1], only=objects[1] if len(objects) > 1 else "")
        return self.use() if verb == "lay-use" else self.stop()

    def begin(self, *, anew: bool = False, only: str = "") -> Outcome:
        """Begin to lay what lies nowhere yet (`anew`: everything that is not cut or kept); Refused if it cannot be."""
        from frontwright.desk.laying import to_lay

        if self.busy:
            raise Refused("Parts are being laid already: use the best so far, or stop it.")
        plan = self._plan()
        tasks = list(to_lay(plan, anew=anew, only=only, free=self._free()))
        if not tasks:
            raise Refused("Everything that can be laid is laid: choose “Lay all anew” to look for something better.")
        self._groups, self._tasks, self._found = plan.stock.groups, tasks, []
        self._began = time.monotonic()
        try:
            self._next()
        except (ValueError, OSError) as wrong:
            self._end()
            raise Refused(_sentence(wrong)) from wrong
        return Outcome(said=f"Laying {group_word(tasks[0].group, plan.display)}")

    def poll(self) -> Outcome | None:
        """Look at what was found; the outcome of the whole once it is over, else None."""
        running = self._running
        if running is None:
            return None
        while running.poll() is not None:
            pass
        if not running.over and time.monotonic() - self._group_began < self._room:
            return None
        self._keep(running)
        if self._tasks:
            try:
                self._next()
            except (ValueError, OSError) as wrong:
                self._end()
                return Outcome(problem=_sentence(wrong))
            return None
        return self._put()

    def finish(self) -> Outcome:
        """Wait until it is over: for whoever has no window."""
        while self.busy:
            outcome = self.poll()
            if outcome is not None:
                return outcome
            time.sleep(0.02)
        return Outcome()

    def progress(self) -> Progress | None:
        """How it stands; None where nothing is being laid."""
        if not self._tasks or self._running is None:
            return None
        task, best = self._tasks[0], self._running.best
        share = min(1.0, (time.monotonic() - self._began) / max(self.seconds, 0.1))
        return Progress(f"Laying {group_word(task.group, self._plan().display)}", _told(best), share)

    def use(self) -> Outcome:
        """End it and put the best so far into the job."""
        if self._running is None:
            return Outcome(problem="Nothing is being laid.")
        self._keep(self._running)
        for task in self._tasks:
            from frontwright.cutting.floor import floor_plan

            self._found.append((task, floor_plan(task.order)))
        self._tasks = []
        return self._put()

    def stop(self) -> Outcome:
        """End it; the job is as it was."""
        was = self.busy
        self._end()
        return Outcome(said="Stopped: the job is as it was" if was else "")

    # -- inside

    @property
    def _room(self) -> float:
        """Seconds that the group in hand may still take."""
        left = self.seconds - (self._group_began - self._began)
        parts = sum(wanted.copies for wanted in self._tasks[0].order.wanted) if self._tasks else 0
        return max(LEAST, min(left / max(1, len(self._tasks)), LEAST + PART * parts))

    def _next(self) -> None:
        from frontwright.cutting import Running

        self._group_began = time.monotonic()
        self._running = Running(self._tasks[0].order, self._room)

    def _free(self) -> Wood | None:
        """What is nobody's on the rack; nothing where that cannot be read, which the Rack page says."""
        try:
            return self._rack.free_wood() if self._rack.is_there else None
        except StoreError:
            return None

    def _keep(self, running: Running) -> None:
        from frontwright.desk.laid_rows import used

        plan = running.stop()
        task = self._tasks.pop(0)
        self._found.append((task, plan))
        self._tasks = [one.without(used(task, plan)) for one in self._tasks]
        self._running = None

    def _put(self) -> Outcome:
        """What was found as one edit; nothing where the parts have changed meanwhile."""
        from frontwright.desk.laid_rows import taken_free, with_plans

        found, self._found, self._running = self._found, [], None
        worse = [task.group for task, plan in found if self._lays_less(task, plan)]
        found = [one for one in found if one[0].group not in worse]
        self.took = time.monotonic() - self._began
        if self._plan().stock.groups != self._groups:
            return Outcome(problem="The parts have changed while they were laid: lay them again.")
        stay = [f"No place for all {group_word(group, self._plan().display)}: they lie as before." for group in worse]
        if not found:
            return Outcome(said=" ".join(stay))
        pieces = sum(layout.copies for _, plan in found for layout in plan.layouts)

        def edit(called: Mapping[str, str]) -> Edit:
            return Edit(f"lay {count_of(pieces, 'piece')}", lambda job: with_plans(job, found, called))

        free = taken_free(found)
        outcome = self._carried(lambda: self._rack.reserve_for(free, LAID_ON, edit)) if free else self._do(edit({}))
        if outcome.problem:
            return outcome
        return Outcome(said=" ".join([_all_told(found, self.took), *stay, *_taken(free), outcome.said]).strip())

    def _lays_less(self, task: ToLay, plan: CutPlan) -> bool:
        """Whether layouts that hold would make room for a plan with fewer parts than lie on them."""
        gone = [one for one in self._plan().stock.layouts if one.id in task.gone]
        laid = sum(len(layout.placed) * layout.copies for layout in plan.layouts)
        return all(one.valid for one in gone) and laid < sum(len(one.parts) for one in gone)

    def _end(self) -> None:
        if self._running is not None:
            self._running.stop()
        self._running, self._tasks, self._found = None, [], []


def _sentence(wrong: Exception) -> str:
    """Why parts cannot be laid: as the cutting room says it, or that the machine gives no process for it."""
    if isinstance(wrong, OSError):
        return f"The search cannot be started: {wrong.strerror or wrong}; close other programs and try again."
    return str(wrong)


def _told(best: CutPlan | None) -> str:
    if best is None:
        return "no layout yet"
    pieces = sum(layout.copies for layout in best.layouts)
    least = f", at least {best.bound}" if best.bound is not None else ""
    missing = f", {count_of(sum(best.missing), 'part')} without a place" if not best.whole else ""
    return f"best so far {count_of(pieces, 'piece')}{least}{missing}"


def _taken(free: Mapping[str, int]) -> list[str]:
    """Which pieces of the rack the job has now."""
    if not free:
        return []
    names = list(free)
    more = f" and {len(names) - 4} more" if len(names) > 4 else ""
    return [f"From the rack, free until now: {', '.join(names[:4])}{more}; reserved for this job."]


def _all_told(found: list[tuple[ToLay, CutPlan]], took: float) -> str:
    """How it ended, and for parts that found no place why."""
    from frontwright.cutting import missing_sentences

    said = [sentence for task, plan in found for sentence in missing_sentences(task.order, plan)]
    pieces = sum(layout.copies for _, plan in found for layout in plan.layouts)
    first = f"Laid on {count_of(pieces, 'piece')}, found in {took:.1f} s."
    return " ".join([first, *said[:2], *([f"And {len(said) - 2} more."] if len(said) > 2 else [])])

"""A user who edits, types, undoes, redoes, closes and opens in any order always has the job that was entered."""

from __future__ import annotations

import tempfile
from dataclasses import replace
from pathlib import Path

from frontwright.core.job import Amount, Column, Job, Opening, Reading, Room, Run
from frontwright.core.lengths import typed
from frontwright.store import create, open_job
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

IDS = st.sampled_from(["O1", "O2", "O3", "O4"])
TEXTS = st.sampled_from(["23 5/8", "23 5/", "600mm", "", "letters", "1'", "⅝"])


class User(RuleBasedStateMachine):
    """Beside the file stands a plain list of the jobs after each step, and where in it the user is."""

    @initialize()
    def begins(self) -> None:
        self.folder = tempfile.TemporaryDirectory()
        self.path = Path(self.folder.name) / "any.frontwright"
        self.jobs = [Job().put(Room("K"), Run("R", room="K"), Column("C", run="R", place=1))]
        self.names: list[str] = []
        self.at = 0
        self.typing: str | None = None
        self.file = create(self.path, self.jobs[0])

    def edit(self, name: str, after: Job, field: str | None = None) -> None:
        assert self.file.apply(name, lambda _: after, field) == after
        if after == self.jobs[self.at]:
            return
        if field is not None and field == self.typing:
            self.at -= 1
        del self.jobs[self.at + 1 :], self.names[self.at :]
        gone = after == self.jobs[self.at]
        self.typing = None if gone else field
        if not gone:
            self.jobs.append(after)
            self.names.append(name)
            self.at += 1

    @rule(key=IDS, place=st.integers(1, 3))
    def puts_an_opening(self, key: str, place: int) -> None:
        self.edit(f"opening {key}", self.jobs[self.at].put(Opening(key, column="C", place=place)))

    @rule(key=IDS)
    def takes_an_opening_out(self, key: str) -> None:
        job = self.jobs[self.at]
        readings = [one.id for one in job.readings.values() if one.of == key]
        self.edit(f"without {key}", job.drop(Reading, *readings).drop(Opening, key))

    @rule(key=IDS, text=TEXTS, typing=st.booleans())
    def types_a_width(self, key: str, text: str, typing: bool) -> None:
        job = self.jobs[self.at]
        if key in job.openings:
            row = Reading(f"{key} width", of=key, what="width", value=typed(text, "in"))
            self.edit(f"width of {key}: {text}", job.put(row), f"{key} width" if typing else None)

    @rule(text=TEXTS)
    def types_a_moisture(self, text: str) -> None:
        room = replace(self.jobs[self.at].rooms["K"], moisture_low=Amount(text, None))
        self.edit("moisture", self.jobs[self.at].put(room), "moisture")

    @rule()
    def undoes(self) -> None:
        if self.at:
            self.at, self.typing = self.at - 1, None
        assert self.file.undo() == self.jobs[self.at]

    @rule()
    def redoes(self) -> None:
        if self.at + 1 < len(self.jobs):
            self.at, self.typing = self.at + 1, None
        assert self.file.redo() == self.jobs[self.at]

    @rule()
    def closes_and_opens(self) -> None:
        self.file.close()
        self.file, self.typing = open_job(self.path), None

    @invariant()
    def has_what_was_entered(self) -> None:
        assert self.file.job == self.jobs[self.at]
        assert list(self.file.steps) == self.names[: self.at]
        assert self.file.can_redo == (self.names[self.at] if self.at < len(self.names) else None)

    def teardown(self) -> None:
        if hasattr(self, "file"):
            self.file.close()
            with open_job(self.path) as again:
                assert again.job == self.jobs[self.at]
            self.folder.cleanup()


User.TestCase.settings = settings(max_examples=12, stateful_step_count=25)
TestRandomUser = User.TestCase

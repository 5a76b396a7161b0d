"""What was said to a check: beside it while it is open, as `cleared` when it has fallen silent."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import cast

from frontwright.core.findings import LEVELS, Check, CheckLevel, Code, Fact
from frontwright.core.job import Answer, Job
from frontwright.core.lengths import exact_text, six_places


def with_answers(job: Job, checks: Iterable[Check]) -> tuple[Check, ...]:
    """Every check, the open ones with their answers; then answers to what is no longer found, as cleared."""
    unused = dict(job.answers)
    done = [_answered(job, check, unused) for check in checks]
    return (*done, *_cleared(unused.values()))


def subject(where: Iterable[str]) -> str:
    """A check's subjects as an answer keeps them."""
    return ", ".join(where)


def told(check: Check, job: Job) -> tuple[str, str]:
    """Value and limit of a check in the job's unit, exact or to six places, as an answer keeps them."""
    return _told(check.value, job, check.roots), _told(check.limit, job, check.roots)


def _told(value: Fact | tuple[Fact, Fact] | None, job: Job, roots: bool) -> str:
    if value is None:
        return ""
    if isinstance(value, tuple):
        return " to ".join(_told(part, job, roots) for part in value)
    if isinstance(value, str | int):
        return str(value)
    plain = exact_text(value, job.heading.unit)
    return six_places(value, job.heading.unit) if roots and "/" in plain else plain


def _answered(job: Job, check: Check, unused: dict[str, Answer]) -> Check:
    """An answer holds for the finding it was given to: same rule, subjects and level, value not moved."""
    if not check.is_open:
        return check
    value = told(check, job)[0]
    for answer in job.answers.values():
        same = (answer.code, answer.where, answer.level, answer.value) == (
            check.code,
            subject(check.where),
            check.level,
            value,
        )
        if same:
            unused.pop(answer.id, None)
            return replace(check, answer=answer.answer)
    return check


def _cleared(answers: Iterable[Answer]) -> Iterator[Check]:
    for answer in answers:
        level: CheckLevel = next((known for known in LEVELS if known == answer.level), "stop")
        where = tuple(part for part in answer.where.split(", ") if part)
        yield Check(
            cast(Code, answer.code),
            where,
            answer.value,
            answer.limit or None,
            level,
            "cleared",
            answer=answer.answer,
        )

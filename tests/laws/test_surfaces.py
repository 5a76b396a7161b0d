"""Laws of surfaces, over every combination of what can be said of one."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import get_args

from frontwright.core.condition.surfaces import Objection, ground, objections, old_paint
from frontwright.core.condition.ways import applied, ways_out
from frontwright.core.job import FinishKind, Job, Keying, MadeGood, Surface
from frontwright.core.job.condition import FinishState, Swab, Trial

JOB = Job()


def said(kind: object) -> tuple[object, ...]:
    return (None, *get_args(kind))


def every_surface() -> Iterator[Surface]:
    """All finishes, states, swabs, trials, ways of making good and of keying, washed and not."""
    kinds = (FinishKind, FinishState, Swab, Trial, MadeGood, Keying)
    for finish, state, swab, trial, good, keyed in product(*(said(kind) for kind in kinds)):
        for clean in (False, True):
            yield Surface(
                "K faces",
                "K",
                finish=finish,  # type: ignore[arg-type]
                state=state,  # type: ignore[arg-type]
                swab=swab,  # type: ignore[arg-type]
                trial=trial,  # type: ignore[arg-type]
                made_good=good,  # type: ignore[arg-type]
                keyed=keyed,  # type: ignore[arg-type]
                clean=clean,
            )


def against(row: Surface) -> list[Objection]:
    """What speaks against gluing onto a covered surface."""
    return list(objections(row, glued=True, disturbed=True, suspect=old_paint(JOB, row)))


def test_every_way_out_that_is_offered_clears_its_finding_and_raises_no_other_stop() -> None:
    for row in every_surface():
        before = {one.case for one in against(row)}
        for found in against(row):
            for way in ways_out(JOB, row, found, covered=True):
                if way.kind != "change":
                    continue
                after = against(applied(row, way.field, str(way.value)))
                assert found.case not in {one.case for one in after}, (row, way)
                assert {one.case for one in after if one.level == "stop"} <= before, (row, way)


def test_every_stop_has_a_way_out() -> None:
    for row in every_surface():
        for found in against(row):
            assert list(ways_out(JOB, row, found, covered=True)), (row, found)


def test_nothing_is_glued_onto_what_lifts_or_is_greasy_without_a_stop() -> None:
    for row in every_surface():
        stopped = any(one.level == "stop" for one in against(row))
        if ground(row) in ("lifting", "greasy"):
            assert stopped, row


def test_paint_with_lead_is_never_worked_dry_without_a_stop() -> None:
    for row in every_surface():
        if row.finish == "paint" and row.swab == "lead" and row.keyed in (None, "dry"):
            assert any(one.level == "stop" for one in against(row)), row

"""Old fronts as a second reading of their openings, and the cover that their hinges give now (F11)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, minus, plus, share, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job import OldFront
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.survey.closures import closure_limit
from frontwright.core.survey.readings import outside
from frontwright.core.survey.result import OpeningPlan, SurveyPlan


def old_front_checks(index: JobIndex, openings: Mapping[str, OpeningPlan]) -> Iterator[Check]:
    """Each old front against what was read of its opening, width and height, where all of it was read.

    The limit is the reading error times the root of the four readings that go into the difference.
    """
    limit = closure_limit(index, 4)
    for old in index.job.old_fronts.values():
        opening = openings.get(old.opening)
        if opening is None:
            continue
        for what, own in (("width", opening.widths), ("height", opening.heights)):
            said, taken = _said(old, what), [f for f in own if f.source == "taped"]
            if said is not None and taken:
                yield _check(opening.id, what, said, taken, limit)


def _said(old: OldFront, what: str) -> Figure | None:
    """What an old front says of its opening; None where its size or its cover was not read."""
    size, cover = measured(getattr(old, what), f"{what} of the old front"), measured(old.cover, "cover it had")
    if size is None or cover is None:
        return None
    return total(f"{what} of {old.opening} by its old front", plus(size), minus(cover, 2))


def _check(opening: str, what: str, said: Figure, taken: list[Figure], limit: Fraction) -> Check:
    off = outside(in_units(said.value), taken)
    level: CheckLevel = "warn" if abs(off) > limit else "ok"
    facts: dict[str, Fact] = {"what": what, "old": said.value, "own": taken[0].value}
    ways = (WayOut("read again", opening, what), WayOut("look at", opening)) if level != "ok" else ()
    return Check("closure", (opening,), off, limit, level, judged(level), "old front", facts, ways, roots=True)


def old_covers(index: JobIndex, survey: SurveyPlan) -> dict[str, Figure]:
    """F11: the cover that the hinges of an old front give now, hung evenly: half of what it is wider than its
    opening; by the opening, where one door hung in it."""
    found: dict[str, Figure] = {}
    for row in index.job.old_fronts.values():
        opening, wide = survey.openings.get(row.opening), measured(row.width, f"old front of {row.opening}")
        alone = sum(1 for other in index.job.old_fronts.values() if other.opening == row.opening) == 1
        if opening is not None and wide is not None and alone:
            over = total("wider than the opening", plus(wide), minus(opening.width_middle))
            found[row.opening] = share(f"cover of the old hinges of {row.opening}", over, 2, "if it hung evenly")
    return found

"""What can hurt at a run, as lines of a sheet: the same words wherever a sheet leads there."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.cautions import CAUTIONS, DEFERS
from frontwright.core.plan import Plan
from frontwright.sheets.listing import Band, text_band, title_band
from frontwright.sheets.words import strong, words, wrap


def caution_bands(plan: Plan, run: str, width: float) -> Iterator[Band]:
    """The hazards of a run, each with what to do and where it is; nothing where there are none."""
    placed = plan.condition.hazards_of(run)
    if not placed:
        return
    yield title_band(words(strong("What can hurt here"), f"  {DEFERS}", size=10.5, condensed=True), 8.5)
    for one in placed:
        caution = CAUTIONS[one.hazard]
        at = f" ({', '.join(one.of)})" if one.of else ""
        line = words(strong(f"{caution.word}{at}: "), "; ".join(caution.says), ".", size=9, condensed=True)
        yield text_band(wrap(line, width), 4.2)


def caution_facts(plan: Plan, run: str) -> tuple[tuple[str, str], ...]:
    """The same as facts of a sheet."""
    return tuple((f"hazard: {one.hazard}", ", ".join(one.of)) for one in plan.condition.hazards_of(run))

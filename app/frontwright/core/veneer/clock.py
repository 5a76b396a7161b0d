"""The times of a pressing by the clock, from when the bottle was opened (F63, F66)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from frontwright.core.veneer.result import PressingPlan

_TIME = re.compile(r"(?<!\d)(\d{1,2})\s*[:.h]\s*(\d{2})(?!\d)\s*([ap]m?\b)?", re.IGNORECASE)
_DAY = 24 * 60
Moment = Literal["bottle opened", "last leaf laid", "last clamp tight", "out of the press", "planed"]


@dataclass(frozen=True, slots=True)
class At:
    """One moment: minutes after the bottle was opened as planned, and at the latest (`late`) or not before."""

    what: Moment
    planned: Fraction
    bound: Fraction
    late: bool


def moments(plan: PressingPlan) -> tuple[At, ...]:
    """What happens when, in minutes after the bottle was opened.

    The open time bounds laying, the used share of the time to the last clamp closing; the joints sink if it is planed
    within 24 hours.
    """
    laid, tight = plan.minutes - plan.clamp_minutes, plan.minutes
    out, planed = tight + plan.press_minutes, tight + _DAY
    by = min(plan.open_limit, max(Fraction(0), plan.limit - plan.clamp_minutes))
    return (
        At("bottle opened", Fraction(0), Fraction(0), late=True),
        At("last leaf laid", laid, by, late=True),
        At("last clamp tight", tight, plan.limit, late=True),
        At("out of the press", out, out, late=False),
        At("planed", max(out, planed), max(out, planed), late=False),
    )


def minute_of(text: str) -> int | None:
    """The minute of the day that is written, "9:40", "9.40 am", "21h15"; None where there is no time in it."""
    found = _TIME.search(text)
    if found is None:
        return None
    hour, minute, half = int(found.group(1)), int(found.group(2)), (found.group(3) or "").casefold()[:1]
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    return hour * 60 + minute if hour < 24 and minute < 60 else None


def clock(started: str, after: Fraction, *, late: bool) -> str:
    """The time by the clock so many minutes after the start: at the latest down to the minute, else up to it; the day
    after with its days. Empty where the start has no time."""
    begun = minute_of(started)
    if begun is None:
        return ""
    days, minute = divmod(begun + (floor(after) if late else ceil(after)), _DAY)
    day = "" if not days else " next day" if days == 1 else f" {days} days on"
    return f"{minute // 60}:{minute % 60:02d}{day}"


def took(started: str, closed: str) -> int | None:
    """Minutes from opening the bottle to the last clamp; None where one of the two was not written. Past midnight it
    counts on."""
    begun, ended = minute_of(started), minute_of(closed)
    return None if begun is None or ended is None else (ended - begun) % _DAY

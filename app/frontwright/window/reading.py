"""How what is being typed was understood, as a line of words that stands under the field at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job import amount
from frontwright.core.lengths import Display, both_units, read
from frontwright.desk.contents import CellKind


@dataclass(frozen=True, slots=True)
class Understood:
    """`line`: what to show ("= 33 15/16 in, 862.0 mm"), empty where there is nothing to say; `state` how it stands."""

    line: str
    state: Literal["value", "doubt", "unfinished", "refused", "empty"]


NOTHING = Understood("", "empty")


def understood(text: str, kind: CellKind, display: Display) -> Understood:
    """What a text typed into a cell of this kind means; words and choices need no explaining."""
    if not text.strip():
        return NOTHING
    if kind == "length":
        return _length(text, display)
    if kind in ("number", "count"):
        return _number(text, whole=kind == "count")
    return NOTHING


def _length(text: str, display: Display) -> Understood:
    found = read(text, display.unit)
    if found.exact is not None:
        line = f"= {both_units(found.exact, display)}"
        return Understood(f"{line}.  {found.doubt}", "doubt") if found.doubt else Understood(line, "value")
    if found.state == "empty":
        return NOTHING
    return Understood(found.problem or "not finished yet", "unfinished" if found.state == "unfinished" else "refused")


def _number(text: str, *, whole: bool) -> Understood:
    value = amount(text).value
    if value is None:
        return Understood("this is no number; write it as 12 or 0.5", "refused")
    if whole and value.denominator != 1:
        return Understood("a whole number is wanted here", "refused")
    return Understood("", "value")

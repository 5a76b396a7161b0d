"""What a person types for a length, kept beside what it was read as."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.lengths.length import Length

type State = Literal["value", "unfinished", "refused", "empty"]


@dataclass(frozen=True, slots=True)
class Typed:
    """The text as a person typed it, and its value: None where the text cannot be read, which is kept all the same."""

    text: str
    value: Length | None


@dataclass(frozen=True, slots=True)
class Read:
    """How an entry was understood.

    ``exact`` counts units before the rounding to one unit, ``value`` after it; both are None unless ``state`` is
    "value". ``doubt`` is a sentence where the text can be meant in another way: as read, and the other reading, in
    both units. ``problem`` is a sentence where there is no value: what is wrong, and the way out.
    """

    text: str
    exact: Fraction | None
    value: Length | None
    state: State
    doubt: str | None = None
    problem: str | None = None

"""Readings as figures: what was taped of a thing, or nothing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from frontwright.core.figures import Figure, Source, Term
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, half_up, in_units


def taped(index: JobIndex, of: str, what: str, at: str = "", name: str = "") -> Figure | None:
    """The reading that counts, as a figure; None where there is none or it is no size (zero or less)."""
    reading = index.readings.get((of, what, at))
    if reading is None or reading.value is None or reading.value.value is None:
        return None
    value = reading.value.value
    if value < ZERO or (value == ZERO and not what.startswith("edge")):
        return None
    source: Source = "assumed" if reading.status == "assumed" else "taped"
    return Figure(name or spoken(what, at, of), value, source, _who(reading.by, reading.when))


def every(index: JobIndex, of: str, what: str, name: str = "") -> list[Figure]:
    """All readings of one thing, at whatever heights they were taken."""
    found = (taped(index, of, what, at, name) for at in index.heights.get((of, what), []))
    return [figure for figure in found if figure is not None]


def middle_of(name: str, figures: list[Figure]) -> Figure:
    """The mean of several readings of one edge, rounded to the unit; a single one as it is."""
    if len(figures) == 1:
        return figures[0]
    value = half_up(sum((in_units(f.value) for f in figures), start=0) / Fraction(len(figures)))
    return Figure(name, value, "derived", f"mean of {len(figures)} heights", tuple(Term(f) for f in figures))


def outside(value: Fraction | int, read: Sequence[Figure]) -> Fraction:
    """How far a value in units lies outside the least and the greatest of several readings; nought between them."""
    values = [in_units(figure.value) for figure in read]
    return Fraction(value - max(values) if value > max(values) else min(0, value - min(values)))


def spoken(what: str, at: str, of: str) -> str:
    """The name of a reading as it is said: `width, top, of OB`."""
    return f"{what}, {at}, of {of}" if at else f"{what} of {of}"


def _who(by: str, when: str) -> str:
    said = f"read by {by}" if by else ""
    return f"{said}, {when}" if said and when else said or when

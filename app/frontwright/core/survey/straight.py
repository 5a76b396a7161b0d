"""Straightness of what stands: bow, wind, slope of a level, scribe at a wall (F7 to F10)."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.figures import Figure, Term, least, most, plus
from frontwright.core.lengths import Length, in_units


def bow_at(bow: Length, over: Length, at: Length) -> Fraction:
    """F7: how far the face stands from a straightedge of length `over`, `at` from its end, `bow` in the middle."""
    return Fraction(4 * bow.units * at.units * (over.units - at.units), over.units**2)


def bow_radius(bow: Length, over: Length) -> Fraction:
    """F7: the radius of a bow, in units."""
    return Fraction(over.units**2, 8 * bow.units)


def bow_under(bow: Figure, over: Figure, span: Figure) -> Figure:
    """F7: how much of a bow, read over one length, lies under a front over another: as the square of the lengths.

    A straightedge of no length says nothing of another: the bow stands as it was read.
    """
    if in_units(over.value) <= 0:
        return bow
    square = (Fraction(in_units(span.value)) / in_units(over.value)) ** 2
    how = "bow × (span / length of the straightedge)²"
    return Figure(
        f"{bow.name} under a front",
        in_units(bow.value) * square,
        "derived",
        how,
        (Term(bow, 0), Term(over, 0), Term(span, 0)),
    )


def wind(gap: Figure, of: str) -> Figure:
    """F8: the fourth corner is out by twice the gap where the strings cross."""
    return Figure(f"fourth corner of {of}", gap.length * 2, "derived", "twice the gap of the strings", (plus(gap, 2),))


def over_height(name: str, shows: Figure, level: Figure, height: Figure) -> Figure:
    """F9: what a level of length `level` shows, carried over a height or length; not rounded.

    A level of no length says nothing of the height: what it shows stands as it is.
    """
    if in_units(level.value) <= 0:
        return shows
    value = Fraction(in_units(shows.value)) * in_units(height.value) / in_units(level.value)
    terms = (Term(shows, 0), Term(level, 0), Term(height, 0))
    return Figure(name, value, "derived", "shown × height / length of the level", terms)


def scribe(gaps: list[Figure], room: Figure) -> Figure:
    """F10: largest gap less smallest, and room to plane."""
    widest, narrowest = most("largest gap", gaps, "the largest"), least("smallest gap", gaps, "the smallest")
    value = widest.length - narrowest.length + room.length
    return Figure(
        "scribe",
        value,
        "derived",
        "largest gap less smallest and room",
        (plus(widest), Term(narrowest, -1), plus(room)),
    )

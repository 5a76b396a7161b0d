"""Figures that know themselves: a value, where it comes from, and the terms it was made of.

Sources: `taped`, `chosen`, `derived` (worked out), `assumed`, `as-built` (measured on the thing made). `rests` is true
for an assumed figure and for every derived one that has such a figure anywhere below it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from frontwright.core.lengths import Exact, Length, half_up, in_units

Source = Literal["taped", "chosen", "derived", "assumed", "as-built"]
Measure = Literal["length", "number", "mass", "content"]


class Term:
    """One line of a working: a figure and how often it counts. Factor 0: looked at, but another one governs."""

    __slots__ = ("factor", "figure")

    def __init__(self, figure: Figure, factor: Fraction | int = 1) -> None:
        self.figure = figure
        self.factor = factor

    def __repr__(self) -> str:
        return f"{self.factor} x {self.figure!r}"


class Figure:
    """A figure with its working. `value`: a Length, or a Fraction that counts units (`measure` length), else a number.

    `how` says in words what was done; `rounding` names a rounding that was done, else it is empty; `planned` is the
    figure that an as-built one replaces.
    """

    __slots__ = ("how", "measure", "name", "planned", "rests", "rounding", "source", "terms", "value")

    def __init__(
        self,
        name: str,
        value: Exact,
        source: Source = "derived",
        how: str = "",
        terms: tuple[Term, ...] = (),
        rounding: str = "",
        measure: Measure = "length",
        planned: Figure | None = None,
    ) -> None:
        self.name = name
        self.value = value
        self.source = source
        self.how = how
        self.terms = terms
        self.rounding = rounding
        self.measure = measure
        self.planned = planned
        self.rests: bool = source == "assumed" or (source == "derived" and _rest(terms))

    def __repr__(self) -> str:
        return f"Figure({self.name!r}, {self.value!r}, {self.source})"

    @property
    def length(self) -> Length:
        """The value as a Length; a figure that was not rounded yet comes rounded to the nearest unit."""
        return self.value if isinstance(self.value, Length) else half_up(self.value)

    @property
    def units(self) -> Fraction | int:
        """The value as a plain number of units (or the number itself)."""
        return in_units(self.value)


def _rest(terms: tuple[Term, ...]) -> bool:
    for term in terms:  # noqa: SIM110 - asked of every figure there is, a plain loop is twice as quick
        if term.figure.rests:
            return True
    return False


def only_assumed(*figures: Figure) -> bool:
    """Whether nothing that was read, chosen or measured stands behind these figures; nought counts as nothing."""
    return all(_guessed(figure) for figure in figures)


def _guessed(figure: Figure) -> bool:
    if figure.source == "derived" and figure.terms:
        return all(_guessed(term.figure) for term in figure.terms)
    return figure.source == "assumed" or not figure.units


def plus(figure: Figure, times: int = 1) -> Term:
    return Term(figure, times)


def minus(figure: Figure, times: int = 1) -> Term:
    return Term(figure, -times)


def total(name: str, *terms: Term, how: str = "") -> Figure:
    """A sum of figures, each counted by its factor."""
    units: Fraction | int = 0
    for term in terms:
        part = term.figure.value
        units += (part.units if isinstance(part, Length) else part) * term.factor
    return Figure(name, _exact(units), "derived", how, terms)


def _exact(units: Fraction | int) -> Exact:
    """A whole number of units is a Length, anything else stays a fraction of units."""
    if isinstance(units, int):
        return Length(units)
    return Length(units.numerator) if units.denominator == 1 else units


def share(name: str, figure: Figure, parts: int, how: str = "") -> Figure:
    """The figure divided by a whole number; not rounded."""
    units = in_units(figure.value)
    value = _exact(units // parts) if units % parts == 0 else Fraction(units) / parts
    return Figure(name, value, "derived", how, (Term(figure, Fraction(1, parts)),))


def rounded(name: str, figure: Figure, step: Length, what: str) -> Figure:
    """The figure on the job's step, half up; `what` names the step in words for the working."""
    value = half_up(figure.value, step)
    if value == figure.value:
        return figure if figure.name == name else Figure(name, value, "derived", "", (Term(figure),))
    return Figure(name, value, "derived", "", (Term(figure),), f"rounded to {what}, half up")


def unrounded(figure: Figure) -> Figure:
    """The figure as its sum would be, had no edge below it been rounded to the step."""
    if figure.rounding:
        return unrounded(figure.terms[0].figure) if len(figure.terms) == 1 else figure
    if not _rounded_below(figure) or total("", *figure.terms).value != figure.value:
        return figure
    return total(figure.name, *(Term(unrounded(t.figure), t.factor) for t in figure.terms))


def _rounded_below(figure: Figure) -> bool:
    return any(t.figure.rounding or _rounded_below(t.figure) for t in figure.terms)


def least(name: str, figures: Sequence[Figure], how: str = "the least governs") -> Figure:
    """The smallest of several; the others stand in the working with factor 0."""
    return _pick(name, figures, min(figures, key=lambda f: f.units), how)


def most(name: str, figures: Sequence[Figure], how: str = "the widest governs") -> Figure:
    """The greatest of several."""
    return _pick(name, figures, max(figures, key=lambda f: f.units), how)


def as_built(name: str, value: Length, planned: Figure) -> Figure:
    """A measured size; the planned one is kept beside it."""
    return Figure(name, value, "as-built", "measured on the thing made", planned=planned)


def number(name: str, value: Fraction | int, source: Source = "derived", how: str = "", *terms: Term) -> Figure:
    """A figure that is no length."""
    return Figure(name, Fraction(value), source, how, terms, measure="number")


def _pick(name: str, figures: Sequence[Figure], chosen: Figure, how: str) -> Figure:
    if len(figures) == 1:
        return Figure(name, chosen.value, "derived", "", (Term(chosen),))
    return Figure(name, chosen.value, "derived", how, tuple(Term(f, 1 if f is chosen else 0) for f in figures))

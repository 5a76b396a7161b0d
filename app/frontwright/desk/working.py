"""The working of a figure, as in an account book: terms down, sums carried to the right."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

from frontwright.core.figures import Figure, Term
from frontwright.core.lengths import Display, Exact, in_units
from frontwright.desk.contents import WorkingLine
from frontwright.desk.wording.numbers import bare_text
from frontwright.desk.wording.sources import source_word

DEEPEST = 12


def working(figure: Figure, opened: Collection[str], display: Display) -> tuple[WorkingLine, ...]:
    """The lines of a working. `opened` has the keys of terms that are opened; a line's key opens or shuts it."""
    lines = _terms(figure, "", 0, opened, display)
    if figure.planned is not None:
        lines += _planned(figure.planned, opened, display)
    return (*lines, _result(figure))


def _planned(figure: Figure, opened: Collection[str], display: Display) -> list[WorkingLine]:
    """The planned size that a measured one stands in place of."""
    key, opens = "planned", bool(figure.terms)
    is_open = opens and key in opened
    inner = _terms(figure, key, 1, opened, display) if is_open else []
    line = WorkingLine(
        key, figure.name, "as planned", "", figure, source_word(figure), 0, opens=opens, open=is_open, sum=is_open
    )
    return [*inner, line]


def _terms(figure: Figure, path: str, depth: int, opened: Collection[str], display: Display) -> list[WorkingLine]:
    lines: list[WorkingLine] = []
    for at, term in enumerate(figure.terms):
        key = f"{path}.{at}" if path else str(at)
        inner = term.figure
        opens = bool(inner.terms) and depth < DEEPEST
        is_open = opens and key in opened
        if is_open:
            lines += _terms(inner, key, depth + 1, opened, display)
        lines.append(_term_line(key, term, depth, opens, is_open, at > 0, display))
    return lines


def _term_line(
    key: str, term: Term, depth: int, opens: bool, is_open: bool, later: bool, display: Display
) -> WorkingLine:
    factor = Fraction(term.factor)
    sign = "−" if factor < 0 else "+" if later and factor else ""
    how = _how(term, display)
    shown = term.figure if abs(factor) in (0, 1) else _counted(term, abs(factor))
    return WorkingLine(
        key=key,
        name=term.figure.name,
        how=how,
        sign=sign,
        figure=shown,
        source=source_word(term.figure),
        depth=depth,
        opens=opens,
        open=is_open,
        sum=is_open,
        rounding=term.figure.rounding if is_open else "",
    )


def _how(term: Term, display: Display) -> str:
    factor = abs(Fraction(term.factor))
    size = bare_text(term.figure, display)
    if not factor:
        return "looked at; another governs"
    if factor == 1:
        return term.figure.how
    if factor.denominator == 1:
        return f"{factor} × {size}"
    return f"{size} ÷ {factor.denominator}" if factor.numerator == 1 else f"{size} × {factor}"


def _counted(term: Term, factor: Fraction) -> Figure:
    """The figure as often as it counts, with the source it has."""
    figure = term.figure
    value: Exact = Fraction(in_units(figure.value)) * factor
    if factor.denominator == 1 and not isinstance(figure.value, Fraction):
        value = figure.value * int(factor)
    source = figure.source if figure.source != "as-built" else "derived"
    return Figure(figure.name, value, source, figure.how, (Term(figure, factor),), measure=figure.measure)


def _result(figure: Figure) -> WorkingLine:
    """The figure itself, carried to the right, with its rounding by name."""
    how = figure.how if figure.terms else figure.how or source_word(figure)
    rounding = figure.rounding or ("not rounded" if figure.terms else "")
    return WorkingLine(
        key="",
        name=figure.name,
        how=how,
        sign="",
        figure=figure,
        source=source_word(figure),
        depth=0,
        opens=False,
        open=False,
        sum=True,
        rounding=rounding,
    )

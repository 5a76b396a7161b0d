"""The six figures of an opening digested: least, most, spread (F2), lean (F3), second diagonal foretold (F4)."""

from __future__ import annotations

from decimal import Decimal, localcontext
from fractions import Fraction

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, Term, least, most
from frontwright.core.job import Opening
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units, root_of
from frontwright.core.survey.readings import taped
from frontwright.core.survey.result import OpeningPlan

ACROSS = ("top", "middle", "bottom")
UPRIGHT = ("left", "middle", "right")
DIAGONALS = ("\\", "/")
Three = tuple[Figure, Figure, Figure]


def three(index: JobIndex, opening: str, what: str, places: tuple[str, ...], otherwise: Figure) -> Three:
    """Three readings of a width or height; one not taken is assumed as the one that was (the middle before others)."""
    read = [taped(index, opening, what, at) for at in places]
    first = read[1] or read[0] or read[2]
    filled = [_filled(got, first, otherwise, what, at, opening) for got, at in zip(read, places, strict=True)]
    return filled[0], filled[1], filled[2]


def _filled(read: Figure | None, first: Figure | None, otherwise: Figure, what: str, at: str, of: str) -> Figure:
    if read is not None:
        return read
    name = f"{what}, {at}, of {of}"
    if first is not None:
        return Figure(name, first.value, "assumed", f"as the {what} that was read", (Term(first),))
    return Figure(name, otherwise.length, "assumed", otherwise.how or otherwise.name, (Term(otherwise),))


def digest(
    index: JobIndex,
    opening: Opening,
    run: str,
    x: tuple[Figure, Figure] | None,
    y: tuple[Figure, Figure] | None,
    size: tuple[Figure | None, Figure | None],
) -> OpeningPlan:
    """One opening from its readings; `x`, `y` its edges on the run, `size` what run and rails say of its size."""
    width_else = size[0] or assumed(index.unit, "opening width")
    height_else = size[1] or assumed(index.unit, "opening height")
    widths = three(index, opening.id, "width", ACROSS, width_else)
    heights = three(index, opening.id, "height", UPRIGHT, height_else)
    first, second = (taped(index, opening.id, "diagonal", at) for at in DIAGONALS)
    foretold = _second(first, widths, heights)
    both = first is not None and second is not None
    return OpeningPlan(
        opening=opening,
        run=run,
        column=opening.column,
        left=x[0] if x else None,
        right=x[1] if x else None,
        bottom=y[0] if y else None,
        top=y[1] if y else None,
        widths=widths,
        heights=heights,
        diagonals=(first, second),
        width=size[0] if size[0] is not None and x else widths[1],
        height=size[1] if size[1] is not None and y else heights[1],
        width_least=least(f"least width of {opening.id}", widths),
        width_middle=widths[1],
        width_most=most(f"widest of {opening.id}", widths),
        height_least=least(f"least height of {opening.id}", heights),
        height_middle=heights[1],
        height_most=most(f"highest of {opening.id}", heights, "the highest governs"),
        lean=_lean(opening.id, widths, heights, first, second) if first and second and foretold else None,
        lean_error=_lean_error(index, widths, heights, first, second) if first and second and foretold else None,
        square_diagonal=root_of(Fraction(widths[1].length.units ** 2 + heights[1].length.units ** 2)),
        second_predicted=foretold if both else None,
        second_residual=second.length.units - foretold if second is not None and foretold is not None else None,
        impossible=first is not None and foretold is None,
    )


def _lean(opening: str, widths: Three, heights: Three, first: Figure, second: Figure) -> Figure:
    """F3: how far the top stands to the left of the bottom; not rounded."""
    d1, d2, left, right = (f.length.units for f in (first, second, heights[0], heights[2]))
    value = Fraction((d1**2 - d2**2) - (left**2 - right**2), 4 * widths[1].length.units)
    how = "[(diagonal \\² − diagonal /²) − (height left² − height right²)] / (4 × middle width)"
    terms = tuple(Term(f, 0) for f in (first, second, heights[0], heights[2], widths[1]))
    return Figure(f"lean of {opening}", value, "derived", how, terms)


def _lean_error(
    index: JobIndex, widths: Three, heights: Three, first: Figure | None, second: Figure | None
) -> Fraction | None:
    """What reading errors alone do to the lean: u times root(D1² + D2² + hl² + hr²) / 2W."""
    if first is None or second is None:
        return None
    squares = sum(f.length.units**2 for f in (first, second, heights[0], heights[2]))
    reading_error = in_units(reading_error_of(index).value)
    return reading_error * root_of(Fraction(squares)) / (2 * widths[1].length.units)


def reading_error_of(index: JobIndex) -> Figure:
    """u, the error of one taped figure: the job's own, or the usual one."""
    given = index.limits.reading_error
    if given is not None and given.value is not None:
        return Figure("reading error of the tape", given.value, "chosen")
    return assumed(index.unit, "reading error")


def _second(first: Figure | None, widths: Three, heights: Three) -> Fraction | None:
    """F4: four sides and the first diagonal fix the second; None where they close no quadrilateral."""
    if first is None:
        return None
    top, bottom = Decimal(widths[0].length.units), Decimal(widths[2].length.units)
    left, right = Decimal(heights[0].length.units), Decimal(heights[2].length.units)
    diagonal = Decimal(first.length.units)
    with localcontext() as context:
        context.prec = 60
        x = (left**2 - diagonal**2 + bottom**2) / (2 * bottom)
        y_squared = left**2 - x**2
        along = (right**2 - top**2 + diagonal**2) / (2 * diagonal)
        across_squared = right**2 - along**2
        if y_squared < 0 or across_squared < 0:
            return None
        y, across = y_squared.sqrt(), across_squared.sqrt()
        corner_x = bottom + (along * (x - bottom) + across * y) / diagonal
        corner_y = (along * y + across * (bottom - x)) / diagonal
        return Fraction((corner_x**2 + corner_y**2).sqrt())

"""How a line of words and figures is laid out: stacked fractions, brackets, ringed numbers, arrows and marks.

Everything is worked out in the units of the ground (pixels or points) from the size of the letters and a measure of
their width, so that window, tables and sheets lay a figure out alike. Baseline at y 0, start at x 0.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.drawing.ink import Area, Circle, Glyphs, Ink, Stroke, placed
from frontwright.core.drawing.marks import Arrow, Part, Ringed, Sign, Text
from frontwright.core.figures import Figure
from frontwright.core.findings import CheckLevel
from frontwright.core.lengths import INCH, MM, Display, Exact, Shown, in_units, shown

type Measure = Callable[[str, float, bool], float]
"""The width of a text at a size of letters, bold or not."""

DIGIT = 0.729  # height of a figure in DejaVu Sans, in em
SMALL = 0.68
LEAST_SMALL = 8.5
BAR_UP = 0.364
CLEAR = 1.8
AFTER_WHOLE = 0.10
ON_PAPER = 0.055  # em for the bar where there are no pixels


@dataclass(frozen=True, slots=True)
class Laid:
    """Ink round a baseline. `axis`: where the whole ends and a fraction or decimals start (columns stand on it)."""

    inks: tuple[Ink, ...]
    width: float
    up: float
    down: float
    axis: float

    @property
    def height(self) -> float:
        return self.up + self.down

    def at(self, x: float, y: float, turned: bool = False) -> tuple[Ink, ...]:
        """The ink with its baseline starting at x, y."""
        return placed(self.inks, x, y, turned)


def layout_figure(
    what: Shown, em: float, measure: Measure, bold: bool = False, tone: str = "ink", pixel: float = 0.0
) -> Laid:
    """A length as shown, its fraction stacked. `pixel`: size of one, 0 on paper (then 0.055 em)."""
    pixel = pixel or ON_PAPER * em
    before = "~" * what.about + "−" * what.minus + what.whole
    if what.decimals:
        number = layout_glyphs(f"{before}.{what.decimals}", em, measure, bold, tone)
        return replace(number, axis=measure(before, em, bold))
    start = layout_glyphs(before, em, measure, bold, tone) if before else Laid((), 0, 0, 0, 0)
    if not what.numerator:
        return start
    stack = _stack(what, em, measure, bold, tone, pixel)
    return replace(beside(start, stack, AFTER_WHOLE * em if before else 0), axis=start.width)


def _stack(what: Shown, em: float, measure: Measure, bold: bool, tone: str, pixel: float) -> Laid:
    small = max(SMALL * em, LEAST_SMALL * pixel if pixel >= 1 else 0)
    over, under = (measure(text, small, bold) for text in (what.numerator, what.denominator))
    width = max(over, under) + 0.08 * em
    bar_y, half = BAR_UP * em, max(pixel, 0.04 * em if bold else 0) / 2
    over_y = bar_y + half + CLEAR * pixel
    under_y = bar_y - half - CLEAR * pixel - DIGIT * small
    inks: tuple[Ink, ...] = (
        Glyphs(what.numerator, (width - over) / 2, over_y, small, over, bold, tone),
        Area(((0, bar_y - half), (width, bar_y - half), (width, bar_y + half), (0, bar_y + half)), tone),
        Glyphs(what.denominator, (width - under) / 2, under_y, small, under, bold, tone),
    )
    return Laid(inks, width, over_y + DIGIT * small, -under_y, 0)


def layout_glyphs(text: str, em: float, measure: Measure, bold: bool = False, tone: str = "ink") -> Laid:
    """Plain letters."""
    width = measure(text, em, bold)
    return Laid((Glyphs(text, 0, 0, em, width, bold, tone),), width, 0.76 * em, 0.24 * em, width)


def layout_exact(value: Exact, display: Display, em: float, measure: Measure, bold: bool, tone: str, px: float) -> Laid:
    """A bare length to the step of `display`."""
    return layout_figure(shown(value, display), em, measure, bold, tone, px)


def layout_sourced(
    figure: Figure,
    display: Display,
    em: float,
    measure: Measure,
    bold: bool = False,
    tone: str = "ink",
    pixel: float = 0.0,
) -> Laid:
    """A figure by where it comes from: brackets round what rests on a guess, `is` before a built size.

    `tone` is that of a taped or worked-out one.
    """
    tone = tone_of(figure, tone)
    own = in_mm(figure.value, display) if figure.measure == "length" else None
    if own is not None:
        core = layout_glyphs(own, em, measure, bold, tone)
    elif figure.measure == "length":
        core = layout_exact(figure.value, display, em, measure, bold, tone, pixel)
    else:
        core = layout_glyphs(plain_number(Fraction(figure.units)), em, measure, bold, tone)
    if figure.source == "as-built":
        return _after(layout_glyphs("is ", em, measure, bold, tone), core)
    if figure.rests:
        return beside(
            _after(layout_glyphs("(", em, measure, bold, tone), core), layout_glyphs(")", em, measure, bold, tone)
        )
    return core


def in_mm(value: Exact, display: Display) -> str | None:
    """ "35 mm" for what an inch job has from a maker in millimetres: a round size there that no 64th of an inch is."""
    units = Fraction(in_units(value))
    tenths = units * 10 / MM.units
    if display.unit == "mm" or tenths.denominator != 1 or (units * 64 / INCH.units).denominator == 1:
        return None
    return f"{tenths.numerator // 10}.{tenths.numerator % 10} mm".replace(".0 mm", " mm")


def tone_of(figure: Figure, tone: str = "ink") -> str:
    """The tone of a figure by its source."""
    if figure.source == "as-built":
        return "as_built"
    return "assumed" if figure.rests else tone


def plain_number(number: Fraction, places: int = 2) -> str:
    """A number that is no length, to so many places, without idle noughts; ~ where it is finer."""
    scaled = round(number * 10**places)
    text = f"{scaled / Fraction(10**places):.{places}f}".rstrip("0").rstrip(".")
    return text if Fraction(scaled, 10**places) == number else f"~{text}"


def _after(start: Laid, core: Laid) -> Laid:
    return replace(beside(start, core), axis=start.width + core.axis)


def beside(first: Laid, second: Laid, gap: float = 0.0) -> Laid:
    """The second right of the first, on one baseline; the axis stays the first one's."""
    return Laid(
        first.inks + second.at(first.width + gap, 0),
        first.width + gap + second.width,
        max(first.up, second.up),
        max(first.down, second.down),
        first.axis,
    )


@dataclass(frozen=True, slots=True)
class Lettering:
    """How lines are set on a ground: the measure of letters, the display of lengths, the size of a pixel (0: paper)."""

    measure: Measure
    display: Display
    pixel: float = 0.0

    def line(self, parts: tuple[Part, ...], em: float, bold: bool = False, tone: str = "ink") -> Laid:
        """Words and figures on one baseline."""
        laid = Laid((), 0, 0, 0, 0)
        for part in parts:
            laid = beside(laid, self.part(part, em, bold, tone))
        return laid

    def part(self, part: Part, em: float, bold: bool, tone: str) -> Laid:
        """One part of a line."""
        if isinstance(part, str):
            return layout_glyphs(part, em, self.measure, bold, tone)
        if isinstance(part, Figure):
            return layout_sourced(part, self.display, em, self.measure, bold, tone, self.pixel)
        if isinstance(part, Text):
            return self.line(part.parts, em, part.bold, part.tone)
        if isinstance(part, Ringed):
            return layout_ringed(part, em, self.measure, tone)
        if isinstance(part, Arrow):
            return layout_arrow(part, em)
        if isinstance(part, Sign):
            return layout_sign(part.level, em)
        return layout_exact(part, self.display, em, self.measure, bold, tone, self.pixel)


def layout_ringed(number: Ringed, em: float, measure: Measure, tone: str = "ink") -> Laid:
    """A number in a ring; filled, the number is knocked out of blue."""
    small, radius = 0.86 * em, 0.64 * em
    width = measure(number.text, small, number.filled)
    middle = DIGIT * em / 2
    ring = Circle(
        radius,
        middle,
        radius,
        "blue" if number.filled else tone,
        0 if number.filled else em / 15,
        "blue" if number.filled else "paper" if number.clear else "",
    )
    figure = Glyphs(
        number.text,
        radius - width / 2,
        middle - DIGIT * small / 2,
        small,
        width,
        number.filled,
        "paper" if number.filled else tone,
    )
    return Laid((ring, figure), 2 * radius + 0.3 * em, middle + radius, radius - middle, 0)


def layout_arrow(arrow: Arrow, em: float) -> Laid:
    """The double arrow of the grain, two letters long or high."""
    reach = 1.9 * em
    if arrow.along == "horizontal":
        return Laid(
            grain_arrow(0, BAR_UP * em, reach, horizontal=True, px=em / 13, width=em / 11), reach, 0.6 * em, 0, 0
        )
    low = -0.24 * em
    inks = grain_arrow(0.35 * em, low, reach, horizontal=False, px=em / 13, width=em / 11)
    return Laid(inks, 0.7 * em, reach + low, -low, 0)


def grain_arrow(x: float, y: float, reach: float, *, horizontal: bool, px: float, width: float) -> tuple[Ink, ...]:
    """An open double arrow that starts at x, y; `px` sizes its heads."""
    head, wing = 5 * px, 3.5 * px
    strokes = (
        ((0.0, 0.0), (reach, 0.0)),
        ((head, wing), (0.0, 0.0), (head, -wing)),
        ((reach - head, wing), (reach, 0.0), (reach - head, -wing)),
    )
    return placed([Stroke(spots, "ink", width) for spots in strokes], x, y, turned=not horizontal)


def layout_sign(level: CheckLevel, em: float) -> Laid:
    """The mark of a finding: open ring, half-filled triangle, stop block with a bar."""
    size = 0.86 * em
    low = (DIGIT * em - size) / 2
    return Laid(placed(_signs(level, size), 0, low), size + 0.25 * em, size + low, max(-low, 0), 0)


def _signs(level: CheckLevel, size: float) -> tuple[Ink, ...]:
    half = size / 2
    if level == "note":
        return (Circle(half, half, 0.43 * size, "note", 0.14 * size),)
    if level == "warn":
        triangle = ((0.06 * size, 0.07 * size), (0.94 * size, 0.07 * size), (half, 0.9 * size))
        lower = (triangle[0], triangle[1], (0.72 * size, half), (0.28 * size, half))
        return Area(lower, "warn"), Stroke(triangle, "warn", 0.13 * size, closed=True)
    if level == "stop":
        block = ((0.0, 0.0), (size, 0.0), (size, size), (0.0, size))
        bar = (
            (0.2 * size, 0.38 * size),
            (0.8 * size, 0.38 * size),
            (0.8 * size, 0.62 * size),
            (0.2 * size, 0.62 * size),
        )
        return Area(block, "stop"), Area(bar, "paper")
    return ()

"""Painting figures: stacked fractions, brackets for what is assumed, and a line under each that tells its source."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from frontwright.core.drawing.ink import Area, Glyphs
from frontwright.core.drawing.lettering import Laid, in_mm, layout_figure, plain_number
from frontwright.core.figures import Figure
from frontwright.core.lengths import Display, Shown, shown
from frontwright.desk.wording.numbers import finest
from frontwright.window.theme import Letters, Palette, font, metrics

Under = Literal["none", "solid", "dashed", "double", "dotted", "wavy"]
Part = str | Shown

_IN_WORDS = re.compile(r"(?<![\w./])(~?)([-−]?)(?:(\d+) )?(\d{1,3})/(2|4|8|16|32|64|128)(?![\w/.])")


@dataclass(frozen=True, slots=True)
class Look:
    """How a figure stands: its parts, its colour, the line under it, and the planned figure struck out beside it."""

    parts: tuple[Part, ...]
    colour: QColor
    under: Under = "none"
    beside: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class _Box:
    """Widths of a run of parts: up to the axis (where the whole ends), and after it."""

    before: float
    after: float

    @property
    def width(self) -> float:
        return self.before + self.after


@cache
def digit_height(size: float) -> float:
    """The height of a figure in pixels."""
    return metrics(size).capHeight()


def value_text(figure: Figure, display: Display) -> Part:
    """A figure's value, to be painted: a length to the job's step, hardware in its own millimetres, else a number of
    at most three decimals."""
    if figure.measure == "length":
        own = in_mm(figure.value, display)
        if own is not None:
            return own
        return shown(figure.value, finest(figure.value, display))
    return plain_number(Fraction(figure.units), 3)


def spoken(figure: Figure, display: Display) -> str:
    """The value as text in one line, for the spoken name."""
    return str(value_text(figure, display))


def words_with_figures(text: str) -> tuple[Part, ...]:
    """A sentence taken apart so that the fractions in it can be stacked."""
    parts: list[Part] = []
    at = 0
    for match in _IN_WORDS.finditer(text):
        if match.start() > at:
            parts.append(text[at : match.start()])
        about, minus, whole, top, bottom = match.groups()
        parts.append(Shown(bool(about), bool(minus), whole or "", top, bottom))
        at = match.end()
    if at < len(text):
        parts.append(text[at:])
    return tuple(parts)


def figure_look(figure: Figure, display: Display, palette: Palette, *, writable: bool = False) -> Look:
    """How a figure looks by its source; `writable`: a person can write here."""
    value = value_text(figure, display)
    if figure.source == "as-built":
        planned = value_text(figure.planned, display) if figure.planned else value
        return Look(("is ", value), palette.as_built, "double", () if planned == value else (planned,))
    if figure.source == "assumed":
        return Look(("(", value, ")"), palette.assumed, "dashed")
    if figure.rests:
        return Look(("(", value, ")"), palette.assumed, "dashed" if writable else "none")
    written = figure.source in ("taped", "chosen") and writable
    return Look((value,), palette.ink, "solid" if written else "none")


def box_of(parts: Sequence[Part], letters: Letters) -> _Box:
    """How wide the parts are before and after the axis: the end of the first figure's whole; words have none."""
    before = after = 0.0
    found = False
    for part in parts:
        if isinstance(part, Shown) and not found:
            laid = _laid(part, letters)
            before, after, found = before + after + laid.axis, laid.width - laid.axis, True
        else:
            after += part_width(part, letters)
    return _Box(before, after) if found else _Box(after, 0.0)


def parts_width(parts: Sequence[Part], letters: Letters) -> float:
    return sum(part_width(part, letters) for part in parts)


def part_width(part: Part, letters: Letters) -> float:
    return (
        _laid(part, letters).width
        if isinstance(part, Shown)
        else _advance(part, letters.size, letters.bold, letters.condensed)
    )


@lru_cache(maxsize=8192)
def _advance(text: str, size: float, bold: bool, condensed: bool = False) -> float:
    return metrics(size, bold, condensed).horizontalAdvance(text)


@lru_cache(maxsize=4096)
def _laid(part: Shown, letters: Letters) -> Laid:
    return layout_figure(part, letters.size, _advance, letters.bold, "ink", max(1.0, round(letters.scale)))


def paint_parts(painter: QPainter, at: QPointF, parts: Sequence[Part], letters: Letters, colour: QColor) -> float:
    """Paint the parts from `at` (left end of the baseline); returns where they end."""
    painter.setPen(colour)
    x = at.x()
    for part in parts:
        if isinstance(part, Shown):
            _paint_shown(painter, QPointF(x, at.y()), _laid(part, letters), colour)
        else:
            painter.setFont(font(letters.size, letters.bold, letters.condensed))
            painter.drawText(QPointF(x, at.y()), part)
        x += part_width(part, letters)
    return x


def _paint_shown(painter: QPainter, at: QPointF, laid: Laid, colour: QColor) -> None:
    for ink in laid.inks:
        if isinstance(ink, Glyphs):
            painter.setFont(font(ink.em, ink.bold))
            painter.drawText(QPointF(at.x() + ink.x, at.y() - ink.y), ink.text)
        elif isinstance(ink, Area):
            low, high = min(y for _, y in ink.spots), max(y for _, y in ink.spots)
            left, right = min(x for x, _ in ink.spots), max(x for x, _ in ink.spots)
            thick = max(1, round(high - low))
            top = round(at.y() - (low + high) / 2 - thick / 2)
            painter.fillRect(QRectF(at.x() + left, top, right - left, thick), colour)


def paint_under(
    painter: QPainter, left: float, right: float, y: float, under: Under, colour: QColor, line: float
) -> None:
    """The line under a figure that tells where it comes from, from `left` to `right` at height `y`."""
    if under == "none":
        return
    pen = QPen(colour, line, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)
    y = round(y) + 0.5 * (line % 2)
    if under == "dashed":
        pen.setDashPattern([4, 3])
    elif under == "dotted":
        pen.setDashPattern([1, 2.2])
    painter.save()
    painter.setPen(pen)
    if under == "wavy":
        _wave(painter, left, right, y, line)
    else:
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        if under == "double":
            painter.drawLine(QPointF(left, y + 3 * line), QPointF(right, y + 3 * line))
    painter.restore()


def _wave(painter: QPainter, left: float, right: float, y: float, line: float) -> None:
    path = QPainterPath(QPointF(left, y))
    step, x, up = 3 * line, left, True
    while x < right:
        path.quadTo(QPointF(x + step / 2, y - step / 1.5 if up else y + step / 1.5), QPointF(x + step, y))
        x, up = x + step, not up
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.drawPath(path)

"""Plays ink on the screen: the measure that drawings are laid with, and the painter's side of each kind of ink."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from frontwright.core.drawing.ink import Area, Circle, Glyphs, Ink, Stroke
from frontwright.window.theme import Palette, font, metrics


@lru_cache(maxsize=16384)
def text_width(text: str, em: float, bold: bool) -> float:
    """The width of a text in pixels: the measure that drawings are laid with."""
    return metrics(em, bold).horizontalAdvance(text)


def play(painter: QPainter, inks: Iterable[Ink], palette: Palette, height: float) -> None:
    """Paint ink whose lower left corner is the painter's origin moved down by `height`."""
    for ink in inks:
        if isinstance(ink, Glyphs):
            _play_glyphs(painter, ink, palette, height)
        elif isinstance(ink, Stroke):
            _play_stroke(painter, ink, palette, height)
        elif isinstance(ink, Area):
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(_colour(palette, ink.tone))
            painter.drawPolygon(_polygon(ink.spots, height))
        else:
            _play_circle(painter, ink, palette, height)


def _colour(palette: Palette, tone: str) -> QColor:
    colour = getattr(palette, tone)
    assert isinstance(colour, QColor)  # noqa: S101 - a tone is the name of a role of the palette
    return colour


def _polygon(spots: Sequence[tuple[float, float]], height: float) -> QPolygonF:
    return QPolygonF([QPointF(x, height - y) for x, y in spots])


def _play_glyphs(painter: QPainter, ink: Glyphs, palette: Palette, height: float) -> None:
    painter.setPen(_colour(palette, ink.tone))
    painter.setFont(font(ink.em, ink.bold))
    if not ink.turned:
        painter.drawText(QPointF(ink.x, height - ink.y), ink.text)
        return
    painter.save()
    painter.translate(QPointF(round(ink.x), height - ink.y))
    painter.rotate(-90)
    painter.drawText(QPointF(0, 0), ink.text)
    painter.restore()


def _play_stroke(painter: QPainter, ink: Stroke, palette: Palette, height: float) -> None:
    pen = QPen(_colour(palette, ink.tone), ink.width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if ink.dash:
        pen.setDashPattern([max(part / ink.width, 0.1) for part in ink.dash])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    polygon = _polygon(_sharp(ink), height)
    if ink.closed:
        painter.drawPolygon(polygon)
    else:
        painter.drawPolyline(polygon)


def _sharp(ink: Stroke) -> Sequence[tuple[float, float]]:
    """Level and upright lines put on whole pixels, so that they stay sharp."""
    if ink.tone == "wood_grain" or not _square(ink.spots):
        return ink.spots
    half = 0.5 if round(ink.width) % 2 else 0.0
    return [(round(x - half) + half, round(y - half) + half) for x, y in ink.spots]


def _square(spots: Sequence[tuple[float, float]]) -> bool:
    pairs = pairwise(spots)
    return all(abs(a[0] - b[0]) < 0.01 or abs(a[1] - b[1]) < 0.01 for a, b in pairs)


def _play_circle(painter: QPainter, ink: Circle, palette: Palette, height: float) -> None:
    painter.setPen(QPen(_colour(palette, ink.tone), ink.width) if ink.width else Qt.PenStyle.NoPen)
    painter.setBrush(_colour(palette, ink.fill) if ink.fill else Qt.BrushStyle.NoBrush)
    painter.drawEllipse(QPointF(ink.x, height - ink.y), ink.radius, ink.radius)

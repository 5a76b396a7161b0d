"""Plays drawings on paper, in black: at one of the scales of the trade, or fitted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from frontwright.core.drawing.ink import Area, Circle, Glyphs, Ink, Stroke
from frontwright.core.drawing.lay import Laying, fit, lay, overflow, points_per_unit, scale_of, scale_of_thin
from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.medium import Medium, bench, wall
from frontwright.core.drawing.view import plain_view
from frontwright.sheets.fonts import em_width, printable, register

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINTS = 72 / 25.4
Use = Literal["wall", "bench"]


def text_width(text: str, em: float, bold: bool) -> float:
    """The width of a text in points, with letters `em` points high."""
    return em_width(printable(text), "DejaVuSans-Bold" if bold else "DejaVuSans") * em


def medium(use: Use, **sizes: float) -> Medium:
    """Paper read at 1.2 m or at arm's length; `sizes` sets some letters apart, in points (`figure=14`)."""
    ground = wall(text_width) if use == "wall" else bench(text_width)
    return replace(ground, sizes={**ground.sizes, **sizes})  # type: ignore[dict-item]


def scale_for(drawing: Drawing, on: Medium, w: float, h: float) -> int | None:
    """The largest scale, as n of 1:n, at which the drawing goes into w by h millimetres; None where none does."""
    return scale_of(drawing, on, w * POINTS, h * POINTS)


def scale_for_thin(drawing: Drawing, on: Medium, w: float, h: float) -> Fraction | None:
    """The same, 2:1 and 5:1 counted in."""
    return scale_of_thin(drawing, on, w * POINTS, h * POINTS)


def put(
    canvas: Canvas,
    page_height: float,
    drawing: Drawing,
    on: Medium,
    x: float,
    y: float,
    w: float,
    h: float,
    n: Fraction | int | None = None,
) -> Laying:
    """Draw into the place with its upper left corner at x, y (millimetres, y down) at 1:n, or fitted without n.

    Centred in the place. What goes in at no scale of the trade is drawn to fit: the foot then says so.
    """
    laying = _at_scale(drawing, on, n, w * POINTS, h * POINTS) if n else fit(drawing, on, w * POINTS, h * POINTS)
    canvas.saveState()
    canvas.translate(x * POINTS, (page_height - y - h) * POINTS)
    play(canvas, laying.inks)
    canvas.restoreState()
    return laying


def _at_scale(drawing: Drawing, on: Medium, n: Fraction | int, width: float, height: float) -> Laying:
    scale = points_per_unit(n)
    over = overflow(drawing, on, scale)
    ground = plain_view(drawing, scale).ground
    left = over.left + (width - over.left - over.right - ground.width) / 2
    bottom = over.bottom + (height - over.bottom - over.top - ground.height) / 2
    return lay(drawing, on, scale, left, bottom)


def play(canvas: Canvas, inks: Iterable[Ink]) -> None:
    """Draw ink in points from the canvas's origin. Everything is black on white."""
    register()
    for ink in inks:
        if isinstance(ink, Glyphs):
            _glyphs(canvas, ink)
        elif isinstance(ink, Stroke):
            _stroke(canvas, ink)
        elif isinstance(ink, Area):
            canvas.setFillGray(_gray(ink.tone))
            canvas.drawPath(_path(canvas, ink.spots, closed=True), stroke=0, fill=1)
        else:
            _circle(canvas, ink)
    canvas.setFillGray(0)
    canvas.setDash([])


def _gray(tone: str) -> int:
    return 1 if tone in ("paper", "field", "wood", "wash") else 0


def _glyphs(canvas: Canvas, ink: Glyphs) -> None:
    canvas.setFillGray(_gray(ink.tone))
    canvas.setFont("DejaVuSans-Bold" if ink.bold else "DejaVuSans", ink.em)
    text = printable(ink.text)
    if not ink.turned:
        canvas.drawString(ink.x, ink.y, text)
        return
    canvas.saveState()
    canvas.translate(ink.x, ink.y)
    canvas.rotate(90)
    canvas.drawString(0, 0, text)
    canvas.restoreState()


def _stroke(canvas: Canvas, ink: Stroke) -> None:
    canvas.setLineWidth(ink.width)
    canvas.setDash(list(ink.dash))
    canvas.setStrokeGray(_gray(ink.tone))
    canvas.drawPath(_path(canvas, ink.spots, closed=ink.closed), stroke=1, fill=0)


def _circle(canvas: Canvas, ink: Circle) -> None:
    canvas.setDash([])
    canvas.setLineWidth(ink.width)
    canvas.setStrokeGray(_gray(ink.tone))
    canvas.setFillGray(_gray(ink.fill))
    canvas.circle(ink.x, ink.y, ink.radius, stroke=1 if ink.width else 0, fill=1 if ink.fill else 0)


def _path(canvas: Canvas, spots: tuple[tuple[float, float], ...], *, closed: bool) -> object:
    path = canvas.beginPath()
    path.moveTo(*spots[0])
    for spot in spots[1:]:
        path.lineTo(*spot)
    if closed:
        path.close()
    return path

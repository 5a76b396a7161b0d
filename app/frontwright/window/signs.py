"""The signs of findings and of tables: a ring, a triangle, a stop block, the pointer of the selected row."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from frontwright.window.theme import Theme

WORDS = {"note": "note", "warn": "warn", "stop": "stop"}


def paint_level(painter: QPainter, box: QRectF, level: str, theme: Theme) -> None:
    """The mark of a finding's level in `box`: open ring, half-filled triangle, filled block with a bar."""
    colour = theme.palette.level(level)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if level == "note":
        painter.setPen(QPen(colour, 1.6 * theme.scale))
        inset = 1.2 * theme.scale
        painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))
    elif level == "warn":
        _triangle(painter, box, colour, theme)
    elif level == "stop":
        painter.fillRect(box.adjusted(0, box.height() * 0.06, 0, -box.height() * 0.06), colour)
        bar = QRectF(0, 0, box.width() * 0.56, box.height() * 0.2)
        bar.moveCenter(box.center())
        painter.fillRect(bar, theme.palette.paper)
    painter.restore()


def _triangle(painter: QPainter, box: QRectF, colour: QColor, theme: Theme) -> None:
    top, left, right = QPointF(box.center().x(), box.top()), box.bottomLeft(), box.bottomRight()
    line = max(1.0, 1.4 * theme.scale)
    painter.setPen(QPen(colour, line, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.MiterJoin))
    lift = QPointF(0, -line / 2)
    painter.drawPolygon(QPolygonF([top, left + lift, right + lift]))
    painter.setBrush(QBrush(colour))
    painter.setPen(Qt.PenStyle.NoPen)
    half = (top + left) / 2, (top + right) / 2
    painter.drawPolygon(QPolygonF([half[0], left, right, half[1]]))


def paint_pointer(painter: QPainter, at: QPointF, theme: Theme, colour: QColor | None = None) -> None:
    """The small triangle before the selected row; `at` is the middle of its upright side."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour or theme.palette.blue)
    high, long = theme.px(5), theme.px(7)
    painter.drawPolygon(QPolygonF([at + QPointF(0, -high), at + QPointF(long, 0), at + QPointF(0, high)]))
    painter.restore()

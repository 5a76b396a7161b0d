"""Words with figures in them, broken into lines: sentences of findings, advice, notes."""

from __future__ import annotations

import re
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from frontwright.window.figures import Part, paint_parts, part_width, parts_width, words_with_figures
from frontwright.window.theme import Letters, Theme

_WORD = re.compile(r"\s*\S+\s*|\s+")


@dataclass(frozen=True, slots=True)
class Placed:
    """A part of a text at its place: `x` from the left, on line `line`."""

    part: Part
    x: float
    line: int


def flow(text: str, width: float, letters: Letters) -> tuple[Placed, ...]:
    """A text broken into lines of at most this width; a word that is wider than that has a line of its own."""
    placed: list[Placed] = []
    x, line, may_break = 0.0, 0, False
    for part in _tokens(text):
        wide = part_width(part.rstrip() if isinstance(part, str) else part, letters)
        if may_break and x + wide > width:
            x, line = 0.0, line + 1
            part = part.lstrip() if isinstance(part, str) else part
        placed.append(Placed(part, x, line))
        x += part_width(part, letters)
        may_break = isinstance(part, str) and part[-1:].isspace()
    return tuple(placed)


def _tokens(text: str) -> list[Part]:
    tokens: list[Part] = []
    for part in words_with_figures(text):
        tokens.extend(_WORD.findall(part) if isinstance(part, str) else [part])
    return tokens


def lines_of(placed: tuple[Placed, ...]) -> int:
    return placed[-1].line + 1 if placed else 0


def paint_flow(
    painter: QPainter,
    at: QPointF,
    placed: tuple[Placed, ...],
    letters: Letters,
    colour: QColor,
    step: float,
) -> None:
    """Paint a broken text; `at` is the left end of the first baseline, `step` from one line to the next."""
    for item in placed:
        paint_parts(painter, at + QPointF(item.x, item.line * step), (item.part,), letters, colour)


class Prose(QWidget):
    """A paragraph of words with figures in a layout."""

    def __init__(
        self,
        theme: Theme,
        text: str = "",
        size: float = 12,
        role: str = "ink_soft",
        *,
        bold: bool = False,
        right: bool = False,
    ) -> None:
        super().__init__()
        self._theme, self._text, self._size, self._role, self._bold = theme, text, size, role, bold
        self._right = right
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy = self.sizePolicy()
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setAccessibleName(text)

    @property
    def text(self) -> str:
        return self._text

    def say(self, text: str, role: str | None = None) -> None:
        if text != self._text or (role and role != self._role):
            self._text, self._role = text, role or self._role
            self.setAccessibleName(text)
            self.updateGeometry()
            self.update()

    def heightForWidth(self, width: int) -> int:
        return round(lines_of(self._flow(width)) * self._step + self._theme.px(4))

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(200), self.heightForWidth(self._theme.px(400)))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._theme.px(60), self._theme.px(20))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        lines = self._flow(self.width())
        start = max(0.0, (self.height() - lines_of(lines) * self._step) / 2) + self._step * 0.72
        at = QPointF(0, round(start))
        if self._right and lines_of(lines) == 1:
            wide = parts_width(tuple(item.part for item in lines), self._letters)
            at = QPointF(self.width() - wide, at.y())
        colour = getattr(self._theme.palette, self._role)
        paint_flow(painter, at, lines, self._letters, colour, self._step)
        painter.end()

    def _flow(self, width: float) -> tuple[Placed, ...]:
        return flow(self._text, width, self._letters)

    @property
    def _letters(self) -> Letters:
        return self._theme.letters(self._size, bold=self._bold)

    @property
    def _step(self) -> float:
        return self._size * self._theme.scale * 1.6

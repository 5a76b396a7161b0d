"""The pen: lines, boxes and words on one page. Places in millimetres from the page's top left corner, y downwards."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from frontwright.core.drawing.ink import Area, Glyphs
from frontwright.core.lengths import Shown
from frontwright.sheets.words import POINT, Atom, Words, fit, laid, width_of, words, wrap

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

THIN, OUTLINE = 0.25, 0.5
TICK = 5.0
Align = Literal["left", "centre", "right"]


class Pen:
    """Draws on the open page of a PDF. `height`: of the page, in millimetres."""

    def __init__(self, canvas: Canvas, height: float) -> None:
        self.canvas = canvas
        self.height = height

    def line(
        self, x1: float, y1: float, x2: float, y2: float, width: float = THIN, dash: tuple[float, ...] = ()
    ) -> None:
        """A line `width` millimetres wide; `dash` in millimetres, on and off in turn."""
        self._stroke(width, dash)
        self.canvas.line(*self._at(x1, y1), *self._at(x2, y2))

    def box(self, x: float, y: float, w: float, h: float, width: float = THIN) -> None:
        """A rectangle with its upper left corner at x, y, the line centred on its edge."""
        self._stroke(width, ())
        left, low = self._at(x, y + h)
        self.canvas.rect(left, low, w / POINT, h / POINT, stroke=1, fill=0)

    def clear(self, x: float, y: float, w: float, h: float) -> None:
        """White paper over what was drawn there: the knocked-out ground of words and boxes."""
        self.canvas.setFillGray(1)
        left, low = self._at(x, y + h)
        self.canvas.rect(left, low, w / POINT, h / POINT, stroke=0, fill=1)
        self.canvas.setFillGray(0)

    def ring(self, x: float, y: float, radius: float, width: float = OUTLINE) -> None:
        """An open ring round x, y: the sign of a note."""
        self._stroke(width, ())
        self.canvas.circle(*self._at(x, y), radius / POINT, stroke=1, fill=0)

    def filled(self, *corners: tuple[float, float]) -> None:
        """A black patch, for arrowheads."""
        path = self.canvas.beginPath()
        path.moveTo(*self._at(*corners[0]))
        for corner in corners[1:]:
            path.lineTo(*self._at(*corner))
        path.close()
        self.canvas.drawPath(path, stroke=0, fill=1)

    def tick(self, x: float, y: float, side: float = TICK) -> None:
        """A box to tick, its upper left corner at x, y."""
        self.box(x, y, side, side, 0.4)

    def pencil(self, x: float, y: float, w: float, h: float = 10.0, label: str = "", width: float = THIN) -> None:
        """A box to write in, with its label small inside at the top left."""
        self.box(x, y, w, h, width)
        if label:
            self.words(x + 1.3, y + 3.0, fit(words(label, size=7), w - 2))

    def words(self, x: float, y: float, line: Words, align: Align = "left") -> float:
        """A line of words on the base line y; x is its left end, middle or right end. Gives its width."""
        width = width_of(line)
        at = x - {"left": 0.0, "centre": width / 2, "right": width}[align]
        for atom in line:
            self._atom(at, y, atom)
            if atom.struck:
                middle = y - 0.36 * atom.size * POINT
                self.line(at - 0.4, middle, at + atom.width + 0.4, middle)
            at += atom.width
        return width

    def paragraph(self, x: float, y: float, width: float, line: Words, lead: float) -> float:
        """Words broken into lines `lead` millimetres apart, the first on the base line y; gives the next base line."""
        for row in wrap(line, width):
            self.words(x, y, row)
            y += lead
        return y

    def _atom(self, x: float, y: float, atom: Atom) -> None:
        if isinstance(atom.text, Shown):
            self._length(x, y, atom, atom.text)
        else:
            self._string(x, y, atom.text, atom, atom.size)

    def _length(self, x: float, y: float, atom: Atom, text: Shown) -> None:
        em = atom.size * POINT
        for ink in laid(text, atom.face).inks:
            if isinstance(ink, Glyphs):
                self._string(x + ink.x * em, y - ink.y * em, ink.text, atom, atom.size * ink.em)
            elif isinstance(ink, Area):
                self.filled(*((x + right * em, y - up * em) for right, up in ink.spots))

    def _string(self, x: float, y: float, text: str, atom: Atom, size: float) -> None:
        if text.strip():
            self.canvas.setFont(atom.face, size)
            self.canvas.drawString(*self._at(x, y), text)

    def _stroke(self, width: float, dash: tuple[float, ...]) -> None:
        self.canvas.setLineWidth(width / POINT)
        self.canvas.setDash([part / POINT for part in dash] if dash else [])

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return x / POINT, (self.height - y) / POINT

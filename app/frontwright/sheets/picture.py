"""Drawings of the core laid on paper, at the largest scale of the trade at which they go in."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.drawing.lay import Laying
from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.medium import Medium
from frontwright.sheets.base import Page
from frontwright.sheets.player import put, scale_for, scale_for_thin


@dataclass(frozen=True, slots=True)
class Placed:
    """A drawing and how its letters are set."""

    drawing: Drawing
    medium: Medium

    def scale(self, width: float, height: float) -> int | None:
        """The largest scale, as n of 1:n, at which it goes into so many millimetres; None: it is fitted."""
        return scale_for(self.drawing, self.medium, width, height)

    def scale_thin(self, width: float, height: float) -> Fraction | None:
        """The same for something thin, which may stand at 2:1 or 5:1."""
        return scale_for_thin(self.drawing, self.medium, width, height)

    def draw(
        self, page: Page, x: float, y: float, width: float, height: float, n: Fraction | int | None = None
    ) -> None:
        """Into the place with its upper left corner at x, y, at 1:n or fitted."""
        self.laid(page, x, y, width, height, n)

    def laid(
        self, page: Page, x: float, y: float, width: float, height: float, n: Fraction | int | None = None
    ) -> Laying:
        """The same; gives where everything fell, in points."""
        return put(page.pen.canvas, page.pen.height, self.drawing, self.medium, x, y, width, height, n)


def said_scale(n: Fraction | int | None) -> str:
    """A scale for the foot: "1:10", "2:1"; "fitted" where it is none of the trade's."""
    if not n:
        return "fitted"
    return f"1:{n}" if n >= 1 else f"{1 / n}:1"

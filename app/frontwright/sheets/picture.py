"""Drawings of the core laid on paper: which drawing a sheet takes, and at which scale it goes in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.medium import Medium
from frontwright.sheets.base import Page
from frontwright.sheets.player import put, scale_for


@dataclass(frozen=True, slots=True)
class Picture:
    """Drawings side by side in a place, all at one scale. `widths`: their shares of the place."""

    drawings: tuple[Drawing, ...]
    medium: Medium
    gap: float = 4.0

    def scale(self, width: float, height: float) -> int | None:
        """The largest scale, as n of 1:n, at which all of them go into so many millimetres; None: fitted."""
        found = [scale_for(d, self.medium, w, height) for d, w in zip(self.drawings, self._widths(width), strict=True)]
        known = [n for n in found if n is not None]
        return max(known) if len(known) == len(found) else None

    def draw(self, page: Page, x: float, y: float, width: float, height: float) -> None:
        """Draw them into the place."""
        n = self.scale(width, height)
        for drawing, wide in zip(self.drawings, self._widths(width), strict=True):
            put(page.pen.canvas, page.pen.height, drawing, self.medium, x, y, wide, height, n)
            x += wide + self.gap

    def _widths(self, width: float) -> Sequence[float]:
        one = (width - self.gap * (len(self.drawings) - 1)) / len(self.drawings)
        return [one] * len(self.drawings)


def said_scale(n: int | None) -> str:
    """A scale for the foot: "1:10"; "fitted" where it is none of the trade's."""
    return f"1:{n}" if n else "fitted"

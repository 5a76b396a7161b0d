"""A name as a small square code, for those who would rather point a reader at a label than type what stands on it."""

from __future__ import annotations

from itertools import groupby

from frontwright.sheets.pen import Pen

QUIET = 2  # modules left white around it; the paper beside it is white too
MOST = 60  # letters: more would make it too fine to read


def square_code(pen: Pen, x: float, y: float, side: float, text: str) -> None:
    """The code of a text in a square `side` millimetres wide, its upper left corner at x, y."""
    import segno

    shown = text.encode("utf-8", "replace").decode()[:MOST] or "?"
    rows = [bytes(row) for row in segno.make(shown, micro=False, error="m").matrix]
    unit = side / (len(rows) + 2 * QUIET)
    for down, row in enumerate(rows):
        across = 0
        for dark, run in groupby(row):
            wide = len(list(run))
            if dark:
                left, top = x + (QUIET + across) * unit, y + (QUIET + down) * unit
                right, low = left + wide * unit, top + unit
                pen.filled((left, top), (right, top), (right, low), (left, low))
            across += wide

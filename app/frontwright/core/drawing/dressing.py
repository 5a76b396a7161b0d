"""Grain lines: dressing that makes wood look like wood, and runs on from part to part of one board."""

from __future__ import annotations

from collections.abc import Iterator
from math import sin

from frontwright.core.drawing.ink import Spot, Stroke
from frontwright.core.drawing.view import Frame

APART = 18.0
STEP = 12.0


def grain_lines(frame: Frame, board: str, pixel: float, *, vertical: bool) -> Iterator[Stroke]:
    """Wavy lines 18 pixels apart within a frame of the ground; the same board gives the same lines wherever it lies."""
    low, high = (frame.left, frame.right) if vertical else (frame.bottom, frame.top)
    start, end = (frame.bottom, frame.top) if vertical else (frame.left, frame.right)
    seed = _number(board)
    apart, keep = APART * pixel, 2.5 * pixel
    first = int(low / apart) - 1
    for k in range(first, int(high / apart) + 2):
        phase = _number(f"{seed} {k}")
        middle = (k + 0.5) * apart + (phase % 7 - 3) * pixel
        if not low + keep < middle < high - keep:
            continue
        for run in _runs(middle, start + keep, end - keep, phase, pixel, (low + keep, high - keep)):
            yield Stroke(tuple((a, u) if vertical else (u, a) for u, a in run), "wood_grain", pixel)


def _runs(
    middle: float, start: float, end: float, phase: int, pixel: float, bounds: tuple[float, float]
) -> Iterator[list[Spot]]:
    """The stretches of one line: it swings a little and now and then stops for a while."""
    run: list[Spot] = []
    u = start
    while u <= end:
        swing = sin(u / (46 * pixel) + phase) + 0.5 * sin(u / (19 * pixel) + phase * 1.7)
        a = min(max(middle + 1.7 * pixel * swing, bounds[0]), bounds[1])
        if sin(u / (105 * pixel) + phase * 0.9) > -0.82:
            run.append((u, a))
        else:
            if len(run) > 2:
                yield run
            run = []
        u += STEP * pixel if u + STEP * pixel <= end or u == end else max(end - u, 0.01)
    if len(run) > 2:
        yield run


def _number(text: str) -> int:
    """A small number that depends on a text and is the same on every machine."""
    value = 7
    for letter in text:
        value = (value * 131 + ord(letter)) % 99991
    return value

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


def leaf_lines(frame: Frame, board: str, pixel: float, *, vertical: bool, turned: bool) -> Iterator[Stroke]:
    """The figure of a leaf: straight lines on its far side, arches that close on its right edge; turned, mirrored.

    All leaves of a board have the same figure, so that a leaf and its turned neighbour show whole arches.
    """
    across = frame.width if vertical else frame.height
    along = frame.height if vertical else frame.width
    shift = (_number(board) % 5 + 1) / 10
    for line in _figure(across, along, shift, pixel):
        spots = [(across - a if turned else a, u) for a, u in line]
        yield Stroke(
            tuple(
                (frame.left + a, frame.bottom + u) if vertical else (frame.left + u, frame.bottom + across - a)
                for a, u in spots
            ),
            "wood_grain",
            pixel,
        )


def _figure(across: float, along: float, shift: float, pixel: float) -> Iterator[list[Spot]]:
    """Lines as (across, along): three straight ones, then arches one over the other, their tops on the right edge."""
    keep = 2.5 * pixel
    for k in range(3):
        side = across * (0.14 + 0.13 * k)
        yield [(side + 1.5 * pixel * sin(u / (60 * pixel) + k), u) for u in _steps(keep, along - keep, pixel)]
    reach = 0.75 * along
    for k in range(-6, 7):
        top = along * (0.35 + shift + 0.17 * k)
        places = _steps(max(keep, top - reach), min(top, along - keep), pixel)
        if len(places) > 2:
            yield [(across - 0.48 * across * (max(top - u, 0.0) / reach) ** 0.5, u) for u in places]


def _steps(start: float, end: float, pixel: float) -> list[float]:
    """Places a step apart, and the end."""
    count = max(int((end - start) / (STEP * pixel)), 0)
    return [start + k * STEP * pixel for k in range(count + 1)] + [end] if end > start else []


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

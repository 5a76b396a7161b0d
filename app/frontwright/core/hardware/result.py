"""What the hardware chapter gives: hinges, their heights and cups, by front."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from frontwright.core.figures import Figure
from frontwright.core.findings import Check


@dataclass(frozen=True, slots=True)
class HingePlan:
    """The hinges of a door: how many (F25), heights of their centres above the door's bottom edge."""

    front: str
    type: str | None
    name: str
    count: int
    heights: tuple[Figure, ...]
    cover: Figure | None
    why: str


@dataclass(frozen=True, slots=True)
class CupPlan:
    """The cup against the joint (F27), all from the hinge edge of the door, bored from the back."""

    front: str
    diameter: Figure
    depth: Figure
    far_edge: Figure
    limit: Figure
    centre: Figure
    floor_left: Figure
    floor_least: Figure


@dataclass(frozen=True, slots=True)
class HardwarePlan:
    """Hinges, cups and pulls of every front."""

    hinges: Mapping[str, HingePlan]
    cups: Mapping[str, CupPlan]
    pulls: Mapping[str, int]
    checks: tuple[Check, ...]

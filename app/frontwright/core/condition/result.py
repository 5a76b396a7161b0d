"""What the condition chapter gives: every surface with what the glue meets on it, drawers, cautions by place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from frontwright.core.cautions import Hazard
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import Drawer, Surface

# What the glue meets on a surface, made good as it is to be: the rows of the trade's table of adhesives (stage 13).
Ground = Literal["bare wood", "sound finish", "sound film", "lifting", "laminate", "greasy", "not said"]


@dataclass(frozen=True, slots=True)
class SurfacePlan:
    """A surface of a run. `row` says nothing where nobody looked. `letter`: on the sheet, within its run.

    `glued`: something is glued onto it; `disturbed`: it is sanded, scraped or covered. `ground`: what the glue meets.
    `may_be_glued`: whether nothing speaks against it any more. `old_paint`: paint that may hold lead, not swabbed.
    """

    row: Surface
    letter: str
    looked_at: bool
    glued: bool
    disturbed: bool
    ground: Ground
    may_be_glued: bool
    old_paint: bool
    fastened: bool

    @property
    def id(self) -> str:
        return self.row.id

    @property
    def run(self) -> str:
        return self.row.run


@dataclass(frozen=True, slots=True)
class DrawerPlan:
    """A drawer as a whole. `packing` goes behind its applied front: facing and bumper less how far the box stands out
    (F13). `chosen`: the packing that was chosen instead."""

    opening: str
    row: Drawer
    facing: Figure | None
    bumper: Figure
    box_front: Figure
    packing: Figure
    chosen: Figure | None

    @property
    def behind(self) -> Figure:
        """What lies between the front and its box: as chosen, else as worked out."""
        return self.chosen or self.packing


@dataclass(frozen=True, slots=True)
class Placed:
    """A hazard and what it is at: a run, and the surface or opening of it where it is only there."""

    hazard: Hazard
    run: str
    of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ConditionPlan:
    """All of it. `surfaces` in the order of the runs, those too that are covered and were never looked at."""

    surfaces: tuple[SurfacePlan, ...]
    drawers: Mapping[str, DrawerPlan]
    hazards: tuple[Placed, ...]
    checks: tuple[Check, ...]

    def surface(self, run: str, where: str) -> SurfacePlan | None:
        """A surface by its place; None where nothing is said of it and nothing covers it."""
        return next((s for s in self.surfaces if (s.run, s.row.where) == (run, where)), None)

    def of_run(self, run: str) -> tuple[SurfacePlan, ...]:
        """The surfaces of a run."""
        return tuple(one for one in self.surfaces if one.run == run)

    def hazards_of(self, run: str) -> tuple[Placed, ...]:
        """The hazards of a run, each once."""
        return tuple(one for one in self.hazards if one.run == run)

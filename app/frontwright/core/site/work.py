"""The operations of a job in the order of the work, the settings of each machine shared over all fronts.

A setting is a stop, a fence, a thickness: all pieces of it are done before the next one is set.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from frontwright.core.facing.result import FacingPlan, Strip
from frontwright.core.figures import Figure
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.making.result import FrontMaking, MakingPlan, Part
from frontwright.core.site.result import Stage, WorkStep
from frontwright.core.veneer.result import VeneerPlan

NIGHT = "a night, stickered"
RESTS = "24 to 72 hours, stickered and weighted"
JOINTS = {
    "dowelled": "bore for dowels",
    "stub tenon": "cut grooves and stub tenons",
    "cope and stick": "cope the ends, then stick the edges",
    "mitred": "cut mitres",
}


@dataclass(frozen=True, slots=True)
class Planned:
    """What the steps follow from."""

    fronts: FrontsPlan
    making: MakingPlan
    hardware: HardwarePlan
    facing: FacingPlan
    veneer: VeneerPlan
    finish: FinishPlan


def work_order(plan: Planned) -> tuple[WorkStep, ...]:
    """Every step that the job has, counted through; one that is done to nothing is left out."""
    chapters = (_wood, _joints, _panels, _fronts, _boring, _finish, _site)
    found = [step for chapter in chapters for step in chapter(plan) if step.pieces]
    return tuple(replace(step, number=at) for at, step in enumerate(found, 1))


def _step(
    stage: Stage, what: str, pieces: int, settings: Iterable[object] = (), of: Sequence[str] = (), rest: str = ""
) -> WorkStep:
    return WorkStep(0, stage, what, pieces, len(set(settings)), tuple(dict.fromkeys(of)), rest)


def _sizes(figures: Iterable[Figure | None]) -> set[object]:
    return {figure.units for figure in figures if figure is not None}


def _count(parts: Iterable[Part]) -> int:
    return sum(part.qty for part in parts)


def _solid(plan: Planned) -> list[Part]:
    return [part for part in plan.making.parts if part.material == "solid" and part.rough_length is not None]


def _wood(plan: Planned) -> Iterator[WorkStep]:
    """From the board to finished length: each setting once for all fronts."""
    solid = _solid(plan)
    pieces, fronts = _count(solid), [part.front for part in solid]
    rows = {id(row): row for row in plan.fronts.row_of.values()}.values()
    blanks = [row.row.id for row in rows if row.fronts]
    yield _step("wood", "crosscut to rough length", pieces, _sizes(p.rough_length for p in solid), fronts, NIGHT)
    yield _step("wood", "joint and plane over size", pieces, (), fronts, NIGHT)
    thick = _sizes(part.thickness for part in solid)
    yield _step("wood", "plane to final thickness, all together", pieces, thick, fronts)
    for work, what in (("rip", "rip to width"), ("crosscut", "crosscut to length by the stop, longest first")):
        stops = [stop for stop in plan.making.set_ups if stop.work == work]
        of = [part.front for stop in stops for part in stop.parts]
        yield _step("wood", what, sum(stop.pieces for stop in stops), _sizes(stop.setting for stop in stops), of)
    through = [front for row in rows for front in row.fronts]
    yield _step("wood", "cut rows of one grain from their blanks, in order", len(through), blanks, through)


def _framed(plan: Planned) -> list[tuple[str, FrontMaking]]:
    return [(front, made) for front, made in plan.making.fronts.items() if not made.slab]


def _joints(plan: Planned) -> Iterator[WorkStep]:
    framed = _framed(plan)
    for kind, what in JOINTS.items():
        mine = [(front, made) for front, made in framed if made.build.kind == kind]
        rails = [part for _, made in mine for part in made.parts if "rail" in part.kind or part.kind == "mullion"]
        settings = {(made.build.joint.units, made.build.thickness.units) for _, made in mine}
        yield _step("joints", what, _count(rails), settings, [front for front, _ in mine])
    builds = {made.build.id for _, made in framed}
    yield _step("joints", "dry fit one of each build", len(builds), (), ())


def _panels(plan: Planned) -> Iterator[WorkStep]:
    veneer = plan.veneer
    billets = [one.id for one in veneer.plans]
    leaves = sum(leaf.count + leaf.spares for leaf in veneer.leaves)
    yield _step("panels", "saw leaves", leaves, billets, (), RESTS if leaves else "")
    pressed = [panel.front for _, made in _framed(plan) for panel in made.panels if made.build.panel.kind == "veneered"]
    cores = _sizes(made.build.panel.core for _, made in _framed(plan) if made.build.panel.kind == "veneered")
    yield _step("panels", "cut cores over size, grain across the leaves", len(pressed), cores, pressed)
    yield _step("panels", "press panels, both faces at once", len(pressed), (), pressed, "24 hours before planing")
    yield _step("panels", "plane panels, from both faces in turn", len(pressed), (), pressed)
    stops = [stop for stop in plan.making.set_ups if stop.work == "sheet"]
    of = [part.front for stop in stops for part in stop.parts]
    yield _step("panels", "cut panels to size", sum(s.pieces for s in stops), _sizes(s.setting for s in stops), of)
    loose = [front for front, made in _framed(plan) for _ in made.panels if made.build.panel.kind == "solid"]
    yield _step("panels", "finish solid panels before they go in", len(loose), (), loose)


def _fronts(plan: Planned) -> Iterator[WorkStep]:
    framed = [front for front, _ in _framed(plan)]
    all_of_them = [front for front in plan.making.fronts if front in plan.fronts.fronts]
    inset = [front for front in all_of_them if plan.fronts.fronts[front].look.scheme == "inset"]
    yield _step("fronts", "assemble, diagonals measured in the clamps", len(framed), (), framed)
    yield _step("fronts", "clean, sand", len(all_of_them), (), all_of_them)
    yield _step("fronts", "plane inset fronts to their openings", len(inset), (), inset)


def _boring(plan: Planned) -> Iterator[WorkStep]:
    """Cups before finish, pairs mirrored; one fence for all cups of one distance, one jig for all pulls of a kind."""
    hinges = plan.hardware.hinges
    cups = sum(hinge.count for hinge in hinges.values())
    fences = {plan.hardware.cups[front].centre.units for front in hinges if front in plan.hardware.cups}
    yield _step("boring", "bore cups from the back, pairs mirrored", cups, fences, list(hinges))
    pulled = [front for front, count in plan.hardware.pulls.items() if count]
    jigs = {plan.fronts.fronts[front].front.kind for front in pulled}
    yield _step("boring", "bore for pulls by the jig", len(pulled), jigs, pulled)


def _finish(plan: Planned) -> Iterator[WorkStep]:
    for batch in plan.finish.batches:
        of = [area.of for area in batch.areas]
        named = f", {batch.name}" if batch.known else ""
        yield _step("finish", f"test piece{named}", 1)
        for step in batch.steps:
            loads = [load.number for load in batch.loads]
            rest = f"{float(step.dry.units):g} h"
            yield _step("finish", f"{step.name}{named}", len(of), loads, of, rest)


def _site(plan: Planned) -> Iterator[WorkStep]:
    strips = sorted(plan.facing.pieces, key=lambda strip: strip.order)
    fronts = plan.fronts.fronts
    doors = [front for front in fronts if front in plan.hardware.hinges]
    drawers = [name for name, front in fronts.items() if front.front.kind == "drawer"]
    fixed = [name for name, front in fronts.items() if front.front.kind == "fixed"]
    openings = {front.opening for front in fronts.values()}
    yield _step("site", "empty the boxes, cover floor and counter", len(openings))
    yield _step("site", "take off old fronts, label and keep them", len(openings))
    yield _step("site", "clean, key and repair what strips go on", len({strip.run for strip in strips}))
    yield from _gluing(strips)
    yield _step("site", "hang doors, the longest line first", len(doors), (), doors)
    yield _step("site", "adjust: height, side, depth", len(doors), (), doors)
    yield _step("site", "drawer fronts from spacers", len(drawers), (), drawers)
    yield _step("site", "fixed fronts", len(fixed), (), fixed)
    pulled = [front for front, count in plan.hardware.pulls.items() if count]
    yield _step("site", "pulls", len(pulled), (), pulled)
    yield _step("site", "touch up, write down snags and real reveals", len(fronts))


def _gluing(strips: Sequence[Strip]) -> Iterator[WorkStep]:
    """Pieces step by step: what comes later covers the edge of what came before."""
    for order in sorted({strip.order for strip in strips}):
        mine = [strip for strip in strips if strip.order == order]
        kinds = ", ".join(dict.fromkeys(f"{strip.kind}s" for strip in mine))
        yield _step("site", f"put on {kinds}", len(mine), (), [strip.id for strip in mine])

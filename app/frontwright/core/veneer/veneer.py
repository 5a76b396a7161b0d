"""The veneer chapter, whole: leaves wanted, billets as they are, every leaf in its place, panels and pressings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from frontwright.core.assumed import entered
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.job import Match
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.making.builds import panel_plan
from frontwright.core.making.leaves import usable_width
from frontwright.core.making.result import MakingPlan, PanelPart, PanelPlan
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.billets import billets_of, compared
from frontwright.core.veneer.checks import veneer_checks
from frontwright.core.veneer.counts import Nest, billet_yields, leaf_counts, strip_nests, unfit, wants_of
from frontwright.core.veneer.faces import panel_faces, room_of, skin_faces, strip_faces
from frontwright.core.veneer.leaf_checks import billet_checks, joint_checks, leaf_checks, narrower_checks, strip_checks
from frontwright.core.veneer.moisture import shop_checks
from frontwright.core.veneer.panels import leaves_of_faces, panel_made
from frontwright.core.veneer.press_checks import press_checks
from frontwright.core.veneer.pressing import benches_of, rehearsed
from frontwright.core.veneer.result import (
    BilletPlan,
    BilletYield,
    Comparison,
    FaceWanted,
    LeafCount,
    Seat,
    VeneerPlan,
)
from frontwright.core.veneer.sawing import billet_plan
from frontwright.core.veneer.seats import seats_of


@dataclass(frozen=True, slots=True)
class _Panels:
    """The panels of leaves, how each is built, and the build of the job's leaves where nothing else is said."""

    parts: list[PanelPart]
    builds: dict[str, PanelPlan]
    usual: PanelPlan


@dataclass(frozen=True, slots=True)
class _Sawn:
    """Leaves and billets: what is wanted, what the billets give, and where each leaf lies."""

    usable: Figure
    nests: tuple[Nest, ...]
    leaves: tuple[LeafCount, ...]
    yields: tuple[BilletYield, ...]
    plans: tuple[BilletPlan, ...]
    compared: tuple[Comparison, ...]
    seats: tuple[Seat, ...]
    missing: tuple[FaceWanted, ...]


def veneer(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, facing: FacingPlan) -> VeneerPlan:
    """Everything of leaves, from what is wanted to the panel out of the press."""
    panels = _panels(index, making)
    sawn = _sawn(index, fronts, making, facing, panels)
    faces = {p.part: leaves_of_faces(sawn.plans, sawn.seats, p.part) for p in panels.parts}
    made = {p.part: panel_made(index, p, panels.builds[p.part], faces[p.part]) for p in panels.parts}
    benches = benches_of(index, panels.parts, panels.builds)
    pressings = tuple(rehearsed(bench) for bench in benches)
    pressed = (
        *veneer_checks(index, sawn.plans, sawn.compared, sawn.missing, panels.parts, made, panels.builds),
        *press_checks(index, benches, pressings, panels.parts),
    )
    homeless = unfit(facing, sawn.nests, sawn.usable)
    return VeneerPlan(
        leaves=sawn.leaves,
        billets=sawn.yields,
        usable_width=sawn.usable,
        plans=sawn.plans,
        compared=sawn.compared,
        seats=sawn.seats,
        missing=sawn.missing,
        match=_matches(sawn.plans, sawn.seats),
        nests=tuple((use, leaf) for use, _, laid in sawn.nests for leaf in laid),
        unfit=tuple(strip.id for strip, _, _ in homeless),
        panels=made,
        pressings=pressings,
        checks=(*pressed, *_wood_checks(index, sawn, panels), *strip_checks(homeless), *_narrower(index, sawn, panels)),
    )


def _panels(index: JobIndex, making: MakingPlan) -> _Panels:
    parts = [p for made in making.fronts.values() for p in made.panels if p.leaf_length is not None]
    builds = {p.part: making.fronts[p.front].build.panel for p in parts}
    return _Panels(parts, builds, panel_plan(index, first_veneered(index)))


def _sawn(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, facing: FacingPlan, panels: _Panels) -> _Sawn:
    usable, usual = usable_width(index), panels.usual
    nests = strip_nests(index, making, facing, usable)
    leaves = leaf_counts(making, facing, usable, nests, usual.slice)
    wants = wants_of(index, leaves, usual.slice)
    yields = billet_yields(index, wants)
    longest = max((y.length for y in yields), key=lambda f: in_units(f.value), default=None)
    plans = tuple(billet_plan(index, row, usual, longest) for row in billets_of(index, wants, yields))
    faces = [
        *panel_faces(index, fronts, panels.parts, panels.builds, usable),
        *skin_faces(facing, usable),
        *strip_faces(index, nests),
    ]
    seats, missing = seats_of(plans, faces, room_of(index))
    return _Sawn(usable, nests, leaves, yields, plans, tuple(compared(index, wants, plans)), seats, missing)


def _wood_checks(index: JobIndex, sawn: _Sawn, panels: _Panels) -> Iterator[Check]:
    """Of the shop's air, of billets and of leaves."""
    yield from shop_checks(index, sawn.plans)
    yield from billet_checks(index, sawn.plans, panels.usual)
    yield from leaf_checks(index, sawn.plans, sawn.compared, sawn.leaves, sawn.seats, sawn.missing)
    yield from joint_checks(sawn.plans, sawn.seats, panels.parts, sawn.usable, room_of(index).edges)


def _narrower(index: JobIndex, sawn: _Sawn, panels: _Panels) -> Iterator[Check]:
    edge = entered(index.unit, index.allowances.panel_edge, "panel edge")
    return narrower_checks(panels.parts, sawn.usable, edge)


def _matches(plans: Sequence[BilletPlan], seats: Sequence[Seat]) -> dict[str, Match]:
    """How the show face of each panel is matched: as its billet is."""
    matches = {plan.id: plan.billet.match for plan in plans}
    return {seat.of: matches[seat.billet] for seat in seats if seat.side == "show"}

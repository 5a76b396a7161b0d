"""The facing chapter, whole: what covers each run, in gluing order, and what holds it (F41 to F46, F72, F73)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from frontwright.core.condition.result import ConditionPlan, DrawerPlan
from frontwright.core.facing.bonds import bonds, pins_of
from frontwright.core.facing.checks import facing_checks
from frontwright.core.facing.packings import packings
from frontwright.core.facing.result import FacingPlan, RunFacing, Strip
from frontwright.core.facing.sizes import run_length, skins_of
from frontwright.core.facing.strips import RAILS, Covering, covering_of, faces, returns, skins
from frontwright.core.facing.trims import trims_of
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.returns import covered_opening
from frontwright.core.survey.result import RunPlan, SurveyPlan

SKINS, RETURNS = ("skin", "underside"), ("return",)
TRIM = ("toe kick", "valance", "light rail", "top panel", "apron", "filler")


def facing(index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, condition: ConditionPlan) -> FacingPlan:
    """Every run that something is put on: its pieces in gluing order, what is packed, what holds them."""
    found = {run.id: _run(index, run, fronts.fronts, condition.drawers) for run in survey.runs}
    kept = {name: run for name, run in found.items() if run.pieces or run.packings or run.sizeless}
    return FacingPlan(kept, tuple(facing_checks(index, survey, kept)))


def _run(
    index: JobIndex, run: RunPlan, fronts: Mapping[str, FrontPlan], drawers: Mapping[str, DrawerPlan]
) -> RunFacing:
    openings = {o.id: covered for o in run.openings if (covered := covered_opening(index, o)) is not None}
    covering = covering_of(index, run, openings)
    trims = tuple(trims_of(index, run, fronts))
    every = _numbered(covering, [one for trim in trims for one in trim.pieces])
    sizeless = tuple(one for one in every if _sizeless(one))
    pieces = every if not sizeless else tuple(one for one in every if one not in sizeless)
    by_id = {one.id: one for one in pieces}
    return RunFacing(
        run=run.id,
        pieces=pieces,
        trims=tuple(
            replace(trim, pieces=tuple(by_id[one.id] for one in trim.pieces if one.id in by_id)) for trim in trims
        ),
        packings=tuple(packings(index, run, by_id, openings, fronts, drawers)),
        openings=openings,
        length=run_length(run, skins_of(index, run)),
        bonds=tuple(bonds(index, run, pieces)),
        pins=tuple(pins_of(index, run, pieces)),
        sizeless=sizeless,
    )


def _sizeless(one: Strip) -> bool:
    return one.length.units <= 0 or one.width.units <= 0 or one.thickness.units <= 0


def _numbered(covering: Covering, trims: list[Strip]) -> tuple[Strip, ...]:
    """F42: skins, returns, faces, trim; each step and each piece by its number."""
    under = [one for one in trims if one.kind in SKINS]
    steps: list[list[Strip]] = [[*skins(covering.index, covering.run), *under]]
    inside = list(returns(covering))
    steps += [inside] if inside else []
    steps += list(_face_steps(covering))
    steps.append([one for one in trims if one.kind in TRIM])
    ordered = [(step, one) for step, own in enumerate(steps, 1) for one in own]
    return tuple(replace(one, order=step, number=at) for at, (step, one) in enumerate(ordered, 1))


def _face_steps(covering: Covering) -> Iterator[list[Strip]]:
    """What runs through first, then what stands between."""
    found = list(faces(covering))
    stiles = [one for one in found if one.kind == "stile strip"]
    through = [one for one in found if one.kind == "rail strip" and covering.row.through == "rails"]
    if through:
        whole = [one for one in through if one.on in RAILS]
        yield whole
        yield [*stiles, *(one for one in through if one not in whole)]
    else:
        yield stiles
        yield _unlike(found, stiles)


def _unlike(found: Iterable[Strip], taken: list[Strip]) -> list[Strip]:
    return [one for one in found if one not in taken]

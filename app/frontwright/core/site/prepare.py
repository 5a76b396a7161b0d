"""What is done to an old surface before a strip goes on it, and what holds on it: by what is found there."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.condition.result import ConditionPlan, SurfacePlan
from frontwright.core.facing.result import Bond, FacingPlan
from frontwright.core.job import Surface
from frontwright.core.lengths import decimal

# what holds a thin strip, and how the surface is made ready (common practice of the trade, no source)
_READY: dict[str, tuple[str, str]] = {
    "bare wood": ("wood glue, pins or tape", "clean, flat"),
    "sound finish": ("epoxy; contact adhesive for skins", "degrease, key with 80 grit, dust off"),
    "sound film": ("epoxy, small strips on sound keyed film only", "cut off at the member, or key; trial of 24 hours"),
    "laminate": ("contact adhesive or epoxy", "degrease, key with 80 grit, dust off"),
    "lifting": ("none until it is removed", "peel or scrape off what lifts"),
    "greasy": ("none until it is clean", "degrease again and again until a drop of water spreads"),
    "not said": ("not known until the finish is", "find out what is on it: alcohol, thinner, cross cut and tape"),
}
_WET = "wet only, no dry sanding, no heat: lead"


@dataclass(frozen=True, slots=True)
class Preparation:
    """A surface that something is glued to: `adhesive` that holds, `ready` what is done first, `open` while something
    speaks against gluing; `trial`: what came of the strip glued on for a day."""

    surface: str
    run: str
    where: str
    found: str
    adhesive: str
    ready: str
    open: bool
    trial: str


def preparations(condition: ConditionPlan, facing: FacingPlan) -> tuple[Preparation, ...]:
    """One for every surface that is glued to, in the order of the runs."""
    bonds = {(bond.run, str(bond.where)): bond for run in facing.runs.values() for bond in run.bonds}
    return tuple(_of(one, bonds.get((one.run, one.row.where))) for one in condition.surfaces if one.glued)


def _of(one: SurfacePlan, bond: Bond | None) -> Preparation:
    row = one.row
    adhesive, ready = _READY[one.ground]
    steps = [step for step in (_first(row), ready, _WET if row.swab == "lead" or one.old_paint else "") if step]
    return Preparation(
        surface=one.id,
        run=one.run,
        where=row.where,
        found=_found(row),
        adhesive=_sticks(bond, adhesive) if one.may_be_glued or one.ground == "not said" else "nothing until made good",
        ready="; ".join(steps),
        open=not one.may_be_glued,
        trial=row.trial or ("" if one.ground == "bare wood" else "not done: glue a strip on for a day"),
    )


def _sticks(bond: Bond | None, usual: str) -> str:
    """The adhesive that was chosen with how much of it, and strips to a mix (F72); what usually holds without one."""
    if bond is None or bond.kind is None:
        return usual
    mixes = f", {bond.per_mix} strips to a mix, {bond.mixes} mixes" if bond.kind == "epoxy" else ""
    wrong = "" if bond.fits else ", which does not hold there"
    return f"{bond.adhesive}, {decimal(bond.millilitres, 0)} ml{mixes}{wrong}"


def _found(row: Surface) -> str:
    return ", ".join(word for word in (row.finish or "not said", row.state or "") if word)


def _first(row: Surface) -> str:
    """What goes before everything else."""
    if row.state == "waxed or greasy" and not row.clean:
        return "degrease again and again, until a drop of water spreads"
    return "peel or scrape off what lifts" if row.state == "lifting" else ""

"""What covers each run, as figures: pieces in gluing order, returns, trim, packing, what holds them."""

from __future__ import annotations

from typing import Any

from frontwright.core.facing.result import Bond, Packing, Pins, RunFacing, Strip, TrimPlan
from frontwright.core.figures import Figure
from frontwright.core.lengths import Unit, exact_text
from frontwright.core.plan import Plan
from frontwright.core.returns import CoveredOpening

FACING_SECTIONS = ("facing", "covered_openings", "trims", "packings", "bonds", "pins")


def facing_sections(plan: Plan) -> dict[str, Any]:
    """The sections of the facing, by name."""
    unit, runs = plan.job.heading.unit, list(plan.facing.runs.values())
    return {
        "facing": [_run(run, unit) for run in runs],
        "covered_openings": [_opening(one, unit) for run in runs for one in run.openings.values()],
        "trims": [_trim(one, unit) for run in runs for one in run.trims],
        "packings": [_packing(one, unit) for run in runs for one in run.packings],
        "bonds": [_bond(one, unit) for run in runs for one in run.bonds],
        "pins": [_pins(one, unit) for run in runs for one in run.pins],
    }


def _told(figure: Figure | None, unit: Unit) -> str | None:
    return None if figure is None else exact_text(figure.value, unit)


def _run(run: RunFacing, unit: Unit) -> dict[str, Any]:
    return {"run": run.run, "length": _told(run.length, unit), "pieces": [_piece(one, unit) for one in run.pieces]}


def _piece(one: Strip, unit: Unit) -> dict[str, Any]:
    sizes = ("length", "width", "thickness", "rough_length", "rough_width")
    return {
        "number": one.number,
        "id": one.id,
        "kind": one.kind,
        "on": one.on,
        "order": one.order,
        "made_of": one.made_of,
        "covers": list(one.covers),
    } | {name: _told(getattr(one, name), unit) for name in sizes}


def _opening(one: CoveredOpening, unit: Unit) -> dict[str, Any]:
    return {
        "opening": one.opening,
        "squared": one.squared,
        "widths": [_told(size, unit) for size in one.widths],
        "heights": [_told(size, unit) for size in one.heights],
        "returns": [
            {
                "side": side,
                "strip": _told(two.strip, unit),
                "packing": [_told(end, unit) for end in two.packing],
                "at_middle": _told(two.at_middle, unit),
            }
            for side, two in one.returns.items()
        ],
    }


def _trim(one: TrimPlan, unit: Unit) -> dict[str, Any]:
    sizes = ("length", "width", "thickness", "altogether", "swell", "shrink")
    return {
        "id": one.id,
        "run": one.run,
        "kind": one.trim.kind,
        "mitred": list(one.mitred),
        "joints": [{"at": _told(at, unit), "under": front or None} for at, front in one.joints],
    } | {name: _told(getattr(one, name), unit) for name in sizes}


def _packing(one: Packing, unit: Unit) -> dict[str, Any]:
    return {
        "of": one.of,
        "what": one.what,
        "length": _told(one.length, unit),
        "width": _told(one.width, unit),
        "ends": [_told(end, unit) for end in one.ends],
    }


def _bond(one: Bond, unit: Unit) -> dict[str, Any]:
    return {
        "run": one.run,
        "where": one.where,
        "surface": one.ground,
        "adhesive": one.kind,
        "film": _told(one.film, unit),
        "millilitres": f"{round(one.millilitres * 100) / 100:.2f}",
        "strips": one.strips,
        "per_mix": one.per_mix,
        "mixes": one.mixes,
    }


def _pins(one: Pins, unit: Unit) -> dict[str, Any]:
    return {
        "run": one.run,
        "pieces": list(one.pieces),
        "least": _told(one.least, unit),
        "most": _told(one.most, unit),
        "pin": None if one.pin is None else exact_text(one.pin, unit),
        "count": one.count if one.pin is not None else 0,
    }

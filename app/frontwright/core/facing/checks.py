"""The checks of the facing: a mix that sets too soon (F72), tops that cannot move (F46), strips too wide."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from frontwright.core.assumed import assumed
from frontwright.core.facing.bonds import FITS
from frontwright.core.facing.result import Bond, RunFacing, Strip, TrimPlan
from frontwright.core.figures import Figure, plus, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job import Adhesive
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.survey.result import RunPlan, SurveyPlan
from frontwright.core.wood import guessed


def facing_checks(index: JobIndex, survey: SurveyPlan, runs: Mapping[str, RunFacing]) -> Iterator[Check]:
    """Every rule of the facing, looked at wherever there is something it speaks about."""
    for run in survey.runs:
        found = runs.get(run.id)
        if found is None:
            continue
        row = index.job.adhesives.get(_adhesive(index, run.id))
        if row is not None and found.bonds:
            yield _holds(index, found.bonds)
            yield from [_mix(found.bonds[0], row)] if row.kind == "epoxy" else []
        yield from (_fixed(trim) for trim in found.trims if trim.swell is not None and trim.shrink is not None)
        yield from _too_wide(index, run, found)
        yield from (_no_size(one) for one in found.sizeless)


def _cell(*parts: str) -> str:
    """The key of a field that a way out sets."""
    return "/".join(part.replace("%", "%25").replace("/", "%2F") for part in parts)


def _adhesive(index: JobIndex, run: str) -> str:
    row = index.job.facings.get(run)
    return row.adhesive or "" if row is not None else ""


def _mix(bond: Bond, row: Adhesive) -> Check:
    """F72: one strip must be on within the share of the pot life that is used."""
    limit = bond.share * bond.pot
    level: CheckLevel = "ok" if bond.minutes <= limit else "warn"
    ways = (WayOut("change", row.id, "pot_minutes"), WayOut("change", bond.run, "adhesive")) if level != "ok" else ()
    name = row.name or row.kind
    facts: dict[str, Fact] = {"adhesive": name[:1].upper() + name[1:]}
    return Check("press-time", (bond.run,), bond.minutes, limit, level, judged(level), "mix", facts, ways)


def _holds(index: JobIndex, bonds: Sequence[Bond]) -> Check:
    """The adhesive that was chosen for a run against what was found on its surfaces."""
    wrong = [one for one in bonds if not one.fits and one.ground not in ("not said", "lifting")]
    level: CheckLevel = "stop" if wrong else "ok"
    first = wrong[0] if wrong else bonds[0]
    fits = [set(FITS[one.ground]) for one in wrong]
    others = [one.id for one in index.job.adhesives.values() if all(one.kind in kinds for kinds in fits)]
    field = _cell("facings", first.run, "adhesive")
    ways = tuple(WayOut("change", first.run, field, one) for one in (*others, "")) if wrong else ()
    facts: dict[str, Fact] = {
        "adhesive": first.adhesive[:1].upper() + first.adhesive[1:],
        "what": " and ".join(one.where for one in wrong or bonds),
        "ground": first.ground,
    }
    where, case = (first.run,), "ground" if wrong else ""
    return Check("adhesive", where, first.kind, None, level, judged(level), case, facts, ways)


def _fixed(trim: TrimPlan) -> Check:
    """F46: a solid top or apron that is fixed along both edges cannot move."""
    swell, shrink = trim.swell or trim.width, trim.shrink or trim.width
    moves = total(f"movement of {trim.id}", plus(swell), plus(shrink))
    level: CheckLevel = "ok"
    if not trim.trim.slotted and moves.units > 0:
        level = "warn" if guessed(swell) else "stop"
    ways = (WayOut("change", trim.id, _cell("trims", trim.id, "slotted"), "yes"),) if level != "ok" else ()
    facts: dict[str, Fact] = {"kind": trim.trim.kind}
    case = "fixed" if level != "ok" else "slotted"
    return Check("panel-movement", (trim.id,), moves.value, None, level, judged(level), case, facts, ways)


def _too_wide(index: JobIndex, run: RunPlan, found: RunFacing) -> Iterator[Check]:
    """A strip that was measured wider than what it covers, or an end seen deeper than the box is."""
    room = assumed(index.unit, "strip wider")
    for one in found.pieces:
        planned = one.width.planned
        if one.width.source == "as-built" and planned is not None:
            yield _wider(one, one.width, total("at most", plus(planned), plus(room)))
    deep = _depth_of_box(index, run)
    for one in (piece for piece in found.pieces if piece.kind == "skin" and deep is not None):
        if deep is not None:
            yield _wider(one, one.width, total("at most", plus(deep), plus(room)))


def _no_size(one: Strip) -> Check:
    """A piece of which nothing is left: wider butts than the stile, a recess deeper than the run is long."""
    worst = min((one.length, one.width, one.thickness), key=lambda size: size.units)
    facts: dict[str, Fact] = {"on": one.on, "kind": one.kind}
    ways = (WayOut("look at", one.run),)
    return Check("strip-width", (one.id,), worst.value, None, "warn", "open", "no size", facts, ways)


def _wider(one: Strip, width: Figure, most: Figure) -> Check:
    level: CheckLevel = "warn" if in_units(width.value) > in_units(most.value) else "ok"
    ways = (WayOut("look at", one.id),) if level != "ok" else ()
    facts: dict[str, Fact] = {"on": one.on, "kind": one.kind}
    return Check("strip-width", (one.id,), width.value, most.value, level, judged(level), "", facts, ways)


def _depth_of_box(index: JobIndex, run: RunPlan) -> Figure | None:
    boxes = [box.depth for box in index.cabinets.get(run.id, []) if box.depth is not None and box.depth.value]
    values = [box.value for box in boxes if box.value is not None]
    return Figure(f"depth of the boxes of {run.id}", max(values), "taped") if values else None

"""Surfaces of a run: what is done with each, what glue meets there, and what speaks against it (stage 13)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from frontwright.core.brief import ban_year, brief_of
from frontwright.core.condition.result import Ground, SurfacePlan
from frontwright.core.findings import CheckLevel
from frontwright.core.job import FinishKind, Job, MadeGood, Surface, SurfaceWhere
from frontwright.core.job.index import JobIndex
from frontwright.core.survey.result import RunPlan, SurveyPlan

_ORDER: tuple[SurfaceWhere, ...] = (
    *("faces", "inside edges", "left end", "right end"),
    *("underside", "top", "toe kick", "inside"),
)
LOOSE_LAYERS = ("vinyl film", "edge tape", "plastic laminate")
SAFE_KEYING = ("wet", "chemical", "certified people")
_GROUNDS: dict[FinishKind, Ground] = {
    "bare": "bare wood",
    "oil or wax": "sound finish",
    "varnish or lacquer": "sound finish",
    "paint": "sound finish",
    "vinyl film": "sound film",
    "edge tape": "sound film",
    "plastic laminate": "laminate",
}


class Objection(NamedTuple):
    """What speaks against working on a surface as planned: case of the sentence, level, what is had and needed."""

    case: str
    level: CheckLevel
    have: str
    need: str


def surfaces_of(index: JobIndex, survey: SurveyPlan) -> Iterator[SurfacePlan]:
    """The surfaces of every run that were looked at or are covered, lettered in the order of the sheet."""
    rows = {(row.run, row.where): row for row in index.job.surfaces.values()}
    for run in survey.runs:
        shown = [where for where in _ORDER if (run.id, where) in rows or covered(index, run, where)]
        for at, where in enumerate(shown):
            row = rows.get((run.id, where))
            yield planned(index, run, row or Surface(f"{run.id} {where}", run.id, where), chr(ord("A") + at))


def planned(index: JobIndex, run: RunPlan, row: Surface, letter: str) -> SurfacePlan:
    """A surface with what follows from what was said of it."""
    glued = row.treated == "cover" or covered(index, run, row.where)
    disturbed = glued or row.treated in ("refinish", "replace")
    suspect = disturbed and old_paint(index.job, row)
    against = [one for one in objections(row, glued, disturbed, suspect) if one.level in ("stop", "warn")]
    return SurfacePlan(
        row=row,
        letter=letter,
        looked_at=row.finish is not None,
        glued=glued,
        disturbed=disturbed,
        ground=ground(row),
        may_be_glued=row.finish is not None and not against,
        old_paint=suspect,
        fastened=row.made_good == "mechanical and adhesive",
    )


def covered(index: JobIndex, run: RunPlan, where: str) -> bool:
    """Whether a strip or skin is glued onto it by what was chosen for the run's facing."""
    facing = index.job.facings.get(run.id)
    if where == "faces":
        return facing is not None and facing.faces
    if where == "inside edges":
        return facing is not None and facing.inside_edges != "none"
    if where == "underside":
        return any(one.run == run.id and one.kind == "underside" for one in index.job.trims.values())
    end = run.ends.get(where.removesuffix(" end")) if where.endswith(" end") else None
    return end is not None and end.skin != "none"


def old_paint(job: Job, row: Surface) -> bool:
    """Paint that may hold lead: no swab, and not known to be younger than the ban; no coat is older than the house."""
    if row.finish != "paint" or row.swab is not None:
        return False
    year = row.painted if row.painted is not None else brief_of(job).house_year
    return year is None or year < ban_year(job)


def ground_of(index: JobIndex, run: str, where: SurfaceWhere) -> Ground:
    """The ground on one surface of a run; `not said` where nobody looked."""
    row = next((one for one in index.job.surfaces.values() if (one.run, one.where) == (run, where)), None)
    return "not said" if row is None else ground(row)


def ground(row: Surface) -> Ground:
    """What the glue meets: what is peeled, or cut away where the strip goes, leaves the wood; pins leave what is there;
    wax and grease are in the way until they are washed off."""
    if row.finish is None:
        return "not said"
    if row.made_good == "peel and key" or (row.made_good == "cut away at edges" and row.finish in LOOSE_LAYERS):
        return "bare wood"
    if row.state == "lifting" and row.made_good is None:
        return "lifting"
    if (row.state == "waxed or greasy" or row.finish == "oil or wax") and not row.clean:
        return "greasy"
    return _GROUNDS[row.finish]


def objections(row: Surface, glued: bool, disturbed: bool, suspect: bool) -> Iterator[Objection]:
    """All that speaks against it, by the table of stage 13 and the hazards of stage 3."""
    if glued:
        yield from _against_glue(row)
    if disturbed and row.finish == "paint" and (row.swab == "lead" or suspect):
        yield from _against_dust(row)


def _against_glue(row: Surface) -> Iterator[Objection]:
    if row.finish is None:
        yield Objection("not looked at", "note", "", "finish and state")
        return
    if row.trial == "let go":
        yield Objection("let go", "stop", f"{described(row)}, trial let go", "a trial that holds")
    elif row.state == "lifting" and row.made_good is None:
        yield Objection("lifting", "stop", described(row), "sound")
    elif row.finish in ("vinyl film", "edge tape") and row.made_good is None and row.trial is None:
        yield Objection("film", "warn", described(row), "a trial that holds for a day")
    if (row.state == "waxed or greasy" or row.finish == "oil or wax") and not row.clean:
        yield Objection("greasy", "stop", described(row), "washed until water spreads")


def _against_dust(row: Surface) -> Iterator[Objection]:
    """Lead found, or old paint that nobody swabbed: nothing dry."""
    if row.keyed in SAFE_KEYING:
        return
    found = row.swab == "lead"
    if row.keyed == "dry":
        yield Objection(
            "lead dry" if found else "old paint dry", "stop", "keyed dry", "wet, a stripper, certified people"
        )
    elif found:
        yield Objection("lead", "stop", "lead found", "wet, a stripper, certified people")
    else:
        yield Objection("no swab", "warn", "no swab", "a swab, or worked as if it held lead")


def described(row: Surface) -> str:
    """Finish and state in words: "vinyl film, lifting"."""
    parts = (row.finish or "finish not known", row.state or "")
    return ", ".join(part for part in parts if part)


def remedies(row: Surface) -> tuple[MadeGood, ...]:
    """What can make a failing surface good, in the order of trouble; paint is scraped or fastened through."""
    if row.finish in LOOSE_LAYERS:
        return "peel and key", "cut away at edges", "mechanical and adhesive"
    return "peel and key", "mechanical and adhesive"

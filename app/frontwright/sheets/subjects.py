"""What concerns a sheet: the checks that stand on its subjects, and the assumptions it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import Display
from frontwright.core.making.result import FrontMaking, Part
from frontwright.core.plan import Plan
from frontwright.core.survey.result import RunPlan
from frontwright.sheets.info import SheetInfo, assumed_in
from frontwright.sheets.words import finely, text_of

HOLDING = ("open", "cleared")


@dataclass(frozen=True, slots=True)
class Shows:
    """What a sheet shows, gathered: each figure with its name on this sheet, and facts in words.

    `boxes`: facts that are written by hand into the sheet until they are known.
    """

    figures: tuple[tuple[str, Figure], ...] = ()
    told: tuple[tuple[str, str], ...] = ()
    assumptions: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()


def sheet(plan: Plan, number: str, kind: str, subject: str, title: str, ids: Iterable[str], shows: Shows) -> SheetInfo:
    """The sheet's info: facts as text, checks on the ids, what it rests on."""
    on = frozenset(ids)
    checks = [check for check in plan.checks if on.intersection(check.where)]
    assumed = assumed_in(of for _, of in shows.figures)
    return SheetInfo(
        key=f"{number}-{kind}:{subject}",
        number=number,
        kind=kind,
        subject=subject,
        title=title,
        facts=(*((name, told(of, plan.display)) for name, of in shows.figures), *shows.told),
        held_by=tuple(check for check in checks if check.holds_back),
        answered=tuple(check for check in checks if check.answer and check.state in HOLDING),
        rests_on=tuple(dict.fromkeys((*(of.name for of in assumed), *shows.assumptions))),
        assumed=assumed,
        boxes=shows.boxes,
    )


def told(of: Figure, display: Display) -> str:
    """A figure as finely as the sheet shows it; what is no length as its number."""
    if of.measure == "length":
        return text_of(*finely(of, display))
    number = of.units
    return str(number) if number == int(number) else f"{float(number):.1f}"


def run_ids(run: RunPlan) -> set[str]:
    """Everything of a run that a check can stand on."""
    ids = {run.id, *run.order, *(member.id for member in (*run.members, *run.rails)), *(o.id for o in run.openings)}
    return ids | {end.id for end in run.ends.values()} | {c.cabinet for c in run.columns if c.cabinet}


def front_ids(plan: Plan, front: FrontPlan) -> set[str]:
    """Everything that a check of this front can stand on: itself, its parts, builds, opening and run."""
    made = plan.making.fronts.get(front.id)
    ids = {front.id, front.opening, front.run}
    column = plan.survey.openings[front.opening].column if front.opening in plan.survey.openings else None
    ids |= {column} if column else set()
    if made:
        ids |= {made.build.id, made.build.panel.id, *(part.id for part in made.parts)}
    return ids | {row.row.id for row in plan.fronts.rows if front.id in row.fronts}


def species_name(plan: Plan, species: str) -> str:
    """What a species is called, by its id."""
    row = plan.job.species.get(species)
    return (row.name if row is not None else "") or species


def run_of(plan: Plan, run: str) -> RunPlan | None:
    return next((r for r in plan.survey.runs if r.id == run), None)


def ends_told(run: RunPlan) -> list[tuple[str, str]]:
    """What stands at each end of a run, and whether the end has a skin."""
    found: list[tuple[str, str]] = []
    for side, end in run.ends.items():
        thick = end.skin_thickness.text if end.skin_thickness is not None else ""
        skin = "" if end.skin == "none" else f", {end.skin} skin {thick}".rstrip()
        found.append((f"{side} end", f"{end.kind or 'not told'}{skin}"))
    return found


def part_figures(part: Part) -> tuple[tuple[str, Figure], ...]:
    """The three sizes of a part, by name."""
    of = f"of the {part.kind} of {part.front}"
    return (f"length {of}", part.length), (f"width {of}", part.width), (f"thickness {of}", part.thickness)


def made_told(made: FrontMaking) -> list[tuple[str, str]]:
    """How a front is made, in words, for sheets that draw it without telling its sizes."""
    told = [(f"pieces of {part.id}", str(part.qty)) for part in made.parts]
    told += [(name, str(size.value)) for part in made.parts for name, size in part_figures(part)]
    depths = (("groove width", made.groove_width), ("rabbet depth", made.rabbet_depth), ("rabbet", made.rabbet_width))
    return told + [(f"{name} of {made.front}", str(size.value)) for name, size in depths if size is not None]


def chosen_for(front: FrontPlan) -> tuple[str, ...]:
    """Choices of this front that nobody made yet."""
    side = (f"hinge side of {front.id}",) if front.hinge_side_assumed and front.hinge_side else ()
    return (*side, f"grain of {front.id}") if front.grain_assumed else side

"""Plain face strips of a frame and sawn skins of its ends (F41)."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import entered
from frontwright.core.facing.result import FacingPlan, Strip
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import End
from frontwright.core.job.index import JobIndex
from frontwright.core.skins import depth_seen, rough_skin, skin_part, skin_thickness, strip_thickness
from frontwright.core.survey.result import MemberPlan, RunPlan, SurveyPlan


def facing(index: JobIndex, survey: SurveyPlan) -> FacingPlan:
    """Strips of every run whose faces are covered, in gluing order, and sawn skins."""
    return FacingPlan(tuple(strip for run in survey.runs for strip in sorted(_run(index, run), key=lambda s: s.order)))


def _run(index: JobIndex, run: RunPlan) -> Iterator[Strip]:
    for side, end in run.ends.items():
        if end.skin == "sawn" and run.height is not None:
            yield _skin(index, run, side, end, run.height)
    row = index.job.facings.get(run.id)
    if row is None or not row.faces or run.height is None:
        return
    chosen = row.thickness is not None and row.thickness.value is not None
    thick = entered(index.unit, row.thickness, "facing") if chosen else strip_thickness(index)
    for group in _side_by_side(run):
        yield _stile_strip(index, run, group, run.height, thick)
    for rail in run.rails:
        yield _rail_strip(index, run, rail, thick)


def _side_by_side(run: RunPlan) -> list[list[MemberPlan]]:
    """Upright members that stand together get one strip over them and their seam."""
    members = {m.id: m for m in run.members}
    groups: list[list[MemberPlan]] = [[]]
    for item in run.order:
        if item in members:
            groups[-1].append(members[item])
        elif groups[-1]:
            groups.append([])
    return [group for group in groups if group]


def _stile_strip(index: JobIndex, run: RunPlan, group: list[MemberPlan], height: Figure, thick: Figure) -> Strip:
    name = " + ".join(m.id for m in group)
    widths = [plus(m.widest) for m in group]
    ends = [side for side, at in (("left", 0), ("right", -1)) if group[at].id == run.order[at]]
    skins = [skin for side in ends if (skin := skin_thickness(index, run.id, side)) is not None]
    width = total(f"strip on {name}, width", *widths, *(plus(s) for s in skins))
    return _strip(index, run, f"{run.id} {name}", ", ".join(m.id for m in group), height, width, thick, 2)


def _rail_strip(index: JobIndex, run: RunPlan, rail: MemberPlan, thick: Figure) -> Strip:
    """Cut to fit between the stile strips: as long as the running edges are apart."""
    length = total(f"strip on {rail.id}, length", plus(rail.right), minus(rail.left))
    column = next((o.column for o in run.openings if o.left is rail.left), "")
    own = _rail_name(rail, column)
    return _strip(index, run, f"{run.id} {own}", own, length, rail.widest, thick, 3)


def _rail_name(rail: MemberPlan, column: str) -> str:
    named = rail.member.column is not None or not column
    return rail.id if named else f"{rail.member.kind} {column}"


def _strip(
    index: JobIndex, run: RunPlan, name: str, on: str, length: Figure, width: Figure, thick: Figure, order: int
) -> Strip:
    longer = entered(index.unit, index.allowances.strip_length, "strip length")
    wider = entered(index.unit, index.allowances.strip_width, "strip width")
    return Strip(
        id=name,
        run=run.id,
        on=on,
        length=length,
        width=width,
        thickness=thick,
        rough_length=total(f"strip on {on}, rough length", plus(length), plus(longer)),
        rough_width=total(f"strip on {on}, rough width", plus(width), plus(wider)),
        order=order,
    )


def _skin(index: JobIndex, run: RunPlan, side: str, end: End, height: Figure) -> Strip:
    """A skin as wide as the depth that is seen; its scribe is added to the rough width."""
    depth = depth_seen(index, run.run, end)
    rough_length, rough_width = rough_skin(index, side, height, depth)
    return Strip(
        id=skin_part(run.id, side),
        run=run.id,
        on=f"{side} end",
        length=height,
        width=depth,
        thickness=skin_thickness(index, run.id, side) or strip_thickness(index),
        rough_length=rough_length,
        rough_width=rough_width,
        order=1,
    )

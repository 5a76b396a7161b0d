"""Door builds and panel builds with every figure chosen or assumed; the chain of thickness forward (F37)."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.assumed import entered, measured, named
from frontwright.core.built import as_it_is
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import FrontPlan, LookPlan
from frontwright.core.job import DOOR_LIKE, DoorBuild, PanelBuild, PanelKind
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO
from frontwright.core.making.result import BuildPlan, PanelPlan

MOST_MID_RAILS = 24


def build_row(index: JobIndex, front: FrontPlan) -> DoorBuild:
    """The build of a front: its own, the look's for its kind, the job's first framed one, or a usual one.

    A drawer front for which nobody chose takes the doors' build (and is a slab where its field would be too low).
    """
    rows, look = index.job.door_builds, front.look
    doors = front.front.kind in DOOR_LIKE
    for chosen in (front.front.build, look.door_build if doors else look.drawer_build, look.door_build):
        if chosen is not None and chosen in rows:
            return rows[chosen]
    framed = [row for row in rows.values() if row.kind != "slab"]
    return framed[0] if framed else next(iter(rows.values()), DoorBuild("usual"))


def chosen_framed(index: JobIndex, front: FrontPlan) -> bool:
    """Whether somebody chose this front's build by itself, or for drawer fronts."""
    doors = front.front.kind in DOOR_LIKE
    chosen = front.front.build or (None if doors else front.look.drawer_build)
    return doors or (chosen is not None and chosen in index.job.door_builds)


def build_plan(index: JobIndex, row: DoorBuild, look: LookPlan) -> BuildPlan:
    """A door build whole: what was not chosen is assumed."""
    unit = index.unit
    stile = entered(unit, row.stile, "stile")
    grooved = row.kind != "dowelled"
    engagement, word = _engagement(index, row)
    panel_row = index.job.panel_builds.get(row.panel or "") or _usual_panel(row)
    bottom, top, drawer = (
        named(stile, f"{name} width") if row.kind == "mitred" and (given is None or given.value is None) else None
        for name, given in (("bottom rail", row.bottom_rail), ("top rail", row.top_rail), ("rail", row.drawer_rail))
    )
    thickness = entered(unit, row.thickness, "thickness")
    milled = measured(row.thickness_is, "milled thickness")
    return BuildPlan(
        id=row.id,
        name=row.name or row.kind,
        kind=row.kind,
        thickness=Figure(thickness.name, milled.value, "as-built", "milled stock", planned=thickness)
        if milled
        else thickness,
        stile=stile,
        top_rail=top or entered(unit, row.top_rail, "top rail"),
        bottom_rail=bottom or entered(unit, row.bottom_rail, "bottom rail"),
        mid_rail=entered(unit, row.mid_rail, "mid rail"),
        mid_rails=min(max(0, row.mid_rails), MOST_MID_RAILS),
        drawer_rail=drawer or entered(unit, row.drawer_rail, "drawer rail"),
        joint=_joint(row, engagement, stile),
        engagement=engagement,
        engagement_word=word,
        clearance=entered(unit, row.clearance, "clearance groove" if grooved else "clearance rabbet"),
        tongue=_tongue(row),
        panel=panel_plan(index, panel_row),
        dowel=entered(unit, row.dowel, "dowel"),
        dowel_depth=_dowel_depth(index, row),
        dowel_outer=entered(unit, row.dowel_outer, "dowel outer"),
        dowel_wall=entered(unit, row.dowel_wall, "dowel wall"),
        species=row.species or look.species,
    )


def _engagement(index: JobIndex, row: DoorBuild) -> tuple[Figure, str]:
    """How far panel and frame overlap, and the trade's word for it."""
    if row.kind == "dowelled":
        return entered(index.unit, row.rabbet_width, "rabbet width"), "rabbet"
    if row.kind == "cope and stick":
        return entered(index.unit, row.stick, "stick"), "stick"
    return entered(index.unit, row.groove, "groove"), "groove"


def as_cut(index: JobIndex, front: str, build: BuildPlan) -> BuildPlan:
    """The build of one front with stiles and mid rails as ripped: rails, fields and panels follow what is there."""
    stile = as_it_is(index, f"{front}-S", "width", build.stile)
    mid_rail = as_it_is(index, f"{front}-RM", "width", build.mid_rail)
    if stile is build.stile and mid_rail is build.mid_rail:
        return build
    joint = named(stile, build.joint.name) if build.kind == "mitred" else build.joint
    return replace(build, stile=stile, mid_rail=mid_rail, joint=joint)


def _joint(row: DoorBuild, engagement: Figure, stile: Figure) -> Figure:
    """F30: what a rail gains at each end: nothing dowelled, the tenon, the stick; mitred the whole stile."""
    if row.kind in ("dowelled", "slab"):
        return Figure("joint, nothing", ZERO, "chosen", "butted")
    if row.kind == "mitred":
        return named(stile, "joint, the stile's width")
    return named(engagement, "joint, tenon" if row.kind == "stub tenon" else "joint, stick")


def _dowel_depth(index: JobIndex, row: DoorBuild) -> Figure:
    if row.dowel_depth is not None and row.dowel_depth.value is not None:
        return Figure("dowel into each part", row.dowel_depth.value, "chosen")
    diameter = entered(index.unit, row.dowel, "dowel")
    return total("dowel into each part", plus(diameter, 3), how="three diameters")


def _usual_panel(row: DoorBuild) -> PanelBuild:
    """The door kind names the panel too: bought sheet with a stub tenon, else shop-made on a core."""
    kind: PanelKind = "sheet" if row.kind == "stub tenon" else "veneered"
    return PanelBuild(f"usual {kind}", "", kind)


def panel_plan(index: JobIndex, row: PanelBuild) -> PanelPlan:
    """F37: from the leaf as sawn to the finished panel; of bought sheet and solid panels only the thickness."""
    unit = index.unit
    core_is, sheet_is = measured(row.core_is, "core thickness"), measured(row.sheet_is, "sheet thickness")
    core = core_is or entered(unit, row.core, "core")
    sheet = sheet_is or entered(unit, row.sheet, "sheet")
    leaf, glue, show = (
        entered(unit, row.slice, "slice"),
        entered(unit, row.glue_loss, "glue loss"),
        entered(unit, row.show_loss, "show loss"),
    )
    glued = total("leaf when glued", plus(leaf), minus(glue))
    left = total("veneer left", plus(glued), minus(show))
    chain = total("panel thickness", plus(core), plus(left, 2))
    solid = entered(unit, row.solid, "solid panel")
    thickness = {"veneered": chain, "sheet": sheet, "solid": solid}[row.kind]
    return PanelPlan(
        id=row.id,
        kind=row.kind,
        thickness=thickness,
        species=row.species,
        measured=(core_is if row.kind == "veneered" else sheet_is) is not None or row.kind == "solid",
        nominal=core if row.kind == "veneered" else sheet,
        core=core,
        slice=leaf,
        glue_loss=glue,
        show_loss=show,
        glued=glued,
        pressed=total("pressed panel", plus(core), plus(glued, 2)),
        veneer_left=left,
        least_left=entered(unit, row.least_left, "veneer warn"),
        core_grain=row.core_grain,
    )


def _tongue(row: DoorBuild) -> Figure | None:
    chosen = measured(row.tongue, "tongue")
    return Figure("tongue", chosen.value, "chosen") if chosen else None

"""Where a way out leads: the chapter and the cell in which the figure of a finding is put right."""

from __future__ import annotations

from frontwright.core.findings import Check, Code, WayOut
from frontwright.core.job import Job, Look
from frontwright.core.job.declared import declared
from frontwright.core.plan import Plan
from frontwright.desk.edits.rows import SIZES, fields_of, run_of
from frontwright.desk.edits.veneer_rows import next_pass
from frontwright.desk.keys import key, parts_of
from frontwright.desk.wording.checks import ROW_FIELD

CHAPTER_OF: dict[Code, str] = {
    "closure": "survey",
    "spread": "survey",
    "racking": "survey",
    "readings": "survey",
    "wind": "survey",
    "bow": "survey",
    "unread": "survey",
    "cover": "fronts",
    "row-sum": "fronts",
    "kerf-vs-reveal": "fronts",
    "wall-clearance": "fronts",
    "hinge-overlay": "fronts",
    "rail-proof": "making",
    "nominal-thickness": "making",
    "cup-fit": "making",
    "dowel-rabbet": "making",
    "hinge-count": "making",
    "veneer-left": "making",
    "resaw-yield": "veneer",
    "moisture": "veneer",
    "balance": "veneer",
    "press-time": "veneer",
    "press-load": "veneer",
    "panel-movement": "making",
    "lip": "making",
    "field": "making",
    "swing": "fronts",
    "corner": "fronts",
    "surface": "survey",
    "repair": "survey",
    "drawer-front": "survey",
    "drawer-room": "facing",
    "end-gap": "facing",
    "strip-width": "facing",
    "adhesive": "facing",
    "old-hinge": "survey",
    "old-holes": "survey",
    "batch": "cuts",
    "layout": "cuts",
    "stale-sheet": "sheets",
}
CHAPTER_OF_TABLE: dict[str, str] = {
    "headings": "brief",
    "rooms": "brief",
    "runs": "survey",
    "ends": "survey",
    "cabinets": "survey",
    "members": "survey",
    "columns": "survey",
    "openings": "survey",
    "readings": "survey",
    "old_fronts": "survey",
    "briefs": "brief",
    "asked": "brief",
    "photos": "brief",
    "surfaces": "survey",
    "repairs": "survey",
    "old_hinges": "survey",
    "drawers": "survey",
    "service_lines": "survey",
    "obstacles": "survey",
    "corners": "survey",
    "insides": "survey",
    "pull_types": "fronts",
    "plates": "shop",
    "looks": "fronts",
    "fronts": "fronts",
    "front_rows": "fronts",
    "facings": "facing",
    "trims": "facing",
    "adhesives": "facing",
    "pieces": "rack",
    "defects": "rack",
    "laid": "cuts",
    "laid_parts": "cuts",
    "leftovers": "cuts",
    "cuts": "cuts",
    "finishes": "site",
    "finish_rooms": "site",
    "test_pieces": "site",
    "snags": "site",
    "operations": "bill",
    "pricings": "bill",
    "supplier_sizes": "shop",
    "keep_rules": "shop",
    "allowances": "shop",
    "limits": "shop",
    "billets": "veneer",
    "leaves": "veneer",
    "machines": "veneer",
    "blades": "veneer",
    "pressings": "veneer",
    "pressed_panels": "veneer",
    "plane_passes": "veneer",
    "as_built": "making",
}
PRESSING = "pressing "  # before the id of a pressing in the chooser of the Veneer page
_LOOK_FIELDS = frozenset(field.name for field in declared(Look)) - {"id"}
_OF_THE_VENEER = ("resaw-yield", "moisture", "balance", "press-time", "press-load")
AS_MADE = "as made"  # of a front out of the clamps: how cases of its rules begin
FORM = ("diagonal 1", "diagonal 2", "wind", "bow")  # what is measured of the form of a front
_OF_THE_PANEL = ("planed", "pressed thick")  # of the veneer left: said at the bench, not of the build
_OF_THE_FACING = ("mix", "fixed")  # of strips and trim, where the same rule speaks of panels too
_CONDITION = {
    "surface": "surfaces",
    "repair": "cabinets",
    "drawer-front": "drawers",
    "old-hinge": "old_hinges",
    "old-holes": "old_hinges",
}
_MIDDLE = {"width": "middle", "height": "middle", "diagonal": "\\"}


def chapter_of(check: Check) -> str:
    """The page on which a check's finding stands."""
    if check.case.startswith(AS_MADE):
        return "site"
    if (check.code, check.case) in (("press-time", "mix"), ("panel-movement", "fixed")):
        return "facing"
    return "veneer" if check.case in _OF_THE_PANEL else CHAPTER_OF[check.code]


def page_of(place: str) -> str:
    """The page on which a cell is filled in."""
    table, *rest = parts_of(place)
    if table == "as_built" and rest and rest[0].endswith(FORM):
        return "site"
    return CHAPTER_OF_TABLE.get(table, "making")


def finding_key(check: Check) -> str:
    """A finding's key: code, subjects, case."""
    return key(check.code, ", ".join(check.where), check.case)


def cell_of(job: Job, check: Check, way: WayOut) -> str:
    """The key of the cell that a way out leads to; empty where it leads to a subject only."""
    if check.code == "unread":
        return _unread_cell(job, check)
    if way.kind == "enter" and way.field in SIZES and way.of not in job.openings:
        return key("as_built", f"{way.of} {way.field}", "value")
    if way.kind == "read again" or (way.kind == "enter" and way.of in job.openings and way.field in _MIDDLE):
        return _reading_cell(job, way)
    if (check.code in _OF_THE_VENEER and check.case not in _OF_THE_FACING) or check.case in _OF_THE_PANEL:
        return _veneer_cell(job, way)
    if check.code in _CONDITION and way.of not in job.door_builds:
        return key(_CONDITION[check.code], way.of, way.field)
    return _field_cell(job, way.of, ROW_FIELD.get(way.field, way.field))


def _veneer_cell(job: Job, way: WayOut) -> str:
    """The cell of a billet, leaf, saw or pressing; of a panel that of its next pass through the planer."""
    if way.field == "pass":
        return key("plane_passes", next_pass(job, way.of), "thickness")
    for table in ("billets", "leaves", "blades", "machines", "pressings", "allowances"):
        if way.field and way.of in getattr(job, table) and way.field in {f.name for f in fields_of(job.kinds()[table])}:
            return key(table, way.of, way.field)
    if way.of == "allowances":
        return key("allowances", "allowances", way.field)
    if way.field in ("glue", "press", "clamps", "lie"):
        return key("pressings", way.of, way.field)
    return key("leaves", way.of, way.field) if way.field in ("machine", "left", "thick_1", "side") else ""


def veneer_subject(plan: Plan, place: str, of: str) -> str:
    """What the Veneer page must stand on to show a cell, or a subject where there is none; empty where it shows any."""
    table, row = parts_of(place)[:2] if place else ("", of)
    veneer = plan.veneer
    if table == "pressings" or (not table and any(one.id == of for one in veneer.pressings)):
        return f"{PRESSING}{row}"
    if table == "leaves":
        return next((p.id for p in veneer.plans if any(leaf.id == row for leaf in p.slices)), row.rstrip("0123456789"))
    if table in ("pressed_panels", "plane_passes"):
        return next((panel for panel in veneer.panels if row == panel or row.startswith(f"{panel} ")), "")
    return row if row in veneer.panels or any(p.id == row for p in veneer.plans) else ""


def _unread_cell(job: Job, check: Check) -> str:
    """The cell in which a text stands that cannot be read."""
    table, row = str(check.facts.get("table", "")), str(check.facts.get("row", ""))
    reading = job.readings.get(row) if table == "readings" else None
    if reading is not None:
        return key("readings", reading.of, reading.what, reading.at)
    return key(table, row, str(check.facts.get("field", "")))


def _reading_cell(job: Job, way: WayOut) -> str:
    at = next(
        (r.at for r in job.readings.values() if r.of == way.of and r.what == way.field and not r.struck),
        _MIDDLE.get(way.field, ""),
    )
    if way.kind == "enter":
        at = _first_unread(job, way)
    return key("readings", way.of, way.field or "across", at)


def _first_unread(job: Job, way: WayOut) -> str:
    taken = {r.at for r in job.readings.values() if r.of == way.of and r.what == way.field and not r.struck}
    order = {"width": ("middle", "top", "bottom"), "height": ("middle", "left", "right")}.get(way.field, ("\\", "/"))
    return next((at for at in order if at not in taken), order[0])


def _field_cell(job: Job, of: str, field: str) -> str:
    if of in job.openings and field in _LOOK_FIELDS:
        return key("looks", look_that_says(job, of, field), field)
    for table in (
        "front_rows",
        "fronts",
        "door_builds",
        "panel_builds",
        "hinge_types",
        "plates",
        "insides",
        "pull_types",
        "members",
        "machines",
        "trims",
        "adhesives",
        "facings",
    ):
        if of in getattr(job, table) and field in {f.name for f in fields_of(job.kinds()[table])}:
            return key(table, of, field)
    if of in job.fronts and field in _LOOK_FIELDS:
        return key("looks", look_that_says(job, job.fronts[of].opening, field), field)
    return ""


def look_that_says(job: Job, opening: str, field: str) -> str:
    """The id of the nearest look that sets this field at an opening; the room's where none does."""
    scopes = look_scopes(job, opening)
    for scope in scopes:
        look = job.looks.get(scope)
        if look is not None and getattr(look, field) is not None:
            return scope
    return scopes[-1]


def look_scopes(job: Job, opening: str) -> tuple[str, ...]:
    """Ids of the looks that can hold for an opening, nearest first."""
    run = run_of(job, opening)
    column = job.columns.get(job.openings[opening].column)
    cabinet = (f"cabinet:{column.cabinet}",) if column is not None and column.cabinet else ()
    return (f"opening:{opening}", *cabinet, *((f"run:{run.id}", f"room:{run.room}") if run else ()))

"""Pressings, panels out of the press and their passes through the planer."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.findings import WayOut
from frontwright.core.job import AsBuilt, Job, PlanePass, PressedPanel, Pressing
from frontwright.core.plan import Plan, derive
from frontwright.core.veneer.clock import minute_of
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.readings import display_of
from frontwright.desk.edits.rows import new_id, place_ids, row_or_new, with_field
from frontwright.desk.edits.values import value_of
from frontwright.desk.edits.veneer_rows import pass_id, passes_of
from frontwright.desk.keys import Place
from frontwright.desk.wording.fields import cell_name
from frontwright.desk.wording.numbers import capital, length_text


def entered_pressing(job: Job, place: Place, text: str) -> Edit:
    """A field of a pressing; one that the plan alone had is entered with it."""
    if place.field == "panels":
        return _panels(job, place, text)
    name = cell_name(job, "pressings", place.row, place.field)
    if place.field in ("started", "closed") and text.strip() and minute_of(text) is None:
        raise Refused(f"{capital(name)}: “{text.strip()}” is no time of day; type it as 9:40.")
    got = value_of(job, place, text, name, display_of(job))
    return Edit(
        name,
        lambda before: with_field(before, "pressings", place.row, place.field, got.value),
        place.key,
        got.said,
    )


def _panels(job: Job, place: Place, text: str) -> Edit:
    """Which panels are pressed in one go; each is in one pressing only. A pressing of none is taken out."""
    name = cell_name(job, "pressings", place.row, "panels")
    wanted = tuple(dict.fromkeys(part.strip() for part in text.split(",") if part.strip()))
    there = derive(job).veneer.panels
    lost = next((one for one in wanted if one not in there), None)
    if lost is not None:
        raise Refused(
            f"{name[:1].upper()}{name[1:]}: there is no panel of leaves “{lost}”; name them with commas between."
        )
    new: Pressing = replace(row_or_new(job, "pressings", place.row), panels=wanted)
    return Edit(name, lambda before: _pressed(before, new), place.key)


def _pressed(job: Job, *new: Pressing) -> Job:
    """The pressings put in; their panels leave all others, and a pressing that has none left goes."""
    mine = {one.id for one in new}
    gone = {panel for one in new for panel in one.panels}
    for other in list(job.pressings.values()):
        left = tuple(panel for panel in other.panels if panel not in gone)
        if other.id not in mine and left != other.panels:
            job = job.put(replace(other, panels=left)) if left else job.drop(Pressing, other.id)
    job = job.drop(Pressing, *(one.id for one in new if not one.panels and one.id in job.pressings))
    kept = [one for one in new if one.panels and job.pressings.get(one.id) != one]
    return job.put(*kept) if kept else job


def new_pressing(job: Job, plan: Plan) -> Edit:
    """The panels that are in no pressing yet, glued up in one go."""
    pressed = {panel for one in job.pressings.values() for panel in one.panels}
    loose = tuple(panel for one in plan.veneer.pressings for panel in one.panels if panel not in pressed)
    if not loose:
        raise Refused("Every panel is in a pressing already; take one out of its pressing first.")
    usual = next(iter(job.pressings.values()), Pressing(""))
    new = replace(usual, id=_new_id(job), panels=loose, started="", closed="", note="")
    return Edit(f"add pressing {new.id}", lambda before: _pressed(before, new), select=new.id)


def halve(job: Job, plan: Plan, pressing: str, *, helped: bool = False) -> Edit:
    """The panels of a pressing in two goes, the second half in a pressing of its own; both with a helper if wanted."""
    row = _row(job, plan, pressing)
    old = replace(row, helper=row.helper or helped)
    if len(old.panels) < 2:
        raise Refused(f"Pressing {pressing} is of one panel, and both its faces go in at once; it cannot be halved.")
    half = -(-len(old.panels) // 2)
    first = replace(old, panels=old.panels[:half])
    second = replace(old, id=_new_id(job), panels=old.panels[half:], started="", closed="")
    return Edit(f"pressing {pressing} in halves", lambda before: _pressed(before, first, second), select=old.id)


def join(job: Job, plan: Plan, pressing: str, other: str) -> Edit:
    """Two pressings made one."""
    one, two = _row(job, plan, pressing), _row(job, plan, other)
    new = replace(one, panels=tuple(dict.fromkeys((*one.panels, *two.panels))))
    return Edit(f"press {other} with {pressing}", lambda before: _pressed(before, new), select=pressing)


def _new_id(job: Job) -> str:
    """Pressings are counted by themselves; where a place is called 1 they cannot be, and say what they are."""
    return new_id(job, "pressings", "P-1" if "1" in place_ids(job) else "1")


def _row(job: Job, plan: Plan, pressing: str) -> Pressing:
    found = next((one for one in plan.veneer.pressings if one.id == pressing), None)
    if found is None:
        raise Refused(f"There is no pressing “{pressing}” any more: choose another row.")
    row: Pressing = row_or_new(job, "pressings", pressing)
    return replace(row, panels=row.panels or found.panels)


def way_out(job: Job, plan: Plan, way: WayOut) -> Edit | None:
    """The edit of a way out of a pressing or a core; None where it only leads to a cell."""
    value = way.value if isinstance(way.value, str) else ""
    if way.field == "panels":
        return halve(job, plan, way.of, helped=bool(value))
    if way.field in ("helper", "both_faces"):
        return _changed(job, way.of, way.field, "yes")
    if way.field == "press" and value:
        return _in_press(job, plan, way.of, value)
    if way.field in ("glue", "clamps", "lie") and value:
        return _changed(job, way.of, way.field, value)
    if way.field == "core_grain":
        name = cell_name(job, "panel_builds", way.of, way.field)
        return Edit(name, lambda before: with_field(before, "panel_builds", way.of, way.field, value))
    return None


def _changed(job: Job, pressing: str, field: str, text: str) -> Edit:
    return replace(entered_pressing(job, Place("pressings", pressing, field), text), field=None)


def _in_press(job: Job, plan: Plan, pressing: str, press: str) -> Edit:
    """A pressing in another press, with the clamps that this one has."""
    new = replace(_row(job, plan, pressing), press=press, clamps=None)
    return Edit(cell_name(job, "pressings", pressing, "press"), lambda before: _pressed(before, new))


# -- panels out of the press


def entered_of_panel(job: Job, place: Place, text: str) -> Edit:
    """A reading of a panel: its corners after the press, its thickness after a pass. Refused where a pass adds wood."""
    name = cell_name(job, place.table, place.row, place.field)
    got = value_of(job, place, text, name, display_of(job))
    new = replace(row_or_new(job, place.table, place.row), **{place.field: got.value})
    if isinstance(new, PlanePass) and place.field == "thickness":
        _thinner(job, new, name)
    if isinstance(new, PlanePass) and place.field == "thickness" and not text.strip():
        return Edit(name, lambda before: _without_pass(before, new), place.key)
    return Edit(
        name, lambda before: with_field(before, place.table, place.row, place.field, got.value), place.key, got.said
    )


def _thinner(job: Job, one: PlanePass, name: str) -> None:
    earlier = [p.thickness.value for p in passes_of(job, one.panel) if p.number < one.number and p.thickness]
    before = next((value for value in reversed(earlier) if value is not None), None)
    now = one.thickness.value if one.thickness is not None else None
    if before is not None and now is not None and now > before:
        was, said = length_text(before, display_of(job)), length_text(now, display_of(job))
        raise Refused(f"{name[:1].upper()}{name[1:]}: {said} is more than the {was} before it; read it again.")


def _without_pass(job: Job, one: PlanePass) -> Job:
    """A pass taken back; the later ones count on from it."""
    job = job.drop(PlanePass, one.id) if one.id in job.plane_passes else job
    later = [p for p in passes_of(job, one.panel) if p.number > one.number]
    job = job.drop(PlanePass, *(p.id for p in later))
    moved = [replace(p, id=pass_id(p.panel, p.number - 1), number=p.number - 1) for p in later]
    return job.put(*moved) if moved else job


def panels_renamed(job: Job, old: str, new: str) -> Job:
    """What was read of the panels and parts of a front that has another name now."""

    def anew(part: str) -> str:
        return f"{new}-{part.removeprefix(f'{old}-')}" if part.startswith(f"{old}-") else new if part == old else part

    for pressing in list(job.pressings.values()):
        panels = tuple(anew(panel) for panel in pressing.panels)
        if panels != pressing.panels:
            fresh = replace(pressing, id=anew(pressing.id), panels=panels)
            job = job.drop(Pressing, pressing.id).put(fresh)
    for panel in [p for p in job.pressed_panels.values() if anew(p.id) != p.id]:
        job = job.drop(PressedPanel, panel.id).put(replace(panel, id=anew(panel.id)))
    for one in [p for p in job.plane_passes.values() if anew(p.panel) != p.panel]:
        fresh_pass = replace(one, id=pass_id(anew(one.panel), one.number), panel=anew(one.panel))
        job = job.drop(PlanePass, one.id).put(fresh_pass)
    for size in [a for a in job.as_built.values() if anew(a.of) != a.of]:
        job = job.drop(AsBuilt, size.id).put(replace(size, id=f"{anew(size.of)} {size.what}", of=anew(size.of)))
    return job

"""How far doors open and what stops them, what corners, boxes and ends leave, and the pulls, on the Fronts page."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.findings import Code
from frontwright.core.space.checks import degrees
from frontwright.core.space.result import Flap, Swing
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Action, Cell, Column, Form, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word

_PULL = ("kind", "projection", "holes", "across", "from_edge", "from_end", "from_top")
_USUAL = {"projection": "pull projection", "holes": "pull holes", "from_end": "pull end"}
_WHAT = {
    "closed": "shut beside it",
    "past": "opening past it",
    "hung here": "hung on the corner",
    "hung here, pulls meet": "hung on the corner, pulls meet",
}


def space_bands(view: View, run: RunPlan) -> list[tuple[Table | Form, ...]]:
    """The tables of the space of a run, those that have something to say."""
    bands: list[tuple[Table | Form, ...]] = []
    swings = _swings(view, run)
    if swings.rows:
        bands.append((swings,))
    room = _room(view, run)
    if room.rows:
        bands.append((room,))
    return [*bands, (_pulls(view),)]


def _swings(view: View, run: RunPlan) -> Table:
    fronts = view.plan.fronts.fronts
    found = [s for s in view.plan.space.swings.values() if fronts[s.front].run == run.id]
    columns = (
        Column("door", axis=False),
        Column("opens to", axis=False),
        Column("stopped by", axis=False, share=2),
        Column("must open to", axis=False),
        Column("with its neighbour open too", axis=False, share=2),
    )
    aside = "about the hinge edge of its face"
    flaps = [f for f in view.plan.space.flaps.values() if fronts[f.front].run == run.id]
    rows = (*(_swing_row(view, s) for s in found), *(_flap_row(view, f) for f in flaps))
    return Table("swings", "How far doors open", aside, columns, rows)


def _flap_row(view: View, flap: Flap) -> TableRow:
    one = flap.front
    by = "its hinge" if flap.angle is not None and not flap.stopped_by else flap.name or "nothing"
    cells = (
        words(one, one, bold=True),
        words(_angle(flap.angle), one, bold=True, level=view.level_of(one, "swing")),
        words(f"{by}, by its pull" if flap.with_pull else by, one),
        words(degrees(Fraction(flap.need.units)), one),
        words("a flap, about its top edge", one),
    )
    return TableRow(one, cells)


def _swing_row(view: View, swing: Swing) -> TableRow:
    one = swing.front
    cells = (
        words(one, one, bold=True),
        words(_angle(swing.angle), one, bold=True, level=view.level_of(one, "swing")),
        words(stopped_by(swing), one),
        words(degrees(Fraction(swing.need.units)) + (f", drawer {swing.drawer}" if swing.drawer else ""), one),
        words(f"{_angle(swing.together)}, {swing.beside}" if swing.together is not None else "", one),
    )
    return TableRow(one, cells)


def _angle(figure: Figure | None) -> str:
    """An angle; in brackets where it rests on something assumed, "free" where nothing is in the way."""
    if figure is None:
        return "free"
    said = degrees(Fraction(figure.units))
    return f"({said})" if figure.rests else said


def stopped_by(swing: Swing) -> str:
    """What a door meets, in a few words."""
    if swing.by == "nothing":
        return "nothing"
    if swing.by == "hinge":
        return "its hinge"
    thing = f"the pull of {swing.stopped_by}" if swing.by == "pull" else swing.name
    return f"{thing}, by its pull" if swing.with_pull else thing


def _room(view: View, run: RunPlan) -> Table:
    rows = [*_turning_rows(view, run), *_meeting_rows(view, run), *_drawer_rows(view, run), *_gap_rows(view, run)]
    columns = (Column("", axis=False), Column("what", axis=False, share=2), Column("have"), Column("need"))
    return Table("room", "Have and need", "corners, free edges, boxes, ends", columns, tuple(rows))


def _row(view: View, subject: str, what: str, have: Figure, need: Figure, code: Code) -> TableRow:
    level = view.level_of(subject, code) if have.units < need.units else "ok"
    cells: tuple[Cell, ...] = (
        words(subject, subject, bold=True),
        words(what, subject),
        worked(have, subject, f"have, {what}", bold=True, level=level),
        worked(need, subject, f"need, {what}"),
    )
    return TableRow(subject, cells)


def _turning_rows(view: View, run: RunPlan) -> Iterator[TableRow]:
    for room in view.plan.space.turning.values():
        if view.plan.fronts.fronts[room.front].run == run.id:
            yield _row(view, room.front, f"free edge, {room.side}", room.have, room.need, "swing")


def _meeting_rows(view: View, run: RunPlan) -> Iterator[TableRow]:
    for meeting in view.plan.space.meetings:
        if view.plan.fronts.fronts[meeting.front].run == run.id:
            what = f"{meeting.corner}, {_WHAT[meeting.what]}"
            yield _row(view, meeting.front, what, meeting.have, meeting.need, "corner")


def _drawer_rows(view: View, run: RunPlan) -> Iterator[TableRow]:
    own = {o.id for o in run.openings}
    for room in view.plan.space.drawers:
        if room.opening in own:
            what = f"{room.box}, {'beside' if room.way == 'across' else 'above'} it"
            yield _row(view, room.opening, what, room.have, room.need, "drawer-room")


def _gap_rows(view: View, run: RunPlan) -> Iterator[TableRow]:
    for gap in view.plan.space.gaps:
        if gap.run == run.id:
            yield _row(view, run.id, f"{gap.side} end, to the {gap.against}", gap.have, gap.need, "end-gap")


def _pulls(view: View) -> Table:
    rows = [
        TableRow(
            one,
            (
                view.entry("pull_types", one, "name"),
                *(
                    view.entry("pull_types", one, name, view.assumed(_USUAL[name]) if name in _USUAL else None)
                    for name in _PULL
                ),
            ),
        )
        for one in view.job.pull_types
    ]
    found = [Action(key("new", "pull_types"), "Add a pull")]
    if view.selected in view.job.pull_types:
        one = view.selected
        found += [
            Action(key("copy", "pull_types", one), f"Copy {one}", one),
            Action(key("delete", "pull_types", one), f"Take out {one}", one),
        ]
    heads = [Column(field_word("pull_types", name), axis=name != "kind") for name in _PULL]
    columns = (Column("name", axis=False), *heads)
    return Table("pulls", "Pulls", "chosen in the look, one rule for the run", columns, tuple(rows), tuple(found))

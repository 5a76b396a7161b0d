"""What stands round a run and inside it: walls and appliances, corners, boxes, inner drawers and shelves."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.job import Corner
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Action, Choice, Column, Form, FormLine, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.fields import field_word

_OBSTACLE = ("kind", "side", "name", "away", "out", "handle", "wanted")
_REACH = ("low", "high", "begins", "ends", "moves")
_INSIDE = ("kind", "width", "height", "length", "runner", "at")


def around_run(view: View, run: RunPlan) -> list[tuple[Table | Form, ...]]:
    """The bands of tables that come after the run itself."""
    if run.run.by_itself:
        return [(_inside(view, run),)]
    bands: list[tuple[Table | Form, ...]] = [(_obstacles(view, run),)]
    own = [row.id for row in view.job.obstacles.values() if row.run == run.id]
    if own:
        bands.append((_reach(view, own),))
    corners = [row for row in view.job.corners.values() if run.id in (row.left, row.right)]
    bands += [(_corner(view, row),) for row in corners]
    return [*bands, (_inside(view, run),)]


def _obstacles(view: View, run: RunPlan) -> Table:
    rows = [
        TableRow(
            row.id, (view.name("obstacles", row.id), *(view.entry("obstacles", row.id, name) for name in _OBSTACLE))
        )
        for row in view.job.obstacles.values()
        if row.run == run.id
    ]
    sides = (
        ("left", "at the left end"),
        ("right", "at the right end"),
        ("before", "before the run"),
        ("above", "above the run"),
    )
    found = [Action(key("add-obstacle", run.id, side), f"Add what stands {word}", run.id) for side, word in sides]
    found += [
        Action(key("add-corner", *legs), f"Add the corner of {legs[0]} and {legs[1]}", run.id)
        for legs in _corners_to_be(view, run)
    ]
    if view.selected in view.job.obstacles:
        found.append(Action(key("delete", "obstacles", view.selected), f"Take out {view.selected}", view.selected))
    heads = [Column(field_word("obstacles", name), axis=name in _OBSTACLE[3:]) for name in _OBSTACLE]
    aside = "walls, trim, appliances, counters"
    return Table("around", "What stands round it", aside, (Column("", axis=False), *heads), tuple(rows), tuple(found))


def _corners_to_be(view: View, run: RunPlan) -> Iterator[tuple[str, str]]:
    """Pairs of runs that could meet in a corner: neither end said to meet another one yet."""
    corners = view.job.corners.values()
    lefts, rights = {c.left for c in corners}, {c.right for c in corners}
    others = [r for r in view.plan.survey.runs if r.id != run.id and not r.run.by_itself]
    for other in others:
        if run.id not in lefts and other.id not in rights and _pair_free(view, run.id, other.id):
            yield run.id, other.id
        if other.id not in lefts and run.id not in rights and _pair_free(view, run.id, other.id):
            yield other.id, run.id


def _pair_free(view: View, one: str, other: str) -> bool:
    same = view.job.runs[one].stands == view.job.runs[other].stands
    return same and not any({c.left, c.right} == {one, other} for c in view.job.corners.values())


def _reach(view: View, own: list[str]) -> Table:
    rows = [
        TableRow(one, (words(one, one, bold=True), *(view.entry("obstacles", one, name) for name in _REACH)))
        for one in own
    ]
    heads = [Column(field_word("obstacles", name), axis=name != "moves") for name in _REACH]
    aside = "heights and places from the datum; empty: without an end"
    return Table("reach", "How far it reaches", aside, (Column("", axis=False), *heads), tuple(rows))


def _corner(view: View, row: Corner) -> Form:
    runs = tuple(Choice(one, one) for one in view.job.runs)
    lines = [
        FormLine(
            field_word("corners", name),
            view.choice(key("corners", row.id, name), getattr(row, name), runs, row.id, f"{name} leg of {row.id}"),
        )
        for name in ("left", "right")
    ]
    lines += [FormLine(field_word("corners", name), view.entry("corners", row.id, name)) for name in _CORNER]
    actions = (Action(key("delete", "corners", row.id), f"Take out {row.id}", row.id),)
    return Form(
        "corner",
        f"Inside corner {row.id}",
        "the right end of one leg, the left end of the other",
        tuple(lines),
        actions,
    )


_CORNER = ("angle", "runs_on", "hidden")


def _inside(view: View, run: RunPlan) -> Table:
    openings = [o.id for o in run.openings]
    runner = view.assumed("runner")
    rows = [
        TableRow(
            row.id,
            (
                words(row.opening, row.opening, bold=True),
                *(view.entry("insides", row.id, name, runner if name == "runner" else None) for name in _INSIDE),
            ),
        )
        for row in view.job.insides.values()
        if row.opening in openings
    ]
    found: list[Action] = []
    if view.selected in openings:
        one = view.selected
        kinds = ("drawer box", "inner drawer", "shelf")
        found += [Action(key("add-inside", one, kind), f"Add a {kind} in {one}", one) for kind in kinds]
    if view.selected in view.job.insides:
        found.append(Action(key("delete", "insides", view.selected), f"Take out {view.selected}", view.selected))
    heads = [Column(field_word("insides", name), axis=name != "kind") for name in _INSIDE]
    aside = "select an opening to add to it"
    return Table("inside", "What is inside", aside, (Column("", axis=False), *heads), tuple(rows), tuple(found))

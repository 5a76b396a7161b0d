"""What is found on the boxes of a run: surfaces, what must be put right, old hinges, drawers, lines, what can hurt."""

from __future__ import annotations

from collections.abc import Sequence

from frontwright.core.cautions import CAUTIONS, DEFERS
from frontwright.core.condition.result import Placed, SurfacePlan
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Action, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.condition_rows import WHERES, surface_id
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.fields import field_word

_ALWAYS = ("faces", "inside edges", "left end", "right end")
_FOUND = ("made_of", "screw_holds", "finish", "state", "coats", "painted", "swab", "trial")
_DONE = ("treated", "clean", "keyed", "made_good")
_DATES = ("swab_on", "trial_on", "note")
_REPAIR = ("what", "at", "done", "note")
_HINGES = ("kind", "count", "cover", "thickness", "worn", "use")
_SEVEN = (
    *("kind", "count", "cover", "cup", "cup_depth", "edge_distance"),
    *(f"plate_{at}" for at in range(1, 6)),
    *("thickness", "screws_apart", "soft_close", "worn", "use", "plugged", "note"),
)
_DRAWER = ("front", "way", "closes", "box_front", "box_out", "packing", "screw", "runners", "runners_worn")
_LINE = ("kind", "where", "low", "high", "found", "note")
_LENGTHS = (
    *("cover", "cup", "cup_depth", "edge_distance", "thickness", "screws_apart"),
    *("box_front", "box_out", "packing", "screw", "low", "high"),
)
LINES = ("gas", "water", "electric")


def condition_of_run(view: View, run: RunPlan) -> list[tuple[Table | Form, ...]]:
    """The bands of the condition, after what stands round the run."""
    bands: list[tuple[Table | Form, ...]] = []
    hazards = view.plan.condition.hazards_of(run.id)
    bands += [(_cautions(hazards),)] if hazards else []
    bands += [(_found(view, run),), (_done(view, run),), (_repairs(view, run), _lines(view, run))]
    hung, drawn = _holding(view, run, ("door", "glass")), _holding(view, run, ("drawer",))
    if hung:
        bands.append((_old_hinges(view, hung),))
    if view.selected in hung:
        bands.append((_seven(view, view.selected),))
    if drawn:
        bands.append((_drawers(view, drawn),))
    return bands


def cautions_rows(hazards: Sequence[Placed]) -> list[TableRow]:
    """A line for each thing to mind, its places behind the first one."""
    rows: list[TableRow] = []
    for placed in hazards:
        caution = CAUTIONS[placed.hazard]
        for at, said in enumerate(caution.says):
            place = ", ".join(placed.of) if not at else ""
            head = words("" if at else caution.word, placed.run, bold=True)
            rows.append(TableRow(placed.run, (head, words(said, placed.run), words(place, placed.run))))
    return rows


def _cautions(hazards: Sequence[Placed]) -> Table:
    columns = (Column("for", axis=False), Column("mind", axis=False, share=4), Column("at", axis=False))
    return Table("hazards", "What can hurt here", DEFERS.rstrip("."), columns, tuple(cautions_rows(hazards)))


def _holding(view: View, run: RunPlan, kinds: tuple[str, ...]) -> list[str]:
    """The openings of a run that hold fronts of these kinds."""
    held = {front.opening for front in view.job.fronts.values() if front.kind in kinds}
    return [opening.id for opening in run.openings if opening.id in held]


# -- surfaces


def _shown(view: View, run: RunPlan) -> list[str]:
    """The places that have a line: the usual ones, and those of which something is said or that are covered."""
    told = {one.row.where for one in view.plan.condition.of_run(run.id)}
    return [where for where in WHERES if where in told or (where in _ALWAYS and not run.run.by_itself)]


def _found(view: View, run: RunPlan) -> Table:
    rows = []
    for where in _shown(view, run):
        one = surface_id(view.job, run.id, where)
        cells = (view.entry("surfaces", one, name) for name in _FOUND)
        rows.append(TableRow(one, (words(where, one, bold=True, level=view.level_of(one, "surface")), *cells)))
    more = [where for where in WHERES if where not in _shown(view, run)]
    actions = tuple(Action(key("add-surface", run.id, where), f"Add the {where}", run.id) for where in more)
    heads = tuple(Column(field_word("surfaces", name), axis=False) for name in _FOUND)
    aside = "a cross cut and a pull of tape; a drop of alcohol, a drop of thinner, in a hidden place"
    return Table("surfaces", "Surfaces as found", aside, (Column("", axis=False), *heads), tuple(rows), actions)


def _done(view: View, run: RunPlan) -> Table:
    rows = []
    for surface in view.plan.condition.of_run(run.id):
        one, row = surface.id, surface.row
        cells = (view.entry("surfaces", one, name) for name in (*_DONE, *_DATES))
        rows.append(TableRow(one, (words(row.where, one, bold=True), words(_verdict(surface), one), *cells)))
    heads = tuple(Column(field_word("surfaces", name), axis=False) for name in (*_DONE, *_DATES))
    columns = (Column("", axis=False), Column("to be glued to", axis=False), *heads)
    return Table("prepared", "What is done with them", "what fails is made good first", columns, tuple(rows))


def _verdict(surface: SurfacePlan) -> str:
    """ "yes, finish", "not looked at", "not as it is", "nothing glued on"."""
    if not surface.glued:
        return "nothing glued on"
    if not surface.looked_at:
        return "not looked at"
    return f"yes, {surface.ground}" if surface.may_be_glued else "not as it is"


# -- repairs and lines


def _repairs(view: View, run: RunPlan) -> Table:
    rows = tuple(
        TableRow(
            one.id,
            tuple(view.entry("repairs", one.id, name) for name in _REPAIR),
        )
        for one in view.job.repairs.values()
        if one.run == run.id
    )
    actions = [Action(key("add-repair", run.id), "Add a repair", run.id)]
    if view.selected in view.job.repairs:
        actions.append(Action(key("delete", "repairs", view.selected), f"Take out {view.selected}", view.selected))
    heads = tuple(Column(field_word("repairs", name), axis=False) for name in _REPAIR)
    return Table("repairs", "To be put right first", "before strips and hinges go on", heads, rows, tuple(actions))


def _lines(view: View, run: RunPlan) -> Table:
    openings = [opening.id for opening in run.openings]
    own = [row for row in view.job.service_lines.values() if row.opening in openings]
    rows = tuple(
        TableRow(
            row.id,
            (
                words(row.opening, row.opening, bold=True),
                *(view.entry("service_lines", row.id, name) for name in _LINE),
            ),
        )
        for row in own
    )
    actions: list[Action] = []
    if view.selected in openings:
        one = view.selected
        actions += [Action(key("add-line", one, kind), f"Add {kind} behind {one}", one) for kind in LINES]
    if view.selected in view.job.service_lines:
        actions.append(
            Action(key("delete", "service_lines", view.selected), f"Take out {view.selected}", view.selected)
        )
    heads = [Column(field_word("service_lines", name), axis=name in _LENGTHS) for name in _LINE]
    aside = "heights over the opening's lower edge; select an opening to add to it"
    columns = (Column("", axis=False), *heads)
    return Table("lines", "Gas, water and electric behind the doors", aside, columns, rows, tuple(actions))


# -- hinges and drawers


def _old_hinges(view: View, openings: list[str]) -> Table:
    rows = tuple(
        TableRow(
            one,
            (
                words(one, one, bold=True),
                *(view.entry("old_hinges", one, name, subject=one) for name in _HINGES),
            ),
        )
        for one in openings
    )
    heads = [Column(field_word("old_hinges", name), axis=name in _LENGTHS) for name in _HINGES]
    aside = "select an opening for all seven figures"
    return Table("old hinges", "Old hinges", aside, (Column("", axis=False), *heads), rows)


def _seven(view: View, opening: str) -> Form:
    lines = tuple(
        FormLine(field_word("old_hinges", name), view.entry("old_hinges", opening, name, subject=opening))
        for name in _SEVEN
    )
    return Form("seven", f"Old hinges of {opening}", "heights over the opening's lower edge", lines)


def _drawers(view: View, openings: list[str]) -> Table:
    rows = []
    for one in openings:
        plan = view.plan.condition.drawers.get(one)
        figures = {"packing": plan.packing, "box_front": plan.box_front} if plan is not None else {}
        cells = (view.entry("drawers", one, name, figures.get(name), subject=one) for name in _DRAWER)
        rows.append(TableRow(one, (words(one, one, bold=True), *cells)))
    heads = [Column(field_word("drawers", name), axis=name in _LENGTHS) for name in _DRAWER]
    columns = (Column("", axis=False), *heads)
    aside = "its front, how it shuts, what lies behind a new front"
    return Table("drawers", "Drawers as a whole", aside, columns, tuple(rows))

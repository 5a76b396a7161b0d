"""The finish on the Site page: recipes, what they take, loads of the rack day by day, test pieces, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from frontwright.core.cautions import CAUTIONS, DEFERS, Hazard
from frontwright.core.figures import Figure
from frontwright.core.finish.finish import VOLUME
from frontwright.core.finish.result import FinishBatch, Visit
from frontwright.core.finish.usual import USUAL, usual_finish
from frontwright.core.job import Finish, FinishRoom
from frontwright.desk.contents import Action, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.rows import fields_of
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, down, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import count_of, decimal

_TEST = ("finish", "wood", "batch", "tins", "recipe", "matches", "age", "aim", "daylight", "lamplight", "good", "when")


def finish_bands(view: View) -> tuple[tuple[Table | Form, ...], ...]:
    """What it takes and when, then recipes and test pieces."""
    return (
        (_amounts(view), _room(view)),
        (_calendar(view), _places(view)),
        (_recipes(view),),
        (_tests(view),),
        (_cautions(view),),
    )


def finish_said(view: View) -> str:
    """When all of it may be hung: "Hung from day 10"."""
    days = [batch.hang_day for batch in view.plan.finish.batches]
    return f"Hung from {day_said(view.plan.finish.start, max(days))} on" if days else ""


def day_said(start: str, day: int) -> str:
    """A day by its number, with its date where the first day was told: "day 4, 5 March"."""
    try:
        on = date.fromisoformat(start) + timedelta(days=day - 1)
    except (ValueError, OverflowError):  # no date, or none that far away
        return f"day {day}"
    return f"day {day}, {on.day} {on:%B}"


def _amounts(view: View) -> Table:
    unit = view.unit
    rows = []
    for batch in view.plan.finish.batches:
        litres = ", ".join(f"{decimal(s.volume, 2)} {s.name}" for s in batch.steps if s.what != "coat")
        cells = (
            words(batch.name, batch.id, bold=True),
            words(count_of(len(batch.areas), "piece"), batch.id),
            words(decimal(batch.area, 2), batch.id),
            words(str(sum(step.what == "coat" for step in batch.steps)), batch.id),
            words(decimal(batch.volume, 2), batch.id, bold=True),
            words(litres, batch.id),
            words(decimal(batch.waiting, 1), batch.id),
            words(decimal(batch.work / 60, 1), batch.id),
            worked(batch.film, batch.id, "what coats take off an inset gap"),
            words(day_said(view.plan.finish.start, batch.hang_day), batch.id, bold=True),
            words(day_said(view.plan.finish.start, batch.bumper_day), batch.id),
        )
        rows.append(TableRow(batch.id, cells))
    columns = (
        Column("finish", axis=False),
        Column("on", axis=False),
        Column(f"{'sq ft' if unit == 'in' else 'm²'} a coat"),
        Column("coats"),
        Column(VOLUME[unit]),
        Column("and", axis=False),
        Column("rack taken, h"),
        Column("coating, h"),
        Column("off a gap"),
        Column("hung from", axis=False),
        Column("bumpers from", axis=False),
    )
    aside = "both faces and edges of fronts, strips on the show face; one batch of tins"
    return Table("finish amounts", "What it takes", aside, columns, tuple(rows), fine=True)


def _room(view: View) -> Form:
    figures = view.plan.finish
    shown: dict[str, Figure | None] = {
        "places": figures.places,
        "strips_a_place": figures.strips_a_place,
        "coat_hours": figures.coat_hours,
        "start": None,
    }
    row = FinishRoom().id
    lines = tuple(
        FormLine(field_word("finish_rooms", name), view.entry("finish_rooms", row, name, figure))
        for name, figure in shown.items()
    )
    kept = (Action(key("keep-in-shop", "finish_rooms", row), "Keep this in the shop"),)
    return Form("finish room", "Where it dries", "", lines, kept if row in view.job.finish_rooms else ())


def _calendar(view: View) -> Table:
    """Load by load and coat by coat, with the hour of its day."""
    rows = [
        _visit_row(view, batch, visit)
        for batch in view.plan.finish.batches
        for visit in sorted(batch.visits, key=lambda one: one.begins)
    ]
    columns = (
        Column("day", axis=False),
        Column("begun at, h", axis=False),
        Column("load", axis=False),
        Column("what", axis=False, share=2),
        Column("dry after", axis=False),
        Column("", axis=False, share=2),
    )
    aside = "hours from the first coat of a day; what cannot be begun in time waits for the next"
    return Table("calendar", "Day by day", aside, columns, tuple(rows), tall=True)


def _visit_row(view: View, batch: FinishBatch, visit: Visit) -> TableRow:
    step = batch.steps[visit.step]
    late = "longer than it should be after the last coat: key it first" if visit.late else ""
    named = f", {batch.name}" if batch.known else ""
    cells = (
        words(day_said(view.plan.finish.start, visit.day), batch.id),
        words(decimal(visit.begins % 24, 1), batch.id),
        words(str(visit.load), batch.id, bold=True),
        words(f"{step.name}{named}", batch.id),
        words(f"{decimal(visit.ends - visit.begins, 1)} h", batch.id),
        words(late, batch.id, level="warn" if late else "ok"),
    )
    return TableRow(batch.id, cells)


def _places(view: View) -> Table:
    rows = [
        TableRow(
            batch.id, (words(str(load.number), batch.id, bold=True), words(str(at), batch.id), words(", ".join(on)))
        )
        for batch in view.plan.finish.batches
        for load in batch.loads
        for at, on in enumerate(load.places, 1)
    ]
    columns = (Column("load", axis=False), Column("place"), Column("what dries there", axis=False, share=3))
    aside = "pairs and rows of one grain together"
    return Table("places", "Loads and places of the rack", aside, columns, tuple(rows), tall=True)


def _recipes(view: View) -> Table:
    """A line a field, a column a recipe."""
    mine = list(view.job.finishes)
    fields = [field.name for field in fields_of(Finish) if field.name != "id"]
    rows = [
        TableRow(
            "",
            (
                words(field_word("finishes", name)),
                *(view.entry("finishes", one, name, _usual(view, name), subject=one) for one in mine),
            ),
        )
        for name in fields
    ]
    columns = (Column("", axis=False, share=2), *(Column(one, axis=False) for one in mine))
    actions = [Action(key("new", "finishes"), "Add a finish")]
    actions += [
        Action(key("take-over", "finishes", one), f"Use {row.name or one} of the shop", one)
        for one, row in view.shop.finishes.items()
        if one not in mine
    ]
    if (one := view.selected) in mine:
        actions += [
            Action(key("keep-in-shop", "finishes", one), f"Keep {one} in the shop", one),
            Action(key("copy", "finishes", one), f"Copy {one}", one),
            Action(key("delete", "finishes", one), f"Take out {one}", one),
        ]
    aside = "none is written down: usual figures are reckoned with" if not mine else "chosen for a run in its look"
    shown = down(tuple(rows)) if mine else ()
    return Table("recipes", "Recipes", aside, columns, shown, tuple(actions), tall=bool(mine))


def _usual(view: View, name: str) -> Figure | None:
    if name in ("stain_cover", "sealer_cover"):
        return usual_finish(view.unit, "cover")
    return usual_finish(view.unit, name) if name in USUAL else None


def _tests(view: View) -> Table:
    rows = []
    for one, row in view.job.test_pieces.items():
        recipes = named_choices({**view.shop.finishes, **view.job.finishes}, "not said")
        said = cell_name(view.job, "test_pieces", one, "finish")
        first = view.choice(key("test_pieces", one, "finish"), row.finish or "", recipes, one, said)
        others = (view.entry("test_pieces", one, name, subject=one) for name in _TEST[1:])
        rows.append(TableRow(one, (words(one, one, bold=True), first, *others)))
    heads = (Column(field_word("test_pieces", name), axis=False) for name in _TEST)
    actions = [Action(key("new", "test_pieces"), "Add a test piece")]
    if (one := view.selected) in view.job.test_pieces:
        actions.append(Action(key("delete", "test_pieces", one), f"Take out {one}", one))
    aside = "of this wood, with every step on it, beside what it must match, by daylight and lamplight"
    return Table("tests", "Test pieces", aside, (Column("", axis=False), *heads), tuple(rows), tuple(actions))


def _cautions(view: View) -> Table:
    rows = [TableRow("", (words(about, bold=True), words(said))) for about, said in finish_cautions(view)]
    columns = (Column("for", axis=False), Column("mind", axis=False, share=4))
    return Table("cautions", "Mind", DEFERS.rstrip("."), columns, tuple(rows))


def finish_cautions(view: View) -> Iterator[tuple[str, str]]:
    """Cautions of the finish room, a line each."""
    hazards: list[Hazard] = ["dust", "solvents"]
    if any(batch.drying_oil for batch in view.plan.finish.batches):
        hazards.append("oily rags")
    for hazard in hazards:
        caution = CAUTIONS[hazard]
        for at, said in enumerate(caution.says):
            yield "" if at else caution.word, said

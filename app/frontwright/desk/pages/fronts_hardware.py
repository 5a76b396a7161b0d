"""Hinges each at its own height, the plates under them, pulls as they are bored, what hangs on the wall: on Fronts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.clear import OLD_PLATE
from frontwright.core.hardware.result import BoringPlan, HingePlan, PullScrew, Weight
from frontwright.core.hardware.weights import ON_THE_WALL
from frontwright.core.plan import bored, screwed
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Action, Cell, Column, Form, FormLine, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import figure_text


def hardware_bands(view: View, run: RunPlan) -> list[tuple[Table | Form, ...]]:
    """The tables of a run's hardware, those that have something to say."""
    bands: list[tuple[Table | Form, ...]] = []
    hinges = _hinges(view, run)
    if hinges.rows:
        bands.append((hinges,))
    if view.job.hinge_types:
        bands.append((_plates(view),))
    bored_fronts = _pulls(view, run)
    if bored_fronts.rows:
        bands.append((bored_fronts,))
    weight = view.plan.hardware.weights.get(run.id)
    if weight is not None:
        bands.append((_weight(view, weight), _fixings(run)))
    return bands


def _of_run(view: View, run: RunPlan) -> list[FrontPlan]:
    return [front for front in view.plan.fronts.fronts.values() if front.run == run.id]


# -- hinges


def _hinges(view: View, run: RunPlan) -> Table:
    rows: list[TableRow] = []
    for front in _of_run(view, run):
        hinge = view.plan.hardware.hinges.get(front.id)
        if hinge is not None:
            rows += _hinge_rows(view, front, hinge)
    columns = (
        Column("door", axis=False),
        Column("hinge", axis=False, share=2),
        Column("height"),
        Column("cover needed"),
        Column("plate", axis=False),
        Column("cover with it"),
        Column("adjusted by"),
        Column("", axis=False, share=2),
    )
    aside = "heights from the door's lower edge; cover from where the plate sits"
    return Table("hinges", "Hinges, each at its own height", aside, columns, tuple(rows))


def _hinge_rows(view: View, front: FrontPlan, hinge: HingePlan) -> Iterator[TableRow]:
    one = front.id
    level = view.level_of(one, "hinge-overlay", "cup-fit")
    for at, height in enumerate(hinge.heights):
        name = f"hinge {at + 1}"
        need = hinge.needs[at] if hinge.needs else None
        plate = hinge.plates[at] if hinge.plates else None
        first = at == 0
        cells: tuple[Cell, ...] = (
            words(one if first else "", one, bold=True),
            words((hinge.name or "not chosen") if first else "", one),
            worked(height, one, f"height of {name}", bold=True),
            worked(need, one, f"cover needed at {name}", level=level),
            words("" if plate is None else _plate_word(plate.name, plate.lacking), one),
            worked(plate.gives if plate is not None else None, one, f"cover with the plate of {name}"),
            worked(plate.off if plate is not None else None, one, f"{name} adjusted by"),
            words(_said_word(hinge, at), one),
        )
        yield TableRow(one, cells)


def _said_word(hinge: HingePlan, at: int) -> str:
    """How many and why, on the first line of a door; what a hinge was moved clear of."""
    count = f"{hinge.count} by {hinge.why}" if at == 0 else ""
    return ", ".join(part for part in (count, _moved_word(hinge, at)) if part)


def _plate_word(name: str, lacking: bool) -> str:
    return f"{name or 'its own'}{', lacking' if lacking else ''}"


def _moved_word(hinge: HingePlan, at: int) -> str:
    moved = hinge.moved[at] if at < len(hinge.moved) else ""
    blocked = hinge.blocked[at] if at < len(hinge.blocked) else ""
    if blocked:
        return f"in the way: {blocked}"
    return moved if moved in ("", OLD_PLATE) else f"moved clear of {moved}"


# -- plates


def _plates(view: View) -> Table:
    taken = Counter(use.id for hinge in view.plan.hardware.hinges.values() for use in hinge.plates if use.id)
    rows = []
    for one, row in view.job.plates.items():
        lacks = max(0, taken[one] - row.count) if row.count is not None else 0
        hinge = view.choice(
            key("plates", one, "hinge"),
            row.hinge or "",
            named_choices(view.job.hinge_types, "any hinge"),
            one,
            cell_name(view.job, "plates", one, "hinge"),
        )
        cells = (
            view.name("plates", one),
            view.entry("plates", one, "name"),
            hinge,
            view.entry("plates", one, "height"),
            view.entry("plates", one, "count"),
            words(str(taken[one]) if taken[one] else "", one),
            words(f"{lacks} lacking" if lacks else "", one),
        )
        rows.append(TableRow(one, cells))
    columns = (
        Column("plate", axis=False),
        Column("name", axis=False),
        *(Column(field_word("plates", name), axis=name == "height") for name in ("hinge", "height", "count")),
        Column("taken", axis=False),
        Column("", axis=False),
    )
    actions = [Action(key("new", "plates"), "Add a plate")]
    if view.selected in view.job.plates:
        actions.append(Action(key("delete", "plates", view.selected), f"Take out {view.selected}", view.selected))
    aside = "chosen by the cover needed, once constant or plate of the hinge are told"
    return Table("plates", "Plates on hand", aside, columns, tuple(rows), tuple(actions), fine=True)


# -- pulls and bumpers


def _pulls(view: View, run: RunPlan) -> Table:
    screws, borings = screwed(view.plan), bored(view.plan)
    rows = [
        _pull_row(view, front, screws.get(front.id), borings[front.id])
        for front in _of_run(view, run)
        if front.id in view.plan.hardware.places and front.id in borings
    ]
    columns = (
        Column("front", axis=False),
        Column("pull", axis=False),
        Column("holes, from below", axis=False, share=2),
        Column("from the hinge edge", axis=False, share=2),
        Column("screw passes"),
        Column("screw", axis=False),
        Column("bumpers", axis=False),
    )
    aside = "from the left edge where there is no hinge; screws under the head"
    return Table("bored pulls", "Pulls as they are bored", aside, columns, tuple(rows))


def _pull_row(view: View, front: FrontPlan, screw: PullScrew | None, boring: BoringPlan) -> TableRow:
    one, display = front.id, view.display
    pull = view.plan.hardware.places[one]
    holes = boring.of("pull")

    def several(figures: list[Figure]) -> Cell:
        told = dict.fromkeys(figure_text(figure, display) for figure in figures)
        return words(", ".join(told), one)

    bumpers = view.plan.hardware.bumpers.get(one)
    cells = (
        words(one, one, bold=True),
        words(pull.name if pull.chosen else "(usual)", one),
        several([hole.from_bottom for hole in holes]),
        several([hole.from_hinge for hole in holes]),
        worked(screw.passes if screw is not None else None, one, "what the screw passes"),
        words(_screw_word(view, screw), one),
        words("" if bumpers is None else f"{bumpers.count}, {figure_text(bumpers.thick, display)} thick", one),
    )
    return TableRow(one, cells)


def _screw_word(view: View, screw: PullScrew | None) -> str:
    if screw is None:
        return ""
    if screw.sold is not None:
        return f"{screw.count} of {figure_text(screw.sold, view.display)}"
    least, most = (figure_text(figure, view.display) for figure in (screw.least, screw.most))
    return f"{screw.count}, cut to {least} to {most}"


# -- what hangs on the wall


def _weight(view: View, weight: Weight) -> Form:
    def told(figure: Figure) -> Cell:
        return words(figure_text(figure, view.display), weight.run)

    lines = [FormLine("new fronts", told(weight.new))]
    if weight.old is not None:
        lines.append(FormLine("old fronts, as far as read", told(weight.old)))
    lines.append(FormLine("added on the fixings", told(weight.added)))
    return Form("weight", "What hangs on the wall", "", tuple(lines))


def _fixings(run: RunPlan) -> Table:
    rows = tuple(TableRow(run.id, (words(said, run.id),)) for said in ON_THE_WALL)
    return Table("fixings", "Before it is hung", "", (Column("mind", axis=False),), rows)

"""A pressing on the Veneer page: all pressings, what one is done with, and its minutes and force rehearsed."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from frontwright.core.veneer.result import PressingPlan
from frontwright.desk.contents import Action, Cell, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.rows import row_or_new
from frontwright.desk.keys import key
from frontwright.desk.pages.veneer_billets import Bands
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import count_of, decimal
from frontwright.desk.wording.veneer import FACES, PRESSURE

_AREA = {"in": "ft²", "mm": "m²"}


def pressing_bands(view: View, pressing: str) -> Bands:
    """The bands of the page that stands on a pressing."""
    one = next(found for found in view.plan.veneer.pressings if found.id == pressing)
    return (
        (_pressings(view, one),),
        (_rehearsed(one), _pressed(view, one)),
        (_with(view, one), _laid_out(view, one)),
    )


def _pressings(view: View, chosen: PressingPlan) -> Table:
    columns = (
        Column("pressing", axis=False),
        Column("panels", axis=False, share=2),
        Column("done", axis=False),
        Column("minutes"),
        Column("limit"),
        Column("clamps"),
    )
    rows = tuple(_row(view, one) for one in view.plan.veneer.pressings)
    aside = "panels that go into the press in one go; name them with commas between"
    return Table("pressings", "Pressings", aside, columns, rows, _actions(view, chosen))


def _row(view: View, one: PressingPlan) -> TableRow:
    entered = one.id in view.job.pressings
    over = one.minutes > one.limit
    panels = view.entry("pressings", one.id, "panels", subject=one.id) if entered else words(", ".join(one.panels))
    cells: tuple[Cell, ...] = (
        view.name("pressings", one.id) if entered else words("by itself", one.id),
        panels,
        words("with a helper" if one.helped else "alone", one.id),
        words(decimal(one.minutes, 1), one.id, bold=True, level="stop" if over and not one.assumed else "ok"),
        words(decimal(one.limit, 1), one.id),
        words(str(one.clamps), one.id),
    )
    return TableRow(one.id, cells)


def _actions(view: View, one: PressingPlan) -> tuple[Action, ...]:
    pressings = view.plan.veneer.pressings
    loose = [found for found in pressings if found.id not in view.job.pressings]
    found = [Action(key("new-pressing"), "Press the others in one go")] if len(loose) > 1 else []
    if len(one.panels) > 1:
        found.append(Action(key("halve", one.id), f"Pressing {one.id} in halves", one.id))
    following = next((p for p in pressings[[p.id for p in pressings].index(one.id) + 1 :]), None)
    if following is not None:
        found.append(Action(key("join", one.id, following.id), f"Press {', '.join(following.panels)} with it", one.id))
    if one.id in view.job.pressings:
        found.append(Action(key("delete", "pressings", one.id), f"Take out pressing {one.id}", one.id))
    found.append(Action(key("new", "glues"), "Add a glue"))
    found.append(Action(key("new", "presses"), "Add clamps or a press"))
    return tuple(found)


def _with(view: View, one: PressingPlan) -> Form:
    """What it is done with; of a panel pressed by itself the first entry makes the pressing."""
    row = row_or_new(view.job, "pressings", one.id)
    homes: dict[str, Mapping[str, Any]] = {
        "glue": {**view.shop.glues, **view.job.glues},
        "press": {**view.shop.presses, **view.job.presses},
    }
    lines: list[FormLine] = []
    for name, rows in homes.items():
        said = cell_name(view.job, "pressings", one.id, name)
        own = getattr(row, name) or ""
        cell = view.choice(key("pressings", one.id, name), own, named_choices(rows, "the first there is"), one.id, said)
        lines.append(FormLine(field_word("pressings", name), cell))
    for name in ("helper", "clamps", "both_faces", "temperature", "started", "note"):
        cell = view.entry("pressings", one.id, name, subject=one.id)
        lines.append(FormLine(field_word("pressings", name), cell))
    return Form("pressing", f"Pressing {one.id}", "read the glue's own sheet at today's temperature", tuple(lines))


def _rehearsed(one: PressingPlan) -> Table:
    """F63: minutes step by step, alone and with a helper, against what the glue leaves."""
    whole = one.spread_minutes * (2 if one.helped else 1)
    clamps = f"{count_of(one.clamps, 'clamp')} set"
    steps = (
        ("spreading both glue lines", whole, whole / 2),
        ("laying up", one.layup_minutes, one.layup_minutes),
        (clamps, one.clamp_minutes, one.clamp_minutes),
    )
    rows = [
        TableRow("", (words(said), words(_minutes(alone)), words(_minutes(helped)))) for said, alone, helped in steps
    ]
    rows.append(_together(one))
    rows.append(TableRow("", (words("the glue leaves"), words(_minutes(one.limit)), words(_minutes(one.limit)))))
    rows.append(
        TableRow(
            "", (words("spread and laid within"), words(_minutes(one.open_limit)), words(_minutes(one.open_limit)))
        )
    )
    columns = (Column("", axis=False, share=2), Column("alone"), Column("with a helper"))
    aside = "usual figures of a glue" if one.assumed else ""
    return Table("rehearsed", "Minutes, rehearsed", aside, columns, tuple(rows))


def _together(one: PressingPlan) -> TableRow:
    cells = [words("together", bold=True)]
    for helped, minutes in ((False, one.alone), (True, one.with_helper)):
        late = minutes > one.limit
        mark = f"{_minutes(minutes)}, too slow" if late else _minutes(minutes)
        level = "stop" if late and helped == one.helped and not one.assumed else "ok"
        cells.append(words(mark, bold=helped == one.helped, level="stop" if level == "stop" else "ok"))
    return TableRow("", tuple(cells), result=True)


def _minutes(number: Fraction) -> str:
    return decimal(number, 1)


def _pressed(view: View, one: PressingPlan) -> Form:
    """F62, F64, F65: glue, force and what it takes."""
    unit = PRESSURE[view.unit]
    places = 0 if view.unit == "in" else 2
    short = one.pressure < one.goal
    lines = [
        ("both glue lines", words(f"{decimal(one.area, 2)} {_AREA[view.unit]}")),
        ("glue", words(f"{decimal(one.glue_grams, 0)} g")),
        ("clamps", words(str(one.clamps))),
        ("pressure", words(f"{decimal(one.pressure, places)} {unit}", bold=True, level="warn" if short else "ok")),
        ("at least", words(f"{decimal(one.floor, places)} {unit}, {count_of(one.clamps_for_floor, 'clamp')}")),
        ("in full", words(f"{decimal(one.goal, places)} {unit}, {count_of(one.clamps_for_goal, 'clamp')}")),
    ]
    if one.spacing is not None:
        lines.append(("clamps apart at most", worked(one.spacing, one.id, "clamps apart at most")))
    return Form("force", "Glue and force", "", tuple(FormLine(said, cell) for said, cell in lines))


def _laid_out(view: View, one: PressingPlan) -> Table:
    """What must lie ready before the bottle is opened, in the order in which it goes into the press."""
    things: list[str] = [
        f"{count_of(one.clamps, 'clamp')}, set to the opening, in order",
        "caul and release film, below",
    ]
    for panel in one.panels:
        for side, lies in (("show", "face down"), ("back", "face up")):
            leaves = [s for s in view.plan.veneer.seats if (s.of, s.side) == (panel, side)]
            ids = ", ".join(s.leaf for s in sorted(leaves, key=lambda s: s.seat))
            if side == "back":
                things.append(f"core of {panel}, squared, grain across")
            things.append(f"{ids or 'leaves'}: {FACES[side]} of {panel}, {lies}")
    things += [
        "release film and caul, above",
        f"{decimal(one.glue_grams, 0)} g of glue, spreader, water, cloth, pencil",
    ]
    rows = tuple(TableRow("", (words(str(at)), words(thing))) for at, thing in enumerate(things, 1))
    columns = (Column("", axis=False), Column("", axis=False, share=4))
    return Table("laid out", "Lay ready, from below", "before the bottle is opened", columns, rows)

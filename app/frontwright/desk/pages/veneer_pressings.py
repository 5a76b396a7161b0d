"""A pressing on the Veneer page: all pressings, what one is done with, and its minutes and force rehearsed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from frontwright.core.drawing.press_order import Thing, order, things
from frontwright.core.drawing.pressing import clamps_apart
from frontwright.core.findings import CheckLevel
from frontwright.core.job.index import JobIndex
from frontwright.core.veneer.clock import At, clock, moments, took
from frontwright.core.veneer.moisture import off_by, pressing_wetter, shop_moisture
from frontwright.core.veneer.result import PressingPlan
from frontwright.desk.contents import Action, Cell, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.rows import row_or_new
from frontwright.desk.keys import key
from frontwright.desk.pages.veneer_billets import Bands
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word, value_word
from frontwright.desk.wording.numbers import count_of, decimal, length_text
from frontwright.desk.wording.veneer import PRESSURE

_AREA = {"in": "ft²", "mm": "m²"}
_HOURS_FROM = 3  # longer spans are told in hours
_APART = 2  # F61, per cent


def pressing_bands(view: View, pressing: str) -> Bands:
    """The bands of the page that stands on a pressing."""
    one = next(found for found in view.plan.veneer.pressings if found.id == pressing)
    return (
        (_pressings(view, one),),
        (_rehearsed(one), _clock(view, one)),
        (_with(view, one), _pressed(view, one)),
        (_laid_out(view, one), _moisture(view, one)),
        (_order(view, one),),
    )


def _pressings(view: View, chosen: PressingPlan) -> Table:
    columns = (
        Column("pressing", axis=False),
        Column("panels", axis=False, share=2),
        Column("lie", axis=False),
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
    panels = view.entry("pressings", one.id, "panels", subject=one.id) if entered else words(", ".join(one.panels))
    cells: tuple[Cell, ...] = (
        view.name("pressings", one.id) if entered else words("by itself", one.id),
        panels,
        words(value_word("pressings", "lie", one.lie) if len(one.panels) > 1 else "", one.id),
        words("with a helper" if one.helped else "alone", one.id),
        words(decimal(one.minutes, 1), one.id, bold=True, level=_late(one) if not one.in_time else "ok"),
        words(decimal(one.limit, 1), one.id),
        words("bag" if one.in_bag else str(one.clamps), one.id),
    )
    return TableRow(one.id, cells)


def _late(one: PressingPlan) -> CheckLevel:
    """How much it matters that it is too slow: nobody is stopped by figures that nobody told."""
    return "stop" if one.is_stop else "note"


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
        empty = "the first there is" if rows else "none: usual figures"
        cell = view.choice(key("pressings", one.id, name), own, named_choices(rows, empty), one.id, said)
        lines.append(FormLine(field_word("pressings", name), cell))
    for name in _fields(one):
        cell = view.entry("pressings", one.id, name, subject=one.id)
        lines.append(FormLine(field_word("pressings", name), cell))
    return Form("pressing", f"Pressing {one.id}", "read the glue's own sheet at today's temperature", tuple(lines))


def _fields(one: PressingPlan) -> tuple[str, ...]:
    """What is told of a pressing; how its panels lie only where there are more than one."""
    lie = ("lie",) if len(one.panels) > 1 else ()
    clamps = () if one.in_bag else ("clamps",)
    return (*lie, "helper", *clamps, "both_faces", "temperature", "started", "closed", "note")


def _rehearsed(one: PressingPlan) -> Table:
    """F63: minutes step by step, alone and with a helper, against what the glue leaves."""
    whole = one.spread_minutes * (2 if one.helped else 1)
    clamps = "bag drawn down" if one.in_bag else f"{count_of(one.clamps, 'clamp')} set"
    steps = (
        ("spreading", whole, whole / 2),
        ("laying up", one.layup_minutes, one.layup_minutes),
        (clamps, one.clamp_minutes, one.clamp_minutes),
    )
    rows = [
        TableRow("", (words(said), words(_minutes(alone)), words(_minutes(helped)))) for said, alone, helped in steps
    ]
    rows.append(_together(one))
    rows.append(TableRow("", (words("the glue leaves"), words(_minutes(one.limit)), words(_minutes(one.limit)))))
    rows.append(TableRow("", (words("open time"), words(_minutes(one.open_limit)), words(_minutes(one.open_limit)))))
    columns = (Column("", axis=False, share=2), Column("alone"), Column("with a helper"))
    aside = "by usual figures where none was told" if one.late_assumed else ""
    return Table("rehearsed", "Minutes, rehearsed", aside, columns, tuple(rows))


def _together(one: PressingPlan) -> TableRow:
    cells = [words("together", bold=True)]
    for helped, minutes in ((False, one.alone), (True, one.with_helper)):
        this = replace(one, minutes=minutes)
        mark = _minutes(minutes) if this.in_time else f"{_minutes(minutes)}, too slow"
        counts = helped == one.helped
        level = _late(this) if counts and not this.in_time else "ok"
        cells.append(words(mark, bold=counts, level=level))
    return TableRow("", tuple(cells), result=True)


def _minutes(number: Fraction) -> str:
    return decimal(number, 1)


def _pressed(view: View, one: PressingPlan) -> Form:
    """F62, F64, F65: glue, force and what it takes."""
    lines = [
        ("both glue lines" if one.lines > 1 else "one glue line", words(f"{decimal(one.area, 2)} {_AREA[view.unit]}")),
        ("glue", words(f"{decimal(one.glue_grams, 0)} g")),
        *(_bag(view, one) if one.in_bag else _clamped(view, one)),
    ]
    lines.append(("long in the press", worked(one.lying.length, one.id, "long in the press")))
    lines.append(("wide", worked(one.lying.width, one.id, "wide")))
    lines.append(("high", worked(one.lying.height, one.id, "high")))
    aside = value_word("pressings", "lie", one.lie) if len(one.panels) > 1 else ""
    return Form("force", "Glue and force", aside, tuple(FormLine(said, cell) for said, cell in lines))


def _clamped(view: View, one: PressingPlan) -> Iterator[tuple[str, Cell]]:
    yield "clamps", words(str(one.clamps))
    yield "pressure", _pressure(view, one)
    yield f"at least, {count_of(one.clamps_for_floor, 'clamp')}", words(_force(view, one.floor))
    yield f"in full, {count_of(one.clamps_for_goal, 'clamp')}", words(_force(view, one.goal))
    apart = clamps_apart(one)
    if apart is not None:
        over = one.spacing is not None and apart.units > one.spacing.units
        yield "clamps apart", worked(apart, one.id, "clamps apart", level="warn" if over else "ok")
    if one.spacing is not None:
        yield "apart at most", worked(one.spacing, one.id, "clamps apart at most")
    yield "opened to", worked(one.open_to, one.id, "clamps opened to", level="ok" if one.fits else "stop")


def _bag(view: View, one: PressingPlan) -> Iterator[tuple[str, Cell]]:
    """A bag presses with the air outside, evenly, whatever lies in it."""
    yield "the bag gives", _pressure(view, one)
    yield "at least", words(_force(view, one.least))
    yield "the glue asks for", words(f"{_force(view, one.floor)} to {_force(view, one.goal)}")


def _pressure(view: View, one: PressingPlan) -> Cell:
    level: CheckLevel = "ok" if one.pressure >= one.goal else "warn" if one.pressure >= one.least else "stop"
    return words(_force(view, one.pressure), bold=True, level=level)


def _force(view: View, pressure: Fraction) -> str:
    inch = view.unit == "in"
    return f"{decimal(pressure, 0 if inch else 2)} {PRESSURE[view.unit]}"


def _laid_out(view: View, one: PressingPlan) -> Table:
    """What must lie ready before the bottle is opened; leaves and cores in the order in which they go in."""
    rows = [
        TableRow("", (words(str(at)), words(_thing(view, thing)))) for at, thing in enumerate(things(view.plan, one), 1)
    ]
    columns = (Column("", axis=False), Column("", axis=False, share=4))
    return Table("laid out", "Lay ready, from below", "before the bottle is opened", columns, tuple(rows))


def _thing(view: View, thing: Thing) -> str:
    sizes = " × ".join(length_text(size.value, view.display) for size in thing.sizes)
    return " ".join(part for part in (thing.name, sizes, thing.says) if part)


def _order(view: View, one: PressingPlan) -> Table:
    rows = tuple(TableRow("", (words(str(at)), words(step))) for at, step in enumerate(order(view.plan, one), 1))
    columns = (Column("", axis=False), Column("", axis=False, share=12))
    return Table("order", "Laid up in this order", "", columns, rows)


def _clock(view: View, one: PressingPlan) -> Table:
    """F63 by the clock: as planned, and the latest or earliest time."""
    row = row_or_new(view.job, "pressings", one.id)
    rows = [_moment(row.started, at, one) for at in moments(one)]
    used = took(row.started, row.closed)
    if used is not None:
        late = used > one.limit
        done = "until the bag was drawn down" if one.in_bag else "to the last clamp"
        said = f"{used} min {done}, {_minutes(one.minutes)} planned"
        rows.append(TableRow("", (words("took", bold=True), words(said, bold=True, level="warn" if late else "ok"))))
    columns = (Column("", axis=False, share=2), Column("as planned", axis=False), Column("limit", axis=False))
    begun = clock(row.started, Fraction(0), late=True)
    aside = f"bottle opened at {begun}" if begun else "write when the bottle was opened, as 9:40"
    return Table("clock", "By the clock", aside, columns, tuple(rows))


def _moment(started: str, at: At, one: PressingPlan) -> TableRow:
    what = "bag drawn down" if one.in_bag and at.what == "last clamp tight" else at.what
    if not at.bound:
        return TableRow("", (words(what), words(clock(started, Fraction(0), late=True) or "0 min"), words("")))
    planned = clock(started, at.planned, late=False) or f"after {_span(at.planned)}"
    by_clock = clock(started, at.bound, late=at.late)
    within = f"by {by_clock}" if by_clock else f"within {_span(at.bound)}"
    level = _late(one) if at.late and at.planned > at.bound else "ok"
    return TableRow("", (words(what), words(planned, level=level), words(within if at.late else "or later")))


def _span(after: Fraction) -> str:
    hours = after / 60
    return f"{_minutes(after)} min" if hours < _HOURS_FROM else f"{decimal(hours, 0)} h"


def _moisture(view: View, one: PressingPlan) -> Form:
    """The air of the shop, what wood comes to in it, the wood of this pressing, and the water that the glue brings."""
    index = JobIndex(view.job)
    air = ("shop_temperature", "shop_humidity")
    lines = [FormLine(field_word("headings", f), view.entry("headings", "job", f, subject=one.id)) for f in air]
    shop = shop_moisture(index)
    if shop is not None:
        lines.append(FormLine("wood comes to", words(f"{decimal(Fraction(shop.units), 1)} %", one.id, bold=True)))
        lines += [FormLine(f"billet {said}", cell) for said, cell in _billets(view, one, Fraction(shop.units))]
    lines += [FormLine(said, cell) for said, cell in _water(view, index, one)]
    return Form("moisture", "Moisture", "leaves within 2 % of the shop before they are pressed", tuple(lines))


def _billets(view: View, one: PressingPlan, shop: Fraction) -> Iterator[tuple[str, Cell]]:
    """The billets whose leaves are in this pressing, against the shop."""
    sawn = {seat.billet for seat in view.plan.veneer.seats if seat.of in one.panels}
    for plan in view.plan.veneer.plans:
        found = off_by(plan, shop) if plan.id in sawn else None
        if found is None:
            continue
        off = found[1]
        said = f"{decimal(shop + off, 1)} %, within 2 %"
        if abs(off) > _APART:
            said = f"{decimal(shop + off, 1)} %: let the leaves rest 24 to 72 h, stickered"
        yield plan.id, words(said, plan.id, level="warn" if abs(off) > _APART else "ok")


def _water(view: View, index: JobIndex, one: PressingPlan) -> Iterator[tuple[str, Cell]]:
    """F66."""
    yield "water in the glue", words(f"{decimal(one.water_grams, 0)} g", one.id)
    more = pressing_wetter(index, one, view.plan.making)
    if more is not None:
        yield "leaves wetter by up to", words(f"{decimal(more.per_cent, 1)} %", one.id)
        yield "growth, were they free", worked(more.grows, one.id, "growth of the leaves, were they free")
    yield "so plane after", words("24 h", one.id)

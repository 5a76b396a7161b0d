"""Small hardware and what is used up: plates, screws, dowels, pins, plugs, tape, abrasives, each counted (F47)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from frontwright.core.bill.lists import bought_line, sold_as
from frontwright.core.bill.result import CONSUMABLES, SMALL, BillLine, Purchase
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.hardware import pull_screws
from frontwright.core.hardware.old_hinges import new_hinges
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import HardwareLot
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import (
    IN_SIXTYFOURTHS,
    IN_TENTH_MM,
    UNITS_IN,
    Length,
    Unit,
    finest,
    half_up,
    in_units,
    show,
)
from frontwright.core.making.result import FrontMaking, MakingPlan

# common practice, no source, all of them
CUP_SCREWS, PLATE_SCREWS = 2, 2
FRONT_SCREWS = 4  # of an applied drawer front, from inside the box
PLUGS = 2  # of an old plate or hinge whose holes are filled
GRITS = 3  # before the first coat, and one between coats
TAPE_OVER = Fraction(5, 4)  # across the joints as well
A_SHEET: dict[Unit, Fraction] = {"in": Fraction(10), "mm": Fraction(1)}  # square feet, square metres one grit long
RUNNING: dict[Unit, tuple[str, int]] = {"in": ("feet", 12), "mm": ("metres", 1000)}


@dataclass(frozen=True, slots=True)
class Need:
    """So much of something small. `kind`: small hardware or consumables; `amount` in `measure`."""

    kind: str
    name: str
    amount: Fraction
    measure: str = "pieces"


def small_to_buy(index: JobIndex, needs: Iterable[Need], lots: Iterable[HardwareLot]) -> Iterator[Purchase]:
    """What of it is not on hand, by its own name or as what it is."""
    hand = {lot.what.casefold(): max(0, lot.count) for lot in lots}
    for need in needs:
        lacks = need.amount - hand.get(need.name.casefold(), 0)
        if lacks > 0:
            row = sold_as(index, {need.name.casefold()}) or sold_as(index, {need.kind})
            packs = ceil(lacks / max(1, row.pack)) if row is not None else ceil(lacks)
            yield bought_line(row, need.kind, need.name, packs, lacks, need.measure)


def small_lines(needs: Iterable[Need]) -> Iterator[BillLine]:
    """A line of the stock bill for each."""
    for need in needs:
        qty = int(need.amount) if need.measure == "pieces" else 0
        rough = None if qty else need.amount
        parts = {} if qty else {need.kind: need.amount}
        yield BillLine(need.kind, need.name, None, None, qty, None, rough, need.measure, None, parts)


def small_needs(
    index: JobIndex,
    fronts: FrontsPlan,
    making: MakingPlan,
    hardware: HardwarePlan,
    facing: FacingPlan,
    finish: FinishPlan,
) -> Iterator[Need]:
    """What the job takes of each, alike ones together."""
    found: Counter[str] = Counter()
    for name, count in (
        *_hinge_parts(index, hardware),
        *_pull_screws(index, fronts, making, hardware),
        *_dowels(index, making),
        *_pins(index, facing),
        *_of_drawers_and_old_hinges(index),
    ):
        found[name] += count
    yield from (Need(SMALL, name, Fraction(count)) for name, count in found.items() if count)
    tape = _tape(making)
    if tape:
        word, many = RUNNING[index.unit]
        yield Need(CONSUMABLES, "veneer tape", Fraction(ceil(tape / (UNITS_IN[index.unit] * many))), word)
    sheets = _abrasives(index, finish)
    if sheets:
        yield Need(CONSUMABLES, "sheets of abrasive", Fraction(sheets))


def _hinge_parts(index: JobIndex, hardware: HardwarePlan) -> Iterator[tuple[str, int]]:
    """Screws of cups and plates, and plates of which too few are on hand."""
    hinges = sum(hinge.count for hinge in hardware.hinges.values())
    yield "screws for cups", CUP_SCREWS * hinges
    yield "screws for plates", PLATE_SCREWS * hinges
    for hinge in hardware.hinges.values():
        for use in hinge.plates if new_hinges(index, hinge) else ():
            yield f"plates, {use.name or use.id}", int(use.lacking)


def _size(unit: Unit, figure: Figure | Length) -> str:
    value = figure.length if isinstance(figure, Figure) else figure
    usual = IN_TENTH_MM if unit == "mm" else IN_SIXTYFOURTHS
    return f"{show(value, finest(value, usual))} {unit}"


def _pull_screws(
    index: JobIndex, fronts: FrontsPlan, making: MakingPlan, hardware: HardwarePlan
) -> Iterator[tuple[str, int]]:
    for screw in pull_screws(index, fronts, making, hardware).values():
        long = screw.sold if screw.sold is not None else screw.most
        cut = "" if screw.sold is not None else ", cut down"
        yield f"pull screws {_size(index.unit, long)}{cut}", screw.count


def _dowels(index: JobIndex, making: MakingPlan) -> Iterator[tuple[str, int]]:
    """Two ends of each rail; a dowel goes as deep into both parts."""
    for made in making.fronts.values():
        long = Length(2 * half_up(made.build.dowel_depth.value).units)
        name = f"dowels {_size(index.unit, made.build.dowel)} across, {_size(index.unit, long)} long"
        for dowels in made.dowels:
            yield name, 2 * len(dowels.from_outer_edge) * _rails(made, dowels.rail)


def _rails(made: FrontMaking, kind: str) -> int:
    return sum(part.qty for part in made.parts if part.kind == kind)


def _pins(index: JobIndex, facing: FacingPlan) -> Iterator[tuple[str, int]]:
    for run in facing.runs.values():
        for pins in run.pins:
            if pins.pin is not None:
                yield f"pins {_size(index.unit, pins.pin)}", pins.count


def _of_drawers_and_old_hinges(index: JobIndex) -> Iterator[tuple[str, int]]:
    """Screws of applied drawer fronts; plugs for the holes of old hinges that are replaced."""
    applied = sum(1 for row in index.job.drawers.values() if row.front == "applied")
    yield "screws for drawer fronts", FRONT_SCREWS * applied
    gone = (row for row in index.job.old_hinges.values() if row.use == "replace" and not row.plugged)
    yield "plugs for old holes", sum(PLUGS * (row.count or 2) for row in gone)


def _tape(making: MakingPlan) -> Fraction:
    """Along every joint of both faces of shop-made panels, in units of length."""
    found = Fraction(0)
    for made in making.fronts.values():
        for panel in made.panels:
            if panel.leaf_length is not None and panel.leaves_across:
                found += 2 * (panel.leaves_across - 1) * Fraction(in_units(panel.leaf_length.value))
    return found * TAPE_OVER


def _abrasives(index: JobIndex, finish: FinishPlan) -> int:
    """Sheets for every grit before the first coat and between the coats."""
    turns = sum((batch.area * (GRITS + max(0, len(batch.steps) - 1)) for batch in finish.batches), Fraction(0))
    return ceil(turns / A_SHEET[index.unit])

"""Pressings rehearsed: glue, minutes alone and with a helper against the open time, force against clamps (F62-F65).

Panels of one pressing lie one on the other, or in a row. On a stack the force of the clamps goes through every panel:
the pressure is that on its largest. In a row it is shared by all of them. Both glue lines of every panel are spread.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from frontwright.core.assumed import entered_number, measured
from frontwright.core.figures import Figure, Term, most, number, plus, share, total
from frontwright.core.job import Amount, Glue, Lie, Press, Pressing
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, Unit
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.result import Lying, PressingPlan

# what a glue-up takes until the glue's own sheet is read; common practice, no source (section 8); the rate by the unit
_USUAL: dict[str, tuple[str, str]] = {
    "clamp_minutes": ("10", "10"),
    "open_minutes": ("10", "10"),
    "used_share": ("0.8", "0.8"),
    "spread_rate": ("1.5", "0.14"),
    "weight": ("180", "180"),
    "layup_minutes": ("2", "2"),
    "clamp_seconds": ("20", "20"),
    "pressure_floor": ("15", "0.1"),
    "pressure_goal": ("50", "0.35"),
    "press_minutes": ("60", "60"),
}
# of a press: force of a clamp in lb or kN (T5); a bag gives 0.085 MPa by F64, somewhat less than the air outside
_USUAL_PRESS: dict[str, tuple[str, str]] = {
    "force": ("1000", "4.5"),
    "bag_pressure": ("12", "0.085"),
    "close_minutes": ("3", "3"),
}
PRESS_USUAL = frozenset(_USUAL_PRESS)
# no bag gives more than the air outside: the standard atmosphere, at the level of the sea
AIR: dict[Unit, Fraction] = {"in": Fraction("14.7"), "mm": Fraction("0.1013")}
# a bag presses evenly: 10 to 14 psi have held thin flat leaves although the sheets of glues ask for more (T5)
_BAG_LEAST: dict[Unit, Fraction] = {"in": Fraction(10), "mm": Fraction("0.07")}
_SPREAD = ("spread_rate", "layup_minutes")
_MAY_BE_NOTHING = frozenset({"layup_minutes", "clamp_seconds", "close_minutes"})
_SQUARE_FOOT_IN_M2 = Fraction("0.09290304")  # exact: 0.3048 m squared
_NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class PanelIn:
    """A panel with its build, as it goes into the press: `long` and `short` side of its core, `thick` with leaves."""

    part: PanelPart
    build: PanelPlan
    long: Figure
    short: Figure

    @property
    def area(self) -> Fraction:
        """Of one face, in units squared."""
        return Fraction(self.long.units) * self.short.units

    @property
    def thick(self) -> Figure:
        return self.build.pressed


@dataclass(frozen=True, slots=True)
class Bench:
    """A pressing with everything that it is done with: the row, its panels, the glue's and the press's figures."""

    unit: Unit
    row: Pressing
    panels: tuple[PanelIn, ...]
    glue: Glue
    press: Press
    figures: Mapping[str, Figure]

    def of(self, name: str) -> Fraction:
        return Fraction(self.figures[name].units)

    @property
    def in_bag(self) -> bool:
        return self.press.kind == "vacuum bag"


def benches_of(index: JobIndex, panels: Sequence[PanelPart], builds: Mapping[str, PanelPlan]) -> list[Bench]:
    """Every pressing entered, and one for each panel that is in none, with what it is done with."""
    by_part = {p.part: found for p in panels if (found := _panel_in(p, builds)) is not None}
    rows = [
        replace(row, panels=tuple(dict.fromkeys(p for p in row.panels if p in by_part)))
        for row in index.job.pressings.values()
        if any(p in by_part for p in row.panels)
    ]
    pressed = {p for row in rows for p in row.panels}
    usual = next(iter(index.job.pressings.values()), Pressing(""))
    loose = [
        Pressing(part, (part,), usual.glue, usual.press, usual.helper, usual.clamps)
        for part in by_part
        if part not in pressed
    ]
    return [bench_of(index, row, tuple(by_part[p] for p in row.panels)) for row in (*rows, *loose)]


def bench_of(index: JobIndex, row: Pressing, panels: tuple[PanelIn, ...]) -> Bench:
    """A pressing's glue and press, the first of each where none is named, and their figures."""
    glue = index.job.glues.get(row.glue or "") or next(iter(index.job.glues.values()), Glue(""))
    press = index.job.presses.get(row.press or "") or next(iter(index.job.presses.values()), Press(""))
    return Bench(index.unit, row, panels, glue, press, _figures(index.unit, glue, press))


def rehearsed(bench: Bench) -> PressingPlan:
    """F62 to F65 of one pressing."""
    sheet, lying = bench.of, _lying(bench)
    bed, clamps = _bed(bench.press), _clamps_used(bench, lying)
    lines = 2 if bench.row.both_faces else 1
    square = lines * sum((p.area for p in bench.panels), start=_NOTHING) / _square(bench.unit)
    glue = sheet("weight") * square * (_SQUARE_FOOT_IN_M2 if bench.unit == "in" else 1)
    spread, layup = square / sheet("spread_rate"), sheet("layup_minutes") * len(bench.panels)
    closing = sheet("close_minutes") if bench.in_bag else clamps * sheet("clamp_seconds") / 60
    alone, helped = spread + layup + closing, spread / 2 + layup + closing
    return PressingPlan(
        id=bench.row.id,
        panels=tuple(p.part.part for p in bench.panels),
        glue=bench.glue.id,
        press=bench.press.id,
        kind=bench.press.kind,
        lie=bench.row.lie,
        lying=lying,
        helped=bench.row.helper,
        lines=lines,
        area=square,
        glue_grams=glue,
        water_grams=glue / 2,
        spread_minutes=spread / 2 if bench.row.helper else spread,
        layup_minutes=layup,
        clamp_minutes=closing,
        minutes=helped if bench.row.helper else alone,
        alone=alone,
        with_helper=helped,
        limit=sheet("used_share") * sheet("clamp_minutes"),
        open_limit=sheet("open_minutes"),
        press_minutes=sheet("press_minutes"),
        clamps=clamps,
        pressure=_pressure(bench, lying, clamps),
        least=_BAG_LEAST[bench.unit] if bench.in_bag else sheet("pressure_floor"),
        floor=sheet("pressure_floor"),
        goal=sheet("pressure_goal"),
        clamps_for_floor=_clamps_for(bench, lying, "pressure_floor"),
        clamps_for_goal=_clamps_for(bench, lying, "pressure_goal"),
        spacing=_spacing(bench),
        bed=bed,
        over_bed=_over_bed(bench, lying, bed),
        throat=None if bench.in_bag else measured(bench.press.throat, "throat of the clamps"),
        middle=None if bench.in_bag else share("to the middle of what lies in the press", lying.width, 2),
        opening=None if bench.in_bag else measured(bench.press.opening, "clamps open to"),
        open_to=_open_to(bench, lying),
        late_assumed=_assumed(bench, *_SPREAD, "used_share", "clamp_minutes", *_closing(bench)),
        dry_assumed=_assumed(bench, *_SPREAD, "open_minutes"),
        weak_assumed=_assumed(bench, "bag_pressure") if bench.in_bag else _assumed(bench, "pressure_floor", "force"),
    )


def _panel_in(panel: PanelPart, builds: Mapping[str, PanelPlan]) -> PanelIn | None:
    if panel.core_along is None or panel.core_across is None:
        return None
    short, long = sorted((panel.core_along, panel.core_across), key=lambda f: f.units)
    return PanelIn(panel, builds[panel.part], long, short)


# -- what a glue's sheet and a press give


def _figures(unit: Unit, glue: Glue, press: Press) -> dict[str, Figure]:
    return {name: _entered(unit, glue, name) for name in _USUAL} | {
        name: _entered(unit, press, name) for name in _USUAL_PRESS
    }


def _entered(unit: Unit, row: Glue | Press, name: str) -> Figure:
    """A figure as typed; a rate or force of nothing would make the minutes endless: then the usual one counts. Laying
    up or closing may take no time."""
    usual = usual_number(unit, name)
    given: Amount | None = getattr(row, name)
    figure = entered_number(given, usual, usual.name)
    return figure if figure.units > 0 or (not figure.units and name in _MAY_BE_NOTHING) else usual


def _assumed(bench: Bench, *names: str) -> bool:
    """Whether one of these figures was not told."""
    return any(bench.figures[name].rests for name in names)


def _closing(bench: Bench) -> tuple[str, ...]:
    """What the time for closing rests on; where nobody said how many clamps, also what they are counted from."""
    if bench.in_bag:
        return ("close_minutes",)
    return ("clamp_seconds",) if _given(bench) else ("clamp_seconds", "force", "pressure_goal")


@cache
def usual_number(unit: Unit, name: str) -> Figure:
    """What a figure of a glue or a press is taken as until it is read; KeyError if there is none."""
    inch, mm = _USUAL.get(name) or _USUAL_PRESS[name]
    source = "usual figure, T5" if name == "force" else "common practice, no source"
    word = "force of a clamp" if name == "force" else name.replace("_", " ")
    return number(word, Fraction(inch if unit == "in" else mm), "assumed", source)


# -- how the panels lie


def _lying(bench: Bench) -> Lying:
    """A row lies end to end; sides together where only so it lies on the bed."""
    panels, bed = bench.panels, _bed(bench.press)
    longs, shorts, thick = [p.long for p in panels], [p.short for p in panels], [p.thick for p in panels]
    areas = [p.area / UNITS_IN[bench.unit] ** 2 for p in panels]
    if bench.row.lie == "stacked" or len(panels) == 1:
        height = total("panels in the press", *(plus(t) for t in thick))
        return Lying(most("longest panel", longs), most("widest panel", shorts), height, max(areas))
    height, all_of_it = most("thickest panel", thick), sum(areas, start=_NOTHING)
    row = total("row of panels", *(plus(f) for f in longs))
    sides = total("panels beside each other", *(plus(f) for f in shorts))
    ended, sided = (row, most("widest panel", shorts)), (most("longest panel", longs), sides)
    length, width = sided if bed is not None and not _lies(*ended, bed) and _lies(*sided, bed) else ended
    return Lying(length, width, height, all_of_it)


def _bed(press: Press) -> tuple[Figure, Figure] | None:
    length, width = measured(press.bed_length, "length of the bed"), measured(press.bed_width, "width of the bed")
    return (length, width) if length is not None and width is not None else None


def _lies(one: Figure, other: Figure, bed: tuple[Figure, Figure]) -> bool:
    """Whether something of these sides lies on the bed, along or across it."""
    sides = sorted((one.units, other.units))
    return all(have <= room for have, room in zip(sides, sorted(f.units for f in bed), strict=True))


def _over_bed(bench: Bench, lying: Lying, bed: tuple[Figure, Figure] | None) -> tuple[str, ...]:
    """The panels that do not lie on the bed; of a row that does not, all."""
    if bed is None:
        return ()
    if bench.row.lie == "side by side" and not _lies(lying.length, lying.width, bed):
        return tuple(p.part.part for p in bench.panels)
    return tuple(p.part.part for p in bench.panels if not _lies(p.long, p.short, bed))


def _open_to(bench: Bench, lying: Lying) -> Figure:
    """How far clamps must open: the panels, and platen and caul over and under them."""
    over = (measured(bench.press.platen, "platen thick"), measured(bench.press.caul, "caul high"))
    return total("clamps opened to", plus(lying.height), *(plus(f, 2) for f in over if f is not None))


# -- force


def _square(unit: Unit) -> int:
    """How many units squared are a square foot, or a square metre."""
    return int((UNITS_IN[unit] * (12 if unit == "in" else 1000)) ** 2)


def _clamp_force(bench: Bench) -> Fraction:
    """Of one clamp: pounds for psi, newtons for MPa."""
    return bench.of("force") * (1 if bench.unit == "in" else 1000)


def _clamps_used(bench: Bench, lying: Lying) -> int:
    """As told of the pressing or the press, else as many as the full pressure takes; a bag has none."""
    if bench.in_bag:
        return 0
    return _given(bench) or _clamps_for(bench, lying, "pressure_goal")


def _given(bench: Bench) -> int:
    """How many clamps were told; nought where nobody did."""
    given = bench.row.clamps if bench.row.clamps is not None else bench.press.clamps
    return max(0, given or 0)


def _clamps_for(bench: Bench, lying: Lying, pressure: str) -> int:
    """F64: clamps for a pressure, up to the next whole one."""
    if bench.in_bag:
        return 0
    return max(1, math.ceil(bench.of(pressure) * lying.facing / _clamp_force(bench)))


def _pressure(bench: Bench, lying: Lying, clamps: int) -> Fraction:
    """F64 the other way round; of a bag what it gives, whatever lies in it, the air outside at most."""
    if bench.in_bag:
        return min(bench.of("bag_pressure"), AIR[bench.unit])
    return clamps * _clamp_force(bench) / lying.facing if lying.facing else _NOTHING


def _spacing(bench: Bench) -> Figure | None:
    """F65: pressure spreads at 45 degrees: clamps no further apart than twice caul and platen together."""
    caul, platen = (
        measured(bench.press.caul, "height of the caul"),
        measured(bench.press.platen, "height of the platen"),
    )
    if bench.in_bag or caul is None or platen is None:
        return None
    value = (caul.length + platen.length) * 2
    return Figure("clamps apart at most", value, "derived", "pressure spreads at 45°", (Term(caul, 2), Term(platen, 2)))


def with_lie(bench: Bench, lie: Lie) -> Bench:
    return replace(bench, row=replace(bench.row, lie=lie))

"""Pressings rehearsed: glue, minutes alone and with a helper against the open time, force against clamps (F62-F65)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.assumed import entered_number, measured
from frontwright.core.figures import Figure, Term, most, number, share
from frontwright.core.job import Amount, Glue, Press, Pressing
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, Unit, in_units
from frontwright.core.making.result import PanelPart
from frontwright.core.veneer.result import PressingPlan

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
}
_FORCE: dict[Unit, Fraction] = {"in": Fraction(1000), "mm": Fraction("4.5")}
_SQUARE_FOOT_IN_M2 = Fraction("0.09290304")  # exact: 0.3048 m squared


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The glue's figures and the clamp's force, chosen or usual."""

    figures: Mapping[str, Figure]
    force: Figure

    def of(self, name: str) -> Fraction:
        return Fraction(in_units(self.figures[name].value))


def pressing_plans(index: JobIndex, panels: Sequence[PanelPart]) -> tuple[PressingPlan, ...]:
    """Every pressing entered, and one for each panel that is in none."""
    by_part = {p.part: p for p in panels if p.core_along is not None}
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
    return tuple(_plan(index, row, [by_part[p] for p in row.panels]) for row in (*rows, *loose))


def _plan(index: JobIndex, row: Pressing, panels: list[PanelPart]) -> PressingPlan:
    unit = index.unit
    glue = index.job.glues.get(row.glue or "") or next(iter(index.job.glues.values()), Glue(""))
    press = index.job.presses.get(row.press or "") or next(iter(index.job.presses.values()), Press(""))
    sheet = _sheet(unit, glue, press)
    area = sum((_area(p) for p in panels), start=Fraction(0))
    square = area / (UNITS_IN[unit] * (12 if unit == "in" else 1000)) ** 2
    force = Fraction(in_units(sheet.force.value))
    floor, goal = sheet.of("pressure_floor"), sheet.of("pressure_goal")
    face = area / UNITS_IN[unit] ** 2  # square inches, or square millimetres
    per_clamp = force if unit == "in" else force * 1000  # lb for psi; newtons for MPa
    given = row.clamps if row.clamps is not None else press.clamps
    clamps = given if given is not None and given > 0 else _clamps(goal, face, per_clamp)
    spread = 2 * square / sheet.of("spread_rate")
    clamping = clamps * sheet.of("clamp_seconds") / 60
    still = sheet.of("layup_minutes") + clamping
    alone, helped = spread + still, spread / 2 + still
    bed = _bed(press)
    metres = square * _SQUARE_FOOT_IN_M2 if unit == "in" else square
    return PressingPlan(
        id=row.id,
        panels=tuple(p.part for p in panels),
        helped=row.helper,
        area=2 * square,
        glue_grams=2 * metres * sheet.of("weight"),
        spread_minutes=spread / 2 if row.helper else spread,
        layup_minutes=sheet.of("layup_minutes"),
        clamp_minutes=clamping,
        minutes=helped if row.helper else alone,
        limit=sheet.of("used_share") * sheet.of("clamp_minutes"),
        open_limit=sheet.of("open_minutes"),
        clamps=clamps,
        pressure=clamps * per_clamp / face if face else Fraction(0),
        floor=floor,
        goal=goal,
        clamps_for_floor=_clamps(floor, face, per_clamp),
        clamps_for_goal=_clamps(goal, face, per_clamp),
        spacing=_spacing(press),
        water_grams=metres * sheet.of("weight"),
        bed=bed,
        over_bed=tuple(p.part for p in panels if bed is not None and not _lies_on(p, bed)),
        throat=measured(press.throat, "throat of the clamps"),
        middle=_middle(panels),
        alone=alone,
        with_helper=helped,
        assumed=all(f.rests for f in sheet.figures.values()),
    )


def _sheet(unit: Unit, glue: Glue, press: Press) -> _Sheet:
    figures: dict[str, Figure] = {}
    for name in _USUAL:
        usual = usual_number(unit, name)
        given: Amount | None = getattr(glue, name)
        figures[name] = _above_nothing(entered_number(given, usual, usual.name), usual)
    force = usual_number(unit, "force")
    return _Sheet(figures, _above_nothing(entered_number(press.force, force, force.name), force))


def usual_number(unit: Unit, name: str) -> Figure:
    """What a figure of a glue, or the force of a clamp, is taken as until it is read; KeyError if there is none."""
    if name == "force":
        return number("force of a clamp", _FORCE[unit], "assumed", "usual figure, T5")
    inch, mm = _USUAL[name]
    value = Fraction(inch if unit == "in" else mm)
    return number(name.replace("_", " "), value, "assumed", "common practice, no source")


def _above_nothing(figure: Figure, usual: Figure) -> Figure:
    """A rate or force of nothing would make the minutes endless: then the usual one counts."""
    return figure if in_units(figure.value) > 0 else usual


def _area(panel: PanelPart) -> Fraction:
    if panel.core_along is None or panel.core_across is None:
        return Fraction(0)
    return Fraction(in_units(panel.core_along.value)) * in_units(panel.core_across.value)


def _clamps(pressure: Fraction, face: Fraction, per_clamp: Fraction) -> int:
    """F64: clamps for a pressure, up to the next whole one."""
    return max(1, math.ceil(pressure * face / per_clamp))


def _spacing(press: Press) -> Figure | None:
    """F65: pressure spreads at 45 degrees: clamps no further apart than twice caul and platen together."""
    caul, platen = measured(press.caul, "height of the caul"), measured(press.platen, "height of the platen")
    if caul is None or platen is None:
        return None
    value = (caul.length + platen.length) * 2
    return Figure("clamps apart at most", value, "derived", "pressure spreads at 45°", (Term(caul, 2), Term(platen, 2)))


def _bed(press: Press) -> tuple[Figure, Figure] | None:
    length, width = measured(press.bed_length, "length of the bed"), measured(press.bed_width, "width of the bed")
    return (length, width) if length is not None and width is not None else None


def _lies_on(panel: PanelPart, bed: tuple[Figure, Figure]) -> bool:
    """Whether the core lies on the bed, along or across it."""
    if panel.core_along is None or panel.core_across is None:
        return True
    core = sorted((in_units(panel.core_along.value), in_units(panel.core_across.value)))
    return all(have <= room for have, room in zip(core, sorted(in_units(f.value) for f in bed), strict=True))


def _middle(panels: Sequence[PanelPart]) -> Figure | None:
    """How far the middle of the widest panel is from where a clamp stands: half of its shorter side."""
    shorter = [
        min(p.core_along, p.core_across, key=lambda f: in_units(f.value))
        for p in panels
        if p.core_along is not None and p.core_across is not None
    ]
    return share("to the middle of the panel", most("shorter side", shorter), 2) if shorter else None


def wetter(weight: Fraction, leaf: Fraction, density: Fraction) -> Fraction:
    """F66: by how many per cent a leaf gets wetter if all of its glue's water, about half of the glue, went into it.

    `weight` of the glue in g/m2, `leaf` thickness in mm, `density` in kg/m3; a leaf weighs thickness x density g/m2.
    """
    return weight / 2 / (leaf * density) * 100 if leaf > 0 and density > 0 else Fraction(0)

"""The air of the shop and the wood in it: what wood comes to there, how much wetter glue makes a leaf (F61, F66)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import entered_number
from frontwright.core.figures import Figure, Term, number
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, Length, half_up
from frontwright.core.making.result import MakingPlan, PanelPart, PanelPlan
from frontwright.core.veneer.pressing import usual_number
from frontwright.core.veneer.result import BilletPlan, PressingPlan
from frontwright.core.wood import coefficient, density, equilibrium

_APART = Fraction(2)  # F61: leaves within 2 % of the shop before they are pressed
_WARM = {"in": Fraction(70), "mm": Fraction(21)}  # a heated shop, common practice
_KG_M3 = Fraction("16.01846337")  # a pound a cubic foot
_MM_IN_UNITS = UNITS_IN["mm"]


@dataclass(frozen=True, slots=True)
class Wetter:
    """F66: what the glue's water does to a leaf of a panel if all of it went in: per cent, and growth across."""

    panel: str
    per_cent: Fraction
    grows: Figure


def shop_moisture(index: JobIndex) -> Figure | None:
    """The moisture in per cent that wood comes to in the shop's air; None until its humidity was read."""
    row, unit = index.job.heading, index.unit
    nothing = number("humidity", 0, "assumed")
    humidity = entered_number(row.shop_humidity, nothing, "humidity of the shop, %")
    if humidity is nothing or not 0 <= humidity.units <= 100:
        return None
    warm = number("temperature of the shop", _WARM[unit], "assumed", "a heated shop, common practice")
    heat = entered_number(row.shop_temperature, warm, "temperature of the shop")
    fahrenheit = Fraction(heat.units) * (1 if unit == "in" else Fraction(9, 5)) + (0 if unit == "in" else 32)
    value = equilibrium(fahrenheit, Fraction(humidity.units) / 100)
    how = "Wood Handbook, FPL-GTR-190, equation 4-5"
    return Figure("wood comes to, %", value, "derived", how, (Term(heat, 0), Term(humidity, 0)), measure="number")


def wetter(weight: Fraction, leaf: Fraction, heavy: Fraction) -> Fraction:
    """F66: by how many per cent a leaf gets wetter if all of its glue's water, about half of the glue, went into it.

    `weight` of the glue in g/m2, `leaf` thickness in mm, `heavy` its density in kg/m3; a leaf weighs the product.
    """
    return weight / 2 / (leaf * heavy) * 100 if leaf > 0 and heavy > 0 else Fraction(0)


def panel_wetter(index: JobIndex, panel: PanelPart, build: PanelPlan, weight: Fraction) -> Wetter:
    """What the glue of one face, in g/m2, does to a panel's leaves, and how much they would grow were they free."""
    wood = density(index, build.species)
    heavy = Fraction(wood.units) * (_KG_M3 if index.unit == "in" else 1)
    thick = Fraction(build.glued.units) / _MM_IN_UNITS
    more = wetter(weight, thick, heavy)
    across = panel.core_across or panel.across
    moves = coefficient(index, build.species)
    value: Length = half_up(Fraction(across.units) * moves.units * more)
    how = "width × coefficient × moisture, were it free"
    grows = Figure("leaves would grow", value, "derived", how, (Term(across, 0), Term(moves, 0), Term(wood, 0)))
    return Wetter(panel.part, more, grows)


def pressing_wetter(index: JobIndex, of: PressingPlan, making: MakingPlan) -> Wetter | None:
    """That of the panel whose leaves get wettest; None of a pressing of no panel."""
    usual = usual_number(index.unit, "weight")
    glue = index.job.glues.get(of.glue)
    weight = Fraction(entered_number(glue.weight if glue is not None else None, usual, "glue").units)
    panels = [p for made in making.fronts.values() for p in made.panels if p.part in of.panels]
    found = [panel_wetter(index, p, making.fronts[p.front].build.panel, weight) for p in panels]
    return max(found, key=lambda one: one.per_cent, default=None)


def shop_checks(index: JobIndex, plans: Sequence[BilletPlan]) -> Iterator[Check]:
    """F61: the wood of every billet whose moisture was read within 2 % of what it comes to in the shop."""
    shop = shop_moisture(index)
    if shop is None:
        return
    for plan in plans:
        found = off_by(plan, Fraction(shop.units))
        if found is None:
            continue
        field, off = found
        level: CheckLevel = "warn" if abs(off) > _APART else "ok"
        ways = (WayOut("change", plan.id, field),) if level != "ok" else ()
        facts: dict[str, Fact] = {"shop": _tenth(Fraction(shop.units)), "way": "wetter" if off > 0 else "drier"}
        where, value = (plan.id,), _tenth(abs(off))
        yield Check("moisture", where, value, "2", level, judged(level), "shop", facts, ways)


def off_by(plan: BilletPlan, shop: Fraction) -> tuple[str, Fraction] | None:
    """Which of a billet's two readings is further from the shop's moisture, and by how much; None without any."""
    given = {name: getattr(plan.billet, name) for name in ("moisture_shell", "moisture_core")}
    read = {name: one.value - shop for name, one in given.items() if one is not None and one.value is not None}
    return max(read.items(), key=lambda one: abs(one[1]), default=None)


def _tenth(value: Fraction) -> str:
    tenths = (value * 20 + 1) // 2
    whole, part = divmod(int(tenths), 10)
    return f"{whole}.{part}" if part else str(whole)

"""Densities and masses keep their meaning: with a unit typed, in a job of the other unit, through the shop."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pint
import pytest
from frontwright.core.assumed import HINGE_MASS
from frontwright.core.job import Amount, HingeType, Job, Shop, Species, amount
from frontwright.core.lengths import IN_HALF_MM, IN_THIRTYSECONDS, Unit
from frontwright.core.plan import derive
from frontwright.desk.edits.amounts import converted, read_amount, with_units
from frontwright.desk.edits.entry import entered, entered_in_shop
from frontwright.desk.edits.making import kept_in_shop, moved_on, taken_over
from frontwright.desk.edits.woods import choosable, woods
from frontwright.desk.session import Session
from frontwright.exchange.json_form import job_from_json, job_to_json
from frontwright.resources import resource

Opener = Callable[[Job | str], Session]

OAK = Species("oak", "oak", density=amount("44"))
HINGE = HingeType("H", two_mass=amount("6"), three_mass=amount("12 kg"))


def sample_job(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text("utf-8"))


def wood(job: Job | Shop, name: str = "oak") -> Amount:
    density = job.species[name].density
    assert density is not None
    return density


def number(text: str, field: str, unit: Unit) -> Fraction:
    value = read_amount(text, field, unit).value
    assert value is not None
    return value


@pytest.mark.parametrize(
    ("told", "wanted", "factor"), [("lb", "kg", "0.45359237"), ("lb/ft3", "kg/m3", "16.018463373960139580")]
)
def test_a_density_or_mass_is_carried_over_as_pint_defines_the_units(told: str, wanted: str, factor: str) -> None:
    usual: pint.UnitRegistry[float] = pint.UnitRegistry()
    there = usual.Quantity(44, told.replace("3", "**3")).to(wanted.replace("3", "**3")).magnitude
    assert abs(float(converted(Fraction(44), told, wanted)) - there) < 1e-9
    assert abs(converted(Fraction(1), told, wanted) - Fraction(factor)) < Fraction(1, 10**15)
    assert converted(converted(Fraction(44), told, wanted), wanted, told) == 44


@pytest.mark.parametrize("at", range(4))
def test_the_masses_for_so_many_hinges_are_the_same_in_both_units(at: int) -> None:
    assert converted(HINGE_MASS["mm"][at], "kg", "lb") == HINGE_MASS["in"][at]


@pytest.mark.parametrize(
    ("text", "field", "unit", "value"),
    [
        ("44", "density", "in", "44"),
        ("44 lb/ft3", "density", "in", "44"),
        ("44 lb/ft³", "density", "in", "44"),
        ("700", "density", "mm", "700"),
        ("700kg/m3", "density", "mm", "700"),
        ("6 kg", "two_mass", "mm", "6"),
        ("6 LBS", "two_mass", "in", "6"),
        ("0,0037", "flat", "mm", "0.0037"),
    ],
)
def test_a_number_counts_in_the_unit_that_is_typed_or_in_the_jobs(
    text: str, field: str, unit: Unit, value: str
) -> None:
    assert number(text, field, unit) == Fraction(value)
    assert read_amount(text, field, unit).text == text


def test_the_other_units_number_is_carried_over_exactly() -> None:
    assert number("6 kg", "two_mass", "in") == Fraction(6) / Fraction("0.45359237")
    assert number("44 lb/ft3", "density", "mm") == 44 * Fraction("0.45359237") / Fraction("0.3048") ** 3


@pytest.mark.parametrize("text", ["oak", "44 lb", "44 kg/m3 lb/ft3", "kg/m3", "-3 kg/m3"])
def test_what_is_no_density_has_no_value_and_is_kept(text: str) -> None:
    assert read_amount(text, "density", "in") == Amount(text, None)


def test_a_job_shown_in_the_other_unit_keeps_its_masses_and_hinge_counts(open_session: Opener) -> None:
    job = sample_job("laundry-pair")
    hinge = HingeType("heavy", two_mass=amount("7"), three_mass=amount("9"))
    job = job.put(OAK, hinge, *(replace(one, species="oak", hinge="heavy") for one in job.looks.values()))
    session = open_session(job.put(*(replace(one, species=None) for one in job.door_builds.values())))
    before = session.plan
    assert {plan.count for plan in before.hardware.hinges.values()} == {3}
    assert session.enter("headings/job/unit", "mm").problem == ""
    for front, made in before.making.fronts.items():
        kilograms = Fraction(session.plan.making.fronts[front].mass.units)
        before_in_kilograms = Fraction(made.mass.units) * Fraction("0.45359237")
        assert abs(kilograms - before_in_kilograms) < Fraction(1, 100)  # front edges go to another step
        assert session.plan.hardware.hinges[front].count == 3
    session.undo()
    assert session.job.species["oak"] == OAK


def test_an_amount_names_the_unit_it_was_told_in_once_the_job_has_another() -> None:
    job = sample_job("laundry-pair").put(OAK, HINGE)
    there = entered(job, "headings/job/unit", "mm").change(job)
    assert wood(there).text == "44 lb/ft3"
    assert wood(there).value == number("44 lb/ft3", "density", "mm")
    assert there.hinge_types["H"].three_mass == Amount("12 kg", Fraction(12))
    back = entered(there, "headings/job/unit", "in").change(there)
    assert wood(back) == Amount("44 lb/ft3", Fraction(44))
    assert back.hinge_types["H"].two_mass == Amount("6 lb", Fraction(6))


def test_a_shops_density_counts_the_same_in_jobs_of_both_units() -> None:
    inch, metric = sample_job("laundry-pair").put(OAK), sample_job("kitchen-run")
    shop = kept_in_shop(Shop(), inch, "species", "oak")
    assert wood(shop).text == "44 lb/ft3"
    taken = taken_over(metric, shop, "species", "oak")
    assert wood(taken).value == number("44 lb/ft3", "density", "mm")
    assert moved_on(taken, shop) == moved_on(inch, shop) == ()
    changed = entered_in_shop(shop, "species/oak/density", "45", IN_THIRTYSECONDS)[0]
    assert moved_on(taken, changed) == moved_on(inch, changed) == (("species", "oak"),)


def test_what_is_typed_for_the_shop_names_the_unit_of_the_job_it_is_typed_in() -> None:
    shop = Shop().put(Species("ash"))
    typed, _ = entered_in_shop(shop, "species/ash/density", "650", IN_HALF_MM)
    assert wood(typed, "ash") == Amount("650 kg/m3", Fraction(650))
    assert entered_in_shop(typed, "species/ash/density", "650", IN_HALF_MM)[0] == typed


def test_amounts_with_their_units_come_through_the_json_form() -> None:
    job = sample_job("kitchen-run").put(Species("oak", density=read_amount("44 lb/ft3", "density", "mm")))
    assert job_from_json(job_to_json(job)) == job
    assert with_units(job.species["oak"], "mm") == job.species["oak"]


# Woods of the table


def test_a_wood_of_the_table_is_chosen_by_name_and_comes_into_the_job_with_its_source(open_session: Opener) -> None:
    session = open_session("kitchen-run")
    room = next(iter(session.job.rooms))
    outcome = session.enter(f"looks/room:{room}/species", "black cherry")
    assert outcome.problem == ""
    found = session.job.species["black cherry"]
    assert found == woods("mm")["black cherry"]
    assert "Wood Handbook" in found.source
    session.undo()
    assert "black cherry" not in session.job.species


def test_a_job_keeps_its_own_wood_of_the_same_name() -> None:
    mine = Species("black cherry", "mine", density=amount("600"))
    job = sample_job("kitchen-run").put(mine)
    room = next(iter(job.rooms))
    assert entered(job, f"looks/room:{room}/species", "black cherry").change(job).species["black cherry"] == mine
    assert choosable(job, Shop(), "species")["black cherry"] == mine


def test_the_woods_of_the_table_can_be_chosen_on_the_pages(kitchen: Session) -> None:
    cells = [
        line.cell for band in kitchen.page("making").bands for block in band for line in getattr(block, "lines", ())
    ]
    (cell,) = [cell for cell in cells if cell.key.startswith("door_builds/") and cell.key.endswith("/species")]
    assert set(woods("mm")) < {choice.value for choice in cell.choices}


def test_a_wood_of_the_table_moves_the_panel_by_its_own_coefficient() -> None:
    job = sample_job("kitchen-run")
    room = next(iter(job.rooms))
    chosen = entered(job, f"looks/room:{room}/species", "black cherry").change(job)
    rows = derive(chosen).fronts.rows
    assert {term.figure.how for term in rows[0].movement.terms} >= {woods("mm")["black cherry"].source}


def test_a_path_is_no_wood(tmp_path: Path, kitchen: Session) -> None:
    room = next(iter(kitchen.job.rooms))
    assert "there is no" in kitchen.enter(f"looks/room:{room}/species", str(tmp_path)).problem

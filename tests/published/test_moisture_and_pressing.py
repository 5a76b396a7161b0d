"""Moisture of wood, movement of a leaf, force of clamps against figures that others have published, each named with its
source.

S1 is the Wood Handbook (FPL-GTR-190), S3 and others as in resources/reference/SOURCES.md. "arithmetic": follows from a
stated rule; "common practice": habit of the trade, no source.
"""

from __future__ import annotations

import csv
from fractions import Fraction

import pytest
from frontwright.core.assumed import assumed_moisture
from frontwright.core.figures import Figure, number
from frontwright.core.job import (
    Allowances,
    Amount,
    Column,
    DoorBuild,
    Front,
    Glue,
    Heading,
    Job,
    Look,
    Opening,
    PanelBuild,
    Press,
    Pressing,
    Reading,
    Room,
    Run,
    amount,
)
from frontwright.core.lengths import MM, in_units, typed
from frontwright.core.plan import derive
from frontwright.core.veneer.result import PressingPlan
from frontwright.core.wood import equilibrium, movement
from frontwright.exchange.reference import species
from frontwright.resources import resource

ASH = next(one for one in species("mm") if one.id == "white ash")


def table() -> list[tuple[str, str, str]]:
    """Temperature, humidity in per cent and moisture of every cell of the table."""
    with resource("reference", "emc.csv").open(encoding="utf-8", newline="") as file:
        lines = [line for line in csv.DictReader(file) if line["kind"] == "table"]
    return [(line["temperature_F"], line["relative_humidity_pct"], line["EMC_pct"]) for line in lines]


def at(fahrenheit: str, humidity: str) -> Fraction:
    return equilibrium(Fraction(fahrenheit), Fraction(humidity))


# Moisture


@pytest.mark.parametrize(
    ("humidity", "expected"), [("0.30", "6.2"), ("0.50", "9.2"), ("0.65", "12.0"), ("0.80", "16.0")]
)
def test_s1_table_4_2_moisture_at_70_f(humidity: str, expected: str) -> None:
    assert abs(at("70", humidity) - Fraction(expected)) <= Fraction("0.1")


def test_s1_s3_every_cell_of_the_table_is_the_equation_within_a_tenth() -> None:
    cells = table()
    assert len(cells) == 193
    off = {(t, h): abs(at(t, str(Fraction(h) / 100)) - Fraction(told)) for t, h, told in cells}
    assert max(off.values()) <= Fraction("0.065")


def test_encyclopaedia_check_at_140_f_the_equation_gives_8_38() -> None:
    assert abs(at("140", "0.55") - Fraction("8.38")) <= Fraction("0.05")


@pytest.mark.parametrize(("humidity", "expected"), [("0.25", "5.3"), ("0.60", "11.1")])
def test_stove_fuel_page_moisture_at_70_f(humidity: str, expected: str) -> None:
    assert abs(at("70", humidity) - Fraction(expected)) <= Fraction("0.2")


def test_trade_column_five_points_of_humidity_are_one_of_moisture() -> None:
    slope = (at("70", "0.80") - at("70", "0.30")) / 50
    assert abs(slope - Fraction("0.20")) <= Fraction("0.05")


@pytest.mark.parametrize(("key", "humidity"), [("moisture low", "0.30"), ("moisture high", "0.60")])
def test_s1_table_4_2_the_assumed_dry_and_wet_season_are_70_f_at_30_and_60_per_cent(key: str, humidity: str) -> None:
    assert abs(in_units(assumed_moisture(key).value) - at("70", humidity)) <= Fraction("0.2")


def test_humidity_in_per_cent_is_refused() -> None:
    with pytest.raises(ValueError, match="from 0 to 1"):
        at("70", "30")


# Movement of a leaf


def test_arithmetic_a_leaf_of_338_mm_that_takes_up_its_glues_water_grows_nearly_5_mm() -> None:
    flat = ASH.flat
    assert isinstance(flat, Amount)
    assert flat.value is not None
    wetter = Fraction(90) / (Fraction("2.6") * 650) * 100  # 90 g of water a square metre on 1.7 kg of leaf
    per_cent, dry, wet = (number(name, value) for name, value in (("c", flat.value), ("dry", 8), ("wet", 8 + wetter)))
    grown = movement("leaf", Figure("width", Fraction(338 * MM.units), "taped"), per_cent, dry, wet)
    assert Fraction("4.5") < Fraction(grown.units, MM.units) < 5


# Pressing


def pressing(panel: tuple[str, str], force: str, floor: str, goal: str, clamps: int) -> PressingPlan:
    """A panel of this size, no over size, under so many clamps; a butted frame, the panel in its rabbet."""
    width, height = (f"{size} + 3 5/16" for size in panel)  # frame 5, cover 1, rabbets 3/4, clearances 1/16
    job = Job().put(
        Heading(unit="in"),
        Room("room"),
        Run("R", "room", by_itself=True),
        Column("C", "R", 1),
        Opening("O", "C", 1),
        Reading("w", "O", "width", "middle", typed(width, "in")),
        Reading("h", "O", "height", "middle", typed(height, "in")),
        Look("room:room", "partial cover", cover=typed("1/2", "in"), door_build="door"),
        DoorBuild(
            "door",
            kind="dowelled",
            panel="panel",
            stile=typed("2 1/2", "in"),
            top_rail=typed("2 1/2", "in"),
            bottom_rail=typed("2 1/2", "in"),
            rabbet_width=typed("3/8", "in"),
        ),
        PanelBuild("panel"),
        Allowances(panel_edge=typed("0", "in")),
        Front("F", "O"),
        Glue("glue", pressure_floor=amount(floor), pressure_goal=amount(goal)),
        Press("press", clamps=clamps, force=amount(force)),
        Pressing("1", ("F-P",), "glue", "press"),
    )
    (plan,) = derive(job).veneer.pressings
    return plan


def test_arithmetic_on_public_figures_a_face_of_10_by_16_at_150_psi_takes_23_pipe_clamps() -> None:
    plan = pressing(("10", "16"), "1050", "100", "150", 23)
    assert plan.area == 2 * Fraction(160, 144)
    assert plan.clamps_for_goal == 23
    assert plan.pressure >= 150 > plan.pressure * 22 / 23


def test_vacuum_press_questions_26_in_of_mercury_at_half_a_pound_press_a_square_foot_with_1872_lb() -> None:
    plan = pressing(("12", "12"), "1872", "10", "13", 1)
    assert plan.pressure == Fraction(26, 2)
    assert plan.clamps_for_goal == 1


def test_trade_knowledge_base_22_in_of_mercury_are_10_8_psi() -> None:
    assert Fraction("1556.1216") == Fraction("0.4912") * 22 * 144
    plan = pressing(("12", "12"), "1556.1216", "10", "50", 1)
    assert abs(plan.pressure - Fraction("10.8")) <= Fraction("0.05")
    assert plan.clamps_for_goal == 5  # five times as much: no bag reaches 50 psi

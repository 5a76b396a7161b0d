"""Hinges, cups and gaps against the published figures (resources/reference/clearances.csv, each with its source)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.job import Column, Front, Heading, HingeType, Job, Look, Opening, Reading, Room, Row, Run, amount
from frontwright.core.lengths import UNITS_IN, Unit, in_units, typed
from frontwright.core.plan import Plan, bored, derive
from frontwright.core.space.hinge_ways import LEAST_EDGE

Table = Callable[[str], dict[str, dict[str, str]]]
Spans = Callable[[dict[str, str]], tuple[Fraction | None, Fraction, Fraction]]
Usual = Callable[[str, Unit], Fraction]


HEAVY = amount("1000")


@pytest.mark.parametrize(
    ("key", "unit", "quantity"),
    [
        ("cup", "mm", "concealed hinge cup diameter"),
        ("cup depth", "mm", "cup boring depth"),
        ("edge distance", "mm", "boring distance (door edge to cup edge)"),
        ("hinge end", "in", "hinge inset from door ends"),
        ("gap", "mm", "gap between overlay fronts, frameless"),
        ("meeting gap", "in", "gap between two overlay doors on one opening, face frame"),
        ("inset side", "in", "gap around inset door"),
        ("inset bottom", "in", "gap around inset door"),
        ("partial cover", "in", "overlay, standard North American"),
        ("groove", "in", "groove depth"),
        ("clearance groove", "in", "panel clearance, sheet panel in groove, each side"),
        ("clearance solid", "in", "panel clearance, solid panel in groove, each side"),
        ("thickness", "in", "door thickness, stile and rail"),
        ("frame thickness", "in", "face frame thickness"),
    ],
)
def test_what_is_assumed_lies_within_what_is_published(
    key: str, unit: Unit, quantity: str, lies_within: Callable[[str, Unit, str, str], None]
) -> None:
    lies_within(key, unit, "clearances.csv", quantity)


def test_the_adjustments_are_no_more_than_is_published(table: Table, span: Spans, usual: Usual) -> None:
    _, least, most = span(table("clearances.csv")["concealed hinge adjustment"])
    for key in ("hinge adjust", "hinge adjust up", "hinge adjust out"):
        assert least <= usual(key, "mm") <= most


def test_no_cup_is_offered_nearer_to_the_edge_than_is_published(table: Table, span: Spans) -> None:
    _, least, _ = span(table("clearances.csv")["boring distance (door edge to cup edge)"])
    assert Fraction(LEAST_EDGE.units) / UNITS_IN["mm"] == least


@pytest.mark.parametrize(("edge", "centre"), [("3", "20.5"), ("5", "22.5"), ("6", "23.5")])
def test_the_cup_centre_is_half_a_cup_further_in(edge: str, centre: str, table: Table) -> None:
    """T1: B + 17.5"""
    assert table("clearances.csv")["cup centre from door edge"]["value"] == "B + 17.5"
    job = derive_of(HingeType("hinge", edge_distance=typed(edge, "mm")))
    cup = bored(job)["F"].of("cup")[0]
    assert Fraction(in_units(cup.from_hinge.value)) / UNITS_IN["mm"] == Fraction(centre)


def test_the_screws_of_a_cup_stand_as_published(table: Table) -> None:
    """T1: 45 x 9.5"""
    apart, behind = (Fraction(text) for text in table("clearances.csv")["cup screw pattern"]["value"].split(" x "))
    boring = bored(derive_of(HingeType("hinge")))["F"]
    low, high = (Fraction(in_units(h.from_bottom.value)) / UNITS_IN["mm"] for h in boring.of("cup screw")[:2])
    assert high - low == apart
    cup, screw = boring.of("cup")[0], boring.of("cup screw")[0]
    assert Fraction(in_units(screw.from_hinge.value) - in_units(cup.from_hinge.value)) / UNITS_IN["mm"] == behind


def test_the_relation_of_cover_constant_and_plate_is_the_published_one(table: Table) -> None:
    """T1: K + A - p; a hinge of 3 mm and plate 0 that covers 19, with a plate of 3 less by 3"""
    assert table("clearances.csv")["overlay relation"]["value"] == "K + A - p"
    full = Fraction(table("clearances.csv")["full-overlay hinge on frameless side"]["value"])
    for plate in ("0", "3"):
        row = HingeType("hinge", edge_distance=typed("3", "mm"), constant=typed("16", "mm"), plate=typed(plate, "mm"))
        cover = derive_of(row).hardware.hinges["F"].cover
        assert cover is not None
        assert Fraction(in_units(cover.value)) / UNITS_IN["mm"] == full - Fraction(plate)


@pytest.mark.parametrize("count", [2, 3, 4, 5])
def test_the_makers_table_of_heights_goes_before_the_usual_one(count: int, table: Table, span: Spans) -> None:
    """T1 has other bands than the usual ones; a hinge that is told them counts by them"""
    bands = {n: span(table("clearances.csv")[f"hinges per door: {n}"])[2] for n in (2, 3, 4, 5)}
    two, three, four, five = (typed(f"{bands[n]} in", "mm") for n in (2, 3, 4, 5))
    masses = HingeType("hinge", two_mass=HEAVY, three_mass=HEAVY, four_mass=HEAVY, five_mass=HEAVY)
    row = replace(masses, two_to=two, three_to=three, four_to=four, five_to=five)
    assert derive_of(row, f"{bands[count]} in").hardware.hinges["F"].count == count


def derive_of(hinge: HingeType, height: str = "600 mm") -> Plan:
    """A door of 300 on this hinge."""
    rows: tuple[Row, ...] = (
        Heading(unit="mm"),
        Room("room"),
        Run("R", "room", by_itself=True),
        Column("C", "R", 1),
        Opening("O", "C"),
        Reading("w", "O", "width", "middle", typed("280", "mm")),
        Reading("h", "O", "height", "middle", typed(f"{height} - 20 mm", "mm")),
        Look("room:room", "partial cover", cover=typed("10", "mm"), hinge="hinge"),
        Front("F", "O", hinge_side="left"),
    )
    return derive(Job().put(*rows, hinge))

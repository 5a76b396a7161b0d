"""Finish against figures that others have published, each named with its source (T6: public guides, C: practice)."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from frontwright.core.cautions import CAUTIONS
from frontwright.core.finish.usual import usual_finish
from frontwright.core.job import (
    Column,
    DoorBuild,
    Finish,
    Front,
    Heading,
    Job,
    Look,
    Opening,
    Reading,
    Room,
    Run,
    amount,
)
from frontwright.core.lengths import typed
from frontwright.core.plan import derive

Table = Callable[[str], dict[str, dict[str, str]]]
Spans = Callable[[dict[str, str]], tuple[Fraction | None, Fraction, Fraction]]


def slab(width: str, height: str, thick: str, **recipe: object) -> Job:
    """One slab of this size by itself, in inches."""
    rows = (
        Heading(unit="in"),
        Room("room"),
        Run("R", "room", by_itself=True),
        Column("C", "R", 1),
        Opening("A", "C"),
        Reading("w", "A", "width", "middle", typed(f"{width} - 2*(1/2)", "in")),
        Reading("h", "A", "height", "middle", typed(f"{height} - 2*(1/2)", "in")),
        Look("room:room", cover=typed("1/2", "in"), door_build="slab"),
        DoorBuild("slab", kind="slab", thickness=typed(thick, "in")),
        Front("F", "A"),
    )
    told = {key: amount(value) if isinstance(value, str) else value for key, value in recipe.items()}
    return Job().put(*rows, Finish("finish", **told))  # type: ignore[arg-type]  # amounts and counts by field


def test_arithmetic_a_door_of_16_by_23_by_three_quarters_has_794_and_a_half_square_inches_a_coat() -> None:
    """5.52 square feet"""
    (batch,) = derive(slab("16", "23", "3/4")).finish.batches
    assert batch.area * 144 == Fraction("794.5")


def test_t6_330_square_feet_in_four_coats_at_600_a_gallon_are_2_2_gallons() -> None:
    """One face of so much is 330 square feet less the edges; here both faces and edges make it"""
    (batch,) = derive(slab("16", "23", "3/4", coats=4, cover="600", extra="0")).finish.batches
    assert batch.volume / batch.area * 330 == Fraction("2.2")


@pytest.mark.parametrize(
    ("key", "quantity"),
    [
        ("cover", "coverage, polyurethane or varnish"),
        ("coats", "coats, cabinet work"),
        ("dry_hours", "recoat, oil-based polyurethane"),
        ("recoat_most", "recoat, oil-based polyurethane"),
    ],
)
def test_what_is_assumed_of_a_finish_lies_within_what_is_published(
    key: str, quantity: str, table: Table, span: Spans
) -> None:
    row = table("finish.csv")[quantity]
    _, least, most = span(row)
    assert least <= usual_finish("in", key).units <= most, row["source"]


def test_extra_for_brush_and_tray_is_that_of_the_guides(table: Table) -> None:
    """10 to 20 per cent, rounded up to a sold can"""
    assert "add 10-20 %" in table("finish.csv")["finish volume"]["note"]
    assert 10 <= usual_finish("in", "extra").units <= 20


def test_fronts_hang_long_before_the_finish_has_cured_and_bumpers_wait_longer(table: Table, span: Spans) -> None:
    """Full cure takes 20 to 30 days: so bumpers later than hanging, and both before it"""
    least = min(span(table("finish.csv")[row])[1] for row in ("cure, oil-based", "cure, water-based"))
    assert usual_finish("in", "hang_days").units < usual_finish("in", "bumper_days").units < least


def test_oily_rags_are_warned_of_wherever_a_drying_oil_may_be(table: Table) -> None:
    assert table("finish.csv")["oily rags: how soon they can ignite"]["high"] == "72"
    (batch,) = derive(slab("16", "23", "3/4", medium=None)).finish.batches
    assert batch.drying_oil
    assert "water-filled" in table("finish.csv")["oily rags: storage"]["value"]
    assert any("lidded can" in said for said in CAUTIONS["oily rags"].says)


def test_the_usual_cover_of_a_millimetre_job_is_about_that_of_an_inch_job() -> None:
    """400 square feet a US gallon are 9.8 m2 a litre; the trade says 10"""
    litres_a_gallon, m2_a_square_foot = Fraction("3.785411784"), Fraction("0.09290304")
    carried = usual_finish("in", "cover").units * m2_a_square_foot / litres_a_gallon
    assert abs(carried - usual_finish("mm", "cover").units) < Fraction("0.25")

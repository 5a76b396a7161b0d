"""Finish against figures that others have published, each named with its source (T6: public guides, C: practice)."""

from __future__ import annotations

from fractions import Fraction

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


def test_t6_usual_cover_and_coats_lie_within_what_public_guides_say() -> None:
    """300 to 600 square feet a gallon; 2 to 4 coats; the next coat of oil-based varnish after 4 to 24 hours"""
    assert 300 <= usual_finish("in", "cover").units <= 600
    assert 2 <= usual_finish("in", "coats").units <= 4
    assert usual_finish("in", "dry_hours").units == 4
    assert usual_finish("in", "recoat_most").units == 24


def test_c_extra_for_brush_and_tray_lies_between_10_and_20_per_cent() -> None:
    assert 10 <= usual_finish("in", "extra").units <= 20


def test_the_usual_cover_of_a_millimetre_job_is_about_that_of_an_inch_job() -> None:
    """400 square feet a US gallon are 9.8 m2 a litre; the trade says 10"""
    litres_a_gallon, m2_a_square_foot = Fraction("3.785411784"), Fraction("0.09290304")
    carried = usual_finish("in", "cover").units * m2_a_square_foot / litres_a_gallon
    assert abs(carried - usual_finish("mm", "cover").units) < Fraction("0.25")

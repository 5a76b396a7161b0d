"""Fronts, hinges and door parts against figures that others have published, each named with its source.

T1 is a hinge maker's reference, other letters as in resources/reference/SOURCES.md. "arithmetic": follows from a stated
rule; "common practice": habit of the trade, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.job import (
    Column,
    DoorBuild,
    DoorKind,
    Front,
    Heading,
    HingeType,
    Job,
    Look,
    Member,
    Opening,
    PanelBuild,
    Reading,
    Room,
    Row,
    Run,
    Species,
    amount,
)
from frontwright.core.lengths import Length, Typed, Unit, typed
from frontwright.core.making.result import FrontMaking
from frontwright.core.plan import Plan, derive


def inch(text: str) -> Typed:
    return typed(text, "in")


def mm(text: str) -> Typed:
    return typed(text, "mm")


def opening(width: Typed, height: Typed, unit: Unit) -> tuple[Row, ...]:
    """A job with one opening by itself, of this size."""
    return (
        Heading(unit=unit),
        Room("room"),
        Run("R", "room", by_itself=True),
        Column("C", "R", 1),
        Opening("O", "C"),
        Reading("w", "O", "width", "middle", width),
        Reading("h", "O", "height", "middle", height),
    )


def single_door(kind: DoorKind, *more: Row) -> tuple[Plan, FrontMaking]:
    """Cases 37 to 41: opening 15 x 22, overlay 1/2 all round, stiles and rails 2 1/4."""
    build = DoorBuild(
        "build",
        kind=kind,
        thickness=inch("3/4"),
        stile=inch("2 1/4"),
        top_rail=inch("2 1/4"),
        bottom_rail=inch("2 1/4"),
        groove=inch("3/8"),
        rabbet_width=inch("3/8"),
        clearance=inch("1/64"),  # 1/32 in all
        panel="panel",
        species="cherry",
    )
    plan = derive(
        Job().put(
            *opening(inch("15"), inch("22"), "in"),
            Look("room:room", "partial cover", cover=inch("1/2"), door_build="build"),
            Front("D", "O", hinge_side="left"),
            build,
            PanelBuild("panel", kind="sheet", sheet_is=inch("3/8"), species="cherry"),
            Species("cherry", density=amount("34.9")),
            *more,
        )
    )
    return plan, plan.making.fronts["D"]


def sizes(made: FrontMaking, kind: str) -> tuple[Fraction, Fraction]:
    """Length and width of a part in inches."""
    part = next(part for part in made.parts if part.kind == kind)
    return part.length.length / Length.inch(1), part.width.length / Length.inch(1)


def test_arithmetic_a_door_of_overlay_1_2_on_15_x_22_is_16_x_23() -> None:
    plan, _ = single_door("dowelled")
    front = plan.fronts.fronts["D"]
    assert (front.width.value, front.height.value) == (Length.inch(16), Length.inch(23))


def test_arithmetic_stiles_of_that_door_are_23_and_its_butt_rails_11_1_2() -> None:
    _, made = single_door("dowelled")
    assert sizes(made, "stile")[0] == 23
    assert sizes(made, "top rail")[0] == sizes(made, "bottom rail")[0] == Fraction("11.5")


def test_arithmetic_the_sight_of_that_door_is_11_1_2_x_18_1_2() -> None:
    _, made = single_door("dowelled")
    assert made.sight_width is not None
    assert made.sight_height is not None
    assert (made.sight_width.value, made.sight_height.value) == (Length.inch("23/2"), Length.inch("37/2"))


def test_arithmetic_with_3_8_stub_tenons_its_rails_are_12_1_4() -> None:
    _, made = single_door("stub tenon")
    assert sizes(made, "top rail")[0] == Fraction("12.25")


def test_arithmetic_its_panel_in_a_3_8_rabbet_is_12_7_32_x_19_7_32() -> None:
    """The clearance of 1/32 in all is common practice, no source."""
    _, made = single_door("dowelled")
    assert sizes(made, "panel") == (19 + Fraction(7, 32), 12 + Fraction(7, 32))


def test_arithmetic_that_door_in_cherry_weighs_3_96_lb_net_of_its_rabbet() -> None:
    _, made = single_door("dowelled")
    assert abs(Fraction(made.mass.units) - Fraction("3.96")) <= Fraction("0.05")


def test_arithmetic_each_door_of_a_pair_over_30_with_overlay_1_2_and_gap_1_8_is_15_7_16() -> None:
    plan = derive(
        Job().put(
            *opening(inch("30"), inch("22"), "in"),
            Look("room:room", "partial cover", cover=inch("1/2"), meeting_gap=inch("1/8")),
            Front("L", "O", place=1, hinge_side="left"),
            Front("R", "O", place=2, hinge_side="right"),
        )
    )
    assert [front.width.length / Length.inch(1) for front in plan.fronts.fronts.values()] == [Fraction("15.4375")] * 2


def test_trade_knowledge_base_five_equal_fronts_in_800_with_gaps_of_3_and_one_end_gap_are_157() -> None:
    """Published for drawers over each other; the same division, laid down along a run."""
    job = Job().put(
        Heading(unit="mm", step=mm("0.5")),
        Room("room"),
        Run("R", "room"),
        Look("room:room", "full cover", gap=mm("3"), reveal_left=mm("3"), edge_right=mm("800"), equal_fronts=True),
        Reading("all", "R", "overall", "", mm("800")),
    )
    for n in range(5):
        job = job.put(
            Member(f"P{n}", "R", "partition", 2 * n),
            Reading(f"left {n}", f"P{n}", "edge left", "", mm(str(156 * n))),
            Reading(f"right {n}", f"P{n}", "edge right", "", mm(str(156 * n + 18))),
            Column(f"C{n}", "R", 2 * n + 1),
            Opening(f"O{n}", f"C{n}"),
            Front(f"F{n}", f"O{n}", "fixed"),
        )
    job = job.put(
        Member("P5", "R", "partition", 10),
        Reading("left 5", "P5", "edge left", "", mm("782")),
        Reading("right 5", "P5", "edge right", "", mm("800")),
    )
    assert [front.width.value for front in derive(job).fronts.fronts.values()] == [Length.mm(157)] * 5


def hung(unit: Unit, hinge: HingeType, width: Typed, height: Typed, density: str = "44") -> Plan:
    """A door of this size on this hinge: its opening is as large, the cover next to nothing."""
    tiny = typed("1/64" if unit == "in" else "0.1", unit)
    return derive(
        Job().put(
            *opening(width, height, unit),
            Look("room:room", "partial cover", cover=tiny, door_build="slab", hinge=hinge.id),
            Front("D", "O", hinge_side="left"),
            DoorBuild("slab", kind="slab", thickness=typed("3/4" if unit == "in" else "20", unit), species="wood"),
            Species("wood", density=amount(density)),
            hinge,
        )
    )


@pytest.mark.parametrize(
    ("distance", "constant", "plate", "cover"),
    [
        pytest.param("5", "13", "2", "16", id="T1 relation, own inputs"),
        pytest.param("3", "16", "0", "19", id="forum answer: straight arm, no plate"),
        pytest.param("3", "16", "3", "16", id="forum answer: the same with a 3 mm plate"),
    ],
)
def test_cover_is_edge_distance_and_constant_less_the_plate(
    distance: str, constant: str, plate: str, cover: str
) -> None:
    hinge = HingeType("H", edge_distance=mm(distance), constant=mm(constant), plate=mm(plate))
    given = hung("mm", hinge, mm("400"), mm("700")).hardware.hinges["D"].cover
    assert given is not None
    assert given.value == Length.mm(cover)


@pytest.mark.parametrize("distance", range(3, 9))
def test_t1_table_a_cup_of_35_is_centred_17_5_behind_its_edge_distance(distance: int) -> None:
    plan = hung("mm", HingeType("H", cup=mm("35"), edge_distance=mm(str(distance))), mm("400"), mm("700"))
    assert plan.hardware.cups["D"].centre.value == Length.mm(distance) + Length.mm("17.5")


@pytest.mark.parametrize(("height", "pounds", "count"), [("22", 10, 2), ("45", 10, 3), ("45", 35, 4), ("61", 20, 4)])
def test_t1_bands_the_larger_of_height_and_mass_gives_the_hinges(height: str, pounds: int, count: int) -> None:
    bands = HingeType(
        "H",
        two_to=inch("40"),
        three_to=inch("60"),
        four_to=inch("80"),
        five_to=inch("100"),
        two_mass=amount("15"),
        three_mass=amount("30"),
        four_mass=amount("45"),
        five_mass=amount("60"),
    )
    volume = Fraction(16) * Fraction(height) * Fraction(3, 4) / 1728
    density = f"{round(pounds / float(volume), 3)}"
    plan = hung("in", bands, inch("16"), inch(height), density)
    assert abs(Fraction(plan.making.fronts["D"].mass.units) - pounds) < Fraction(1, 4)
    assert plan.hardware.hinges["D"].count == count

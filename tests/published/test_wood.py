"""Movement, content, density and leaves against figures that others have published, each named with its source.

S1 is the Wood Handbook (FPL-GTR-190), other letters as in resources/reference/SOURCES.md. "arithmetic": follows from a
stated rule; "common practice": habit of the trade, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.figures import Figure, number
from frontwright.core.job import (
    Allowances,
    Column,
    DoorBuild,
    Front,
    Heading,
    Job,
    Look,
    Machine,
    Opening,
    PanelBuild,
    Piece,
    Reading,
    Room,
    Run,
)
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, Length, Unit, typed
from frontwright.core.plan import Plan, derive
from frontwright.core.stock.purchase import content_of
from frontwright.core.veneer.counts import spares
from frontwright.core.veneer.sawing import tallest
from frontwright.core.veneer.seen import leaves_in
from frontwright.core.wood import movement
from frontwright.exchange.reference import species

type Number = str | Fraction

WOODS = {one.id: one for one in species("in")}
CHERRY, MAPLE, OAK = "black cherry", "sugar maple (hard)", "red oak (commercial group)"
WALNUT, ASH = "black walnut", "white ash"


def moved(width: Number, coefficient: Number, dry: Number, wet: Number, unit: Unit = "in") -> Fraction:
    """How much a board grows from one moisture to another, in the unit of its width."""
    per_cent, low, high = (number(name, Fraction(n)) for name, n in zip("cdw", (coefficient, dry, wet), strict=True))
    grown = movement("movement", Figure("width", Fraction(width) * UNITS_IN[unit], "taped"), per_cent, low, high)
    return Fraction(grown.units, UNITS_IN[unit])


def flat(wood: str) -> Fraction:
    """The tangential coefficient of the table."""
    coefficient = WOODS[wood].flat
    assert coefficient is not None
    assert coefficient.value is not None
    return coefficient.value


def quarter(wood: str) -> Fraction:
    coefficient = WOODS[wood].quarter
    assert coefficient is not None
    assert coefficient.value is not None
    return coefficient.value


def inches(text: Number) -> Length:
    return Length.inch(Fraction(text))


def near(figure: Number, expected: str, slack: str) -> bool:
    return abs(Fraction(figure) - Fraction(expected)) <= Fraction(slack)


# Movement


def test_s1_page_13_18_a_white_fir_board_of_232_mm_grows_1_7_mm() -> None:
    change = moved("232", "0.00245", "8", "11", "mm")
    assert near(change, "1.705", "0.05")
    assert near(232 + change, "233.7", "0.05")


def test_s1_page_13_18_the_same_board_of_9_15_in_grows_0_067_in() -> None:
    assert near(moved("9.15", "0.00245", "8", "11"), "0.067", "0.0005")


def test_s4_flooring_association_a_mesquite_board_of_5_in_grows_0_019_in() -> None:
    assert near(moved("5", "0.00129", "6", "9"), "0.01935", "0.0005")


def test_woodworking_magazine_chart_red_alder_of_8_in_grows_an_eighth() -> None:
    assert near(moved("8", "0.0026", "0", "6"), "0.1248", "0.0001")


@pytest.mark.parametrize(
    ("wood", "coefficient"),
    [(CHERRY, "0.00248"), (MAPLE, "0.00353"), ("yellow birch", "0.00338"), ("American beech", "0.00431")],
)
def test_s1_table_13_5_coefficients_of_the_table_are_the_published_ones(wood: str, coefficient: str) -> None:
    assert flat(wood) == Fraction(coefficient)


@pytest.mark.parametrize(
    ("wood", "exact", "printed"), [(CHERRY, "0.149", "9/64"), (WALNUT, "0.164", "10/64"), (ASH, "0.164", "10/64")]
)
def test_s5_information_center_table_12_in_flat_sawn_from_10_to_5_per_cent(wood: str, exact: str, printed: str) -> None:
    change = moved("12", flat(wood), "5", "10")
    assert near(change, exact, "0.001")
    assert near(change, printed, "1/64")


@pytest.mark.parametrize(
    ("coefficient", "expected"),
    [(flat(CHERRY), "0.143"), (quarter(CHERRY), "0.073"), (flat(MAPLE), "0.203"), (flat(OAK), "0.213")],
    ids=["cherry flat-sawn", "cherry quarter-sawn", "hard maple flat-sawn", "red oak flat-sawn"],
)
def test_s1_tables_4_2_and_13_5_12_in_over_a_season(coefficient: Fraction, expected: str) -> None:
    assert near(moved("12", coefficient, "6.2", "11.0"), expected, "0.002")


def test_arithmetic_a_door_moves_by_its_two_stiles_alone() -> None:
    assert near(moved("4.5", flat(CHERRY), "6.2", "11.0"), "0.054", "0.002")


# Content, density


def index_of(unit: Unit) -> JobIndex:
    return JobIndex(Job().put(Heading(unit=unit)))


@pytest.mark.parametrize(
    ("size", "feet"),
    [(("1", "12", "12"), "1"), (("1", "6", "96"), "4"), (("5/4", "15/2", "96"), "25/4"), (("7/4", "6", "60"), "35/8")],
    ids=["S11 a board foot", "arithmetic 4/4 x 6 x 96", "arithmetic 5/4 x 7 1/2 x 96", "rule 1 3/4 x 6 x 60"],
)
def test_content_in_board_feet(size: tuple[str, str, str], feet: str) -> None:
    thick, wide, long = (inches(each) for each in size)
    assert content_of(index_of("in"), "board", long, wide, thick) == Fraction(feet)


def test_arithmetic_content_in_cubic_metres() -> None:
    assert content_of(index_of("mm"), "board", Length.mm(2500), Length.mm(195), Length.mm(27)) == Fraction("0.0131625")


def test_s1_chapter_4_cherry_of_gravity_0_50_weighs_34_9_lb_a_cubic_foot() -> None:
    density = WOODS[CHERRY].density
    assert density is not None
    assert density.value is not None
    assert abs(density.value - Fraction("34.9")) <= Fraction("0.1")


# Leaves


def veneered(panels: int, build: PanelBuild) -> Plan:
    """Doors with a shop-made panel, each in an opening by itself, 16 x 23."""
    job = Job().put(
        Heading(unit="in"),
        Room("room"),
        Run("R", "room", by_itself=True),
        Look("room:room", "partial cover", cover=typed("1/2", "in"), door_build="door"),
        DoorBuild("door", kind="dowelled", panel="panel"),
        build,
        Allowances(leaf_edge=typed("0", "in"), panel_edge=typed("0", "in")),
        Piece("B", "billet", width=typed("7", "in"), thickness=typed("1.70", "in"), length=typed("84", "in")),
    )
    for n in range(panels):
        job = job.put(
            Column(f"C{n}", "R", n),
            Opening(f"O{n}", f"C{n}"),
            Reading(f"w{n}", f"O{n}", "width", "middle", typed("15", "in")),
            Reading(f"h{n}", f"O{n}", "height", "middle", typed("22", "in")),
            Front(f"D{n}", f"O{n}", hinge_side="left"),
        )
    return derive(job)


def test_common_practice_a_core_with_two_eighth_faces_is_pressed_to_7_16_and_planed_to_3_8() -> None:
    core, slice_, none, shown = (typed(text, "in") for text in ("3/16", "1/8", "0", "1/32"))
    plan = veneered(1, PanelBuild("panel", core_is=core, slice=slice_, glue_loss=none, show_loss=shown))
    chain = plan.making.fronts["D0"].chain
    assert chain is not None
    assert (chain.pressed.value, chain.panel.value, chain.veneer_left.value) == (
        inches("7/16"),
        inches("3/8"),
        inches("3/32"),
    )


@pytest.mark.parametrize(
    ("blank", "kerf", "kept", "leaves"),
    [
        pytest.param("1.70", "1/8", "0", 7, id="magazine: full kerf"),
        pytest.param("1.70", "3/32", "0", 8, id="magazine: thin kerf"),
        pytest.param("13/16", "1/8", "0", 3, id="arithmetic: planed 4/4, full kerf"),
        pytest.param("13/16", "3/32", "0", 4, id="arithmetic: planed 4/4, thin kerf"),
        pytest.param("13/16", "1/8", "3/8", 1, id="common practice: 3/8 kept back, full kerf"),
        pytest.param("13/16", "3/32", "3/8", 2, id="common practice: 3/8 kept back, thin kerf"),
    ],
)
def test_eighth_leaves_of_a_billet(blank: str, kerf: str, kept: str, leaves: int) -> None:
    sizes = (Figure("size", inches(each), "taped") for each in (blank, "1/8", kerf, kept))
    assert leaves_in(*sizes) == leaves


def two_pass(exposure: str, overlap: str) -> Length:
    machine = Machine("T", "table saw", blade_height=typed(exposure, "in"), overlap=typed(overlap, "in"))
    height = tallest(index_of("in"), machine)
    assert height is not None
    return height.length


def test_s12_modern_cabinetmaking_page_382_a_blade_at_3_in_takes_5_1_2_in_two_passes() -> None:
    assert two_pass("3", "1/2") == inches("11/2")


def test_arithmetic_a_10_in_saw_takes_5_3_4_in_two_passes() -> None:
    assert two_pass("3 1/8", "1/2") == inches("23/4")


def test_common_practice_three_panels_of_two_leaves_a_face_take_14_leaves_with_spares() -> None:
    plan = veneered(3, PanelBuild("panel", core_is=typed("3/16", "in"), slice=typed("1/8", "in")))
    assert {panel.leaves_across for made in plan.making.fronts.values() for panel in made.panels} == {2}
    (leaves,) = (each for each in plan.veneer.leaves if each.use == "panels")
    assert (leaves.count, leaves.count + spares(12)) == (12, 14)

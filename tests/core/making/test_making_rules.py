"""Rules of making, hinges and leaves, each by the example that goes with its formula (F25 to F40, F53 to F58)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import (
    AsBuilt,
    Column,
    DoorBuild,
    DoorKind,
    Front,
    Heading,
    HingeType,
    Job,
    Look,
    Machine,
    Opening,
    PanelBuild,
    PanelKind,
    Piece,
    Reading,
    Room,
    Row,
    Run,
    Species,
    amount,
)
from frontwright.core.lengths import MM, Exact, Typed, in_units, typed
from frontwright.core.making.leaves import leaves_across, outer_visible
from frontwright.core.making.result import FrontMaking
from frontwright.core.plan import Plan, derive


def mm(text: str) -> Typed:
    return typed(text, "mm")


def millimetres(value: Exact) -> Fraction:
    return Fraction(in_units(value)) / MM.units


BUILD = DoorBuild(
    "build",
    kind="stub tenon",
    thickness=mm("20"),
    stile=mm("64"),
    top_rail=mm("64"),
    mid_rail=mm("64"),
    bottom_rail=mm("76"),
    groove=mm("10"),
    stick=mm("10"),
    rabbet_width=mm("10"),
    panel="panel",
)
PANEL = PanelBuild("panel", core_is=mm("4.8"), slice=mm("3.2"), glue_loss=mm("0.3"), show_loss=mm("0.6"))


def door(build: DoorBuild = BUILD, *more: Row, width: str = "448", height: str = "716") -> Plan:
    """A door of this size, in an opening by itself that it covers by next to nothing."""
    tiny = Fraction("0.5")
    opening = [str(float(Fraction(size) - 2 * tiny)) for size in (width, height)]
    return derive(
        Job().put(
            Heading(unit="mm", step=mm("0.5")),
            Room("room", moisture_low=amount("7"), moisture_made=amount("9"), moisture_high=amount("11")),
            Run("R", "room", by_itself=True),
            Column("C", "R", 1),
            Opening("O", "C"),
            Reading("w", "O", "width", "middle", mm(opening[0])),
            Reading("h", "O", "height", "middle", mm(opening[1])),
            Look("room:room", "partial cover", cover=mm("0.5"), door_build="build", hinge="hinge", species="ash"),
            Front("D", "O", hinge_side="left"),
            PANEL,
            Species("ash", flat=amount("0.0027"), density=amount("700")),
            HingeType("hinge"),
            build,
            *more,
        )
    )


def made(plan: Plan) -> FrontMaking:
    return plan.making.fronts["D"]


def sizes(plan: Plan, kind: str) -> list[Fraction]:
    """Length and width of a kind of part."""
    part = next(part for part in made(plan).parts if part.kind == kind)
    return [millimetres(part.length.value), millimetres(part.width.value)]


def check(plan: Plan, code: str) -> Check:
    (only,) = (each for each in plan.checks if each.code == code)
    return only


def test_the_sight_is_the_door_less_its_members() -> None:
    sight = made(door())
    assert sight.sight_width is not None
    assert sight.sight_height is not None
    assert [millimetres(sight.sight_width.value), millimetres(sight.sight_height.value)] == [320, 576]


@pytest.mark.parametrize(
    ("kind", "rail"), [("dowelled", 320), ("stub tenon", 340), ("cope and stick", 340), ("mitred", 448)]
)
def test_a_rail_is_as_long_as_its_joint_asks(kind: DoorKind, rail: int) -> None:
    assert sizes(door(replace(BUILD, kind=kind)), "top rail")[0] == rail


def test_stiles_are_as_long_as_the_door() -> None:
    assert sizes(door(), "stile") == [716, 64]


def test_a_panel_in_a_rabbet_is_the_sight_and_two_rabbets_less_its_clearance() -> None:
    plan = door(replace(BUILD, kind="dowelled", clearance=mm("0.5")))
    assert sizes(plan, "panel") == [595, 339]


def test_a_panel_in_a_groove_is_the_sight_and_two_grooves_less_its_clearance() -> None:
    assert sizes(door(replace(BUILD, clearance=mm("1"))), "panel") == [594, 338]


def test_a_mid_rail_leaves_two_equal_fields() -> None:
    plan = door(replace(BUILD, mid_rails=1))
    assert [[millimetres(side.value) for side in field] for field in made(plan).fields] == [[320, 256]] * 2


def test_a_mid_rail_is_as_long_as_the_other_rails() -> None:
    plan = door(replace(BUILD, mid_rails=1))
    assert sizes(plan, "mid rail") == [340, 64]


def test_a_flush_back_takes_a_rabbet_as_deep_as_the_panel_is_thick() -> None:
    chain = made(door(replace(BUILD, kind="dowelled"))).chain
    assert chain is not None
    assert chain.rabbet_depth is not None
    assert chain.lip is not None
    assert [millimetres(f.value) for f in (chain.rabbet_depth, chain.lip)] == [Fraction("9.4"), Fraction("10.6")]


def test_the_chain_of_thickness_runs_from_slice_to_panel() -> None:
    chain = made(door()).chain
    assert chain is not None
    figures = (chain.glued, chain.pressed, chain.veneer_left, chain.panel)
    assert [millimetres(f.value) for f in figures] == [Fraction(t) for t in ("2.9", "10.6", "2.3", "9.4")]


def test_dowels_that_the_rabbet_reaches_keep_17_from_the_inner_edge() -> None:
    plan = door(replace(BUILD, kind="dowelled", dowel=mm("8"), dowel_outer=mm("14"), dowel_wall=mm("3")))
    top = next(each for each in made(plan).dowels if each.rail == "top rail")
    assert top.must_keep
    assert millimetres(top.keep.value) == 17
    assert [millimetres(f.value) for f in top.from_outer_edge] == [14, 47]
    assert check(plan, "dowel-rabbet").level == "note"


def test_dowels_without_room_beside_the_rabbet_are_a_stop() -> None:
    plan = door(replace(BUILD, kind="dowelled", top_rail=mm("34"), dowel=mm("8"), dowel_outer=mm("14")))
    assert check(plan, "dowel-rabbet").level == "stop"


@pytest.mark.parametrize(("left", "level"), [("2.3", "ok"), ("0.7", "warn"), ("0.4", "stop")])
def test_veneer_left_warns_under_0_8_and_stops_under_0_5(left: str, level: str) -> None:
    loss = str(float(Fraction("2.9") - Fraction(left)))
    plan = door(BUILD, replace(PANEL, show_loss=mm(loss)))
    assert check(plan, "veneer-left").level == level


def test_a_groove_or_rabbet_for_a_panel_known_by_its_name_alone_is_warned_of() -> None:
    nominal = replace(PANEL, core=mm("4.8"), core_is=None)
    assert check(door(BUILD, nominal), "nominal-thickness").level == "warn"
    assert not [each for each in door().checks if each.code == "nominal-thickness" and each.is_open]


def test_a_solid_panel_has_room_to_swell_and_still_engages_when_dry() -> None:
    solid = PanelBuild("panel", "", "solid", solid=mm("10"), species="ash")
    plan = door(BUILD, solid)
    along, across = sizes(plan, "panel")
    swell = Fraction("0.0027") * 2  # from 9 to 11 per cent
    assert along == 576 + 20 - 2 * 1  # wood does not swell along its grain
    clearance = (320 + 20 - across) / 2
    assert clearance >= Fraction("1.5")
    assert clearance >= across * swell / 2 + Fraction("0.4")


def test_a_solid_panel_that_leaves_its_groove_in_winter_is_a_stop() -> None:
    solid = PanelBuild("panel", "", "solid", solid=mm("10"), species="ash")
    plan = door(replace(BUILD, groove=mm("5")), solid)
    assert any(each.code == "panel-movement" and each.level == "stop" for each in plan.checks)


@pytest.mark.parametrize("kind", ["veneered", "sheet", "solid"])
def test_proof_lines_agree_whatever_the_panel(kind: PanelKind) -> None:
    panel = PanelBuild("panel", "", kind, core_is=mm("4"), sheet_is=mm("6.2"), solid=mm("10"), species="ash")
    proofs = made(door(BUILD, panel)).proofs
    assert {proof.kind for proof in proofs} == {"width", "panel across", "panel up"}
    assert all(proof.agrees for proof in proofs)


def test_a_rail_measured_wrong_breaks_the_proof_and_stops() -> None:
    rail = next(part.id for part in made(door()).parts if part.kind == "top rail")
    plan = door(BUILD, AsBuilt("a", rail, "length", mm("320")))
    assert any(each.code == "rail-proof" and each.level == "stop" for each in plan.checks)


# Hinges


def test_a_door_of_9_8_kg_takes_three_hinges() -> None:
    plan = door(replace(BUILD, kind="slab", species="ash"), width="500", height="1400")
    assert Fraction(made(plan).mass.units) == Fraction("9.8")
    assert plan.hardware.hinges["D"].count == 3


def test_hinges_stand_at_even_heights() -> None:
    plan = door(replace(BUILD, kind="slab", species="ash"), width="500", height="1400")
    assert [millimetres(f.value) for f in plan.hardware.hinges["D"].heights] == [90, 700, 1310]


def test_a_door_wider_than_600_takes_one_hinge_more() -> None:
    slab = replace(BUILD, kind="slab", species="ash")
    narrow, wide = (door(slab, width=width, height="700").hardware.hinges["D"].count for width in ("600", "601"))
    assert (narrow, wide) == (2, 3)


@pytest.mark.parametrize(("stile", "level"), [("60", "ok"), ("50", "stop")])
def test_a_cup_of_35_at_5_fits_a_60_stile_and_meets_the_joint_of_a_50_one(stile: str, level: str) -> None:
    hinge = HingeType("hinge", cup=mm("35"), edge_distance=mm("5"), wall=mm("3"), cup_depth=mm("12.5"))
    plan = door(replace(BUILD, stile=mm(stile), thickness=mm("18")), hinge)
    assert millimetres(plan.hardware.cups["D"].far_edge.value) == 40
    assert millimetres(plan.hardware.cups["D"].floor_left.value) == Fraction("5.5")
    assert check(plan, "cup-fit").level == level


@pytest.mark.parametrize(
    ("cover", "level"), [("0.5", "ok"), ("1.4", "note"), ("2.4", "stop")], ids=["near", "past half", "beyond"]
)
def test_a_hinge_is_noted_past_half_its_adjustment_and_stopped_beyond_it(cover: str, level: str) -> None:
    hinge = HingeType("hinge", cover=mm(cover), adjust=mm("1.5"))
    assert check(door(BUILD, hinge), "hinge-overlay").level == level


# Leaves


def yields(machine: Machine) -> Plan:
    """Leaves of 3 from a billet of 44."""
    billet = Piece("B", "billet", length=mm("2000"), width=mm("150"), thickness=mm("44"))
    return door(BUILD, replace(PANEL, slice=mm("3")), machine, billet)


@pytest.mark.parametrize(
    ("kind", "losses", "leaves", "rest"),
    [("band saw", ("1.2", "0.6", "0.7"), 6, "11"), ("table saw", ("3.2", "0.8", "0.7"), 4, "13.2")],
)
def test_leaves_of_a_billet_and_its_rest(kind: str, losses: tuple[str, str, str], leaves: int, rest: str) -> None:
    kerf, wander, rejoint = (mm(text) for text in losses)
    machine = Machine("M", "band saw" if kind == "band saw" else "table saw", "", kerf, wander, rejoint, mm("6"))
    (billet,) = yields(machine).veneer.billets
    assert billet.leaves == leaves
    assert millimetres(billet.rest.value) == Fraction(rest)


def test_a_table_saw_takes_155_in_two_passes() -> None:
    machine = Machine("M", "table saw", blade_height=mm("79"), overlap=mm("3"))
    (billet,) = yields(machine).veneer.billets
    assert billet.tallest is not None
    assert millimetres(billet.tallest.value) == 155


@pytest.mark.parametrize(("usable", "leaves"), [("146", 3), ("176", 2)])
def test_a_core_of_350_takes_leaves_side_by_side(usable: str, leaves: int) -> None:
    from frontwright.core.figures import Figure

    core, width = (Figure("size", MM * int(text), "taped") for text in ("350", usable))
    assert leaves_across(core, width) == leaves


def test_both_outer_leaves_show_alike() -> None:
    from frontwright.core.figures import Figure

    sight, width = (Figure("size", MM * int(text), "taped") for text in ("320", "146"))
    assert millimetres(outer_visible(3, sight, width).value) == (320 - 146) / Fraction(2)


def test_a_billet_is_longer_than_its_leaf_and_a_leaf_longer_than_its_panel() -> None:
    (billet,) = yields(Machine("M", "band saw")).veneer.billets
    (panel,) = made(yields(Machine("M", "band saw"))).panels
    assert panel.leaf_length is not None
    assert millimetres(panel.leaf_length.value) == millimetres(panel.along.value) + 30
    assert millimetres(billet.length.value) == millimetres(panel.leaf_length.value) + 20


# Rough sizes, set-ups


def test_solid_parts_are_cut_20_longer_and_4_wider_than_finished() -> None:
    part = next(part for part in made(door()).parts if part.kind == "stile")
    assert part.rough_length is not None
    assert part.rough_width is not None
    assert [millimetres(f.value) for f in (part.rough_length, part.rough_width)] == [736, 68]


def test_parts_of_one_length_are_cut_at_one_stop_longest_first() -> None:
    stops = [each for each in door().making.set_ups if each.work == "crosscut"]
    settings = [millimetres(each.setting.value) for each in stops]
    assert settings == sorted(set(settings), reverse=True)
    assert [each.pieces for each in stops] == [2, 2]  # two stiles, two rails

"""Parts of fronts that are not plain: mid rails, mitred frames, drawer fronts, glass, solid panels, sizes as built."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from frontwright.core.job import AsBuilt, DoorBuild, DoorKind, Front, PanelBuild, Piece, Room, Species
from job_builder import Made, door, near, paneled, size


def built(made: Made, of: str, what: str, value: str) -> Made:
    return made.put(AsBuilt, f"{of} {what}", of=of, what=what, value=value)


def heights(made: Made) -> list[Fraction]:
    return [size(high) for _, high in made.making().fields]


PLAIN: dict[str, Any] = {"stile": "64", "top_rail": "64", "bottom_rail": "76", "mid_rail": "64", "groove": "10"}


def test_two_mid_rails_leave_three_equal_fields() -> None:
    """F32: 716 - 64 - 76 - 128 is 448, rails fall on the step"""
    made = door(**PLAIN, mid_rails=2)
    assert [size(low) for low in made.making().mid_rail_low] == [Fraction("225.5"), Fraction("438.5")]
    assert sum(heights(made)) == 448
    assert len([p for p in made.making().parts if p.kind == "panel"]) == 3
    assert made.part("mid rail").qty == 2


def test_a_mid_rail_put_in_its_place_leaves_equal_fields_above_it() -> None:
    """F32: centre at 300; above it 716 - 64 - 332 - 64 is 256 in two"""
    made = door(**PLAIN, mid_rails=2, mid_rail_at="300")
    assert [size(low) for low in made.making().mid_rail_low] == [268, 460]
    assert heights(made) == [128, 128, 192]


def test_a_mid_rail_in_a_place_outside_the_door_leaves_no_room() -> None:
    made = door(**PLAIN, mid_rails=1, mid_rail_at="700")
    assert made.found("rail-proof").case == "no room"


def test_a_drawer_front_has_no_mid_rail() -> None:
    made = door(**PLAIN, mid_rails=1, drawer_rail="50").put(Front, "F", kind="drawer", build="build")
    assert {part.kind for part in made.making().parts} == {"stile", "top rail", "bottom rail", "panel"}
    assert heights(made) == [716 - 100]
    assert made.making().mid_rails == ()


def test_a_million_mid_rails_are_not_drawn_up() -> None:
    assert len(door(mid_rails=1_000_000).making().fields) <= 25


@pytest.mark.parametrize(
    ("kind", "rail"), [("stub tenon", 340), ("cope and stick", 340), ("dowelled", 320), ("mitred", 340)]
)
def test_a_mid_rail_stands_in_its_stiles_whatever_the_corners_are(kind: DoorKind, rail: int) -> None:
    """F30: in a mitred frame the mid rail is grooved in, not as long as the door is wide"""
    made = door(kind=kind, **PLAIN, stick="10", mid_rails=1)
    assert size(made.part("mid rail").length) == rail


def test_a_mitred_rail_is_as_long_as_the_front_to_its_points() -> None:
    """F30"""
    made = door(kind="mitred", stile="64")
    assert size(made.part("top rail").length) == 448
    assert [size(f) for f in (made.making().top_rail, made.making().bottom_rail)] == [64, 64]


def test_a_mitred_drawer_front_has_members_all_of_one_width() -> None:
    made = door(kind="mitred", stile="64").put(Front, "F", kind="drawer", build="build")
    assert size(made.part("top rail").width) == 64


def test_an_appliance_front_is_made_as_a_door_and_hangs_on_nothing() -> None:
    made = door(**PLAIN).put(Front, "F", kind="appliance")
    assert size(made.making().bottom_rail) == 76
    assert made.front().grain == "vertical"
    assert made.plan.hardware.hinges == {}


def test_a_glass_door_holds_glass_and_weighs_what_glass_weighs() -> None:
    """F40: frame of 448 × 716 with a sight of 320 × 576, groove 4.1 wide and 10 deep, pane 338 × 594 × 4"""
    made = door(**PLAIN, thickness="20", clearance="1").put(Front, "F", kind="glass")
    pane = made.part("panel")
    assert pane.material == "glass"
    assert [size(f) for f in (pane.thickness, pane.length, pane.width)] == [4, 594, 338]
    ring = 340 * 596 - 320 * 576
    frame = (448 * 716 - 320 * 576) * 20 - ring * Fraction("4.1")
    mass = (frame * 700 + 338 * 594 * 4 * 2500) / 10**9
    assert made.making().mass.value == mass
    assert made.making().chain is None


def test_glass_as_measured_governs_its_groove() -> None:
    made = built(door(**PLAIN).put(Front, "F", kind="glass"), "F-P", "thickness", "5")
    assert near(made.making().groove_width, 1) == "5.1"


@pytest.mark.parametrize(
    ("grain", "along", "across"), [("vertical", "594.00", "338.00"), ("horizontal", "338.00", "594.00")]
)
def test_a_panel_names_its_grain_first(grain: str, along: str, across: str) -> None:
    made = door(**PLAIN, clearance="1").put(Front, "F", grain=grain)
    (panel,) = made.making().panels
    assert (near(panel.along), near(panel.across)) == (along, across)


def test_leaves_lie_across_the_height_of_a_door_with_level_grain() -> None:
    """F56: 594 + 12 over 146 is 5 leaves, of 338 + 30"""
    made = paneled(door(**PLAIN, clearance="1"), "veneered").put(Front, "F", grain="horizontal")
    (panel,) = made.making().panels
    assert (panel.leaves_across, near(panel.leaf_length)) == (5, "368.00")
    # five leaves of 146 on a sight of 576: the outer ones show (576 - 3 * 146) / 2
    assert near(panel.outer_visible) == "69.00"
    assert [near(joint) for joint in panel.joints or ()] == ["-219.00", "-73.00", "73.00", "219.00"]


def test_leaves_of_the_worked_example() -> None:
    """F56: 338 + 12 over u 146 is 3, over u 176 is 2"""
    assert paneled(door(**PLAIN, clearance="1")).making().panels[0].leaves_across == 3
    wide = paneled(door(**PLAIN, clearance="1")).put(
        Piece, "B", form="billet", width="180", thickness="44", length="900"
    )
    assert wide.making().panels[0].leaves_across == 2


def test_a_billet_of_hardly_any_width_does_not_hang_the_plan() -> None:
    thin = paneled(door(**PLAIN)).put(Piece, "B", form="billet", width="4.01", thickness="44", length="900")
    assert len(thin.making().panels[0].joints or ()) < 100


def solid(made: Made, **species: object) -> Made:
    room = made.put(Room, "room", moisture_low="6", moisture_made="8", moisture_high="11")
    return paneled(room, "solid").put(Species, "ash", **{"flat": "0.0027", **species}).look(species="ash")


def test_a_solid_panel_has_its_clearance_across_the_grain_and_the_usual_one_along_it() -> None:
    """F35: 340 · 0.0027 · 3 / 2 + 0.5 is 1.877 a side across"""
    made = solid(door(**PLAIN))
    side = Fraction(340) * Fraction("0.0027") * 3 / 2 + Fraction("0.5")
    assert near(made.part("panel").width, 3) == f"{float(340 - 2 * side):.3f}"
    assert size(made.part("panel").length) == 576 + 20 - 2
    level = solid(door(**PLAIN).put(Front, "F", grain="horizontal"))
    up = Fraction(596) * Fraction("0.0027") * 3 / 2 + Fraction("0.5")
    assert near(level.part("panel").width, 3) == f"{float(596 - 2 * up):.3f}"
    assert size(level.part("panel").length) == 340 - 2


def test_a_narrow_solid_panel_has_the_least_clearance() -> None:
    made = solid(door("200", **PLAIN))
    assert size(made.part("panel").width) == 200 - 128 + 20 - 3


def test_a_room_noted_wet_before_dry_moves_all_the_same() -> None:
    turned = solid(door(**PLAIN)).put(Room, "room", moisture_low="11", moisture_high="6")
    assert turned.part("panel").width.value == solid(door(**PLAIN)).part("panel").width.value


def test_a_panel_of_its_own_wood_moves_and_is_billed_as_that_wood() -> None:
    made = solid(door(**PLAIN)).put(Species, "beech", flat="0.0043").put(PanelBuild, "panel", species="beech")
    assert made.part("panel").species == "beech"
    assert made.part("stile").species == "ash"
    side = Fraction(340) * Fraction("0.0043") * 3 / 2 + Fraction("0.5")
    assert near(made.part("panel").width, 3) == f"{float(340 - 2 * side):.3f}"


def test_a_wood_of_which_no_density_is_told_weighs_the_usual() -> None:
    """F25: 500 × 1400 × 20 at 700 is 9.8 kg"""
    made = solid(door("500", "1400", kind="slab", thickness="20"), density="")
    assert made.making().mass.value == Fraction("9.8")
    assert made.making().mass.rests
    heavy = solid(door("500", "1400", kind="slab", thickness="20"), density="800")
    assert heavy.making().mass.value == Fraction("11.2")


def test_rails_follow_the_stiles_as_they_were_ripped() -> None:
    """F30: two stiles of 62 leave a rail of 448 - 124 + 20"""
    made = built(door(**PLAIN, clearance="1"), "F-S", "width", "62")
    assert size(made.part("top rail").length) == 344
    assert size(made.part("panel").width) == 448 - 124 + 18
    assert made.part("stile").width.planned is not None
    assert size(made.part("stile").width.planned) == 64
    assert made.quiet("rail-proof")


def test_fields_follow_the_rails_as_they_were_ripped() -> None:
    made = built(door(**PLAIN, clearance="1"), "F-RB", "width", "70")
    assert size(made.making().sight_height) == 716 - 64 - 70
    assert size(made.part("panel").length) == 582 + 18


def test_mitred_members_as_ripped_keep_the_rail_as_long_as_the_front() -> None:
    made = built(door(kind="mitred", stile="64"), "F-S", "width", "62")
    assert size(made.part("top rail").length) == 448
    assert made.quiet("rail-proof")


def test_a_panel_as_cut_is_told_and_the_proof_stands_on_the_plan() -> None:
    made = built(door(**PLAIN, clearance="1"), "F-P", "width", "337")
    assert made.part("panel").width.source == "as-built"
    assert size(made.part("panel").width) == 337
    assert all(proof.agrees for proof in made.making().proofs)


def test_a_rabbet_is_cut_to_the_thickest_of_several_panels() -> None:
    """F68"""
    made = built(
        built(door(kind="dowelled", **PLAIN, mid_rails=1), "F-P1", "thickness", "9"), "F-P2", "thickness", "9.6"
    )
    assert near(made.making().rabbet_depth, 1) == "9.6"
    grooved = built(door(**PLAIN, mid_rails=1), "F-P2", "thickness", "6.6")
    assert near(grooved.making().groove_width, 1) == "6.7"


def test_a_panel_as_pressed_moves_rabbet_and_lip() -> None:
    """F33, F37: 4.8 + 2 (3.2 - 0.3 - 0.6) is 9.4; pressed it came out at 9.9"""
    chain = {"core": "4.8", "slice": "3.2", "glue_loss": "0.3", "show_loss": "0.6"}
    made = paneled(door(kind="dowelled", thickness="20", **PLAIN), "veneered", **chain)
    assert near(made.making().rabbet_depth, 1) == "9.4"
    pressed = built(made, "F-P", "thickness", "9.9")
    assert near(pressed.making().rabbet_depth, 1) == "9.9"
    chained = pressed.making().chain
    assert chained is not None
    assert near(chained.lip, 1) == "10.1"


@pytest.mark.parametrize("name", ["F", "K-1L"])
def test_a_rabbet_as_cut_is_found_whatever_the_front_is_called(name: str) -> None:
    made = door(kind="dowelled").fronts(name, opening="A")
    made = Made(made.job.drop(Front, "F").put(made.job.fronts[name])) if name != "F" else made
    assert near(built(made, name, "rabbet depth", "7.3").making(name).rabbet_depth, 1) == "7.3"


def test_a_slab_is_as_built_along_its_grain_whichever_way_that_lies() -> None:
    made = door("594", "167", kind="slab").put(Front, "F", kind="drawer", build="build")
    assert [size(f) for f in (made.part("slab").length, made.part("slab").width)] == [594, 167]
    cut = built(built(made, "F", "length", "593.5"), "F", "width", "166.5")
    assert [near(f, 1) for f in (cut.part("slab").length, cut.part("slab").width)] == ["593.5", "166.5"]
    assert cut.quiet("row-sum")


def test_stock_milled_to_another_thickness_moves_lip_and_floor() -> None:
    """F27, F33"""
    made = paneled(door(kind="dowelled", thickness="20", **PLAIN), "sheet", sheet_is="9.4").put(
        DoorBuild, "build", thickness_is="19"
    )
    assert near(made.check("lip").value, 1) == "9.6"
    assert near(made.plan.hardware.cups["F"].floor_left, 1) == "6.5"


def test_a_back_rabbet_leaves_the_tongue_its_groove() -> None:
    """worked kitchen, hutch: panel 8, tongue 6: rabbet 2 deep, stick and clearance wide"""
    made = paneled(
        door(kind="cope and stick", stick="10", clearance="1", tongue="6"),
        "veneered",
        core="4",
        slice="3",
        glue_loss="0.4",
        show_loss="0.6",
    )
    one = made.making()
    assert [near(f, 1) for f in (one.rabbet_depth, one.rabbet_width, one.groove_width)] == ["2.0", "11.0", "6.1"]


def test_parts_of_unlike_length_stand_at_stops_of_their_own_and_near_ones_are_told() -> None:
    made = door(**PLAIN).opening("B", "C", 2, widths="428.5", heights="696").fronts("G", opening="B", hinge_side="left")
    stops = [
        (near(s.setting, 1), s.pieces, near(s.below_last, 1) if s.below_last else "")
        for s in made.plan.making.set_ups
        if s.work == "crosscut"
    ]
    assert stops == [("716.0", 4, ""), ("340.5", 2, ""), ("340.0", 2, "0.5")]


@pytest.mark.parametrize("kind", ["dowelled", "stub tenon", "cope and stick", "mitred"])
@pytest.mark.parametrize("panel", ["veneered", "sheet", "solid"])
@pytest.mark.parametrize("mids", [0, 1, 2])
def test_proof_lines_agree_for_every_joint_panel_and_number_of_fields(kind: DoorKind, panel: str, mids: int) -> None:
    """F69"""
    made = paneled(door("447.7", "715.3", kind=kind, mid_rails=mids)).put(PanelBuild, "panel", kind=panel)
    proofs = made.making().proofs
    assert len(proofs) == 1 + 2 * (mids + 1)
    assert all(proof.agrees for proof in proofs)


def test_glass_neither_moves_nor_is_it_asked_for_a_sheet() -> None:
    made = solid(door(**PLAIN).put(Front, "F", kind="glass"))
    assert made.checks("panel-movement") == []
    assert size(made.part("panel").width) == 340 - 2
    assert paneled(door(**PLAIN).put(Front, "F", kind="glass"), "sheet").checks("nominal-thickness") == []


@pytest.mark.parametrize("text", ["", "6x", "0"])
def test_a_rail_of_a_mitred_door_that_says_no_width_is_as_wide_as_its_stile(text: str) -> None:
    made = door(kind="mitred", stile="75", top_rail=text, bottom_rail=text)
    assert [size(made.part(kind).width) for kind in ("top rail", "bottom rail")] == [75, 75]


def test_fields_follow_a_mid_rail_as_it_was_ripped() -> None:
    """F29, F32: 716 - 64 - 76 - 60 is 516, two fields of 258"""
    made = built(door(**PLAIN, mid_rails=1), "F-RM", "width", "60")
    assert heights(made) == [258, 258]
    assert {size(p.length) for p in made.making().parts if p.kind == "panel"} == {258 + 20 - 2}

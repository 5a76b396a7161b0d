"""Strips for the faces of a frame and skins of its ends: widths by the widest reading, lengths between edges (F41)."""

from __future__ import annotations

from frontwright.core.facing.result import Strip
from frontwright.core.job import Allowances, End, Facing, Member, PanelBuild
from job_builder import Made, job, near


def frame() -> Made:
    made = job().run("K", S0="40", C1="541", S1="39", X="2", S2="40", C2="401", S3="42").rails("45", "38")
    made = (
        made.read("K", "height", "720", "middle")
        .opening("A", "C1", 1, heights="120")
        .opening("B", "C1", 2, heights="487")
    )
    return made.opening("D", "C2").put(Facing, "K", faces=True, thickness="2")


def strips(made: Made) -> dict[str, Strip]:
    return {strip.on: strip for strip in made.plan.facing.strips}


def test_stile_strips_run_the_full_height_and_rail_strips_stand_between_them() -> None:
    """F41: butt order as the frame was joined"""
    found = strips(frame())
    assert near(found["S0"].length) == "720.00"
    assert near(found["top rail C1"].length) == "541.00"
    assert [near(found[f"{end} rail C2"].width) for end in ("top", "bottom")] == ["45.00", "38.00"]
    assert all(strip.order == (3 if "rail" in on else 2) for on, strip in found.items())


def test_boxes_side_by_side_get_one_strip_over_both_stiles_and_the_seam() -> None:
    """F41: 39 + 2 + 40"""
    assert near(strips(frame())["S1, X, S2"].width) == "81.00"


def test_the_widest_reading_of_a_tapered_member_governs() -> None:
    """F41"""
    made = frame().read("S0", "across", "41.5", "bottom")
    assert near(strips(made)["S0"].width) == "41.50"


def test_a_strip_covers_the_edge_of_a_skin_at_either_end() -> None:
    """F41: 42 + 6 is 48"""
    made = frame().put(End, "r", run="K", side="right", skin="bought", skin_thickness="6")
    made = made.put(End, "l", run="K", side="left", skin="bought", skin_thickness="4")
    assert [near(strips(made)[on].width) for on in ("S0", "S3")] == ["44.00", "48.00"]


def test_a_sawn_skin_is_as_wide_as_what_is_seen_and_is_glued_first() -> None:
    """F41, F42"""
    made = frame().put(End, "r", run="K", side="right", skin="sawn", depth_seen="300")
    skin = strips(made)["right end"]
    assert [near(f) for f in (skin.length, skin.width, skin.rough_length, skin.rough_width)] == [
        "720.00",
        "300.00",
        "740.00",
        "315.00",
    ]
    assert made.plan.facing.strips[0] is skin or skin.order == 1


def test_a_strip_is_what_is_left_of_its_leaf() -> None:
    """F37 of strips: 3 - 0.4 - 0.5"""
    made = frame().put(Facing, "K", thickness="").put(PanelBuild, "p", slice="3", glue_loss="0.4")
    made = made.put(Allowances, "allowances", strip_show_loss="0.5")
    assert near(strips(made)["S0"].thickness, 1) == "2.1"


def test_a_mid_rail_that_nobody_named_has_a_strip_of_its_own() -> None:
    found = strips(frame())
    assert near(found["mid rail under A"].length) == "541.00"
    named = strips(frame().put(Member, "M", run="K", kind="mid rail", column="C1", place=1).read("M", "across", "30"))
    assert near(named["M"].width) == "30.00"


def test_every_strip_of_a_run_has_a_name_of_its_own() -> None:
    made = frame().opening("E", "C1", 3, heights="60").opening("G", "C1", 4, heights="60")
    ids = [strip.id for strip in made.plan.facing.strips]
    assert len(ids) == len(set(ids))


def test_a_run_whose_faces_stay_bare_has_no_strips() -> None:
    assert strips(frame().put(Facing, "K", faces=False)) == {}

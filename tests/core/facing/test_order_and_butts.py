"""Who covers whom: skins, returns, faces; butts at corners, what runs through, what is packed (F41 to F43)."""

from __future__ import annotations

from frontwright.core.facing.result import Strip
from frontwright.core.job import AsBuilt, Cabinet, Corner, End, Facing, Member, Run
from job_builder import Made, job, near, size


def frame(**facing: object) -> Made:
    """Two columns between three stiles, 720 high, an open right end with a skin of 6 mm."""
    made = job().run("K", S0="40", C1="500", S1="40", C2="400", S2="42").rails("40", "40")
    made = made.read("K", "height", "720", "middle").opening("A", "C1", 1, heights="640").opening("B", "C2", 1)
    made = made.put(End, "r", run="K", side="right", kind="open", skin="bought", skin_thickness="6", depth_seen="560")
    return made.put(Facing, "K", **{"faces": True, "thickness": "2"} | facing)


def pieces(made: Made) -> dict[str, Strip]:
    return {one.on: one for one in made.plan.facing.runs["K"].pieces}


def test_skins_go_on_before_inside_edges_and_these_before_faces() -> None:
    """F42"""
    made = frame(inside_edges="all round", inside_thickness="2")
    kinds = [one.kind for one in made.plan.facing.runs["K"].pieces]
    assert list(dict.fromkeys(kinds)) == ["skin", "return", "stile strip", "rail strip"]
    assert [one.number for one in made.plan.facing.runs["K"].pieces] == list(range(1, len(kinds) + 1))
    assert [one.order for one in made.plan.facing.runs["K"].pieces] == sorted(
        one.order for one in made.plan.facing.runs["K"].pieces
    )


def test_face_strips_cover_the_edges_of_the_returns_beside_them() -> None:
    """F42: each next one covers the last one's edge; what is left open is the opening less two strips"""
    found = pieces(frame(inside_edges="all round", inside_thickness="2"))
    assert [near(found[on].width) for on in ("S0", "S1", "S2")] == ["42.00", "44.00", "50.00"]
    assert near(found["top rail C1"].length) == "496.00"
    assert near(found["top rail C1"].width) == "42.00"
    assert found["S1"].covers == ("K A right return", "K B left return")
    assert found["S2"].covers == ("K right skin", "K B right return")
    assert near(found["A, left edge"].length) == "640.00"
    assert near(found["A, top edge"].length) == "496.00"


def test_returns_at_the_sides_only_leave_the_rails_as_they_are() -> None:
    found = pieces(frame(inside_edges="sides", inside_thickness="2"))
    assert near(found["top rail C1"].width) == "40.00"
    assert near(found["top rail C1"].length) == "496.00"
    assert "A, top edge" not in found


def test_a_return_is_as_wide_as_the_frame_is_thick() -> None:
    made = frame(inside_edges="sides").put(Member, "S1", thickness="21")
    assert near(pieces(made)["A, left edge"].width) == "21.00"


def test_where_rails_run_through_stile_strips_stand_between_them() -> None:
    found = pieces(frame(through="rails"))
    assert near(found["top rail"].length) == "1028.00"  # 40 + 500 + 40 + 400 + 42 and the skin
    assert near(found["S1"].length) == "640.00"
    assert found["top rail"].number < found["S1"].number


def test_the_run_gets_longer_by_its_skins() -> None:
    """F43"""
    length = frame().plan.facing.runs["K"].length
    assert length is not None
    assert near(length) == "1028.00"


def corner(**more: object) -> Made:
    made = frame().run("L", S8="45", C8="400", S9="40").rails(run="L").opening("D", "C8").put(Run, "L", place=2)
    made = made.put(Facing, "L", faces=True, thickness="3").put(End, "r", skin="none", kind="corner")
    return made.put(Corner, "k", left="K", right="L", **more)


def strip_on(made: Made, run: str, on: str) -> Strip:
    return next(one for one in made.plan.facing.runs[run].pieces if one.on == on)


def test_a_corner_strip_that_butts_into_the_other_leg_is_narrower_by_its_facing() -> None:
    """F41: S - t of the leg that is covered first; both cut full width is the mistake"""
    made = corner()
    assert near(strip_on(made, "K", "S2").width) == "42.00"
    assert near(strip_on(made, "L", "S8").width) == "43.00"  # 45 less the 2 of K


def test_the_leg_that_runs_on_behind_the_other_is_covered_as_far_as_it_is_seen() -> None:
    made = corner(runs_on="right", hidden="20")
    assert near(strip_on(made, "L", "S8").width) == "25.00"
    assert near(strip_on(made, "K", "S2").width) == "39.00"  # 42 less the 3 of L


def test_a_facing_is_packed_behind_the_drawer_fronts() -> None:
    """F13: the front plane moves out by the facing"""
    made = frame().fronts("F", opening="A", kind="drawer")
    (packing,) = [one for one in made.plan.facing.runs["K"].packings if one.what == "drawer front"]
    assert [near(end) for end in packing.ends] == ["2.00", "2.00"]
    assert not [
        one
        for run in made.put(Facing, "K", faces=False).plan.facing.runs.values()
        for one in run.packings
        if one.what == "drawer front"
    ]


def test_a_skin_beside_a_proud_frame_is_packed_out() -> None:
    made = frame().put(End, "r", proud="3")
    (packing,) = [one for one in made.plan.facing.runs["K"].packings if one.what == "proud end"]
    assert [near(end) for end in packing.ends] == ["3.00", "3.00"]


def test_a_skin_is_as_wide_as_the_deeper_reading_and_says_its_taper() -> None:
    skin = pieces(frame().put(End, "r", depth_bottom="566"))["right end"]
    assert near(skin.width) == "566.00"
    assert skin.ends is not None
    assert [near(end) for end in skin.ends] == ["566.00", "560.00"]


def test_a_strip_measured_wider_than_its_member_is_found_and_falls_silent_when_it_was_a_slip() -> None:
    made = frame().put(AsBuilt, "b", of="K S1", what="width", value="60")
    found = made.found("strip-width", "K S1")
    assert (near(found.value), near(found.limit), found.level) == ("60.00", "50.00", "warn")
    assert made.put(AsBuilt, "b", value="41").quiet("strip-width")


def test_a_skin_deeper_than_the_box_is_found() -> None:
    made = frame().put(Cabinet, "box", run="K", depth="500")
    assert made.found("strip-width", "K right skin").level == "warn"
    assert made.put(Cabinet, "box", depth="560").quiet("strip-width")


def test_what_was_measured_of_a_strip_goes_before_the_plan() -> None:
    made = frame().put(AsBuilt, "b", of="K S1", what="length", value="718.5")
    one = pieces(made)["S1"]
    assert near(one.length) == "718.50"
    assert size(one.rough_length) > size(one.length)


def test_strips_of_different_matching_groups_never_share_a_leaf() -> None:
    made = frame().run("L", S8="40", C8="400", S9="40").rails(run="L").read("L", "height", "720", "middle")
    made = made.opening("D", "C8").put(Run, "L", place=2).put(Facing, "L", faces=True, thickness="2")

    def shared(one: Made) -> bool:
        leaves = [{strip.id[0] for row in leaf.rows for strip in row.strips} for _, leaf in one.plan.veneer.nests]
        return {"K", "L"} in leaves

    assert shared(made)
    assert not shared(made.put(Facing, "L", match="other tree"))

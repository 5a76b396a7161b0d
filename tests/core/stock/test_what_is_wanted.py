"""What has to be cut from what: rough sizes, groups, staves, blanks of a row, what is cut already."""

from __future__ import annotations

import pytest
from frontwright.core.job import AsBuilt, CutDone, DoorBuild, FrontRow, Laid, LaidPart, PanelBuild, Piece, Species
from frontwright.core.stock.result import Group, Want
from job_builder import Made, door, job, near, paneled

PLAIN = door(stile="64", top_rail="64", bottom_rail="76", thickness="20", groove="10", clearance="1")


def group(made: Made, form: str) -> Group:
    (one,) = [one for one in made.plan.stock.groups if one.form == form and not one.on_leaves]
    return one


def want(made: Made, name: str) -> Want:
    (one,) = [one for each in made.plan.stock.groups for one in each.wants if one.id == name]
    return one


def sizes(one: Want) -> tuple[str, str]:
    return near(one.length, 1), near(one.width, 1)


def test_solid_parts_are_cut_longer_and_wider() -> None:
    """F51: stile 716 × 64 is 736 × 68 rough, two of them"""
    stile = want(PLAIN, "F-S")
    assert (sizes(stile), stile.copies, stile.parts) == (("736.0", "68.0"), 2, ("F-S",))


def test_bought_sheet_panels_are_cut_at_their_finished_size_along_their_grain() -> None:
    """F51"""
    panel = want(PLAIN, "F-P")
    assert sizes(panel) == ("594.0", "338.0")
    assert not panel.turns


def test_the_core_of_a_shop_made_panel_lies_with_its_grain_across_the_leaves() -> None:
    """F39: panel 594 high, core 606 × 350; along the sheet's grain goes the 350"""
    core = group(paneled(PLAIN), "core").wants[0]
    assert (sizes(core), core.seen) == (("350.0", "606.0"), "hidden")


def test_of_a_panels_two_faces_one_is_a_back_and_may_be_of_another_batch() -> None:
    """F58: 3 leaves a face"""
    leaves = group(paneled(PLAIN), "leaf")
    show, back = leaves.wants
    assert [(w.copies, w.seen, bool(w.lot)) for w in (show, back)] == [(3, "show", True), (3, "hidden", False)]


def test_parts_of_two_thicknesses_are_two_groups() -> None:
    made = PLAIN.put(DoorBuild, "other", kind="slab", thickness="26").opening("B", "C", 2, widths="400", heights="300")
    made = made.fronts("G", opening="B", build="other")
    assert [g.id for g in made.plan.stock.groups if g.form == "board"] == ["board 20", "board 26"]


def test_a_wide_solid_panel_is_glued_up_from_staves_of_the_boards_there_are() -> None:
    """338 - 2 × clearance wide, 342 or so rough, from boards of 120: three of 114 and a joint of 3"""
    made = paneled(PLAIN, "solid", solid="12").put(Piece, "B", length="2500", width="120", thickness="27")
    panel = want(made, "F-P")
    whole = next(p for p in made.making().parts if p.kind == "panel")
    assert whole.rough_width is not None
    assert panel.staves == panel.copies == 3
    assert panel.width * 3 >= whole.rough_width.length
    assert near(panel.width, 0) <= "120"


def test_fronts_of_a_row_with_the_grain_running_through_are_one_blank_in_their_order() -> None:
    """F22"""
    made = job("mm").run(S1="40", O1="400", S2="40", O2="500", S3="40").rails()
    made = made.opening("A", "O1", widths="400", heights="120").opening("B", "O2", widths="500", heights="120")
    made = made.put(DoorBuild, "slab", kind="slab", thickness="20").look(drawer_build="slab", scheme="full cover")
    made = made.fronts("FA", opening="A", kind="drawer").fronts("FB", opening="B", kind="drawer")
    made = made.put(FrontRow, "row", fronts=("FA", "FB"), grain_through=True)
    blank = want(made, "row")
    row = made.plan.fronts.rows[0]
    assert (blank.length, blank.width) == (row.blank_length.length, row.blank_width.length)
    assert blank.parts == ("FA-slab", "FB-slab") or [p.split("-")[0] for p in blank.parts] == ["FA", "FB"]


def test_a_part_that_is_measured_as_built_wants_no_wood_any_more() -> None:
    made = PLAIN.put(AsBuilt, "F-RT length", of="F-RT", what="length", value="340")
    assert (want(made, "F-RT").open, want(made, "F-RB").open) == (0, 1)


def test_a_part_that_a_cut_freed_wants_no_wood_any_more() -> None:
    made = PLAIN.put(Piece, "B", length="2500", width="195", thickness="27").put(Laid, "1", piece="B")
    made = made.put(LaidPart, "1a", laid="1", part="F-S", number=1, along="0", across="0")
    made = made.put(CutDone, "1 1", laid="1", cut=1, parts=("1a",))
    assert want(made, "F-S").open == 1


@pytest.mark.parametrize(("rule", "lot"), [("job", "the job"), ("run", "R"), ("front", "F"), ("no", "")])
def test_show_panels_come_from_one_lot_over_what_the_shop_says(rule: str, lot: str) -> None:
    from frontwright.core.job import Limits

    assert want(PLAIN.put(Limits, "limits", one_lot=rule), "F-P").lot == lot


def test_panels_of_two_woods_are_two_groups() -> None:
    made = PLAIN.put(Species, "oak").put(PanelBuild, "sheet", kind="sheet", species="oak")
    made = made.put(DoorBuild, "build", panel="sheet")
    assert group(made, "sheet").species == "oak"

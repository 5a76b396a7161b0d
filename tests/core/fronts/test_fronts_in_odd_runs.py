"""Where fronts lie in runs that are not plain: pins, pairs, mixed schemes, frameless boxes, empty columns, rows."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.job import Cabinet, Column, End, Front, FrontRow, Member, Reading
from job_builder import Made, inch, job, mm, near, opening, size


def row_of(*stiles: str, columns: tuple[str, ...], height: str = "640", **look: str | bool) -> Made:
    """A run of one opening a column, a door D1, D2 ... in each."""
    across = {"S0": stiles[0]}
    for at, width in enumerate(columns, 1):
        across |= {f"C{at}": width, f"S{at}": stiles[at]}
    made = job().run("K", **across).rails().look(**look)
    for at in range(1, len(columns) + 1):
        made = made.opening(f"A{at}", f"C{at}", heights=height).fronts(f"D{at}", opening=f"A{at}", hinge_side="left")
    return made


def across(made: Made, *names: str) -> list[str]:
    return [f"{near(made.front(n).left)} {near(made.front(n).right)}" for n in names]


THREE = row_of(
    "40",
    "60",
    "40",
    "40",
    columns=("400", "400", "400"),
    scheme="full cover",
    gap="4",
    reveal_left="4",
    reveal_right="4",
)
# stile middles 470 and 920; run 0 to 1380


def test_full_cover_fronts_meet_at_the_middle_of_each_stile() -> None:
    """F15"""
    assert across(THREE, "D1", "D2", "D3") == ["4.00 468.00", "472.00 918.00", "922.00 1376.00"]


def test_partial_cover_by_a_reveal_holds_the_reveal_where_stiles_differ() -> None:
    """F19: stiles of 60 and 40 with a reveal of 25 leave covers of 17.5 and 7.5"""
    made = row_of(
        "40", "60", "40", "40", columns=("400", "400", "400"), scheme="partial cover", reveal="25", reveal_left="25"
    )
    assert across(made, "D1", "D2") == ["25.00 457.50", "482.50 907.50"]
    assert [size(made.front("D1").overlay[side]) for side in ("left", "right")] == [15, Fraction("17.5")]
    assert size(made.front("D2").overlay["right"]) == Fraction("7.5")


def test_a_nearer_reveal_goes_before_a_further_cover_and_a_nearer_cover_before_a_further_reveal() -> None:
    by_reveal = THREE.look(scheme="partial cover", cover="13").look("run:K", reveal="25")
    assert across(by_reveal, "D2") == ["482.50 907.50"]
    by_cover = THREE.look(scheme="partial cover", reveal="25").look("run:K", cover="13")
    assert across(by_cover, "D2") == ["487.00 913.00"]


def test_a_choice_that_cannot_be_read_does_not_hide_the_one_above_it() -> None:
    made = THREE.look("run:K", gap="4 1/")
    assert across(made, "D2") == across(THREE, "D2")


def test_a_pinned_edge_moves_its_neighbour_across_the_gap() -> None:
    made = THREE.put(Front, "D1", pin_right="460")
    assert across(made, "D1", "D2") == ["4.00 460.00", "464.00 918.00"]
    assert made.front("D1").pinned == ("right",)
    assert made.quiet("row-sum")


def test_a_pin_that_cannot_be_read_holds_nothing() -> None:
    made = THREE.put(Front, "D1", pin_right="46o")
    assert across(made, "D1") == across(THREE, "D1")
    assert made.front("D1").pinned == ()


def test_by_cover_alone_a_pin_moves_no_neighbour() -> None:
    made = THREE.look(scheme="partial cover", cover="13")
    before = across(made, "D2")
    assert across(made.put(Front, "D1", pin_right="450"), "D2") == before


def with_pair(made: Made, **left: object) -> Made:
    return made.put(Front, "D1", place=1, **left).put(Front, "E1", opening="A1", place=2)


def test_a_pair_is_split_by_its_meeting_gap() -> None:
    """F16: 464 less 3 is 230.5 each"""
    made = with_pair(THREE).look(meeting_gap="3")
    assert across(made, "D1", "E1") == ["4.00 234.50", "237.50 468.00"]
    assert [made.front(n).overlay[s] for n, s in (("D1", "right"), ("E1", "left"))] == [None, None]


def test_a_pin_where_a_pair_meets_moves_the_other_door_and_nobody_else() -> None:
    made = with_pair(THREE, pin_right="220").look(meeting_gap="3")
    assert across(made, "D1", "E1", "D2") == ["4.00 220.00", "223.00 468.00", "472.00 918.00"]
    other = with_pair(THREE).put(Front, "E1", pin_left="240").look(meeting_gap="3")
    assert across(other, "D1", "E1") == ["4.00 237.00", "240.00 468.00"]


def test_a_pair_pinned_apart_stops() -> None:
    made = with_pair(THREE, pin_right="220").put(Front, "E1", pin_left="230").look(meeting_gap="3")
    assert made.found("row-sum").level == "stop"


def test_the_division_of_a_pair_is_rounded_once_from_unrounded_ends() -> None:
    """F18: fronts of 4.25 to 468.25 part at 236.25, doors are 230.5 and 230.0, never 231 and 229.5"""
    made = with_pair(
        row_of("40.5", "60", "40", columns=("400", "400"), scheme="full cover", gap="4", reveal_left="4.25")
    ).look(meeting_gap="3")
    left, right = made.front("D1"), made.front("E1")
    # stile middle 470.5, right edge 468.5; room 464.25 - 3 = 461.25; each 230.625; 4.25 + 230.625 = 234.875 -> 235
    assert across(made, "D1", "E1") == ["4.50 235.00", "238.00 468.50"]
    assert abs(size(left.width) - size(right.width)) <= Fraction("0.5")


def test_three_doors_in_one_opening_share_it_and_the_middle_one_hangs_nowhere_yet() -> None:
    made = with_pair(THREE).put(Front, "G1", opening="A1", place=3).look(meeting_gap="4")
    made = made.put(Front, "D1", hinge_side=None)
    assert across(made, "D1", "E1", "G1") == ["4.00 156.00", "160.00 312.00", "316.00 468.00"]
    assert [made.front(n).hinge_side_assumed for n in ("D1", "E1", "G1")] == [False, True, False]
    assert made.front("E1").overlay["left"] is made.front("E1").overlay["right"] is None
    assert made.quiet("row-sum")


def test_an_inset_opening_in_a_run_lies_in_its_place_and_its_neighbours_keep_to_their_lines() -> None:
    """F17"""
    made = THREE.look("opening:A2", scheme="inset", inset_side="2", inset_top="2", inset_bottom="2.5")
    assert across(made, "D1", "D2", "D3") == ["4.00 468.00", "502.00 898.00", "922.00 1376.00"]
    assert [size(made.front("D2").overlay[s]) for s in ("left", "right", "top", "bottom")] == [
        -2,
        -2,
        -2,
        Fraction("-2.5"),
    ]
    assert made.front("D2").least_cover is None
    assert made.quiet("row-sum")


def test_an_inset_front_is_governed_by_the_least_reading() -> None:
    """F17: 447 less 4"""
    made = (
        opening(widths="448, 447.5, 447", heights="600").look(scheme="inset", inset_side="2").fronts("F", opening="A")
    )
    assert size(made.front().width) == 443


def test_the_gaps_of_an_inset_front_close_on_the_opening_whatever_was_rounded() -> None:
    """F18: 26 33/64 in less 5/32 is rounded to 26 3/8, and 5/64 is left at the top"""
    made = opening("in", widths="20", heights="26 33/64").look(scheme="inset").fronts("F", opening="A")
    assert made.front().height.value == inch("211/8")
    for each in made.plan.fronts.sums:
        assert each.total.value == each.equals.value


def test_a_pinned_inset_front_tells_the_gaps_it_really_leaves() -> None:
    made = opening(widths="400", heights="600").look(scheme="inset", inset_side="2").fronts("F", opening="A")
    made = made.put(Front, "F", pin_left="5", pin_bottom="4")
    assert [size(made.front().overlay[s]) for s in ("left", "right", "bottom", "top")] == [-5, -2, -4, -2]


def test_an_inset_pair_has_doors_on_the_step_wherever_its_opening_lies() -> None:
    """F17: in a run whose opening begins at 40.3"""
    made = row_of("40.3", "40", columns=("447",), scheme="inset", inset_side="2", inset_meeting="3")
    made = with_pair(made)
    assert [size(made.front(n).width) for n in ("D1", "E1")] == [220, 220]


def test_a_mix_of_schemes_lies_each_by_its_own() -> None:
    made = THREE.look("opening:A2", scheme="partial cover", cover="13")
    assert across(made, "D1", "D2", "D3") == ["4.00 468.00", "487.00 913.00", "922.00 1376.00"]
    assert made.quiet("row-sum")


def test_gaps_that_differ_by_opening_are_told_as_what_lies_between() -> None:
    made = THREE.look("opening:A2", gap="6")
    assert across(made, "D1", "D2") == ["4.00 468.00", "473.00 917.00"]
    assert made.quiet("row-sum")


def frameless(left: str = "18", right: str = "18") -> Made:
    made = job().run("K", B0="18", C1="564", B1=left, X="2", B2=right, C2="364", B3="18").rails("18", "18")
    made = made.put(Cabinet, "box", run="K", kind="frameless").look(scheme="full cover", gap="4")
    made = made.opening("A1", "C1", heights="684").opening("A2", "C2", heights="684")
    return made.fronts("D1", opening="A1").fronts("D2", opening="A2")


def test_frameless_boxes_part_at_the_middle_of_their_seam() -> None:
    """F15: sides end at 600, the seam is 2"""
    assert across(frameless(), "D1", "D2") == ["2.00 599.00", "603.00 1000.00"]


def test_sides_of_unlike_thickness_do_not_move_the_line_off_the_seam() -> None:
    """F15"""
    assert across(frameless("16", "20"), "D1", "D2")[0] == "2.00 597.00"
    assert [line.of for line in frameless("16", "20").plan.fronts.lines["K"]] == ["B1 and X and B2"]


def test_a_partition_is_parted_in_its_middle() -> None:
    """F15"""
    made = job().run("K", B0="18", C1="564", P="19", C2="364", B1="18").rails("18", "18")
    made = made.put(Cabinet, "box", run="K", kind="frameless").look(scheme="full cover", gap="3")
    made = made.opening("A1", "C1", heights="684").opening("A2", "C2", heights="684")
    made = made.fronts("D1", opening="A1").fronts("D2", opening="A2")
    assert across(made, "D1", "D2") == ["2.00 590.00", "593.00 981.00"]


def test_beside_a_column_without_openings_a_front_keeps_its_cover_and_is_not_the_end_of_the_run() -> None:
    made = THREE.put(Column, "C2").look(edge_right="1376")
    gone = Made(made.job.drop(Front, "D2").drop(type(made.job.openings["A2"]), "A2"))
    gone = Made(gone.job.drop(Reading, *[r.id for r in made.job.readings.values() if r.of == "A2"]))
    assert across(gone, "D1", "D3") == ["4.00 458.00", "922.00 1376.00"]


def test_an_opening_left_open_changes_nothing_beside_it() -> None:
    made = THREE.put(Front, "D2", kind="open")
    assert across(made, "D1", "D3") == across(THREE, "D1", "D3")
    assert made.quiet("row-sum")


def stack(*columns: tuple[str, ...], rails: tuple[str, ...], **look: object) -> Made:
    """Columns of openings from the top, each with mid rails of 30 whose lower edges are given."""
    across: dict[str, str | None] = {"S0": "40"}
    for at in range(1, len(columns) + 1):
        across |= {f"C{at}": "400", f"S{at}": "40"}
    made = job().run("K", **across).rails().read("K", "height", "720", "middle")
    made = made.look(scheme="full cover", gap="4", reveal_top="6", reveal_bottom="4", **look)
    for at, names in enumerate(columns, 1):
        for place, name in enumerate(names, 1):
            made = made.opening(f"O{name}", f"C{at}", place).fronts(name, opening=f"O{name}", kind="drawer")
        if len(names) > 1:
            low = rails[at - 1]
            made = made.put(Member, f"M{at}", run="K", kind="mid rail", column=f"C{at}", place=1)
            made = made.read(f"M{at}", "edge low", low).read(f"M{at}", "edge high", f"{low} + 30")
    return made


def upright(made: Made, *names: str) -> list[str]:
    return [f"{near(made.front(n).bottom)} {near(made.front(n).top)}" for n in names]


def test_each_column_has_its_own_line_unless_the_row_shares_its_edges() -> None:
    made = stack(("T1", "B1"), ("T2", "B2"), rails=("530", "534"))
    assert upright(made, "T1", "T2") == ["547.00 714.00", "551.00 714.00"]
    row = made.put(FrontRow, "row", fronts=("T1", "T2"), share_edges=True)
    assert upright(row, "T1", "T2", "B1", "B2") == ["549.00 714.00", "549.00 714.00", "4.00 545.00", "4.00 545.00"]
    assert row.quiet("row-sum")


def test_a_pin_holds_for_the_whole_row_that_shares_its_edges_and_for_what_lies_below() -> None:
    made = stack(("T1", "B1"), ("T2", "B2"), rails=("530", "530")).put(
        FrontRow, "row", fronts=("T1", "T2"), share_edges=True
    )
    held = made.put(Front, "T1", pin_bottom="540")
    assert upright(held, "T1", "T2", "B1", "B2") == ["540.00 714.00", "540.00 714.00", "4.00 536.00", "4.00 536.00"]


def test_a_tall_front_beside_a_stack_closes_with_every_row() -> None:
    made = stack(("T1", "B1"), ("Z",), rails=("530",))
    assert upright(made, "Z") == ["4.00 714.00"]
    rows = [each for each in made.plan.fronts.sums if each.direction == "row"]
    assert [each.of for each in rows] == [("T1", "Z"), ("B1", "Z")]
    assert all(each.total.value == each.equals.value for each in rows)


def test_inset_drawers_over_each_other_are_as_wide_as_the_narrowest() -> None:
    made = job().run("K", S0="40", C1="400", S1="40").rails().look(scheme="inset", inset_side="2")
    made = made.opening("A", "C1", 1, widths="400, 399, 400", heights="120").opening(
        "B", "C1", 2, widths="400, 400, 400", heights="400"
    )
    made = made.fronts("F", opening="A", kind="drawer").fronts("G", opening="B", kind="drawer")
    shared = made.put(FrontRow, "col", direction="column", fronts=("F", "G"), share_edges=True)
    assert [size(shared.front(n).width) for n in ("F", "G")] == [395, 395]
    assert [size(shared.front("G").overlay[s]) for s in ("left", "right")] == [Fraction("-2.5")] * 2


def test_equal_fronts_count_the_doors_of_pairs() -> None:
    """F18: 1376 over 4 doors with three gaps of 4 of which one is where the pair meets"""
    made = with_pair(THREE).look(equal_fronts=True, meeting_gap="4")
    widths = [size(made.front(n).width) for n in ("D1", "E1", "D2", "D3")]
    assert widths == [340] * 4
    assert across(made, "D1", "E1", "D2", "D3") == ["4.00 344.00", "348.00 688.00", "692.00 1032.00", "1036.00 1376.00"]


def test_equal_fronts_of_the_worked_example_fall_on_the_step_and_close() -> None:
    """F18: L 2400, five fronts, ends 2, gaps 3"""
    made = row_of(
        *["40"] * 6,
        columns=("432",) * 5,
        scheme="full cover",
        gap="3",
        equal_fronts=True,
        reveal_left="2",
        reveal_right="2",
    )
    assert [str(float(size(made.front(f"D{n}").width))) for n in range(1, 6)] == [
        "477.0",
        "476.5",
        "477.0",
        "476.5",
        "477.0",
    ]
    (row,) = [each for each in made.plan.fronts.sums if each.direction == "row"]
    assert row.total.value == row.equals.value == mm(2400)


def test_a_step_larger_than_the_gap_keeps_the_gap() -> None:
    made = row_of("40", "60", "40", columns=("400", "403"), scheme="full cover", gap="3", reveal_left="3").put(
        type(THREE.job.heading), "job", step="10"
    )
    first, second = made.front("D1"), made.front("D2")
    assert size(second.left) - size(first.right) == 3
    assert size(first.right) % 10 == 0
    assert made.quiet("row-sum")


@pytest.mark.parametrize(
    ("counted_on", "edge", "last"), [("bare frame", "1376.00", Fraction("10.2")), ("skins", "1382.00", Fraction("4.2"))]
)
def test_a_reveal_at_a_skinned_end_is_counted_from_where_the_look_says(
    counted_on: str, edge: str, last: Fraction
) -> None:
    """The edge is then put on the step, and the reveal is what is left."""
    skin = {"run": "K", "side": "right", "skin": "bought", "skin_thickness": "6.2"}
    made = THREE.put(End, "right", **skin).look(reveals_on=counted_on)
    assert near(made.front("D3").right) == edge
    (row,) = [each for each in made.plan.fronts.sums if each.direction == "row"]
    assert row.total.value == row.equals.value
    shown = size(row.terms[-1]) + (Fraction("6.2") if counted_on == "bare frame" else 0)
    assert shown == last


def test_a_skin_at_the_left_moves_the_left_edge() -> None:
    made = THREE.put(End, "left", run="K", side="left", skin="bought", skin_thickness="6").look(reveals_on="skins")
    assert near(made.front("D1").left) == "-2.00"
    (row,) = [each for each in made.plan.fronts.sums if each.direction == "row"]
    assert size(row.terms[0]) == 4
    assert row.equals.value == mm(1386)


def test_a_mirrored_run_has_mirrored_pins() -> None:
    mirrored = row_of(
        "40",
        "40",
        "60",
        "40",
        columns=("400", "400", "400"),
        scheme="full cover",
        gap="4",
        reveal_left="4",
        reveal_right="4",
    )
    ours, theirs = THREE.put(Front, "D1", pin_right="460"), mirrored.put(Front, "D3", pin_left="920")
    for n in (1, 2, 3):
        assert size(ours.front(f"D{n}").left) + size(theirs.front(f"D{4 - n}").right) == 1380


def test_an_inch_and_a_millimetre_job_of_the_same_readings_have_the_same_fronts() -> None:
    sizes = {"widths": "508mm, 507mm, 508mm", "heights": "660.4mm"}
    made = [
        opening(unit, **sizes).look(scheme="partial cover", cover="12.7mm").fronts("F", opening="A")
        for unit in ("in", "mm")
    ]
    exact = [m.front().width.value for m in made]
    assert abs(size(exact[0]) - size(exact[1])) <= size(inch("1/32"))


ROW = THREE.put(FrontRow, "row", fronts=("D3", "D1", "D2"), grain_through=True, blank_end="20", kerf="3")


def test_the_blank_of_a_row_is_its_fronts_what_lies_between_and_its_ends() -> None:
    """F22: 464 + 446 + 454 with two gaps of 4 and 20 at each end, whatever the order they were named in"""
    (row,) = ROW.plan.fronts.rows
    assert row.fronts == ("D1", "D2", "D3")
    assert size(row.blank_length) == 464 + 446 + 454 + 2 * 4 + 2 * 20
    assert [size(row.gap), size(row.trim)] == [4, 1]


def test_the_worked_blank_of_five_slabs() -> None:
    """F22: 2855.5"""
    widths = ("594.5", "375.5", "797", "595", "437.5")
    assert sum(Fraction(w) for w in widths) + 4 * 4 + 2 * 20 == Fraction("2855.5")
    made = row_of(
        "40",
        "39",
        "40",
        "42",
        "40",
        "41",
        columns=("541", "340", "760", "558", "401"),
        scheme="full cover",
        gap="4",
        reveal_left="4",
        edge_right="2819.5",
    )
    made = made.put(FrontRow, "row", fronts=tuple(f"D{n}" for n in range(1, 6)), grain_through=True, blank_end="20")
    (row,) = made.plan.fronts.rows
    assert [str(float(size(made.front(f"D{n}").width))) for n in (1, 2, 3, 4, 5)] == [
        "594.5",
        "375.5",
        "797.0",
        "595.0",
        "437.5",
    ]
    assert near(row.blank_length, 1) == "2855.5"


def test_a_front_named_twice_is_cut_once() -> None:
    (row,) = ROW.put(FrontRow, "row", fronts=("D1", "D2", "D1")).plan.fronts.rows
    assert row.fronts == ("D1", "D2")


def test_the_blank_of_a_row_by_cover_has_the_wood_that_really_lies_between() -> None:
    """Covers of 13 on a stile of 60 leave 34, on one of 40 leave 14"""
    (row,) = ROW.look(scheme="partial cover", cover="13").plan.fronts.rows
    widths = sum(
        (size(ROW.look(scheme="partial cover", cover="13").front(f"D{n}").width) for n in (1, 2, 3)), Fraction(0)
    )
    assert size(row.blank_length) == widths + 34 + 14 + 40
    assert size(row.gap) == 14


def test_grain_through_a_column_stands_and_the_blank_is_as_long_as_the_fronts_are_high() -> None:
    """F22"""
    made = stack(("T1", "B1"), rails=("530",)).put(
        FrontRow, "col", direction="column", fronts=("T1", "B1"), grain_through=True
    )
    (row,) = made.plan.fronts.rows
    assert (made.front("T1").grain, made.front("T1").grain_assumed) == ("vertical", False)
    assert size(row.blank_length) == 167 + 4 + 539 + 40
    assert size(row.blank_width) == size(made.front("T1").width) + 4
    assert row.movement.terms[0].figure.value == made.front("T1").width.value


def test_a_look_of_an_opening_or_cabinet_is_marked_as_an_exception() -> None:
    made = THREE.put(Cabinet, "box", run="K").put(Column, "C2", cabinet="box").look("cabinet:box", gap="6")
    assert made.plan.fronts.looks["A2"].exceptions == ("gap",)
    assert made.plan.fronts.looks["A1"].exceptions == ()


def test_equal_fronts_by_cover_have_the_usual_reveal_between_them() -> None:
    """F18: 1380 less 27 at each end and two reveals of 25"""
    made = THREE.look(scheme="partial cover", cover="13", equal_fronts=True, reveal_left="27", reveal_right="27")
    assert [size(made.front(f"D{n}").width) for n in (1, 2, 3)] == [
        Fraction("425.5"),
        Fraction("425"),
        Fraction("425.5"),
    ]
    assert made.front("D2").width.rests
    assert made.quiet("row-sum")

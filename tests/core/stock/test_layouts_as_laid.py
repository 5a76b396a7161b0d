"""Layouts held against the job: what is wrong with them, where all wood goes, what is cut, what is left (F75)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.core.job import (
    CutDone,
    Defect,
    KeepRule,
    Laid,
    LaidPart,
    Leftover,
    Limits,
    Look,
    Piece,
    Pricing,
    SupplierSize,
)
from frontwright.core.stock.cuts import cuts_of
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.layouts import contents
from frontwright.core.stock.leftovers import cut_up
from frontwright.core.stock.result import Group, LayoutPlan, Offer
from hypothesis import given, settings
from hypothesis import strategies as st
from job_builder import Made, door, mm, near

PLAIN = door(stile="64", top_rail="64", bottom_rail="76", thickness="20", groove="10", clearance="1")
BOARD = PLAIN.put(Piece, "B", form="board", batch="b1", length="2500", width="195", thickness="27")
LAID = BOARD.put(Laid, "1", piece="B")


def lay(made: Made, name: str, part: str, along: str, across: str, **fields: object) -> Made:
    laid = str(fields.pop("laid", "1"))
    return made.put(LaidPart, name, laid=laid, part=part, along=along, across=across, **fields)


def layout(made: Made, name: str = "1") -> LayoutPlan:
    (one,) = [one for one in made.plan.stock.layouts if one.id == name]
    return one


def faults(made: Made, name: str = "1") -> list[tuple[str, str]]:
    return [(fault.kind, fault.part) for fault in layout(made, name).faults]


# stiles 736 × 68, rails 360 × 68 and 80, kerf 3
GOOD = lay(lay(lay(LAID, "a", "F-S", "0", "0"), "b", "F-S", "739", "0", number=2), "c", "F-RB", "0", "71")


def test_a_layout_with_its_parts_inside_and_apart_by_the_kerf_holds() -> None:
    assert faults(GOOD) == []
    assert layout(GOOD).valid
    assert GOOD.check("layout", "1").level == "ok"


def test_what_lies_on_a_layout_that_holds_wants_no_place_any_more() -> None:
    unlaid = GOOD.plan.stock.unlaid["board 20"]
    assert unlaid == {"F-RT": 1}


@pytest.mark.parametrize(
    ("change", "found", "by"),
    [
        ({"along": "1475", "across": "0", "part": "F-S", "number": 3}, "not wanted", None),
        ({"along": "1475", "across": "0", "part": "F-S", "number": 2}, "twice", None),
        ({"along": "1475", "across": "0", "part": "G-S"}, "not wanted", None),
        ({"along": "2141", "across": "0", "part": "F-RT"}, "outside", mm(1)),
        ({"along": "300", "across": "71", "part": "F-RT"}, "overlap", mm(60)),
        ({"along": "361", "across": "71", "part": "F-RT"}, "kerf", mm(2)),
        ({"along": "1478", "across": "0", "part": "F-RT", "turned": True}, "grain", None),
    ],
)
def test_a_fault_names_its_part_and_by_how_much(change: dict[str, object], found: str, by: object) -> None:
    made = GOOD.put(LaidPart, "x", laid="1", **change)
    one = layout(made).faults
    assert (found, change["part"]) in [(fault.kind, fault.part) for fault in one]
    assert by in [fault.by for fault in one if fault.kind == found]
    check = made.found("layout", "1")
    assert (check.level, check.holds_back) == ("stop", True)


def test_a_part_that_has_grown_since_is_named_a_smaller_one_still_lies_there() -> None:
    made = lay(LAID, "a", "F-S", "0", "0", length="730", width="68")
    assert [(f.kind, f.by) for f in layout(made).faults] == [("size", mm(6))]
    assert faults(lay(LAID, "a", "F-S", "0", "0", length="740", width="70")) == []


def test_what_a_done_cut_freed_is_a_fact_whatever_the_job_wants_now() -> None:
    made = lay(LAID, "a", "F-S", "0", "0", length="730", width="68").put(CutDone, "1 1", laid="1", cut=1, parts=("a",))
    assert faults(made) == []
    assert [part.cut for part in layout(made).parts] == [True]
    assert made.plan.stock.unlaid["board 20"]["F-S"] == 1


def test_a_part_on_a_defect_is_named() -> None:
    made = GOOD.put(Defect, "knot", piece="B", along="800", across="10", length="30", width="30")
    assert faults(made) == [("defect", "F-S")]


def test_trims_are_no_place_for_a_part() -> None:
    made = GOOD.put(Piece, "B", end_trim="20")
    assert ("outside", "F-S") in faults(made)


def test_a_board_that_is_too_thin_for_its_parts_is_named() -> None:
    assert faults(GOOD.put(Piece, "B", thickness="22")) == [("thin", "")]


def test_a_board_whose_size_nobody_told_is_named() -> None:
    assert ("piece size", "") in faults(GOOD.put(Piece, "B", width=None))


def test_two_layouts_do_not_lie_on_one_board() -> None:
    made = lay(GOOD.put(Laid, "2", piece="B", place=1), "x", "F-RT", "0", "0", laid="2")
    assert faults(made, "1") == []
    assert [(f.kind, f.other) for f in layout(made, "2").faults] == [("taken", "B")]
    assert faults(made.put(Piece, "B", count=2), "2") == []


def test_a_board_that_went_elsewhere_holds_no_layout_one_that_is_cut_here_does() -> None:
    gone = GOOD.put(Piece, "B", state="used up")
    assert faults(gone) == [("no piece", "")]
    assert faults(gone.put(CutDone, "1 1", laid="1", cut=1, parts=("a",))) == []


def test_a_part_that_will_be_seen_does_not_lie_on_wood_for_hidden_parts() -> None:
    assert {kind for kind, _ in faults(GOOD.put(Piece, "B", grade="hidden"))} == {"grade"}


def test_a_change_of_the_job_names_what_is_no_longer_wanted() -> None:
    made = GOOD.put(Look, "room:room", door_build=None)
    assert all(kind in ("not wanted", "size") for kind, _ in faults(made))


def test_a_layout_that_no_saw_cuts_from_edge_to_edge_is_told() -> None:
    """Four parts around a middle, each in the way of the next: a pinwheel"""
    made = PLAIN.put(Piece, "B", form="board", length="1700", width="1700", thickness="27").put(Laid, "1", piece="B")
    sizes = {"length": "736", "width": "400"}
    made = lay(made, "a", "F-S", "0", "0", **sizes)
    made = lay(made, "b", "F-RT", "739", "0", length="400", width="736")
    made = lay(made, "c", "F-S", "403", "739", number=2, **sizes)
    made = lay(made, "d", "F-RB", "0", "403", length="400", width="736")
    assert faults(made) == [("edge to edge", "")]


def test_panels_of_two_lots_are_one_stop() -> None:
    made = PLAIN.put(Limits, "limits", one_lot="job").opening("B", "C", 2, widths="400", heights="600")
    made = made.fronts("G", opening="B")
    for name, batch in (("S", "old"), ("T", "new")):
        made = made.put(Piece, name, form="sheet", batch=batch, length="800", width="500", thickness="6.2")
        made = made.put(Laid, name, piece=name)
    made = lay(lay(made, "a", "F-P", "0", "0", laid="S"), "b", "G-P", "0", "0", laid="T")
    assert [f.kind for f in layout(made, "T").faults] == ["batch"]
    assert layout(made, "S").valid
    check = made.found("batch", "T")
    assert (check.value, check.level) == ("new", "stop")
    assert made.put(Piece, "T", batch="old").quiet("batch")


def test_a_size_that_will_be_bought_is_laid_like_a_piece() -> None:
    made = PLAIN.put(SupplierSize, "27 x 195", length="2500", width="195", thickness="27", end_trim="40")
    made = lay(made.put(Laid, "1", size="27 x 195"), "a", "F-S", "20", "0")
    assert faults(made) == []
    assert ("outside", "F-S") in faults(lay(made, "a", "F-S", "19", "0"))


# -- what is left


def test_rests_are_named_by_size_and_kept_where_a_part_can_be_made_of_them() -> None:
    """F75: solid from 350 × 45"""
    rests = layout(GOOD).remainders
    assert [one.letter for one in rests] == ["A", "B", "C"]
    assert [(near(one.length, 0), near(one.width, 0), one.keep, one.reason) for one in rests] == [
        ("1022", "195", True, "sizes"),
        ("1112", "80", True, "sizes"),
        ("1475", "41", False, "narrow"),
    ]


def test_the_batch_of_an_installed_job_is_kept_in_smaller_pieces_to_an_end_date() -> None:
    made = GOOD.put(KeepRule, "b1", form="board", batch="b1", length="300", width="30", until="2036-01-01")
    rest = layout(made).remainders[-1]
    assert (rest.keep, rest.reason, rest.until) == (True, "batch", "2036-01-01")


def test_a_rest_that_is_worth_less_than_handling_it_is_burned() -> None:
    """2500 × 195 for 20: the rest of 1022 × 195 is worth 8.18, that of 1112 × 80 3.65"""
    made = GOOD.put(Piece, "B", price="20").put(Pricing, "pricing", burn_below="6")
    assert [(one.keep, one.reason) for one in layout(made).remainders] == [
        (True, "sizes"),
        (False, "worth less"),
        (False, "narrow"),
    ]


def test_five_minutes_of_work_are_the_value_where_nobody_said_another() -> None:
    made = GOOD.put(Piece, "B", price="20").put(Pricing, "pricing", rate="72")
    assert [one.keep for one in layout(made).remainders] == [True, False, False]
    assert [one.keep for one in layout(made.put(Pricing, "pricing", rate="36")).remainders] == [True, True, False]


def test_what_a_person_decided_of_a_rest_stands() -> None:
    made = GOOD.put(Leftover, "1 C", laid="1", keep=True, shelf="B2", why="for plugs")
    rest = layout(made).remainders[2]
    assert (rest.keep, rest.reason) == (True, "by hand")
    assert rest.decided is not None
    assert rest.decided.shelf == "B2"


# -- laws


def test_contents_are_told_as_wood_is_sold_and_add_up() -> None:
    told = contents(GOOD.plan.index, layout(GOOD))
    assert told["all"] == sum(value for name, value in told.items() if name != "all")
    assert told["all"] * 10**9 == 2500 * 195 * 27


_PART = st.tuples(st.integers(0, 2400), st.integers(0, 190), st.integers(1, 900), st.integers(1, 150))


@settings(max_examples=150, deadline=None)
@given(st.lists(_PART, max_size=6), st.integers(0, 12), st.integers(0, 100), st.integers(0, 40))
def test_content_in_is_parts_kerf_trims_remainders_and_waste(
    parts: list[tuple[int, int, int, int]], kerf: int, end: int, edge: int
) -> None:
    made = LAID.put(Piece, "B", end_trim=str(end), edge_trim=str(edge)).put(Laid, "1", kerf=str(kerf))
    for at, (along, across, long, wide) in enumerate(parts):
        made = lay(made, f"p{at}", "F-S", str(along), str(across), length=str(long), width=str(wide))
    content = layout(made).content
    assert content.all == content.parts + content.kerf + content.trims + content.remainders + content.waste
    if not {"outside", "overlap"} & {kind for kind, _ in faults(made)}:
        assert min(content.parts, content.kerf, content.trims, content.remainders, content.waste) >= 0


@settings(max_examples=60, deadline=None)
@given(st.integers(1200, 2600), st.integers(150, 400), st.integers(0, 6))
def test_rests_lie_clear_of_parts_and_of_each_other(long: int, wide: int, kerf: int) -> None:
    group: Group = replace(PLAIN.plan.stock.groups[0], kerf=mm(kerf))
    fitted = first_fit(group, group.wants, [Offer("B", mm(long), mm(wide))])
    boxes = tuple((p.along.units, p.across.units, p.length.units, p.width.units) for p in fitted.places)
    whole = (0, 0, mm(long).units, mm(wide).units)
    done = cut_up(whole, boxes, mm(kerf).units, ((1, 1, False),), rips_first=True)
    assert done.whole
    everything = [*boxes, *done.rests]
    assert sum(w * h for _, _, w, h in everything) + done.kerf == whole[2] * whole[3]
    for at, one in enumerate(everything):
        for other in everything[:at]:
            along = max(other[0] - one[0] - one[2], one[0] - other[0] - other[2])
            across = max(other[1] - one[1] - one[3], one[1] - other[1] - other[3])
            assert max(along, across) >= 0


def test_no_cut_goes_where_the_saw_is_wider_than_the_gap() -> None:
    """A kerf apart end to end, side by side by half a kerf only: crosscut first, then nothing lies nearer than it"""
    made = lay(lay(LAID, "a", "F-S", "0", "0"), "b", "F-RB", "739", "69.5")
    plan = layout(made)
    cuts = cuts_of(plan)
    assert plan.valid
    assert cuts.whole
    assert (cuts.cuts[0].direction, cuts.cuts[0].band.along) == ("across", mm(736))
    for rest in plan.remainders:
        for part in plan.parts:
            along = max(part.along - rest.along - rest.length, rest.along - part.along - part.length)
            across = max(part.across - rest.across - rest.width, rest.across - part.across - part.width)
            assert max(along, across) >= mm(3)

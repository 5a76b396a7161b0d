"""What the checker refuses: one change of a sound plan each, and the sentence for it."""

from dataclasses import replace

import pytest
from frontwright.cutting.checker import first_fault, levels
from frontwright.cutting.counting import plan_of
from frontwright.cutting.values import Layout, Order, Pinned, Placed, Plan, Rect, Saw, Stock, Wanted

SHEET = Stock("sheet", 100, 50, copies=2, trims=(2, 3, 1, 4))
DOOR = Wanted("door", 40, 20, copies=2)
SOUND = (Placed(0, 2, 1, 40, 20), Placed(0, 45, 1, 40, 20))


def order(**changes: object) -> Order:
    base = Order((DOOR,), (SHEET,), Saw(3))
    return replace(base, **changes)  # type: ignore[arg-type]


def fault(parts: tuple[Placed, ...], asked: Order | None = None) -> str:
    asked = asked or order()
    return first_fault(asked, plan_of(asked, [Layout(0, parts)])) or ""


def test_a_sound_plan_has_no_fault() -> None:
    assert fault(SOUND) == ""


def test_a_part_may_touch_both_trims_exactly() -> None:
    asked = order(wanted=(Wanted("whole", 95, 45),))
    assert fault((Placed(0, 2, 1, 95, 45),), asked) == ""


@pytest.mark.parametrize("place", [(1, 1), (58, 1), (2, 0), (2, 27)])
def test_a_part_over_a_trim_is_refused(place: tuple[int, int]) -> None:
    assert "reaches into a trim" in fault((Placed(0, *place, 40, 20),))


@pytest.mark.parametrize("place", [(-1, 1), (61, 1), (2, 31)])
def test_a_part_off_the_piece_is_refused(place: tuple[int, int]) -> None:
    assert "sticks out of the piece sheet" in fault((Placed(0, *place, 40, 20),))


def test_parts_that_share_wood_are_refused() -> None:
    assert "parts door and door overlap" in fault((SOUND[0], Placed(0, 41, 20, 40, 20)))


def test_parts_nearer_than_the_kerf_are_refused() -> None:
    assert "less than its kerf of 3" in fault((SOUND[0], Placed(0, 44, 1, 40, 20)))


def test_a_kerf_is_due_across_too() -> None:
    assert "kerf" in fault((SOUND[0], Placed(0, 2, 23, 40, 20)))
    assert fault((SOUND[0], Placed(0, 2, 24, 40, 20))) == ""


def test_a_part_against_its_grain_is_refused_and_may_turn_where_it_says_so() -> None:
    turned = (Placed(0, 2, 1, 20, 40),)
    assert "lies turned, against its grain" in fault(turned)
    assert fault(turned, order(wanted=(replace(DOOR, turns=True),))) == ""


def test_grain_is_kept_part_by_part() -> None:
    asked = order(wanted=(replace(DOOR, turns=True, copies=1), Wanted("rail", 40, 20)))
    assert "part rail" in fault((Placed(0, 2, 1, 20, 40), Placed(1, 25, 1, 20, 40)), asked)


def test_a_part_of_another_size_is_refused() -> None:
    assert "is laid as 40 x 19" in fault((Placed(0, 2, 1, 40, 19),))


def test_a_part_on_a_defect_is_refused_and_one_beside_it_is_not() -> None:
    knot = Rect(42, 1, 3, 3)
    assert fault(SOUND, order(stock=(replace(SHEET, defects=(knot,)),))) == ""
    assert "on a defect" in fault(SOUND, order(stock=(replace(SHEET, defects=(replace(knot, width=4),)),)))


def test_a_show_part_on_plain_grade_is_refused() -> None:
    asked = order(wanted=(replace(DOOR, grade=1),), stock=(replace(SHEET, grade=2),))
    assert "needs grade 1" in fault(SOUND, asked)
    assert fault(SOUND, replace(asked, wanted=(replace(DOOR, grade=2),))) == ""


def test_a_group_out_of_two_batches_is_refused() -> None:
    parts = replace(DOOR, group="pair")
    stocks = (replace(SHEET, batch="A", copies=1), replace(SHEET, id="other", batch="B", copies=1))
    asked = order(wanted=(parts,), stock=stocks)
    plan = plan_of(asked, [Layout(0, SOUND[:1]), Layout(1, SOUND[:1])])
    assert first_fault(asked, plan) == "The parts of the group pair come from 2 batches."
    same = replace(asked, stock=(stocks[0], replace(stocks[1], batch="A")))
    assert first_fault(same, plan) is None


PINWHEEL = (Placed(0, 0, 0, 2, 1), Placed(1, 2, 0, 1, 2), Placed(0, 1, 2, 2, 1), Placed(1, 0, 1, 1, 2))


def test_a_pinwheel_cannot_be_cut_from_edge_to_edge() -> None:
    asked = Order((Wanted("long", 2, 1, 2), Wanted("tall", 1, 2, 2)), (Stock("sheet", 3, 3),))
    assert "cannot be parted by cuts" in fault(PINWHEEL, asked)
    assert fault(PINWHEEL, replace(asked, guillotine=False)) == ""


def test_a_kerf_can_make_a_layout_uncuttable() -> None:
    """Three parts parted by bands of two: a cut of two runs through, a cut of three finds no way."""
    parts = (Placed(0, 0, 0, 10, 10), Placed(0, 12, 0, 10, 10))
    assert levels(parts, 2) == 1
    assert levels(parts, 3) is None


def test_turns_of_the_cut_are_counted_from_the_direction_of_the_first() -> None:
    two_by_two = tuple(Placed(0, x, y, 4, 4) for x in (0, 5) for y in (0, 6))
    assert levels(two_by_two, 1) == 2
    row = two_by_two[::2]
    assert levels(row, 1, "across") == 1
    assert levels(row, 1, "along") == 2


def test_more_turns_than_the_saw_may_make_are_refused() -> None:
    asked = Order((Wanted("a", 4, 4, 2), Wanted("b", 4, 9)), (Stock("sheet", 9, 9),), Saw(1, levels=1))
    parts = (Placed(0, 0, 0, 4, 4), Placed(0, 0, 5, 4, 4), Placed(1, 5, 0, 4, 9))
    assert "needs 2 turns of the cut" in fault(parts, asked)
    assert fault(parts, replace(asked, saw=Saw(1, levels=2))) == ""


def test_a_first_cut_that_would_part_nothing_counts_as_a_turn() -> None:
    asked = Order((Wanted("half", 5, 10, 2),), (Stock("sheet", 10, 10),), Saw(0, first="along", levels=2))
    halves = (Placed(0, 0, 0, 5, 10), Placed(0, 5, 0, 5, 10))
    assert fault(halves, asked) == ""
    assert "needs 2 turns of the cut" in fault(halves, replace(asked, saw=Saw(0, first="along", levels=1)))


def test_more_pieces_than_there_are_is_refused() -> None:
    asked = order(wanted=(replace(DOOR, copies=6),))
    plan = plan_of(asked, [Layout(0, SOUND, 3)])
    assert first_fault(asked, plan) == "3 pieces of sheet are cut, and there are 2."


def test_a_part_laid_too_often_or_lost_is_refused() -> None:
    once = order(wanted=(replace(DOOR, copies=1),))
    assert fault(SOUND, once) == "Part door is laid 2 times and wanted 1 times."
    lost = Plan((Layout(0, SOUND[:1]),), (0,), 1)
    assert "laid 1 times of 2, and 0 are said to be missing" in (first_fault(order(), lost) or "")


def test_a_plan_that_counts_wrongly_or_beats_its_own_bound_is_refused() -> None:
    plan = plan_of(order(), [Layout(0, SOUND)])
    assert "it comes to 1" in (first_fault(order(), replace(plan, cost=2)) or "")
    assert "past the bound of 2" in (first_fault(order(), replace(plan, bound=2)) or "")


def test_pinned_parts_stay_where_they_are_together_on_one_piece() -> None:
    pins = tuple(Pinned("sheet", 1, "door", Rect(p.x, p.y, p.width, p.height)) for p in SOUND)
    asked = order(pinned=pins)
    assert fault(SOUND, asked) == ""
    apart = plan_of(asked, [Layout(0, SOUND[:1]), Layout(0, SOUND[1:])])
    assert first_fault(asked, apart) == "Part door is not where it is pinned on the piece sheet."
    on_two = replace(asked, pinned=(pins[0], replace(pins[1], piece=2)))
    assert first_fault(on_two, apart) is None


def test_a_pinned_part_may_lie_as_no_other_may() -> None:
    on_trim = Placed(0, 0, 0, 20, 40)
    asked = order(pinned=(Pinned("sheet", 1, "door", Rect(0, 0, 20, 40)),))
    assert fault((on_trim,), asked) == ""
    assert fault((on_trim,)) != ""


def test_positions_the_order_has_not_are_named() -> None:
    assert (
        first_fault(order(), Plan((Layout(7, SOUND),), (0,), 1))
        == "A layout names stock number 7, which the order has not."
    )
    assert "part number 4" in (first_fault(order(), Plan((Layout(0, (Placed(4, 2, 1, 1, 1),)),), (2,), 1)) or "")

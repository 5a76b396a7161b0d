"""What the shop has goes before what is bought, however small it is and whatever place of it is bad."""

from __future__ import annotations

from dataclasses import replace

from frontwright.cutting import lay
from frontwright.cutting.checker import first_fault
from frontwright.cutting.own_first import of_whole, only_own, own_only
from frontwright.cutting.values import Layout, Order, Placed, Plan, Rect, Saw, Stock, Wanted

OWN = Stock("L-03", 2440, 2500, copies=1, defects=(Rect(600, 800, 160, 120),), batch="SH1", grade=1, have=True)
NEW = Stock("new", 4880, 2440, cost=29768, trims=(20, 20, 20, 20), batch="bought", grade=1)
PANELS = tuple(Wanted(name, 2228, 719, group="R1", grade=1) for name in ("F1L-P", "F1R-P"))
ORDER = Order(PANELS, (OWN, NEW), Saw(6, None, 4))


def test_an_offcut_with_a_knot_is_taken_before_a_sheet_is_bought() -> None:
    plan = lay(ORDER, 3.0)
    assert first_fault(ORDER, plan) is None
    assert only_own(ORDER, plan)


def test_own_pieces_are_asked_alone_only_where_something_else_could_be_bought() -> None:
    own = own_only(ORDER)
    assert own is not None
    assert own.stock == (OWN,)
    assert own_only(replace(ORDER, stock=(OWN,))) is None
    assert own_only(replace(ORDER, stock=(NEW,))) is None


def test_a_plan_of_the_own_pieces_names_them_by_their_place_in_the_whole_order() -> None:
    order = replace(ORDER, stock=(NEW, OWN))
    own = own_only(order)
    assert own is not None
    found = of_whole(order, own, Plan((Layout(0, (Placed(0, 0, 0, 2228, 719),)),), (0, 1), 1, None))
    assert [layout.stock for layout in found.layouts] == [1]
    assert found.missing == (0, 1)

"""What a job costs (F52), what to take and to buy for it, and what its price rests on."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.bill.costs import f52, rounded
from frontwright.core.bill.lists import hardware_to_buy
from frontwright.core.bill.result import Purchase, WholeBill, to_the_unit
from frontwright.core.job import (
    AsBuilt,
    CutDone,
    Front,
    HardwareLot,
    HingeType,
    Laid,
    LaidPart,
    Operation,
    Piece,
    Pricing,
    SupplierSize,
)
from frontwright.core.plan import billed_whole, quoted
from job_builder import Made, door, hinged, paneled

PLAIN = door(stile="64", top_rail="64", bottom_rail="76", thickness="20", groove="10", clearance="1")
BOARD = {"form": "board", "length": "2500", "width": "195", "thickness": "27"}
SOLD = PLAIN.put(SupplierSize, "27 x 195", supplier="yard", length="2500", width="195", thickness="27", price="40")

GLAZED = PLAIN.put(Front, "F", kind="glass")


def bill(made: Made) -> WholeBill:
    return billed_whole(made.plan)


def bought(made: Made, what: str) -> Purchase:
    (one,) = [one for one in bill(made).purchases if one.what == what]
    return one


def provisos(made: Made) -> set[tuple[str, str]]:
    return {(one.kind, one.of) for one in bill(made).costs.provisos}


def test_the_worked_quote_comes_out() -> None:
    """F52: M 310, waste .25, handling .15, 37 h at 55, hardware 160, reserve .08: 2664.625, with reserve 2877.80"""
    waste, handling = Fraction("0.25"), Fraction("0.15")
    price = f52(Fraction(31000), waste, handling, Fraction(37), Fraction(5500), Fraction(16000), Fraction("0.08"))
    assert price == Fraction("287779.5")
    assert rounded(price) == 287780
    without = f52(Fraction(31000), waste, handling, Fraction(37), Fraction(5500), Fraction(16000), Fraction(0))
    assert without == Fraction("266462.5")


@pytest.mark.parametrize(("money", "shown"), [("10.5", 11), ("10.49", 10), ("0", 0), ("-0.5", 0)])
def test_money_is_rounded_once_half_up(money: str, shown: int) -> None:
    assert rounded(Fraction(money)) == shown


def test_whole_boards_are_bought_and_charged() -> None:
    board = bought(SOLD, "board")
    assert (board.supplier, board.count, board.cost, board.measure) == ("yard", 1, Fraction(4000), "m3")
    assert board.amount == Fraction(2500 * 195 * 27, 10**9)
    costs = bill(SOLD).costs
    assert costs.material * (1 + costs.waste) == 4000
    assert (costs.waste_is, costs.total) == ("fitted", 4000)


def test_waste_is_what_the_boards_lose_by_their_face() -> None:
    """Parts rough: 2 × 736 × 68 + 360 × 68 + 360 × 80 of 2500 × 195"""
    parts = 2 * 736 * 68 + 360 * 68 + 360 * 80
    assert bill(SOLD).costs.waste == Fraction(2500 * 195, parts) - 1


def test_a_shops_own_figure_for_waste_is_reckoned_until_all_is_laid() -> None:
    made = SOLD.put(Pricing, "pricing", waste="20")
    costs = bill(made).costs
    assert (costs.waste, costs.waste_is) == (Fraction("0.2"), "told")
    assert costs.total == rounded(costs.material * Fraction("1.2"))


def test_waste_is_as_laid_once_every_part_lies_somewhere() -> None:
    """One slab of 716 × 448 finished, 736 × 452 rough, on a board of 800 × 500"""
    made = door(kind="slab", thickness="20").put(Pricing, "pricing", waste="20")
    made = made.put(SupplierSize, "wide", length="800", width="500", thickness="27", price="40")
    made = made.put(Laid, "1", size="wide").put(LaidPart, "a", laid="1", part="F", along="0", across="0")
    costs = bill(made).costs
    assert (costs.waste_is, costs.waste) == ("laid", Fraction(800 * 500, 736 * 452) - 1)
    assert ("waste", "") not in provisos(made)
    assert costs.total == 4000


def test_lines_add_up_to_the_total() -> None:
    made = SOLD.put(Pricing, "pricing", rate="55", handling="15", reserve="8", currency="EUR")
    made = made.put(SupplierSize, "hinge", form="hardware", what="hinge", price="4.60")
    made = hinged(made).put(Operation, "frame", setup="30", each="45", counts="front")
    whole = bill(made)
    assert rounded(sum((line.cost for line in whole.costs.lines), Fraction(0))) == whole.costs.total
    assert whole.costs.currency == "EUR"
    assert {line.what for line in whole.costs.lines} == {"wood bought", "hardware", "handling", "work", "reserve"}


def test_lines_told_to_the_cent_add_up_to_the_total() -> None:
    """Thirds: three lines of 33⅓ come to 100, and the one left over goes to the first of the largest rests"""
    assert to_the_unit([Fraction(100, 3)] * 3, 100) == (34, 33, 33)
    assert to_the_unit([Fraction("10.2"), Fraction("10.9"), Fraction("10.4")], 32) == (10, 11, 11)
    assert to_the_unit([], 0) == ()
    made = SOLD.put(Pricing, "pricing", rate="55", handling="13", reserve="7", own_share="33")
    made = made.put(Piece, "B", **{**BOARD, "length": "900"}, price="17").put(Operation, "frame", setup="7", each="11")
    whole = bill(made)
    offer = quoted(made.plan, whole)
    assert any(line.cost.denominator > 1 for line in whole.costs.lines)
    assert sum(whole.costs.told) == sum(line.cost for line in offer.lines) == offer.total == whole.costs.total
    assert all(abs(line.cost - told) < 1 for line, told in zip(whole.costs.lines, whole.costs.told, strict=True))


def test_a_shops_own_figure_for_waste_is_not_reckoned_on_wood_that_is_laid() -> None:
    """One of two slabs lies on a bought board of 40: that is paid whole, the other by its parts and 20 %"""
    made = door(kind="slab", thickness="20").put(Pricing, "pricing", waste="20")
    made = made.put(SupplierSize, "wide", length="800", width="500", thickness="27", price="40")
    made = made.opening("B", "C", 2, widths="400", heights="600").fronts("G", opening="B")
    one = bill(made).costs
    parts = one.material
    laid = made.put(Laid, "1", size="wide").put(LaidPart, "a", laid="1", part="F", along="0", across="0")
    costs = bill(laid).costs
    first = 4000 * Fraction(736 * 452, 800 * 500)
    assert costs.material == parts
    assert one.material * (1 + one.waste) == parts * Fraction("1.2")
    assert costs.material * (1 + costs.waste) == 4000 + (parts - first) * Fraction("1.2")
    assert sum(line.cost for line in costs.lines) == 4000 + (parts - first) * Fraction("1.2")
    assert [one.value for one in costs.provisos if one.kind == "waste"] == [Fraction("0.2")]


def test_set_ups_are_shared_so_two_doors_are_not_twice_one() -> None:
    """Σ(set-up + count × each): 30 + 45, then 30 + 90"""
    one = PLAIN.put(Operation, "frame", setup="30", each="45", counts="door")
    two = one.opening("B", "C", 2, widths="400", heights="600").fronts("G", opening="B")
    assert [bill(made).hours[0].minutes for made in (one, two)] == [75, 120]


def test_an_operation_that_the_job_has_nothing_of_takes_no_time() -> None:
    (hours,) = bill(PLAIN.put(Operation, "drawers", setup="30", each="20", counts="drawer")).hours
    assert (hours.count, hours.minutes) == (0, Fraction(0))


def test_own_wood_is_charged_at_a_stated_share_never_at_nothing() -> None:
    made = SOLD.put(Piece, "B", **BOARD, price="40")
    assert [(one.what, one.cost) for one in bill(made).costs.lines] == [("own wood", Fraction(2000))]
    assert ("own share", "") in provisos(made)
    told = made.put(Pricing, "pricing", own_share="30")
    assert bill(told).costs.total == 1200
    assert ("own share", "") not in provisos(told)


def test_own_wood_of_no_known_price_counts_as_what_it_costs_to_buy() -> None:
    made = SOLD.put(Piece, "B", **{**BOARD, "length": "1250"}).put(SupplierSize, "27 x 195", price="40", per="piece")
    assert [line.cost for line in bill(made).costs.lines if line.of == "B"] == [Fraction(1000)]
    assert ("no price", "B") in provisos(PLAIN.put(Piece, "B", **BOARD))


def test_own_planed_wood_costs_what_its_rough_quarter_costs_to_buy() -> None:
    """F47: 13/16 planed is bought as 4/4: 1 × 6 × 48 / 144 = 2 board feet at 6.75, of which half"""
    made = door("18", "28", unit="in", thickness="3/4")
    made = made.put(SupplierSize, "4/4", length="96", width="6", thickness="1", price="6.75", per="content")
    made = made.put(Piece, "B", form="board", length="48", width="6", thickness="13/16", planed=True)
    assert [line.cost for line in bill(made).costs.lines if line.of == "B"] == [Fraction(675)]


def test_an_own_piece_of_what_is_sold_by_the_pack_costs_one_of_the_pack() -> None:
    """Ten boards for 400: one is 40, of which half"""
    made = SOLD.put(Piece, "B", **BOARD).put(SupplierSize, "27 x 195", price="400", pack=10)
    assert [line.cost for line in bill(made).costs.lines if line.of == "B"] == [Fraction(2000)]


def test_an_own_piece_costs_what_wood_of_its_thickness_costs() -> None:
    """A thinner and a dearer thicker size are entered before the one that it is of"""
    made = PLAIN.put(SupplierSize, "a", length="2500", width="195", thickness="20", price="11")
    made = made.put(SupplierSize, "b", length="2500", width="195", thickness="52", price="120")
    made = made.put(SupplierSize, "c", length="2500", width="195", thickness="27", price="40")
    lines = bill(made.put(Piece, "B", **BOARD)).costs.lines
    assert [line.cost for line in lines if line.of == "B"] == [Fraction(2000)]


def test_what_is_kept_of_an_own_board_is_not_charged() -> None:
    """One stile lies on it: of 2500 × 195 the rests of 1761 × 195 and 736 × 124 are kept"""
    made = SOLD.put(Piece, "B", **BOARD, price="40").put(Laid, "1", piece="B")
    made = made.put(LaidPart, "a", laid="1", part="F-S", along="0", across="0")
    own = next(line for line in bill(made).costs.lines if line.what == "own wood" and line.of == "B")
    layout = made.plan.stock.layouts[0]
    kept = sum(r.length.units * r.width.units for r in layout.remainders if r.keep)
    assert own.cost == 2000 * Fraction(layout.content.all - kept, layout.content.all)
    assert 0 < own.cost < 1000


def test_pieces_are_pulled_by_shelf_for_what_lies_on_them() -> None:
    made = PLAIN.put(Piece, "B", **BOARD, shelf="B2").put(Piece, "S", form="sheet", shelf="A1", length="700")
    made = made.put(Piece, "S", width="400", thickness="6.2")
    assert [(one.shelf, one.piece, one.count, one.of) for one in bill(made).pull] == [
        ("A1", "S", 1, ("sheet 6.2",)),
        ("B2", "B", 1, ("board 20",)),
    ]


def test_a_piece_that_is_cut_up_is_not_pulled_again() -> None:
    made = PLAIN.put(Piece, "B", **BOARD).put(Laid, "1", piece="B")
    made = made.put(LaidPart, "a", laid="1", part="F-S", along="0", across="0")
    assert [one.of for one in bill(made).pull] == [("1",)]
    done = made.put(CutDone, "1 1", laid="1", cut=1, parts=("a",))
    assert "B" not in {one.piece for one in bill(done).pull}


def test_sheets_that_layouts_lie_on_are_bought_with_those_for_the_rest() -> None:
    made = PLAIN.put(SupplierSize, "sheet", form="sheet", length="800", width="400", thickness="6.2")
    made = made.opening("B", "C", 2, widths="428", heights="696").fronts("G", opening="B")
    made = made.put(Laid, "1", size="sheet").put(LaidPart, "a", laid="1", part="F-P", along="0", across="0")
    assert bought(made, "sheet").count == 2


def test_the_parts_of_a_layout_that_no_longer_holds_are_bought_once() -> None:
    made = PLAIN.put(SupplierSize, "sheet", form="sheet", length="800", width="400", thickness="6.2")
    made = made.put(Laid, "1", size="sheet").put(LaidPart, "a", laid="1", part="F-P", along="790", across="0")
    assert not made.plan.stock.layouts[0].valid
    assert bought(made, "sheet").count == 1
    own = PLAIN.put(Piece, "B", **BOARD).put(Laid, "1", piece="B")
    own = own.put(LaidPart, "a", laid="1", part="F-S", along="2490", across="0")
    assert [(one.piece, one.of) for one in bill(own).pull] == [("B", ("board 20",))]


def test_a_bought_sheet_stays_in_the_price_when_its_first_cut_is_made() -> None:
    made = PLAIN.put(SupplierSize, "sheet", form="sheet", length="800", width="400", thickness="6.2", price="30")
    made = made.put(Laid, "1", size="sheet").put(LaidPart, "a", laid="1", part="F-P", along="0", across="0")
    cut = made.put(CutDone, "1 1", laid="1", cut=1, parts=("a",))
    assert not [one for one in bill(cut).purchases if one.what == "sheet"]
    assert bill(cut).costs.total == bill(made).costs.total == 3000
    come = made.put(Piece, "S-01", form="sheet", length="800", width="400", thickness="6.2", price="30")
    come = come.put(Laid, "1", piece="S-01")
    assert not [one for one in bill(come).purchases if one.what == "sheet"]
    assert {one.what: one.cost for one in bill(come).costs.lines} == {"wood bought": 3000}


def test_hardware_on_hand_serves_one_line_only() -> None:
    made = hinged(PLAIN, name="Cup hinge").put(HingeType, "other", name="Cup hinge")
    lots = [HardwareLot("h", "Cup hinge", 2)]
    index, plan = made.plan.index, made.plan
    hinges = {**plan.hardware.hinges, "G": replace(plan.hardware.hinges["F"], front="G", type="other")}
    both = replace(plan.hardware, hinges=hinges)
    lines = [one for one in hardware_to_buy(index, plan.fronts, both, lots) if one.what == "hinge"]
    assert sum(one.count for one in lines) == 2 * plan.hardware.hinges["F"].count - 2


def test_a_hinge_of_a_named_type_is_bought_at_its_own_price_else_at_that_of_hinges() -> None:
    made = hinged(PLAIN, name="Cup hinge")
    plan = made.plan
    other = replace(plan.hardware.hinges["F"], type="T7", name="Inset hinge")
    hardware = replace(plan.hardware, hinges={"F": other})

    def cost(made: Made) -> Fraction | None:
        lines = hardware_to_buy(made.plan.index, plan.fronts, hardware)
        return next(one.cost for one in lines if one.what == "hinge")

    assert cost(made) is None
    general = made.put(SupplierSize, "any", form="hardware", what="hinge", price="2")
    assert cost(general) == 200 * other.count
    assert cost(general.put(SupplierSize, "own", form="hardware", what="Inset hinge", price="5")) == 500 * other.count


def test_a_panel_that_is_left_over_does_not_go_on_a_sheet_of_another_lot() -> None:
    """One panel lies on a sheet to be bought: the other one is bought too, though the old offcut would hold it"""
    made = PLAIN.put(SupplierSize, "sheet", form="sheet", length="800", width="400", thickness="6.2")
    made = made.opening("B", "C", 2, widths="428", heights="696").fronts("G", opening="B")
    made = made.put(Piece, "old", form="sheet", batch="old", length="700", width="400", thickness="6.2")
    made = made.put(Laid, "1", size="sheet").put(LaidPart, "a", laid="1", part="F-P", along="0", across="0")
    assert bought(made, "sheet").count == 2
    assert "old" not in {one.piece for one in bill(made).pull}


def test_hinges_pulls_and_bumpers_are_bought_less_what_is_on_hand() -> None:
    made = hinged(PLAIN, name="Cup hinge").look(pulls=1)
    made = made.put(SupplierSize, "box", form="hardware", what="hinge", pack=10, price="31")
    hinge = bought(made, "hinge")
    assert (hinge.count, hinge.amount, hinge.cost) == (1, Fraction(2), Fraction(3100))
    assert bought(made, "bumper").count == 2
    lots = [HardwareLot("1", what="hinge", count=1), HardwareLot("2", what="Pull", count=5)]
    left = {one.what: one.amount for one in billed_whole(made.plan, lots=lots).purchases}
    assert left["hinge"] == 1
    assert "pull" not in left


def test_glass_is_bought_by_the_pane_and_lacks_in_the_stock_bill_until_it_is_measured() -> None:
    made = GLAZED
    pane = bought(made, "glass")
    size = [figure.length for figure in (pane.length, pane.width) if figure is not None]
    (part,) = [part for part in made.plan.making.parts if part.material == "glass"]
    assert size == [part.length.length, part.width.length]
    assert (pane.count, pane.measure, pane.cost) == (1, "m2", None)
    (line,) = [one for one in bill(made).lines if one.line.form == "glass"]
    assert line.lacks == pane.amount == line.line.rough
    sold = made.put(SupplierSize, "float", form="supplies", what="glass", price="50", per="content")
    assert bought(sold, "glass").cost == 5000 * pane.amount
    assert bought(made.put(SupplierSize, "pane", form="supplies", what="glass", price="12"), "glass").cost == 1200
    there = made.put(AsBuilt, "pane", of=part.id, what="length", value="500")
    assert not [one for one in bill(there).purchases if one.what == "glass"]
    (line,) = [one for one in bill(there).lines if one.line.form == "glass"]
    assert line.lacks == 0


def test_every_line_of_the_purchase_list_is_a_line_that_lacks_and_the_other_way_round() -> None:
    made = hinged(GLAZED, name="Cup hinge").look(pulls=1)
    whole = bill(made)
    bought_forms = {one.what for one in whole.purchases}
    assert bought_forms == {one.line.form for one in whole.lines if one.lacks}
    assert {"board", "glass", "hinge", "pull", "bumper", "finish"} <= bought_forms
    amounts = {one.what: one.amount for one in whole.purchases}
    lacks = {one.line.form: one.lacks for one in whole.lines}
    for form in ("glass", "hinge", "pull", "bumper", "finish"):
        assert lacks[form] == amounts[form]


def test_finish_is_one_batch_by_area_and_coats() -> None:
    """F70: 2 × 448 × 716 + 2 × (448 + 716) × 20 = 0.688 m2; three coats at 10 m2/l and 15 %: 0.24 l"""
    assert bill(PLAIN).finish_area == Fraction(2 * 448 * 716 + 2 * (448 + 716) * 20, 10**6)
    finish = bought(PLAIN.put(SupplierSize, "tin", form="supplies", what="finish", holds="0.1", price="9"), "finish")
    assert finish.amount == bill(PLAIN).finish_area * 3 / 10 * Fraction("1.15")
    assert (finish.count, finish.cost) == (3, Fraction(2700))


def test_glue_is_bought_by_its_mass() -> None:
    """F62: the panel's area at 180 g/m2 a line, two lines"""
    made = paneled(PLAIN)
    grams = sum(one.glue_grams for one in made.plan.veneer.pressings)
    assert bought(made, "glue").amount * 1000 == grams


def test_a_price_says_what_it_rests_on() -> None:
    kinds = {kind for kind, _ in provisos(SOLD)}
    assert {"no rate", "no hours", "no handling", "no reserve", "no price", "waste", "usual size"} <= kinds
    told = SOLD.put(Pricing, "pricing", rate="55", handling="0", reserve="0").put(Operation, "frame", each="1")
    assert not {"no rate", "no hours", "no handling", "no reserve"} & {kind for kind, _ in provisos(told)}


def test_a_quote_carries_unread_readings_and_open_findings_as_conditions() -> None:
    made = SOLD.put(Piece, "thin", **{**BOARD, "thickness": "21"})
    plan = made.plan
    offer = quoted(plan, billed_whole(plan))
    assert ("not read", "diagonals: A") in {(one.kind, one.of) for one in offer.conditions}
    assert ("assumed", "F") in {(one.kind, one.of) for one in quoted(door().plan, billed_whole(door().plan)).conditions}
    assert offer.total == billed_whole(plan).costs.total

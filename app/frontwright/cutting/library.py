"""One plain call of the packing library, as anybody would make it; it is run only in a process that can be ended."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from frontwright.cutting.asking import is_boards
from frontwright.cutting.counting import plan_of
from frontwright.cutting.patterns import Boards, Pattern, boards_of, layouts_of
from frontwright.cutting.values import Layout, Order, Placed, Plan

_OBJECTIVES = {
    "cheapest": "VariableSizedBinPacking",
    "most value": "Knapsack",
    "shortest": "OpenDimensionY",
    "best leftover": "BinPackingWithLeftovers",
}


def plain(
    order: Order, seconds: float, report: Callable[[Plan], None] | None = None, deep: bool = False
) -> Plan | None:
    """The library's plan with its own settings (three turns of the cut); None where it has none or knows no such rule.

    `deep`: any number of turns, which on one piece to be filled is its strongest way, and may end late. Batches,
    grades and pinned parts it does not know. `report` hears its better plans as they come.
    """
    kinds = {(stock.grade, stock.batch) for stock in order.stock}
    if order.pinned or not order.guillotine or seconds <= 0:
        return None
    if len(kinds) > 1 and any(w.grade or w.group for w in order.wanted):
        return None
    return _boards(order, seconds, report) if is_boards(order) else _sheets(order, seconds, report, deep)


def _boards(order: Order, seconds: float, report: Callable[[Plan], None] | None) -> Plan | None:
    from packingsolver import Objective
    from packingsolver import onedimensional as library

    boards = boards_of(order)
    builder = library.InstanceBuilder()
    one_price = len({board.price for board in boards.boards}) == 1 and len(boards.boards) == 1
    builder.set_objective(Objective.BinPacking if one_price else Objective.VariableSizedBinPacking)
    for board in boards.boards:
        builder.add_bin_type(board.room, cost=board.price, copies=_copies(order, board.copies))
    for length, count in zip(boards.lengths, boards.demand, strict=True):
        builder.add_item_type(int(length), copies=int(count))
    return _run(library, builder, seconds, report, lambda told: _board_plan(order, boards, told))


def _board_plan(order: Order, boards: Boards, told: Any) -> Plan:
    import numpy as np

    cut = []
    for n in range(told.number_of_different_bins()):
        one = told.bin(n)
        counts = np.zeros(len(boards.lengths), np.int64)
        for item in one.items:
            counts[item.item_type_id] += 1
        cut.append((Pattern(one.bin_type_id, counts), one.copies))
    return plan_of(order, layouts_of(order, boards, cut))


def _sheets(order: Order, seconds: float, report: Callable[[Plan], None] | None, deep: bool) -> Plan | None:
    from packingsolver import Objective
    from packingsolver import rectangleguillotine as library

    builder = library.InstanceBuilder()
    several = len({(s.width, s.height, s.cost) for s in order.stock}) > 1
    builder.set_objective(getattr(Objective, _objective(order, several)))
    if deep and order.saw.levels is None:
        builder.set_number_of_stages_unlimited()
    else:
        builder.set_number_of_stages(min(3, order.saw.levels or 3))
    ways = {None: "Any", "along": "Horizontal", "across": "Vertical"}
    builder.set_first_stage_orientation(getattr(library.CutOrientation, ways[order.saw.first]))
    builder.set_cut_thickness(order.saw.kerf)
    for n, stock in enumerate(order.stock):
        left, right, bottom, top = stock.trims
        trims = {"left_trim": left, "right_trim": right, "bottom_trim": bottom, "top_trim": top}
        cost = 1.0 if order.wish == "fewest" else float(stock.cost)
        copies = 1 if order.wish in ("shortest", "most value") else _copies(order, stock.copies)
        builder.add_bin_type(stock.width, stock.height, cost=cost, copies=copies, trims=trims)
        for defect in stock.defects:
            builder.add_defect(n, defect.x, defect.y, defect.width, defect.height)
    for wanted in order.wanted:
        profit = float(wanted.value) if order.wish == "most value" else None
        builder.add_item_type(
            wanted.width, wanted.height, oriented=not wanted.turns, copies=wanted.copies, **_given(profit=profit)
        )
    return _run(library, builder, seconds, report, lambda told: _sheet_plan(order, told))


def _objective(order: Order, several: bool) -> str:
    if order.wish == "fewest":
        return "VariableSizedBinPacking" if several else "BinPacking"
    return _OBJECTIVES[order.wish]


def _given(**words: float | None) -> dict[str, float]:
    return {name: value for name, value in words.items() if value is not None}


def _copies(order: Order, copies: int | None) -> int:
    return sum(wanted.copies for wanted in order.wanted) if copies is None else copies


def _sheet_plan(order: Order, told: Any) -> Plan:
    layouts = []
    for n in range(told.number_of_different_bins()):
        one = told.bin(n)
        placed = [
            Placed(node.item_type_id, node.l, node.b, node.r - node.l, node.t - node.b)
            for node in one.nodes
            if node.f >= 0 and node.item_type_id >= 0
        ]
        layouts.append(Layout(one.nodes[0].item_type_id, tuple(placed), one.copies))
    return plan_of(order, layouts)


def _run(
    library: Any, builder: Any, seconds: float, report: Callable[[Plan], None] | None, plan: Callable[[Any], Plan]
) -> Plan | None:
    parameters = library.OptimizeParameters()
    parameters.time_limit = seconds
    parameters.verbosity_level = 0

    def heard(output: Any) -> None:
        best = _solution(output)
        if report is not None and best.number_of_items() and best.feasible():
            report(plan(best))

    if report is not None:
        parameters.new_solution_callback = heard
    best = _solution(library.optimize(builder.build(), parameters))
    return plan(best) if best.number_of_items() else None


def _solution(output: Any) -> Any:
    return output.solution() if callable(output.solution) else output.solution

"""A layout pushed together: equal strips and lengths beside each other, the longest first, the rest at one end."""

from __future__ import annotations

from collections.abc import Sequence

from frontwright.cutting.checker import first_fault, split
from frontwright.cutting.counting import plan_of, rank, usable
from frontwright.cutting.values import Layout, Order, Placed, Plan


def tidied(order: Order, plan: Plan) -> Plan:
    """The plan with its layouts pushed together where that is no worse; defects and pins let a piece stay as it is."""
    if not order.guillotine or not plan.layouts:
        return plan
    pinned = {pin.stock for pin in order.pinned}
    layouts = [
        layout
        if order.stock[layout.stock].defects or order.stock[layout.stock].id in pinned
        else _pushed(order, layout)
        for layout in plan.layouts
    ]
    made = plan_of(order, layouts, plan.bound)
    return made if rank(order, made) <= rank(order, plan) and first_fault(order, made) is None else plan


def _pushed(order: Order, layout: Layout) -> Layout:
    box, kerf = usable(order.stock[layout.stock]), order.saw.kerf
    across = _begins_across(order, layout)
    try:
        placed, _, _ = _block(layout.placed, across, kerf)
    except ValueError:
        return layout
    moved = tuple(Placed(p.item, p.x + box.x, p.y + box.y, p.width, p.height) for p in placed)
    return Layout(layout.stock, moved, layout.copies)


def _begins_across(order: Order, layout: Layout) -> bool:
    """The direction of the first cuts: as the saw must, else the one that makes more strips."""
    if order.saw.first:
        return order.saw.first == "across"
    kerf = order.saw.kerf
    return len(split(layout.placed, kerf, across=True)) > len(split(layout.placed, kerf, across=False))


def _block(parts: Sequence[Placed], across: bool, kerf: int) -> tuple[list[Placed], int, int]:
    """Parts pushed to the lower left corner: where they lie, and the width and height they take."""
    if len(parts) == 1:
        part = parts[0]
        return [Placed(part.item, 0, 0, part.width, part.height)], part.width, part.height
    groups = split(parts, kerf, across)
    if len(groups) == 1:
        across = not across
        groups = split(parts, kerf, across)
        if len(groups) == 1:
            raise ValueError("not cuttable from edge to edge")
    blocks = [_block(group, not across, kerf) for group in groups]
    blocks.sort(key=lambda b: (-b[1], -b[2]) if across else (-b[2], -b[1]))
    placed, at = list[Placed](), 0
    for inner, width, height in blocks:
        x, y = (at, 0) if across else (0, at)
        placed += [Placed(p.item, p.x + x, p.y + y, p.width, p.height) for p in inner]
        at += (width if across else height) + kerf
    width, height = max(b[1] for b in blocks), max(b[2] for b in blocks)
    return (placed, at - kerf, height) if across else (placed, width, at - kerf)

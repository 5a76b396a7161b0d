"""Layouts, the question of enough, and the bill, in the form that other programs read.

Lengths are exact strings in the job's unit, contents and money decimals as strings (money in whole units of the shop's
currency, two places), counts numbers. What does not apply is None.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from frontwright.core.bill.measures import in_the_other
from frontwright.core.bill.result import Costs, Hours, Proviso, Pull, Purchase, WholeBill
from frontwright.core.bill.whole import Quote
from frontwright.core.lengths import Length, Unit, decimal, exact_text
from frontwright.core.plan import Plan, asked, quoted
from frontwright.core.stock.layouts import contents
from frontwright.core.stock.result import Buy, Candidate, Condition, Enough, GroupAnswer, LayoutPlan, Remainder
from frontwright.core.veneer.nesting import StripLeaf

type Row = dict[str, object]
PLACES = {"in": 3, "mm": 6}


def stock_sections(plan: Plan, bill: WholeBill) -> Row:
    """The keys `layouts`, `strip_leaves`, `enough` and `bill` of the figures."""
    unit = plan.job.heading.unit
    return {
        "layouts": [_layout(plan, layout, unit) for layout in plan.stock.layouts],
        "strip_leaves": [_strip_leaf(use, leaf, unit) for use, leaf in plan.veneer.nests],
        "enough": _enough(asked(plan), unit),
        "bill": _bill(bill, quoted(plan, bill), unit),
    }


def _text(length: Length | None, unit: Unit) -> str | None:
    return None if length is None else exact_text(length, unit)


def _money(cents: Fraction | int | None) -> str | None:
    return None if cents is None else decimal(Fraction(cents) / 100, 2)


def _layout(plan: Plan, layout: LayoutPlan, unit: Unit) -> Row:
    solid = not layout.group.startswith(("sheet", "core"))
    measure = {("in", True): "board feet", ("in", False): "square feet", ("mm", True): "m3", ("mm", False): "m2"}
    return {
        "id": layout.id,
        "piece": layout.laid.piece,
        "size": layout.laid.size,
        "group": layout.group,
        "length": _text(layout.offer.length, unit),
        "width": _text(layout.offer.width, unit),
        "thickness": _text(layout.thickness, unit),
        "kerf": _text(layout.kerf, unit),
        "trims": [_text(trim, unit) for trim in layout.offer.trims],
        "valid": layout.valid,
        "cuts_done": layout.cuts,
        "parts": [
            {
                "part": part.part,
                "number": part.number,
                "along": _text(part.along, unit),
                "across": _text(part.across, unit),
                "length": _text(part.length, unit),
                "width": _text(part.width, unit),
                "turned": part.turned,
                "pinned": part.pinned,
                "cut": part.cut,
            }
            for part in layout.parts
        ],
        "remainders": [_remainder(one, unit) for one in layout.remainders],
        "content": {name: decimal(value, PLACES[unit]) for name, value in contents(plan.index, layout).items()},
        "measure": measure[unit, solid],
        "faults": [
            {"kind": one.kind, "part": one.part, "other": one.other, "by": _text(one.by, unit)} for one in layout.faults
        ],
    }


def _remainder(one: Remainder, unit: Unit) -> Row:
    return {
        "letter": one.letter,
        "along": _text(one.along, unit),
        "across": _text(one.across, unit),
        "length": _text(one.length, unit),
        "width": _text(one.width, unit),
        "form": one.form,
        "keep": one.keep,
        "reason": one.reason,
        "until": one.until,
        "value": _money(one.value),
    }


def _strip_leaf(use: str, leaf: StripLeaf, unit: Unit) -> Row:
    widths = [_text(row.width, unit) for row in leaf.rows]
    return {"for": use, "rows": [[strip.id for strip in row.strips] for row in leaf.rows], "widths": widths}


def _enough(answer: Enough, unit: Unit) -> Row:
    return {
        "question": answer.question,
        "answer": answer.answer,
        "groups": [_group(one, unit) for one in answer.groups],
    }


def _group(one: GroupAnswer, unit: Unit) -> Row:
    return {
        "group": one.group.id,
        "form": one.group.form,
        "species": one.group.species,
        "thickness": exact_text(one.group.thickness.value, unit),
        "answer": one.answer,
        "need": one.need,
        "have": one.have,
        "uses": [{"piece": use.piece, "count": use.count, "parts": list(use.parts)} for use in one.uses],
        "refused": [_refused(candidate, unit) for candidate in one.refused],
        "conditions": [_condition(condition, unit) for condition in one.conditions],
        "short": dict(one.short),
        "buy": [_buy(buy, unit) for buy in one.buy],
    }


def _refused(candidate: Candidate, unit: Unit) -> Row:
    reasons = [_facts(one.facts) | {"kind": one.kind, "by": _text(one.by, unit)} for one in candidate.refusals]
    return {"piece": candidate.piece.id, "why": reasons}


def _facts(facts: Mapping[str, str | Fraction]) -> Row:
    return {name: value if isinstance(value, str) else decimal(value, 2) for name, value in facts.items()}


def _condition(one: Condition, unit: Unit) -> Row:
    return {"kind": one.kind, "of": one.of, "by": _text(one.by, unit), "still": one.still}


def _buy(buy: Buy, unit: Unit) -> Row:
    return {
        "size": buy.size or None,
        "supplier": buy.supplier,
        "form": buy.form,
        "length": exact_text(buy.length.value, unit),
        "width": exact_text(buy.width.value, unit),
        "thickness": exact_text(buy.thickness.value, unit),
        "count": buy.count,
        "content": decimal(buy.content, PLACES[unit]),
        "cost": _money(buy.cost),
        "days": buy.days,
        "parts": list(buy.parts),
    }


def _bill(bill: WholeBill, offer: Quote, unit: Unit) -> Row:
    return {
        "pull": [_pull(one) for one in bill.pull],
        "buy": [_purchase(one, unit) for one in bill.purchases],
        "hours": [_hours(one) for one in bill.hours],
        "finish_area": decimal(bill.finish_area, 2),
        "costs": _costs(bill.costs),
        "keep": [{"layout": layout, "letter": one.letter} for layout, one in bill.kept],
        "quote": {
            "currency": offer.currency,
            "lines": [{"what": line.what, "cost": _money(line.cost)} for line in offer.lines],
            "total": _money(offer.total),
            "conditions": [_proviso(one) for one in offer.conditions],
        },
    }


def _pull(one: Pull) -> Row:
    return {
        "shelf": one.shelf,
        "piece": one.piece,
        "form": one.form,
        "species": one.species,
        "batch": one.batch,
        "count": one.count,
        "for": list(one.of),
    }


def _purchase(one: Purchase, unit: Unit) -> Row:
    sizes = {"length": one.length, "width": one.width, "thickness": one.thickness}
    row: Row = {
        "supplier": one.supplier,
        "size": one.size or None,
        "what": one.what,
        "name": one.name,
        "count": one.count,
        "amount": decimal(one.amount, PLACES[unit]),
        "measure": one.measure,
        **other_content(one.amount, one.measure),
        "cost": _money(one.cost),
        "days": one.days,
    }
    return row | {name: None if figure is None else exact_text(figure.value, unit) for name, figure in sizes.items()}


def other_content(amount: Fraction | None, measure: str) -> Row:
    """The same content in the measure of the other system, None for what is counted."""
    other = in_the_other(amount, measure)
    if other is None:
        return {"other_content": None, "other_measure": None}
    return {"other_content": decimal(other.amount, 6), "other_measure": other.measure}


def _hours(one: Hours) -> Row:
    return {
        "operation": one.operation,
        "name": one.name,
        "count": one.count,
        "minutes": decimal(one.minutes, 2),
        "spent": None if one.spent is None else decimal(one.spent, 2),
    }


def _costs(costs: Costs) -> Row:
    return {
        "currency": costs.currency,
        "material": _money(costs.material),
        "waste": decimal(costs.waste, 4),
        "waste_is": costs.waste_is,
        "hardware": _money(costs.hardware),
        "handling": decimal(costs.handling, 4),
        "hours": decimal(costs.hours, 2),
        "rate": _money(costs.rate),
        "reserve": decimal(costs.reserve, 4),
        "lines": [
            {"what": line.what, "of": line.of, "cost": _money(cost)}
            for line, cost in zip(costs.lines, costs.told, strict=True)
        ],
        "total": _money(costs.total),
    }


def _proviso(one: Proviso) -> Row:
    return {"kind": one.kind, "of": one.of, "value": None if one.value is None else decimal(one.value, 4)}

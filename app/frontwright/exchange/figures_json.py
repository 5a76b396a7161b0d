"""Everything derived of a job in the form that other programs read: `frontwright-figures`, version 1.

Lengths are strings, exact in the job's unit: a decimal, or a fraction `a/b` where the decimal would not end. Roots and
limits are decimals of six places, half up. Masses, contents and all that is told for the eye alone are decimals. What
does not apply is None. Keys may be added later; none is ever renamed.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from frontwright.core.bill.result import Covered
from frontwright.core.figures import Figure
from frontwright.core.findings import Check, Fact, WayOut
from frontwright.core.fronts.result import FrontPlan, RowPlan, Sum
from frontwright.core.hardware.result import CupPlan
from frontwright.core.lengths import UNITS_IN, Exact, Unit, decimal, exact_text, in_units, six_places
from frontwright.core.making.result import Chain, Dowels, FrontMaking, PanelPart, Part, Proof, SetUp
from frontwright.core.plan import Plan, billed_whole
from frontwright.core.survey.result import Closure, MemberPlan, OpeningPlan
from frontwright.core.veneer.result import BilletYield
from frontwright.exchange.figures_condition import condition_sections
from frontwright.exchange.figures_facing import facing_sections
from frontwright.exchange.figures_hardware import hardware_sections
from frontwright.exchange.figures_site import site_sections
from frontwright.exchange.figures_stock import other_content, stock_sections

type Row = dict[str, object]
type Sentence = Callable[[Check], str]

SIDES = ("left", "right", "top", "bottom")
MASS_PLACES = 3
CONTENT_PLACES = {"in": 3, "mm": 6}  # board feet and square feet; cubic and square metres


def figures(plan: Plan, sentence: Sentence | None = None) -> Row:
    """The figures of a plan as plain values: `format`, `version`, `unit`, and a list of rows a section.

    `sentence`, where given, says each open check in words; it is then the key `text` of that check.
    """
    unit = plan.job.heading.unit
    survey, fronts, made = plan.survey, plan.fronts, list(plan.making.fronts.values())
    bill = billed_whole(plan)
    return {
        "format": "frontwright-figures",
        "version": 1,
        "unit": unit,
        "members": [_member(m, unit) for run in survey.runs for m in (*run.members, *run.rails)],
        "openings": [_opening(opening, unit) for run in survey.runs for opening in run.openings],
        "closures": [_closure(closure, unit) for run in survey.runs for closure in run.closures],
        "sums": [_sum(each, unit) for each in fronts.sums],
        "fronts": [_front(front, plan.making.fronts.get(front.id), unit) for front in fronts.fronts.values()],
        "sights": [row for each in made for row in _sights(each, unit)],
        "parts": [_part(part, unit) for part in plan.making.parts],
        "panels": [_panel(panel, unit) for each in made for panel in each.panels],
        "rows": [_row(row, unit) for row in fronts.rows],
        "chains": [_chain(each.chain, unit) for each in made if each.chain],
        "dowels": [_dowels(dowels, unit) for each in made for dowels in each.dowels],
        "cups": [_cup(cup, unit) for cup in plan.hardware.cups.values()],
        "proofs": [_proof(proof, unit) for each in made for proof in each.proofs],
        "set_ups": [_set_up(each, unit) for each in plan.making.set_ups],
        "leaves": [
            {"for": leaf.use, "length": _length(leaf.length, unit), "count": leaf.count, "spares": leaf.spares}
            for leaf in plan.veneer.leaves
        ],
        "billets": [_billet(billet, unit) for billet in plan.veneer.billets],
        "strips": [
            {"id": strip.id, "on": strip.on, "order": strip.order}
            | _lengths(strip, ("length", "width", "thickness", "rough_length", "rough_width"), unit)
            for strip in plan.facing.strips
        ],
        **condition_sections(plan),
        **facing_sections(plan),
        **hardware_sections(plan),
        **site_sections(plan),
        "stock": [_stock(one, unit) for one in bill.lines],
        **stock_sections(plan, bill),
        "checks": [_check(check, unit, sentence) for check in plan.checks],
    }


def figures_json(plan: Plan, sentence: Sentence | None = None) -> str:
    """`figures` as JSON text, one row a line, ending in a line feed."""
    return as_text(figures(plan, sentence))


def findings_json(plan: Plan, sentence: Sentence | None = None) -> str:
    """The open checks alone, as `{"findings": [...]}`."""
    unit = plan.job.heading.unit
    return as_text({"findings": [_check(check, unit, sentence) for check in plan.checks if check.is_open]})


def as_text(sections: Mapping[str, object]) -> str:
    """JSON of sections, each row of a list on a line of its own."""
    return "{\n" + ",\n".join(f" {json.dumps(key)}: {_section(value)}" for key, value in sections.items()) + "\n}\n"


def _section(value: object) -> str:
    if not isinstance(value, list) or not value:
        return json.dumps(value, ensure_ascii=False)
    return "[\n" + ",\n".join(f"  {json.dumps(row, ensure_ascii=False)}" for row in value) + "\n ]"


def _length(figure: Figure | None, unit: Unit) -> str | None:
    return None if figure is None else exact_text(figure.value, unit)


def _list(figures: Iterable[Figure], unit: Unit) -> list[object]:
    return [exact_text(figure.value, unit) for figure in figures]


def _root(length: Exact | None, unit: Unit) -> str | None:
    return None if length is None else six_places(length, unit)


def _lengths(of: object, names: tuple[str, ...], unit: Unit) -> Row:
    """Figures of a result by the names that they have there and here alike."""
    return {name: _length(getattr(of, name), unit) for name in names}


def _member(member: MemberPlan, unit: Unit) -> Row:
    centre = Fraction(in_units(member.left.value) + in_units(member.right.value)) / 2
    return (
        {"id": member.id, "kind": member.member.kind, "centre": exact_text(centre, unit)}
        | _lengths(member, SIDES, unit)
    )  # fmt: skip


def _opening(opening: OpeningPlan, unit: Unit) -> Row:
    names = ("width_least", "width_middle", "width_most", "height_least", "height_most", "lean")
    return (
        {"id": opening.id}
        | _lengths(opening, names, unit)
        | {
            "square_diagonal": six_places(opening.square_diagonal, unit),
            "second_diagonal_predicted": _root(opening.second_predicted, unit),
            "second_diagonal_residual": _root(opening.second_residual, unit),
        }
    )


def _closure(closure: Closure, unit: Unit) -> Row:
    return (
        {"run": closure.run, "at": closure.at}
        | _lengths(closure, ("sum", "overall", "error"), unit)
        | {"limit": six_places(closure.limit, unit), "readings": closure.readings}
    )


def _sum(each: Sum, unit: Unit) -> Row:
    return (
        {"of": list(each.of), "terms": _list(each.terms, unit)}
        | _lengths(each, ("total", "equals"), unit)
        | {"run": each.run, "direction": each.direction}
    )


def _front(front: FrontPlan, made: FrontMaking | None, unit: Unit) -> Row:
    edges: Row = _lengths(front, SIDES, unit) if front.placed else dict.fromkeys(SIDES)
    return (
        {"id": front.id, "kind": front.front.kind, "opening": front.opening}
        | edges
        | _lengths(front, ("width", "height"), unit)
        | {
            "hinge_side": front.hinge_side,
            "overlay": {side: _length(front.overlay.get(side), unit) for side in SIDES},
            "least_cover": _length(front.least_cover, unit),
            "mass": decimal(made.mass.units, MASS_PLACES) if made else None,
            "grain": front.grain,
            "assumed": front.width.rests or front.height.rests,
        }
    )


def _sights(made: FrontMaking, unit: Unit) -> Iterator[Row]:
    if made.sight_width is not None and made.sight_height is not None:
        yield {
            "front": made.front,
            "width": _length(made.sight_width, unit),
            "height": _length(made.sight_height, unit),
        }


def _part(part: Part, unit: Unit) -> Row:
    names = ("length", "width", "thickness", "rough_length", "rough_width")
    return (
        {"id": part.id, "front": part.front, "kind": part.kind, "qty": part.qty}
        | _lengths(part, names, unit)
        | {"species": part.species, "assumed": part.length.rests or part.width.rests or part.thickness.rests}
    )


def _panel(panel: PanelPart, unit: Unit) -> Row:
    return {
        "front": panel.front,
        "part": panel.part,
        "along_grain": _length(panel.along, unit),
        "across_grain": _length(panel.across, unit),
        "grain": panel.grain,
        "leaves_across": panel.leaves_across,
        "joints": None if panel.joints is None else _list(panel.joints, unit),
    } | _lengths(panel, ("thickness", "core_along", "core_across", "leaf_length", "outer_visible"), unit)


def _row(row: RowPlan, unit: Unit) -> Row:
    names = ("blank_length", "blank_width", "gap", "kerf", "trim", "movement")
    return {"id": row.row.id, "fronts": list(row.fronts)} | _lengths(row, names, unit)


def _chain(chain: Chain, unit: Unit) -> Row:
    names = ("slice", "glued", "pressed", "veneer_left", "panel", "rabbet_depth", "rabbet_width", "tongue", "lip")
    return {"of": chain.of} | _lengths(chain, names, unit)


def _dowels(dowels: Dowels, unit: Unit) -> Row:
    return {"front": dowels.front, "rail": dowels.rail, "from_outer_edge": _list(dowels.from_outer_edge, unit)}


def _cup(cup: CupPlan, unit: Unit) -> Row:
    return {"front": cup.front} | _lengths(
        cup, ("far_edge", "limit", "centre", "floor_left", "diameter", "depth"), unit
    )


def _proof(proof: Proof, unit: Unit) -> Row:
    def side(terms: tuple[tuple[int, Figure], ...]) -> list[object]:
        return [
            {"times": times, "what": figure.name, "value": exact_text(figure.value, unit)} for times, figure in terms
        ]

    return {
        "front": proof.front,
        "kind": proof.kind,
        "left": side(proof.left),
        "right": side(proof.right),
        "agrees": proof.agrees,
    }


def _set_up(each: SetUp, unit: Unit) -> Row:
    return {
        "work": each.work,
        "setting": _length(each.setting, unit),
        "pieces": each.pieces,
        "parts": [part.id for part in each.parts],
    }


def _billet(billet: BilletYield, unit: Unit) -> Row:
    return (
        {"id": billet.id, "machine": billet.machine, "leaves": billet.leaves, "spare": billet.spare}
        | _lengths(billet, ("length", "width", "thickness", "slice", "loss", "keep_back", "rest", "tallest"), unit)
    )  # fmt: skip


def _stock(one: Covered, unit: Unit) -> Row:
    line = one.line

    def content(number: Fraction | int | None) -> str | None:
        return None if number is None else decimal(number, CONTENT_PLACES[unit])

    return {
        "form": line.form,
        "species": line.species,
        "thickness": _length(line.thickness, unit),
        "width": _length(line.width, unit),
        "length": _length(line.length, unit),
        "qty": line.qty,
        "content": content(line.rough),
        "finished": content(line.finished),
        "measure": line.measure,
        **other_content(line.rough, line.measure),
        "at_hand": content(one.at_hand),
        "lacks": content(one.lacks),
    }


def _check(check: Check, unit: Unit, sentence: Sentence | None) -> Row:
    limit: object
    if isinstance(check.limit, tuple):
        limit = [_fact(each, unit, roots=check.roots) for each in check.limit]
    else:
        limit = _fact(check.limit, unit, roots=check.roots)
    row: Row = {
        "code": check.code,
        "where": list(check.where),
        "value": _fact(check.value, unit, roots=check.roots),
        "limit": limit,
        "level": check.level,
        "state": check.state,
        "ways_out": [_way(way, unit) for way in check.ways],
        "answer": check.answer,
    }
    return row | {"text": sentence(check)} if sentence and check.is_open else row


def _way(way: WayOut, unit: Unit) -> Row:
    return {"do": way.kind, "of": way.of, "field": way.field, "value": _fact(way.value, unit, roots=False)}


def _fact(fact: Fact | None, unit: Unit, *, roots: bool) -> str | None:
    if fact is None or isinstance(fact, str):
        return fact
    if isinstance(fact, int):
        return str(fact)
    return six_places(fact, unit) if roots and _is_long(fact, unit) else exact_text(fact, unit)


def _is_long(length: Exact, unit: Unit) -> bool:
    """Whether six places of the unit do not tell the length whole."""
    return (Fraction(in_units(length)) / UNITS_IN[unit] * 10**6).denominator != 1

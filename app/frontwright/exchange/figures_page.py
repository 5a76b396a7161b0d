"""Everything derived of a job as plain text for reading: one block a subject.

Lengths are shown to the job's step, thin ones to a finer one that tells them whole. A figure in (brackets) is assumed
or rests on something assumed; `~` stands before one that no usual step tells whole; a dash stands where nothing was
measured or nothing applies.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from frontwright.core.bill.measures import in_both
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.lengths import Display, decimal, finest, show
from frontwright.core.plan import Plan, screwed, sited
from frontwright.exchange.figures_json import MASS_PLACES, SIDES, Sentence

type Line = Sequence[str]
NOTHING = "-"
UNIT_WORDS = {"in": "inches", "mm": "millimetres"}


def figures_page(plan: Plan, sentence: Sentence) -> str:
    """The figures of a plan as text. `sentence` says an open check in words."""
    blocks = [f"{plan.job.heading.name or 'Job without a name'}, lengths in {UNIT_WORDS[plan.job.heading.unit]}"]
    for title, head, lines in _blocks(plan):
        table = list(lines)
        if table:
            blocks.append("\n".join([title, *_columns([head, *table])]))
    blocks.append(findings_page(plan.checks, sentence))
    return "\n\n".join(blocks) + "\n"


def findings_page(checks: Iterable[Check], sentence: Sentence) -> str:
    """The open checks, strongest first, a line each; or that there is none."""
    order = ("stop", "warn", "note", "ok")
    found = sorted((check for check in checks if check.is_open), key=lambda check: order.index(check.level))
    if not found:
        return "No findings."
    return "\n".join(
        ["Findings", *(f"  {check.level.upper():4}  {sentence(check)}{_answer(check)}" for check in found)]
    )


def _answer(check: Check) -> str:
    return f" Answered: {check.answer}" if check.answer else ""


def _blocks(plan: Plan) -> Iterator[tuple[str, Line, Iterable[Line]]]:
    """Title, head and lines of each block, in the order of the trade."""
    yield "Members", ("id", "kind", "left", "right", "across"), _members(plan)
    yield "Openings", ("id", "width", "most", "height", "most", "lean"), _openings(plan)
    yield "Closures", ("of", "sum", "overall", "error", "readings"), _closures(plan)
    yield "Surfaces", ("id", "finish", "state", "glued to", "what the glue meets"), _surfaces(plan)
    yield "Fronts", ("id", "kind", "width", "height", *SIDES, "hinges", "mass"), _fronts(plan)
    yield "Sums", ("of", "terms", "total", "overall"), _sums(plan)
    yield "Rows with the grain through", ("fronts", "blank", "gap", "kerf", "trim", "movement"), _rows(plan)
    yield "Parts", ("id", "kind", "qty", "length", "width", "thickness", "rough"), _parts(plan)
    yield "Panels", ("front", "along the grain", "across", "thickness", "grain", "leaves across"), _panels(plan)
    yield "Proofs", ("front", "of", "line", ""), _proofs(plan)
    yield "Chains of thickness", ("front", "slice", "glued", "pressed", "veneer left", "panel", "rabbet"), _chains(plan)
    yield "Dowels", ("front", "rail", "from the outer edge"), _dowels(plan)
    yield "Hinges", ("front", "count", "heights of their centres", "cover needed at each", "plates"), _hinges(plan)
    yield "Pulls", ("front", "pull", "from the height", "to", "screw"), _pulls(plan)
    yield "Cups", ("front", "centre", "far edge", "room", "floor left"), _cups(plan)
    yield "Set-ups", ("work", "setting", "pieces", "parts"), _set_ups(plan)
    yield "Strips and skins", ("id", "on", "length", "width", "thickness"), _strips(plan)
    yield "Leaves", ("for", "length", "count", "spares"), _leaves(plan)
    yield "Billets", ("saw", "length", "width", "thickness", "leaves", "rest"), _billets(plan)
    yield "Finish", ("recipe", "pieces", "area a coat", "coats", "amount", "rack taken, h", "hung from"), _finish(plan)
    yield "Hanging", ("run", "turn", "front", "how", "spacer"), _hanging(plan)
    yield "Stock", ("form", "species", "thickness", "pieces", "content"), _stock(plan)


def _members(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for run in plan.survey.runs:
        for m in run.members:
            yield m.id, m.member.kind, _seen(m.left, d), _seen(m.right, d), _seen(m.across, d)


def _openings(plan: Plan) -> Iterator[Line]:
    for opening in plan.survey.openings.values():
        sizes = (opening.width_least, opening.width_most, opening.height_least, opening.height_most, opening.lean)
        yield opening.id, *(_seen(figure, plan.display) for figure in sizes)


def _closures(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for run in plan.survey.runs:
        for each in (*run.closures, *run.column_closures.values()):
            place = f"{run.id}, {each.at}" if each.at else run.id
            yield place, *(_seen(f, d) for f in (each.sum, each.overall, each.error)), str(each.readings)


def _surfaces(plan: Plan) -> Iterator[Line]:
    for one in plan.condition.surfaces:
        told = "yes" if one.may_be_glued else "not as it is" if one.looked_at else "not looked at"
        found = (one.row.finish or NOTHING, one.row.state or NOTHING)
        yield one.id, *found, told if one.glued else NOTHING, one.ground


def _fronts(plan: Plan) -> Iterator[Line]:
    for front in plan.fronts.fronts.values():
        hinges = plan.hardware.hinges.get(front.id)
        made = plan.making.fronts.get(front.id)
        edges = (front.left, front.right, front.top, front.bottom) if front.placed else (None,) * 4
        yield (
            front.id,
            front.front.kind,
            _seen(front.width, plan.display),
            _seen(front.height, plan.display),
            *(_seen(edge, plan.display) for edge in edges),
            f"{hinges.count} {front.hinge_side or ''}".strip() if hinges else NOTHING,
            decimal(made.mass.units, MASS_PLACES) if made else NOTHING,
        )


def _sums(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for each in plan.fronts.sums:
        terms = " + ".join(_seen(term, d) for term in each.terms)
        yield " ".join(each.of), terms, _seen(each.total, d), _seen(each.equals, d)


def _rows(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for row in plan.fronts.rows:
        blank = f"{_seen(row.blank_length, d)} x {_seen(row.blank_width, d)}"
        yield " ".join(row.fronts), blank, *(_seen(f, d) for f in (row.gap, row.kerf, row.trim, row.movement))


def _parts(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for part in plan.making.parts:
        rough = [_seen(each, d) for each in (part.rough_length, part.rough_width) if each is not None]
        sizes = (_seen(part.length, d), _seen(part.width, d), _seen(part.thickness, d))
        yield part.id, part.kind, str(part.qty), *sizes, " x ".join(rough) or NOTHING


def _panels(plan: Plan) -> Iterator[Line]:
    for made in plan.making.fronts.values():
        for p in made.panels:
            sizes = (_seen(figure, plan.display) for figure in (p.along, p.across, p.thickness))
            yield p.front, *sizes, p.grain, _count(p.leaves_across)


def _proofs(plan: Plan) -> Iterator[Line]:
    for made in plan.making.fronts.values():
        for proof in made.proofs:
            line = f"{_side(proof.left, plan.display)} = {_side(proof.right, plan.display)}"
            yield proof.front, proof.kind, line, "agrees" if proof.agrees else "DOES NOT AGREE"


def _side(terms: Iterable[tuple[int, Figure]], display: Display) -> str:
    """One side of a proof: "2 x 2 1/4 + 9 5/8 - 2 x 3/8"."""
    text = ""
    for times, figure in terms:
        size = _seen(figure, display)
        sign = (" - " if times < 0 else " + ") if text else "-" if times < 0 else ""
        text += f"{sign}{size if abs(times) == 1 else f'{abs(times)} x {size}'}"
    return text


def _chains(plan: Plan) -> Iterator[Line]:
    for made in plan.making.fronts.values():
        if (c := made.chain) is not None:
            steps = (c.slice, c.glued, c.pressed, c.veneer_left, c.panel, c.rabbet_depth)
            yield c.of, *(_seen(figure, plan.display) for figure in steps)


def _dowels(plan: Plan) -> Iterator[Line]:
    for made in plan.making.fronts.values():
        for dowels in made.dowels:
            yield dowels.front, dowels.rail, _several(dowels.from_outer_edge, plan.display)


def _hinges(plan: Plan) -> Iterator[Line]:
    for hinge in plan.hardware.hinges.values():
        needs = _several(hinge.needs, plan.display) or NOTHING
        plates = ", ".join(use.name or "its own" for use in hinge.plates) or NOTHING
        yield hinge.front, str(hinge.count), _several(hinge.heights, plan.display), needs, plates


def _pulls(plan: Plan) -> Iterator[Line]:
    screws = screwed(plan)
    for pull in plan.hardware.places.values():
        screw = screws.get(pull.front)
        length = NOTHING if screw is None else _seen(screw.sold, plan.display)
        name = (pull.name if pull.chosen else "") or "(usual)"
        yield pull.front, name, _seen(pull.low, plan.display), _seen(pull.high, plan.display), length


def _cups(plan: Plan) -> Iterator[Line]:
    for cup in plan.hardware.cups.values():
        sizes = (cup.centre, cup.far_edge, cup.limit, cup.floor_left)
        yield cup.front, *(_seen(figure, plan.display) for figure in sizes)


def _set_ups(plan: Plan) -> Iterator[Line]:
    for each in plan.making.set_ups:
        parts = " ".join(part.id for part in each.parts)
        yield each.work, _seen(each.setting, plan.display), str(each.pieces), parts


def _strips(plan: Plan) -> Iterator[Line]:
    for strip in plan.facing.pieces:
        yield strip.id, strip.on, *(_seen(f, plan.display) for f in (strip.length, strip.width, strip.thickness))


def _leaves(plan: Plan) -> Iterator[Line]:
    for leaf in plan.veneer.leaves:
        yield leaf.use, _seen(leaf.length, plan.display), str(leaf.count), str(leaf.spares)


def _billets(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for billet in plan.veneer.billets:
        sizes = (_seen(figure, d) for figure in (billet.length, billet.width, billet.thickness))
        yield billet.machine, *sizes, str(billet.leaves), _seen(billet.rest, d)


def _stock(plan: Plan) -> Iterator[Line]:
    for line in plan.bill.lines:
        content = NOTHING if line.rough is None else in_both(line.rough, line.measure)
        yield line.form, line.species, _seen(line.thickness, plan.display), str(line.qty), content


def _seen(figure: Figure | None, display: Display) -> str:
    if figure is None:
        return NOTHING
    text = show(figure.value, finest(figure.value, display))
    return f"({text})" if figure.rests else text


def _several(figures: Iterable[Figure], display: Display) -> str:
    return ", ".join(_seen(figure, display) for figure in figures)


def _count(number: int | None) -> str:
    return NOTHING if number is None else str(number)


def _columns(table: list[Line]) -> Iterator[str]:
    widths = [max(len(line[n]) for line in table) for n in range(len(table[0]))]
    for line in table:
        yield "  " + "  ".join(text.ljust(width) for text, width in zip(line, widths, strict=True)).rstrip()


def _finish(plan: Plan) -> Iterator[Line]:
    for batch in plan.finish.batches:
        coats = sum(step.what == "coat" for step in batch.steps)
        amounts = (decimal(batch.area, 2), str(coats), decimal(batch.volume, 2), decimal(batch.waiting, 1))
        yield batch.name, str(len(batch.areas)), *amounts, f"day {batch.hang_day}"


def _hanging(plan: Plan) -> Iterator[Line]:
    for one in sited(plan).hanging:
        how = f"{one.how} {one.line}" if one.how == "on the line" else one.how
        yield one.run, str(one.number), one.front, how, _seen(one.spacer, plan.display)

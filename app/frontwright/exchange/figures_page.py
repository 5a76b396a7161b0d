"""Everything derived of a job as plain text for reading: one block a subject, lengths to the job's step.

A figure in (brackets) is assumed or rests on something assumed; `~` stands before one that is finer than the step; a
dash stands where nothing was measured or nothing applies.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.lengths import Display, decimal, show
from frontwright.core.plan import Plan
from frontwright.exchange.figures_json import CONTENT_PLACES, MASS_PLACES, SIDES, Sentence

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
    d = plan.display
    yield "Members", ("id", "kind", "left", "right", "across"), _members(plan)
    yield "Openings", ("id", "width", "most", "height", "most", "lean"), _openings(plan)
    yield "Fronts", ("id", "kind", "width", "height", *SIDES, "hinges", "mass"), _fronts(plan)
    yield "Sums", ("of", "terms", "total", "overall"), _sums(plan)
    yield "Parts", ("id", "kind", "qty", "length", "width", "thickness", "rough"), _parts(plan)
    yield (
        "Panels",
        ("front", "along the grain", "across", "thickness", "grain", "leaves across"),
        (
            (p.front, _seen(p.along, d), _seen(p.across, d), _seen(p.thickness, d), p.grain, _count(p.leaves_across))
            for made in plan.making.fronts.values()
            for p in made.panels
        ),
    )
    yield (
        "Hinges",
        ("front", "count", "heights of their centres"),
        ((h.front, str(h.count), _several(h.heights, d)) for h in plan.hardware.hinges.values()),
    )
    yield (
        "Strips and skins",
        ("id", "on", "length", "width", "thickness"),
        ((s.id, s.on, _seen(s.length, d), _seen(s.width, d), _seen(s.thickness, d)) for s in plan.facing.strips),
    )
    yield "Leaves", ("for", "length", "count"), ((f.use, _seen(f.length, d), str(f.count)) for f in plan.veneer.leaves)
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


def _parts(plan: Plan) -> Iterator[Line]:
    d = plan.display
    for part in plan.making.parts:
        rough = [_seen(each, d) for each in (part.rough_length, part.rough_width) if each is not None]
        sizes = (_seen(part.length, d), _seen(part.width, d), _seen(part.thickness, d))
        yield part.id, part.kind, str(part.qty), *sizes, " x ".join(rough) or NOTHING


def _stock(plan: Plan) -> Iterator[Line]:
    places = CONTENT_PLACES[plan.job.heading.unit]
    for line in plan.bill.lines:
        content = NOTHING if line.rough is None else f"{decimal(line.rough, places)} {line.measure}"
        yield line.form, line.species, _seen(line.thickness, plan.display), str(line.qty), content


def _seen(figure: Figure | None, display: Display) -> str:
    if figure is None:
        return NOTHING
    text = show(figure.value, display)
    return f"({text})" if figure.rests else text


def _several(figures: Iterable[Figure], display: Display) -> str:
    return ", ".join(_seen(figure, display) for figure in figures)


def _count(number: int | None) -> str:
    return NOTHING if number is None else str(number)


def _columns(table: list[Line]) -> Iterator[str]:
    widths = [max(len(line[n]) for line in table) for n in range(len(table[0]))]
    for line in table:
        yield "  " + "  ".join(text.ljust(width) for text, width in zip(line, widths, strict=True)).rstrip()

"""Sheet 4, filled survey: the run as read, every reading of its openings, closures, what was found and is assumed."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.lengths import Display
from frontwright.core.plan import Plan
from frontwright.core.survey.result import Closure, MemberPlan, OpeningPlan, RunPlan
from frontwright.sheets.base import Leaf, Page
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, text_band, title_band
from frontwright.sheets.run_frame import RunFrame, run_leaves
from frontwright.sheets.subjects import Shows, ends_told, run_ids, run_of, sheet
from frontwright.sheets.words import Part, exactly, figure, fit, length, strong, words, wrap

PICTURE, ROW = 84.0, 8.0
WIDTHS, HEIGHTS, DIAGONALS = ("top", "middle", "bottom"), ("left", "middle", "right"), ("\\", "/")
HEADS = (
    "opening",
    *(f"w {at}" for at in WIDTHS),
    *(f"h {at}" for at in HEIGHTS),
    "diag. \\",
    "diag. /",
    "lean",
    "read",
)


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every run."""
    return [_info(plan, run) for run in plan.survey.runs if run.members or run.openings]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The drawing and the readings; more pages for more openings."""
    run = run_of(plan, info.subject)
    if run is None:
        return []
    frame = RunFrame(
        run=run.id,
        title=f"{run.run.name or 'run'} as read, seen from the front",
        seen_from="front",
        drawing=survey_run(plan, run.id),
        picture=PICTURE,
        heads=HEADS,
        columns=_columns,
        bands=lambda width: list(_bands(plan, run, width)),
        big=True,
    )
    return run_leaves(frame, info, plan.display, paper, "4")


def _info(plan: Plan, run: RunPlan) -> SheetInfo:
    figures: list[tuple[str, Figure]] = []
    for member in (*run.members, *run.rails):
        figures += [(f"{side} of {member.id}", of) for side, of in _sides(member)]
    for opening in run.openings:
        figures += [(f"{what} of {opening.id}", of) for what, of in _readings(opening) if of is not None]
    for closure in run.closures:
        figures += [
            (f"sum at {closure.at or 'all'}", closure.sum),
            (f"overall at {closure.at or 'all'}", closure.overall),
        ]
    figures += [(f"lean of the wall at the {side} end", lean) for side, lean in run.wall_leans.items()]
    told = [("datum", run.run.datum)]
    told += [(f"kind of {m.id}", m.member.kind) for m in (*run.members, *run.rails)]
    told += ends_told(run)
    told += [("closure", "".join(map(str, _closure(c, plan.display)))) for c in _closures(run)]
    told += [(c.level, f"{c.code} of {' and '.join(c.where)}") for c in _open(plan, run)]
    shows = Shows(tuple(figures), tuple(told))
    return sheet(plan, "04", "survey", run.id, f"survey of run {run.id}", run_ids(run), shows)


def _closures(run: RunPlan) -> tuple[Closure, ...]:
    return (*run.closures, *run.column_closures.values())


def _open(plan: Plan, run: RunPlan) -> Iterator[Check]:
    """What was found on the run and is not settled."""
    for check in plan.survey.checks:
        if check.is_open and check.level in ("warn", "stop") and run_ids(run).intersection(check.where):
            yield check


def _sides(member: MemberPlan) -> tuple[tuple[str, Figure], ...]:
    if "rail" in member.member.kind:
        return ("lower edge", member.bottom), ("upper edge", member.top)
    return ("left edge", member.left), ("right edge", member.right)


def _readings(opening: OpeningPlan) -> Iterator[tuple[str, Figure | None]]:
    yield from zip((f"width {at}" for at in WIDTHS), opening.widths, strict=True)
    yield from zip((f"height {at}" for at in HEIGHTS), opening.heights, strict=True)
    yield from zip((f"diagonal {at}" for at in DIAGONALS), opening.diagonals, strict=True)
    yield "lean", opening.lean


def _bands(plan: Plan, run: RunPlan, width: float) -> Iterator[Band]:
    for opening in run.openings:
        yield _opening_band(opening, plan.display)
    if run.members:
        yield title_band(words(strong("Edges from the datum"), f"  {run.run.datum}", size=10.5))
        yield text_band(wrap(words(*_edges(run, plan.display), size=10), width), 5.0)
    for closure in _closures(run):
        yield text_band(wrap(words(*_closure(closure, plan.display), size=10), width), 5.0)
    for check in _open(plan, run):
        line = words(strong(check.level), f"  {check.code} of {' and '.join(check.where)}: look again.", size=10)
        yield text_band(wrap(line, width), 5.0)


def _opening_band(opening: OpeningPlan, display: Display) -> Band:
    cells = [words(*figure(of, display), size=11) if of else words("–", size=11) for _, of in _readings(opening)]

    def draw(page: Page, y: float) -> None:
        pen, x = page.pen, _columns(page)
        base = y + 5.9
        pen.words(x[0], base, fit(words(opening.id, size=12, bold=True), x[1] - x[0] - 2))
        for at, end, cell in zip(x[1:-1], x[2:], cells, strict=True):
            pen.words(at, base, fit(cell, end - at - 1.5))
        pen.words(x[-1], base, words(f"{opening.readings_taken} of 8", size=10))

    return Band(ROW, draw)


def _columns(page: Page) -> tuple[float, ...]:
    """Where each column begins."""
    step = (page.x1 - page.x0 - 24) / 10
    return (page.x0, *(page.x0 + 24 + number * step for number in range(10)))


def _edges(run: RunPlan, display: Display) -> Iterator[Part]:
    for number, member in enumerate((*run.members, *run.rails)):
        yield "; " if number else ""
        yield strong(member.id)
        for join, (_, of) in zip((" ", " to "), _sides(member), strict=True):
            yield join
            yield from figure(of, display)
    yield "."


def _closure(closure: Closure, display: Display) -> Iterator[Part]:
    yield strong("closure", f" at {closure.at}" if closure.at else "")
    yield from ("  members ", *exactly(closure.sum, display), ", overall ", *exactly(closure.overall, display))
    yield from (": differ by ", *exactly(closure.error, display), ", allowed ", length(closure.limit, display))
    yield f" for {closure.readings} readings"
    yield "." if abs(Fraction(closure.error.units)) <= closure.limit else ". Read again."

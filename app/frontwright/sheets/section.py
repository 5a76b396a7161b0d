"""Sheet 11, full-size corner section: stile, panel, rabbet or groove and cup, with a bar to measure."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.drawing.section import section
from frontwright.core.figures import Figure
from frontwright.core.lengths import Display
from frontwright.core.making.result import FrontMaking
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import inside
from frontwright.sheets.pen import OUTLINE, Pen
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.subjects import Shows, front_ids, sheet
from frontwright.sheets.words import finely, fit, strong, words

HEAD, ROW, BAR_HEIGHT, BOX = 18.0, 10.6, 20.0, 26.0
INCHES = 4 * 25.4


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every build that has a section, under the first of its fronts."""
    return [_info(plan, group) for group in _groups(plan)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """One page; the drawing at 1:1 unless it is wider than the paper."""
    group = next(group for group in _groups(plan) if group[0].front == info.subject)
    drawing = section(plan, info.subject)
    box = standing(info, plan.display)
    width, height = inside(paper)
    rows = list(_sizes(group[0]))
    room = height - HEAD - sentence_height(box, width) - ROW * len(rows) - 8 - BAR_HEIGHT
    placed = Placed(drawing, medium("bench")) if drawing else None
    n = placed.scale(width + 6, room) if placed else None

    def draw(page: Page) -> None:
        y = _head(page, group)
        y = page.sentence(y, box) if box else y
        low = page.bottom - ROW * len(rows) - 8 - BAR_HEIGHT
        if placed:
            placed.draw(page, page.x0 - 3, y, page.x1 - page.x0 + 6, low - y, n)
        bar(page.pen, page.x0, low + 10)
        _table(page, low + BAR_HEIGHT, plan.display, rows)

    return [Leaf(draw, f"11  {info.title}", (("seen from", "above"), ("scale", said_scale(n))))]


def bar(pen: Pen, x: float, y: float) -> None:
    """A bar of 100 mm and of 4 in: whoever measures it knows whether the printer kept the scale."""
    pen.line(x, y, x + INCHES, y, OUTLINE)
    for at in (0.0, 100.0, INCHES):
        pen.line(x + at, y - 3, x + at, y + 3)
    for at in (1, 2, 3):
        pen.line(x + at * 25.4, y, x + at * 25.4, y + 1.6)
    pen.words(x + 50, y - 1.6, words("100 mm and 4 in: measure me", size=9), "centre")


def _groups(plan: Plan) -> list[list[FrontMaking]]:
    """Fronts with a section that are built alike."""
    groups: dict[tuple[object, ...], list[FrontMaking]] = {}
    for made in plan.making.fronts.values():
        if made.slab or section(plan, made.front) is None:
            continue
        sizes = tuple(of.units for _, of in _sizes(made))
        hinged = made.front in plan.hardware.cups
        groups.setdefault((made.build.id, hinged, sizes), []).append(made)
    return list(groups.values())


def _info(plan: Plan, group: list[FrontMaking]) -> SheetInfo:
    first = group[0].front
    figures = tuple((f"{name} of {first}", of) for name, of in _sizes(group[0]))
    build = group[0].build
    figures += ((f"{build.engagement.name} of {first}", build.engagement), (f"clearance of {first}", build.clearance))
    cup = plan.hardware.cups.get(first)
    if cup:
        figures += ((f"cup of {first}", cup.diameter), (f"cup depth of {first}", cup.depth))
        figures += ((f"far edge of the cup of {first}", cup.far_edge),)
    told = (("fronts alike", ", ".join(made.front for made in group)), ("build", _build(group[0])))
    ids = {
        i for made in group if made.front in plan.fronts.fronts for i in front_ids(plan, plan.fronts.fronts[made.front])
    }
    return sheet(plan, "11", "section", first, f"corner section, {first}", ids, Shows(figures, told))


def _build(made: FrontMaking) -> str:
    return made.build.name or made.build.kind


def _sizes(made: FrontMaking) -> Iterator[tuple[str, Figure]]:
    """The sizes of the section, from the stile to what is left of the veneer."""
    chain = made.chain
    wanted = (
        ("thickness", made.build.thickness),
        ("stile", made.stile),
        ("panel thickness", made.panels[0].thickness if made.panels else None),
        ("rabbet width", made.rabbet_width),
        ("rabbet depth", made.rabbet_depth),
        ("groove width", made.groove_width),
        ("lip", chain.lip if chain else None),
        ("veneer left", chain.veneer_left if chain and made.build.panel.kind == "veneered" else None),
    )
    return ((name, of) for name, of in wanted if of is not None)


def _head(page: Page, group: list[FrontMaking]) -> float:
    pen, top = page.pen, page.top
    first = group[0]
    big = fit(words(first.front, size=34, bold=True), 46)
    x = page.x0 + pen.words(page.x0 - 0.6, top + 13.2, big) + 6
    line = words("corner section, full size, seen from above", size=12.5, bold=True)
    pen.words(x, top + 7.2, fit(line, page.x1 - x))
    alike = ", ".join(made.front for made in group[1:])
    kind = f"build: {_build(first)}"
    pen.words(x, top + 13.2, fit(words(kind, f"; alike: {alike}" if alike else "", size=10), page.x1 - x))
    page.rule(top + HEAD, OUTLINE)
    return top + HEAD


def _table(page: Page, y: float, display: Display, rows: list[tuple[str, Figure]]) -> None:
    pen = page.pen
    page.rule(y, OUTLINE)
    pen.words(page.x0, y + 5.2, words("size", size=9))
    pen.words(page.x0 + 60, y + 5.2, words("planned", size=9))
    pen.words(page.x1 - BOX, y + 5.2, words("it is", size=9))
    for number, (name, of) in enumerate(rows):
        top = y + 8 + number * ROW
        pen.line(page.left, top, page.right, top)
        pen.words(page.x0, top + 7.2, fit(words(strong(name), size=12.5), 56))
        pen.words(page.x0 + 60, top + 7.2, words(*finely(of, display), size=20, bold=True))
        pen.pencil(page.x1 - BOX, top + 1.2, BOX, ROW - 2.4)

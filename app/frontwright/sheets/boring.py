"""Sheet 19, boring sheet: doors from the back as they lie on the drill press, a cup in section, proofs, ticks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.drawing.boring import boring_view
from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.section import section
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.clear import OLD_PLATE
from frontwright.core.hardware.result import BoringPlan, HingePlan
from frontwright.core.lengths import Length, in_units
from frontwright.core.plan import Plan, bored
from frontwright.sheets import pull_card
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import inside
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.section import bar
from frontwright.sheets.subjects import Shows, front_ids, made_told, sheet
from frontwright.sheets.words import Part, Words, figure, finely, fit, strong, width_of, words, wrap

HEAD, SECTION, ROW = 19.0, 55.0, 12.0
AT_THE_PRESS = (
    "Hang the hinge on a bored scrap first. Back of the door up, hinge edge to the fence, work clamped, guard down, "
    "sleeves and hair tied back, eyes covered. Set the depth stop, bore, and look at the floor before the next one."
)
MIRRORED = " On the other door of the pair the two stops change places."
# letters of the heights, the smallest scale 1:n and the narrowest door on paper (mm) at which they have room
HEIGHT_FIGURES = ((20.0, 5, 54), (17.0, 5, 54), (15.0, 10, 36))
SMALL_FIGURES = 11.0
COUNTED = (
    "heights from the BOTTOM edge; below: from the hinge edge to the cup centre; beside the pull: from the nearer end"
)


@dataclass(frozen=True, slots=True)
class Group:
    """The doors of one opening, as they lie from the left: the right-hand one first."""

    name: str
    fronts: tuple[FrontPlan, ...]

    @property
    def pair(self) -> bool:
        return len(self.fronts) == 2


def infos(plan: Plan) -> list[SheetInfo]:
    """One for the doors of each opening, under the first of them; then the card of the pulls of each run."""
    borings = bored(plan)
    return [*(_info(plan, group, borings) for group in groups(plan, borings)), *pull_card.infos(plan)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """One page for each group of doors."""
    if info.subject not in plan.fronts.fronts:
        return pull_card.leaves(plan, info, paper)
    borings = bored(plan)
    group = next(group for group in groups(plan, borings) if group.fronts[0].id == info.subject)
    box = _box(plan, info, group, borings)
    width, height = inside(paper)
    press = wrap(words(_at_the_press(group), size=9, condensed=True), width - 26)
    under = 6 + SECTION + 4.3 * len(press) + 5 + ROW * len(group.fronts)
    room = height - HEAD - sentence_height(box, width) - under
    view = boring_view(plan, [f.id for f in group.fronts], borings)
    narrow = min(front.width.length for front in group.fronts)
    drawing, n = _largest(view, narrow, width + 8, room - 1)
    cut = section(plan, _section_of(group).id, bored=True)
    placed = Placed(cut, medium("bench")) if cut is not None else None
    own = placed.scale(_split(width), SECTION - 13) if placed is not None else None

    def draw(page: Page) -> None:
        y = _head(page, plan, group)
        y = page.sentence(y, box) if box else y
        low = page.bottom - under
        drawing.draw(page, page.x0 - 4, y + 1, page.x1 - page.x0 + 8, low - y - 1, n)
        page.pen.words(page.x0, low + 3.6, fit(words(COUNTED, size=9, condensed=True), page.x1 - page.x0))
        _section(page, low + 6, plan, group, placed, own)
        y = _press(page, low + 6 + SECTION, press)
        for number, front in enumerate(group.fronts):
            _ticks(page, y + number * ROW, front, borings[front.id], first=not number)

    scales = ", ".join(dict.fromkeys(said_scale(one) for one in (n, *([own] if placed is not None else []))))
    cells = (("seen from", "BACK"), ("scale", scales))
    return [Leaf(draw, f"19  {info.title}", cells)]


def _largest(view: Drawing, narrow: Length, width: float, room: float) -> tuple[Placed, int | None]:
    """The drawing at the largest scale, with the largest figures that have room at it."""
    for size, least, across in HEIGHT_FIGURES:
        placed = _placed(view, size)
        n = placed.scale(width, room)
        if n is not None and n <= least and narrow >= Length.mm(across * n):
            return placed, n
    placed = _placed(view, SMALL_FIGURES)
    return placed, placed.scale(width, room)


def _placed(view: Drawing, size: float) -> Placed:
    return Placed(view, replace(medium("bench", figure=size), bold=True))


def groups(plan: Plan, borings: Mapping[str, BoringPlan]) -> list[Group]:
    """Doors by opening, two on a sheet at most, the right-hand one first."""
    by_opening: dict[str, list[FrontPlan]] = {}
    for front in plan.fronts.fronts.values():
        if front.id in plan.hardware.cups and front.hinge_side is not None and front.id in borings:
            by_opening.setdefault(front.opening, []).append(front)
    found = []
    for doors in by_opening.values():
        for at in range(0, len(doors), 2):
            two = tuple(reversed(doors[at : at + 2]))
            found.append(Group(_named([front.id for front in two]), two))
    return found


def _named(ids: Sequence[str]) -> str:
    """F7 for F7L and F7R, else both names."""
    stems = {name[:-1] for name in ids}
    if len(ids) == 2 and len(stems) == 1 and {name[-1] for name in ids} == {"L", "R"}:
        return stems.pop()
    return ", ".join(sorted(ids))


def _section_of(group: Group) -> FrontPlan:
    """The door that is cut: of a pair the left-hand one."""
    return group.fronts[-1]


def _split(width: float) -> float:
    return width * 0.6


# -- what it shows


def _info(plan: Plan, group: Group, borings: Mapping[str, BoringPlan]) -> SheetInfo:
    figures: list[tuple[str, Figure]] = []
    told: list[tuple[str, str]] = []
    ids: set[str] = set()
    for front in group.fronts:
        of = front.id
        ids |= front_ids(plan, front)
        figures += [(f"width of {of}", front.width), (f"height of {of}", front.height)]
        figures += list(_hole_figures(of, borings[of]))
        told += [(f"hinge edge of {of}", front.hinge_side or ""), (f"hinge of {of}", plan.hardware.hinges[of].name)]
        told += made_told(plan.making.fronts[of]) if of in plan.making.fronts else []
        told += [(f"plates of {of}", ", ".join(use.name for use in plan.hardware.hinges[of].plates))]
    of = _section_of(group).id
    cup = plan.hardware.cups[of]
    figures += [(f"far edge of the cup of {of}", cup.far_edge), (f"wood under the cup of {of}", cup.floor_left)]
    chosen = tuple(
        f"hinge side of {front.id}" for front in group.fronts if front.hinge_side_assumed and front.hinge_side
    )
    ids |= {front.look.hinge for front in group.fronts if front.look.hinge}
    shows = Shows(tuple(figures), tuple(told), chosen)
    return sheet(plan, "19", "boring", group.fronts[0].id, f"boring sheet, {group.name}", ids, shows)


def _hole_figures(of: str, boring: BoringPlan) -> Iterator[tuple[str, Figure]]:
    cups = boring.of("cup")
    for number, hole in enumerate(cups, 1):
        yield f"height of hinge {number} of {of}", hole.from_bottom
    if cups:
        yield f"cup of {of}", cups[0].diameter
        yield f"cup centre of {of}", cups[0].from_hinge
        if cups[0].depth is not None:
            yield f"cup depth of {of}", cups[0].depth
    for number, hole in enumerate(boring.of("pull"), 1):
        yield f"pull hole {number} of {of}, from the bottom", hole.from_bottom
        yield f"pull hole {number} of {of}, from the hinge edge", hole.from_hinge


def _box(plan: Plan, info: SheetInfo, group: Group, borings: Mapping[str, BoringPlan]) -> Words:
    said = standing(info, plan.display)
    missing = any(not borings[f.id].pull_chosen and borings[f.id].of("pull") for f in group.fronts)
    if not missing:
        return said
    more = "No pull has been chosen. Bore the cups; leave the pull until it lies on the bench."
    return tuple(replace(atom, size=9.0, condensed=True) for atom in (*said, *words(more, size=9)))


# -- the parts of the page


def _head(page: Page, plan: Plan, group: Group) -> float:
    pen, top = page.pen, page.top
    cup = plan.hardware.cups[group.fronts[0].id]
    big = fit(words(group.name, size=38 if len(group.name) < 5 else 24, bold=True), 56)
    x = page.x0 + pen.words(page.x0 - 0.8, top + 14.5, big) + 7
    right = words("cups ", *finely(cup.diameter, plan.display), size=20, bold=True)
    pen.words(page.x1, top + 8.6, right, "right")
    pen.words(page.x1, top + 16, words(*finely(cup.depth, plan.display), " deep", size=14, bold=True), "right")
    room = page.x1 - x - width_of(right) - 4
    what = "pair" if group.pair else "door"
    pen.words(x, top + 8.4, fit(words(f"{what}, seen from the BACK", size=14, bold=True), room))
    pen.words(x, top + 14.8, fit(words(_lies(group), size=10), room))
    page.rule(top + HEAD, OUTLINE)
    return top + HEAD


def _lies(group: Group) -> str:
    if group.pair:
        return f"{group.fronts[0].id}, the right-hand door, lies on the left"
    side = group.fronts[0].hinge_side
    if side == "top":
        return "hung at the top"
    return f"hinges {side} from the front, so {'right' if side == 'left' else 'left'} as it lies"


def _section(page: Page, y: float, plan: Plan, group: Group, cut: Placed | None, n: int | None) -> None:
    page.rule(y)
    split = page.left + _split(page.right - page.left)
    page.pen.line(split, y, split, y + SECTION)
    front = _section_of(group)
    if cut is not None:
        title = words(strong(f"Section at a cup of {front.id}, seen from above"), size=10)
        page.pen.words(page.x0, y + 5.6, fit(title, split - page.x0 - 3))
        cut.draw(page, page.x0 - 3, y + 6, split - page.x0, SECTION - 13, n)
    bar(page.pen, page.x0, y + SECTION - 4)
    _proofs(page, split + 4, y + 6.2, plan, group)


def _proofs(page: Page, x: float, y: float, plan: Plan, group: Group) -> None:
    front = _section_of(group)
    cup, hinge, display = plan.hardware.cups[front.id], plan.hardware.hinges[front.id], plan.display
    edge = total("cup from the edge", plus(cup.far_edge), minus(cup.diameter))
    page.pen.words(x, y, words(strong("proof"), size=10))
    y += 6.4
    far = (*finely(edge, display), " + ", *finely(cup.diameter, display), " = ", *finely(cup.far_edge, display))
    y = _proof(page, x, y, far, words("at most ", *finely(cup.limit, display), size=9.5))
    thick = plan.making.fronts[front.id].build.thickness
    floor = (*finely(thick, display), " − ", *finely(cup.depth, display), " = ", *finely(cup.floor_left, display))
    y = _proof(page, x, y, floor, words("at least ", *finely(cup.floor_least, display), size=9.5))
    size = front.width if front.hinge_side == "top" else front.height
    if hinge.heights:
        top = total("upper hinge from the top", plus(size), minus(hinge.heights[-1]))
        even = in_units(top.value) == in_units(hinge.heights[0].value)
        ends = (*figure(size, display), " − ", *figure(hinge.heights[-1], display), " = ", *figure(top, display))
        y = _proof(page, x, y, ends, words("agrees" if even else "not even", size=9.5, bold=True))
    page.pen.line(x, y - 3, page.x1, y - 3)
    y += 3.2
    for note in _notes(plan, group):
        y = page.pen.paragraph(x, y, page.x1 - x, note, 4.3) + 1.2


def _proof(page: Page, x: float, y: float, parts: Sequence[Part], limit: Words) -> float:
    """A sum at the left, its limit at the right; smaller where it would be clipped."""
    page.pen.words(page.x1, y, limit, "right")
    room = page.x1 - x - width_of(limit) - 2
    tries = [words(*parts, size=size, condensed=size < 11) for size in (11, 10, 9)]
    page.pen.words(x, y, next((line for line in tries if width_of(line) <= room), fit(tries[-1], room)))
    return y + 6.4


def _notes(plan: Plan, group: Group) -> Iterator[Words]:
    """Plates, what was moved, and where the adjustment is used up, a line each."""
    for front in group.fronts:
        hinge = plan.hardware.hinges[front.id]
        yield from _plate_notes(plan, hinge)
        for height, moved in zip(hinge.heights, hinge.moved, strict=False):
            if moved:
                said = moved if moved == OLD_PLATE else f"clear of {moved}"
                yield _note(strong(hinge.front), ": hinge at ", *figure(height, plan.display), f" moved {said}.")
        if hinge.forward is not None:
            forward = finely(hinge.forward, plan.display)
            yield _note(strong(hinge.front), ": plate forward by the facing, ", *forward, ".")


def _plate_notes(plan: Plan, hinge: HingePlan) -> Iterator[Words]:
    display = plan.display
    if not hinge.plates:
        return
    named = [use for use in hinge.plates if use.id]
    if hinge.mixed:
        for height, use in zip(hinge.heights, hinge.plates, strict=True):
            yield _note(strong(hinge.front), " at ", *figure(height, display), ": plate ", strong(use.name), ".")
    elif named:
        yield _note(strong(hinge.front), ": plate ", strong(named[0].name), " under every hinge.")
    adjust = Fraction(in_units(hinge.adjust.value)) if hinge.adjust is not None else Fraction(0)
    for need, use in zip(hinge.needs, hinge.plates, strict=True):
        if 2 * abs(Fraction(in_units(use.off.value))) > adjust:
            told = (" cover is ", *figure(need, display), ": the hinge for ", *figure(use.gives, display))
            yield _note(strong(hinge.front), *told, " is near the end of its adjustment.")
            return


def _note(*parts: Part) -> Words:
    return words(*parts, size=9, condensed=True)


def _at_the_press(group: Group) -> str:
    return AT_THE_PRESS + (MIRRORED if group.pair else "")


def _press(page: Page, y: float, lines: Sequence[Words]) -> float:
    page.rule(y, OUTLINE)
    page.pen.words(page.x0, y + 5, words(strong("drill press"), size=10))
    for number, line in enumerate(lines):
        page.pen.words(page.x0 + 26, y + 5 + number * 4.3, line)
    return y + 4.3 * len(lines) + 5


def _ticks(page: Page, y: float, front: FrontPlan, boring: BoringPlan, *, first: bool) -> None:
    pen = page.pen
    if first:
        page.rule(y)
    else:
        pen.line(page.x0, y, page.x1, y)
    pen.words(page.x0, y + 8, fit(words(front.id, size=14, bold=True), 20))
    x = page.x0 + 21
    kinds = (("hinge edge marked", True), ("cups", True), ("screws", True), ("pull", bool(boring.of("pull"))))
    for word, wanted in kinds:
        if wanted:
            pen.tick(x, y + 3.6)
            x += 6.6 + pen.words(x + 6.6, y + 7.8, words(word, size=9.5)) + 4
    pen.pencil(page.x1 - 48, y + 1.2, 23, ROW - 2.4, "edge is")
    pen.pencil(page.x1 - 23, y + 1.2, 23, ROW - 2.4, "cover is")

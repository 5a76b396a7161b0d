"""Sheet 16, leaf and match map: one panel, which leaf lies where on both faces, and what to take if one fails."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from frontwright.core.drawing.leaf_map import (
    ARROWS,
    SIDES,
    TITLES,
    FaceMap,
    FaceSide,
    Place,
    face_map,
    half_across,
    leaf_map,
    panel_of,
)
from frontwright.core.job import CoreGrain, Match
from frontwright.core.lengths import Display
from frontwright.core.making.result import PanelPart
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, text_band, title_band
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.subjects import Shows, front_ids, sheet
from frontwright.sheets.veneer_words import AS_PLANNED
from frontwright.sheets.words import Part, Words, finely, fit, length, strong, width_of, words, wrap

HEAD, ROW, LEAST = 18.0, 8.8, 40.0
SMALL = 10  # leaves are told apart well down to 1:10
WAY: dict[Match, str] = {
    "book": "book match: every second leaf lies shut",
    "slip": "slip match: all leaves lie open",
    "random": "random match: as they please the eye",
}
ORDER = (
    "Arrows point to the tree's top. Lay the leaves out dry and look from where they will be seen; a flat-sawn figure "
    "is closed by moving one leaf lengthwise. Joint the edges in pairs, tape the face that will be seen, then glue in "
    "the joint."
)


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every shop-made panel."""
    return [_info(plan, panel) for panel in panels(plan)]


def panels(plan: Plan) -> list[PanelPart]:
    """The panels that are pressed from leaves."""
    return [p for made in plan.making.fronts.values() for p in made.panels if p.core_across is not None]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Both faces over one table where they can be read so, else a page for each face, if it stands larger there."""
    _, panel = panel_of(plan, info.subject)
    box = standing(info, plan.display)
    show, back = (list(_face_bands(plan.display, face, ARROWS[panel.grain])) for face in _faces(plan, panel))
    last = list(_last_bands(plan, panel, inside(paper)[0]))
    both = _way(plan, panel, SIDES, paper, box, [*show, *back, *last])
    apart = [_way(plan, panel, ("show",), paper, box, show), _way(plan, panel, ("back",), paper, (), [*back, *last])]
    ways = apart if both.n is None or (both.n > SMALL and _larger(apart, both.n)) else [both]
    head, name = _Head(plan, panel), f"16  leaf map, {info.subject}"
    cells = [(("goes to", "glue bench"), ("scale", said_scale(way.n))) for way in ways]
    return [Leaf(_page(head, way), name, cell) for way, cell in zip(ways, cells, strict=True)]


def _larger(ways: list[_Way], than: int) -> bool:
    """Whether every one of these pages has its drawing at a larger scale than 1:than."""
    return all(way.n is not None and way.n < than for way in ways)


# -------------------------------------------------------------------------------------------------- what it rests on


def _info(plan: Plan, panel: PanelPart) -> SheetInfo:
    figures = [("across", panel.across), ("along", panel.along)]
    figures += [(name, of) for name, of in (("core across", panel.core_across), ("core along", panel.core_along)) if of]
    figures += [(f"joint {at}", joint) for at, joint in enumerate(panel.joints or (), 1)]
    figures += [("outer leaves show", panel.outer_visible)] if panel.outer_visible is not None else []
    figures += [("leaf length", panel.leaf_length)] if panel.leaf_length is not None else []
    told = list(_told(plan, panel))
    ids = {panel.part, *(i for f in (plan.fronts.fronts.get(panel.front),) if f for i in front_ids(plan, f))}
    named = tuple((f"{name} of {panel.part}", figure) for name, figure in figures)
    return sheet(plan, "16", "leaves", panel.part, f"leaf map, {panel.part}", ids, Shows(named, tuple(told)))


def _told(plan: Plan, panel: PanelPart) -> Iterator[tuple[str, str]]:
    for face in _faces(plan, panel):
        yield f"match of the {face.side} face", face.match
        for place in face.places:
            name = f"{face.side} {place.number} of {panel.part}"
            yield name, place.seat.leaf if place.seat is not None else "none"
            yield f"how {name} lies", place.lies
            yield f"state of {name}", _state(place)
    yield "spare", ", ".join(spares(plan))


def _state(place: Place) -> str:
    """What is wrong with the leaf of a place; a leaf to come and one that is good are the same on paper."""
    if place.slice is None:
        return "short of a leaf"
    return "" if place.slice.state in AS_PLANNED else place.slice.state


def _faces(plan: Plan, panel: PanelPart) -> tuple[FaceMap, FaceMap]:
    return face_map(plan, panel, "show"), face_map(plan, panel, "back")


def spares(plan: Plan) -> list[str]:
    """What to take if a leaf fails, first to last: spare leaves, then rests that give one more."""
    loose = [seat.leaf for seat in plan.veneer.seats if seat.side == "spare"]
    return [*loose, *(f"rest of {of.id}" for of in plan.veneer.plans if of.spare)]


# ------------------------------------------------------------------------------------------------- what stands on it


@dataclass(frozen=True, slots=True)
class _Way:
    """A page: its map, n of the scale 1:n (None: fitted), what is said over it, and the rows under it."""

    placed: Placed
    n: int | None
    box: Words
    bands: list[Band]


def _way(
    plan: Plan, panel: PanelPart, sides: tuple[FaceSide, ...], paper: Paper, box: Words, bands: list[Band]
) -> _Way:
    width, height = inside(paper)
    placed = Placed(leaf_map(plan, panel.part, "bench", sides), medium("bench"))
    room = height - HEAD - sentence_height(box, width) - COLUMN_HEAD - sum(band.height for band in bands)
    return _Way(placed, placed.scale(width + 6, room - 4) if room > LEAST else None, box, bands)


@dataclass(frozen=True, slots=True)
class _Head:
    plan: Plan
    panel: PanelPart

    def draw(self, page: Page) -> float:
        """The panel big, how many leaves on what core, how they are matched."""
        pen, top, panel, display = page.pen, page.top, self.panel, self.plan.display
        x = page.x0 + pen.words(page.x0 - 0.6, top + 13.2, fit(words(panel.part, size=34, bold=True), 60)) + 6
        count = 2 * (panel.leaves_across or 1)
        size = words(*finely(panel.across, display), " × ", *finely(panel.along, display), size=16, bold=True)
        pen.words(page.x1, top + 8.6, size, "right")
        pen.words(page.x1, top + 14.4, words("finished, across × along", size=9), "right")
        room = page.x1 - x - width_of(size) - 4
        pen.words(x, top + 7.4, fit(words(f"panel, {count} leaves on one core", size=12.5, bold=True), room))
        match = WAY.get(self.plan.veneer.match.get(panel.part, "random"), "")
        pen.words(x, top + 13.2, fit(words(match, size=10), room + width_of(size) - 46))
        page.rule(top + HEAD, OUTLINE)
        return top + HEAD


def _page(head: _Head, way: _Way) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = head.draw(page)
        y = page.sentence(y, way.box) if way.box else y
        low = max(page.bottom - COLUMN_HEAD - sum(band.height for band in way.bands), y + LEAST)
        way.placed.draw(page, page.x0 - 3, y + 2, page.x1 - page.x0 + 6, low - y - 4, way.n)
        page.rule(low, OUTLINE)
        heads = ("lie dry", "leaf", "face and place", "lies", "sawn", "thickness is", "state")
        y = column_heads(page, low, tuple(zip(heads, _columns(page), strict=True)))
        draw_bands(page, y, way.bands)

    return draw


def _columns(page: Page) -> tuple[float, ...]:
    unit = (page.x1 - page.x0) / 169
    return tuple(page.x0 + x * unit for x in (0, 12, 34, 74, 92, 108, 136))


def _face_bands(display: Display, face: FaceMap, arrow: str) -> Iterator[Band]:
    """Every leaf of a face, from its left or its top, with the arrow as it points there."""
    name, seen = TITLES[face.side]
    yield title_band(words(strong(name), f", seen {seen}", size=10.5), 7.0)
    for place in face.places:
        yield Band(ROW, _row_drawer(display, face, place, arrow))


def _last_bands(plan: Plan, panel: PanelPart, width: float) -> Iterator[Band]:
    """Joints and trims, spares, and how the leaves are laid out."""
    yield text_band(wrap(words(*_trim(plan, panel), size=10), width), 5.0)
    order = spares(plan)
    spare = (strong("Spare, first to last: "), ", ".join(order) if order else "none is left", ".")
    yield text_band(wrap(words(*spare, size=10), width), 5.0)
    yield text_band(wrap(words(ORDER, size=9, condensed=True), width), 4.3)


CORE_GRAIN: dict[CoreGrain, str] = {
    "across": "its grain across the leaves",
    "along": "its grain along the leaves, which bends the panel",
    "none": "without grain",
}


def _trim(plan: Plan, panel: PanelPart) -> Iterator[Part]:
    """Where the joints lie, what is trimmed, what the core is."""
    display = plan.display
    inner = [j for j in panel.joints or () if j.units >= 0]
    yield strong("From the centre line: ")
    for joint in inner:
        yield from ("joint at ", *finely(joint, display), ", " if joint.units else " (on it), ")
    yield from ("edge of the panel at ", *finely(half_across(panel), display), ". ")
    if panel.outer_visible is not None:
        yield from ("Trim both outer leaves alike: ", *finely(panel.outer_visible, display), " of each will show. ")
    if panel.core_across is not None and panel.core_along is not None:
        yield from ("Core ", *finely(panel.core_across, display), " × ", *finely(panel.core_along, display))
        yield f", {CORE_GRAIN[plan.making.fronts[panel.front].build.panel.core_grain]}. "
    if panel.leaf_length is not None:
        yield from ("Leaves ", length(panel.leaf_length.value, display), " long.")


def _row_drawer(display: Display, face: FaceMap, place: Place, arrow: str) -> Callable[[Page, float], None]:
    seat, slice_ = place.seat, place.slice
    name = f"{seat.leaf} {arrow}" if seat is not None else "none"
    where = f"{face.side}, {place.number} of {len(face.places)}"
    state = _state(place)
    sawn = finely(slice_.thick or slice_.wanted, display) if slice_ is not None else ("",)

    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, _columns(page), y + 6.6
        pen.tick(x[0], y + 2.2)
        pen.words(x[1], base, fit(words(name, size=13, bold=True), x[2] - x[1] - 1))
        pen.words(x[2], base, fit(words(where, size=11), x[3] - x[2] - 1))
        pen.words(x[3], base, words(place.lies if face.booked else "", size=11))
        pen.words(x[4], base, words(*sawn, size=11))
        pen.pencil(x[5], y + 1.2, x[6] - x[5] - 3, ROW - 2.4)
        pen.words(x[6], base, fit(words(state, size=10), page.x1 - x[6]))

    return draw

"""The card of the pulls of a run, with sheet 19: the settings of the jig, hole by hole, screws, bumpers, ticks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import BoringPlan, Bumpers, Hole, PullScrew
from frontwright.core.lengths import Display, in_units
from frontwright.core.plan import Plan, bored, screwed
from frontwright.core.survey.result import RunPlan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, paged
from frontwright.sheets.subjects import Shows, front_ids, sheet
from frontwright.sheets.words import Part, Words, finely, fit, words

ROW = 13.0
NOTE = (
    "Seen from the FRONT. Bore through from the face with a board clamped behind, guard down, eyes covered. "
    "Doors: across from the FREE edge; drawers and flaps: across from the LEFT edge. One setting of the jig for all "
    "that are alike."
)
HEADS = ("front", "across", "up or down", "hole", "screw", "bumpers", "done")


def infos(plan: Plan) -> list[SheetInfo]:
    """One for each run in which a pull was chosen: until then there is nothing to bore."""
    borings = bored(plan)
    return [_info(plan, run, borings) for run in plan.survey.runs if _fronts(plan, run, borings)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Its fronts as a list, in their order."""
    run = next(run for run in plan.survey.runs if run.id == info.subject)
    borings, screws = bored(plan), screwed(plan)
    box = standing(info, plan.display)
    width, height = inside(paper)
    above = title_height((NOTE,), width) + sentence_height(box, width) + COLUMN_HEAD
    fronts = _fronts(plan, run, borings)
    bands = [_band(plan, front, borings[front.id], screws.get(front.id)) for front in fronts]
    pages = paged(bands, height - above, height - above)
    title, count = f"Pulls of {run.id}", f"{len(fronts)} fronts"
    return [Leaf(_drawer(title, count, box, page), f"19  {info.title}", (("seen from", "FRONT"),)) for page in pages]


def _fronts(plan: Plan, run: RunPlan, borings: dict[str, BoringPlan]) -> list[FrontPlan]:
    found = (front for front in plan.fronts.fronts.values() if front.run == run.id and front.id in borings)
    return [front for front in found if borings[front.id].pull_chosen and borings[front.id].of("pull")]


def _info(plan: Plan, run: RunPlan, borings: dict[str, BoringPlan]) -> SheetInfo:
    screws = screwed(plan)
    figures: list[tuple[str, Figure]] = []
    told: list[tuple[str, str]] = []
    ids: set[str] = set()
    for front in _fronts(plan, run, borings):
        ids |= front_ids(plan, front)
        for number, (across, up) in enumerate(_places(front, borings[front.id]), 1):
            figures += [
                (f"hole {number} of {front.id}, across", across[1]),
                (f"hole {number} of {front.id}, up", up[1]),
            ]
        screw = screws.get(front.id)
        if screw is not None:
            figures.append((f"screw of the pull of {front.id}", screw.sold or screw.most))
        told.append((f"pull of {front.id}", plan.hardware.places[front.id].name))
    return sheet(plan, "19", "boring", run.id, f"pulls, {run.id}", ids, Shows(tuple(figures), tuple(told)))


type Place = tuple[str, Figure]  # from which edge, and how far


def _places(front: FrontPlan, boring: BoringPlan) -> Iterator[tuple[Place, Place]]:
    """Each hole across and upright, from the edges that a jig lies against."""
    for hole in boring.of("pull"):
        yield _across(front, boring, hole), _up(front, hole)


def _across(front: FrontPlan, boring: BoringPlan, hole: Hole) -> Place:
    if boring.side in ("", "top"):
        return "left", hole.from_hinge
    name = f"hole of {front.id} from the free edge"
    return "free edge", total(name, plus(front.width), minus(hole.from_hinge))


def _up(front: FrontPlan, hole: Hole) -> Place:
    """From the nearer of the two ends."""
    if 2 * in_units(hole.from_bottom.value) <= in_units(front.height.value):
        return "bottom", hole.from_bottom
    return "top", total(f"hole of {front.id} from the top", plus(front.height), minus(hole.from_bottom))


def _band(plan: Plan, front: FrontPlan, boring: BoringPlan, screw: PullScrew | None) -> Band:
    display = plan.display
    places = list(_places(front, boring))
    across, up = (_told([pair[at] for pair in places], display) for at in (0, 1))
    hole = words(*finely(boring.of("pull")[0].diameter, display), size=11)
    bumpers = plan.hardware.bumpers.get(front.id)

    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, _columns(page), y + 8.2
        pen.words(x[0], base, fit(words(front.id, size=14, bold=True), x[1] - x[0] - 2))
        for at, line in ((1, across), (2, up), (3, hole), (4, _screw(screw, display)), (5, _bumpers(bumpers, display))):
            pen.words(x[at], base, fit(line, x[at + 1] - x[at] - 2))
        pen.tick(x[6] + 1, y + 4)

    return Band(ROW, draw)


def _told(places: Sequence[Place], display: Display) -> Words:
    """ "340.5 free edge", "64 and 160 top"."""
    alike = {of.units: of for _, of in sorted(places, key=lambda place: place[1].units)}
    parts: list[Part] = []
    for of in alike.values():
        parts += [" and "] if parts else []
        parts += finely(of, display)
    return (*words(*parts, size=12.5, bold=True), *words(f"  {places[0][0]}", size=9, condensed=True))


def _screw(screw: PullScrew | None, display: Display) -> Words:
    if screw is None:
        return words("–", size=11)
    if screw.sold is not None:
        return words(f"{screw.count} of ", *finely(screw.sold, display), size=11)
    return words(f"{screw.count}, cut to ", *finely(screw.least, display), "–", *finely(screw.most, display), size=10)


def _bumpers(bumpers: Bumpers | None, display: Display) -> Words:
    if bumpers is None:
        return words("–", size=11)
    return words(f"{bumpers.count} of ", *finely(bumpers.thick, display), size=9.5, condensed=True)


def _columns(page: Page) -> tuple[float, ...]:
    share = (page.x1 - page.x0) / 175
    return tuple(page.x0 + at * share for at in (0, 17, 70, 118, 129, 149, 167))


def _drawer(title: str, count: str, box: Words, bands: Sequence[Band]) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = page.title(title, count, (NOTE,))
        y = page.sentence(y, box) if box else y
        y = column_heads(page, y, tuple(zip(HEADS, _columns(page), strict=True)))
        draw_bands(page, y, bands)

    return draw

"""Sheet 27, work order: every operation of the job in its turn, the settings shared over all fronts, boxes to tick."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from frontwright.core.plan import Plan, sited
from frontwright.core.site.result import WorkStep
from frontwright.sheets.base import Leaf, Page, title_height
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged, title_band
from frontwright.sheets.rows import Cells, cells_band
from frontwright.sheets.subjects import Shows, sheet
from frontwright.sheets.words import Part, strong, words

COLUMNS = (0.0, 9.0, 80.0, 94.0, 110.0, 143.0, 158.0)
HEADS = ("", "what", "pieces", "settings", "then rest", "hours", "done")
NOTE = (
    "By set-up, not by door: every setting once, for all fronts of the job. Do not move a stop or fence before every "
    "piece of it is done. Boring before finish; nothing of a later stage before its rest has passed."
)


def infos(plan: Plan) -> list[SheetInfo]:
    """One for the job, where it has any front."""
    steps = sited(plan).work
    if not plan.fronts.fronts or not steps:
        return []
    told = tuple((f"step {one.number}", _told(one)) for one in steps)
    return [sheet(plan, "27", "work", "", "work order", (), Shows((), told))]


def _told(one: WorkStep) -> str:
    return f"{one.what}: {one.pieces} pieces, {one.settings} settings {one.rest}".strip()


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Stage by stage."""
    width, height = inside(paper)
    steps = sited(plan).work
    pages = paged(list(_bands(steps, width)), *(height - title_height((NOTE,), width),) * 2)
    name, cells = f"27  {info.title}", (("goes to", "shop"),)
    return [Leaf(_drawer(page, f"{len(steps)} steps"), name, cells) for page in pages]


def _drawer(bands: Sequence[Band], count: str) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        draw_bands(page, page.title("Work order", count, (NOTE,)), bands)

    return draw


def _bands(steps: Sequence[WorkStep], width: float) -> Iterator[Band]:
    heads: tuple[tuple[Part, ...], ...] = tuple((head,) if head else () for head in HEADS)
    yield cells_band(COLUMNS, Cells(heads, size=8.5, least=6.6), width)
    stage = ""
    for one in steps:
        if one.stage != stage:
            stage = one.stage
            yield title_band(words(strong(f"{stage[:1].upper()}{stage[1:]}"), size=11), 8.0)
        parts: tuple[tuple[Part, ...], ...] = (
            (str(one.number),),
            (one.what,),
            (str(one.pieces),),
            (str(one.settings),) if one.settings else (),
            (one.rest,) if one.rest else (),
            (),
            (),
        )
        yield cells_band(COLUMNS, Cells(parts, frozenset((1,)), frozenset((6,)), frozenset((5,)), size=10), width)

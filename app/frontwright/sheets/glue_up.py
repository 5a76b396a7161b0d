"""Sheet 17, glue-up card: one pressing rehearsed: what lies ready, in which order, how long there is, what came out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.drawing.leaf_map import panel_of
from frontwright.core.drawing.press_order import order, things
from frontwright.core.drawing.pressing import clamps_apart, layers, named, pressing, pressing_of
from frontwright.core.figures import Figure
from frontwright.core.job import Glue, Press, Pressing
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import half_up, in_units
from frontwright.core.making.result import PanelPart
from frontwright.core.plan import Plan
from frontwright.core.veneer.clock import At, clock, moments
from frontwright.core.veneer.moisture import pressing_wetter, shop_moisture
from frontwright.core.veneer.result import PressingPlan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.picture import Placed
from frontwright.sheets.player import medium
from frontwright.sheets.subjects import Shows, front_ids, sheet
from frontwright.sheets.veneer_words import minutes, number
from frontwright.sheets.words import Part, Words, finely, fit, strong, width_of, words, wrap

HEAD, DRAWN, ROW, CLOCK, MADE = 19.0, 80.0, 6.1, 17.0, 12.6
LEAST_ROW = 3.4
NAMED = 34.0  # width of the panel's name before what is read of it
LIST = 64.0  # width of the list to lay out
LIST_HEAD = 8.6
HAIR = 0.01  # what sums of heights may be out by
LEAD = 4.8
LEAST_SHARE = 18  # a box of the clock is as wide as its words, and at least as that many letters
MANY = 12  # more clamps have smaller numbers
MANY_PANELS = 2  # more do not stand big in the head
_LIE = {"stacked": "stacked", "side by side": "in a row"}


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every pressing, entered or planned."""
    return [_info(plan, of) for of in plan.veneer.pressings]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Times and list beside the layers, then the order of work, clock times, and what came out of the press."""
    card = _Card(plan, pressing_of(plan, info.subject), standing(info, plan.display))
    width, height = inside(paper)
    above = HEAD + sentence_height(card.box, width) + _times_height(card, width)
    work = [*_order(card, width), _clock_band(card)]
    row = _row_height(card, height - above - sum(band.height for band in work))
    above += _drawn_height(card, row)
    pages = _pages(card, work, height - above, height - HEAD)
    name, cells = f"17  glue-up card, {info.subject}", (("goes to", "glue bench"),)
    return [Leaf(_drawer(card, page, row, first=not at), name, cells) for at, page in enumerate(pages)]


def _pages(card: _Card, work: list[Band], first: float, later: float) -> list[list[Band]]:
    """What is read after the press stands together: all of it on the next page where the first has no room for it."""
    made = [_made_band(card.plan, part) for part in card.of.panels]
    whole = paged([*work, *made], first, later)
    held = len(whole) > 1 and len(paged(work, first, later)) == 1
    return [work, *paged(made, later, later)] if held else whole


def _row_height(card: _Card, room: float) -> float:
    """How high a thing to lay out stands: lower where there are more than the page has room for."""
    return min(ROW, max(LEAST_ROW, (room - LIST_HEAD - HAIR) / len(list(_items(card)))))


def _drawn_height(card: _Card, row: float) -> float:
    """As high as the layers want it, or the list beside them."""
    return max(DRAWN, LIST_HEAD + row * len(list(_items(card))))


@dataclass(frozen=True, slots=True)
class _Card:
    """A pressing with what its sheet says over everything."""

    plan: Plan
    of: PressingPlan
    box: Words

    @property
    def row(self) -> Pressing:
        return self.plan.job.pressings.get(self.of.id) or Pressing(self.of.id, self.of.panels)

    @property
    def glue(self) -> Glue:
        return self.plan.job.glues.get(self.of.glue) or Glue("")

    @property
    def press(self) -> Press:
        return self.plan.job.presses.get(self.of.press) or Press("")

    @property
    def panels(self) -> list[PanelPart]:
        return [panel_of(self.plan, part)[1] for part in self.of.panels]


# -------------------------------------------------------------------------------------------------- what it rests on


def _info(plan: Plan, of: PressingPlan) -> SheetInfo:
    card = _Card(plan, of, ())
    figures: list[tuple[str, Figure]] = []
    for panel in card.panels:
        for name, figure in (("core along", panel.core_along), ("core across", panel.core_across)):
            figures += [(f"{name} of {panel.part}", figure)] if figure is not None else []
        for at, joint in enumerate(panel.joints or (), 1):
            figures.append((f"joint {at} of {panel.part}, from the centre", joint))
        build = plan.making.fronts[panel.front].build.panel
        figures += [(f"thickness of {panel.part} as pressed", build.pressed), (f"core of {panel.part}", build.core)]
    apart = (("clamps apart", clamps_apart(of)), ("clamps apart at most", of.spacing))
    figures += [(name, figure) for name, figure in (*apart, *_lying(of)) if figure is not None]
    shop = shop_moisture(JobIndex(plan.job))
    figures += [("wood comes to in the shop, %", shop)] if shop is not None else []
    fronts = dict.fromkeys(panel.front for panel in card.panels)
    ids = {of.id, *of.panels}
    ids |= {i for f in fronts if f in plan.fronts.fronts for i in front_ids(plan, plan.fronts.fronts[f])}
    shows = Shows(tuple(figures), tuple(_told(card)), tuple(_assumptions(card)), boxes=("bottle opened",))
    return sheet(plan, "17", "glue-up", of.id, f"glue-up card, {of.id}", ids, shows)


def _lying(of: PressingPlan) -> tuple[tuple[str, Figure], ...]:
    """What lies in the press, and how far clamps open."""
    sizes = (("lies in the press, long", of.lying.length), ("wide", of.lying.width), ("high", of.lying.height))
    return sizes if of.in_bag else (*sizes, ("clamps opened to", of.open_to))


def _told(card: _Card) -> Iterator[tuple[str, str]]:
    of = card.of
    yield "panels", ", ".join(of.panels)
    yield "they lie", of.lie if len(of.panels) > 1 else ""
    yield "glue", card.glue.name or card.glue.id
    yield "press", f"{of.kind} {card.press.name or card.press.id}".strip()
    yield "bottle opened", card.row.started
    yield "who", "with a helper" if of.helped else "alone"
    for name, value in (("alone", of.alone), ("with a helper", of.with_helper), ("limit", of.limit)):
        yield f"minutes {name}", minutes(value)
    for name, value in (("spreading", of.spread_minutes), ("open time", of.open_limit)):
        yield f"minutes of {name}", minutes(value)
    yield "clamps", str(of.clamps)
    yield "pressure", number(of.pressure, 2)
    yield "grams of glue", number(of.glue_grams, 0)
    for layer in layers(card.plan, of):
        if layer.kind == "core":
            yield f"core of {layer.panel}", layer.says
        if layer.face is not None:
            yield f"leaves of {layer.panel}, {layer.face.side}", named(layer.face)


def _assumptions(card: _Card) -> Iterator[str]:
    """What the minutes and the force rest on where no glue or press was entered."""
    if not card.glue.id:
        yield "glue's open and clamp time, spread and pressure"
    if card.of.in_bag:
        yield from ("pressure of the bag",) if card.press.bag_pressure is None else ()
    elif not card.press.id or card.press.force is None:
        yield "force of a clamp"


# ------------------------------------------------------------------------------------------------- what stands on it


def _drawer(card: _Card, bands: list[Band], row: float, *, first: bool) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = _head(card, page)
        if first:
            y = page.sentence(y, card.box) if card.box else y
            y = _draw_times(card, page, y)
            y = _ready(card, page, y, row)
        draw_bands(page, y, bands)

    return draw


def _head(card: _Card, page: Page) -> float:
    """Which panels; the minutes as planned, big."""
    pen, top, of = page.pen, page.top, card.of
    big, line = _title(card)
    x = page.x0 + pen.words(page.x0 - 0.6, top + 13.6, fit(big, 84)) + 6
    right = words(f"{minutes(of.minutes)} of {minutes(of.limit)} min", size=19, bold=True)
    pen.words(page.x1, top + 8.8, right, "right")
    who = "with a helper" if of.helped else "alone"
    pen.words(page.x1, top + 15, words(who, size=12), "right")
    room = page.x1 - x - width_of(right) - 4
    count = len(of.panels)
    pen.words(x, top + 7.4, fit(line, room))
    warm = card.row.temperature or card.plan.job.heading.shop_temperature
    told = [card.glue.name or "glue not chosen", f"at {warm.text.strip()}°" if warm is not None else ""]
    told += ["" if count == 1 else f"{count} panels {_LIE[of.lie]}"]
    pen.words(x, top + 14, fit(words(", ".join(text for text in told if text), size=10), room + 4))
    page.rule(top + HEAD, OUTLINE)
    return top + HEAD


def _title(card: _Card) -> tuple[Words, Words]:
    """What stands big and the line beside it: the panels and the pressing; of many panels the other way round."""
    of = card.of
    called = f"pressing {of.id}" if of.id not in of.panels else "pressing"
    panels = " ".join(of.panels)
    if len(of.panels) <= MANY_PANELS:
        return words(panels, size=30 if len(of.panels) == 1 else 24, bold=True), words(called, size=12.5, bold=True)
    return words(called, size=24, bold=True), words(panels, size=10.5, bold=True)


def _times_height(card: _Card, width: float) -> float:
    return LEAD * sum(len(wrap(line, width)) for line in _times(card)) + 3.4


def _draw_times(card: _Card, page: Page, y: float) -> float:
    line, width = y + 5.2, page.x1 - page.x0
    for told in _times(card):
        line = page.pen.paragraph(page.x0, line, width, told, LEAD)
    low = y + _times_height(card, width)
    page.rule(low, OUTLINE)
    return low


def _times(card: _Card) -> tuple[Words, ...]:
    """The rehearsal: each share of the time, alone and with a helper against the limit; the force; the moisture."""
    of = card.of
    last = ("bag", of.clamp_minutes) if of.in_bag else ("clamps", of.clamp_minutes)
    steps = (("spread", of.spread_minutes), ("lay up", of.layup_minutes), last)
    parts: list[Part] = [strong("How long: ")]
    for at, (name, value) in enumerate(steps):
        parts += [" + " if at else "", f"{name} {minutes(value)}"]
    parts += [f" = {minutes(of.minutes)} min"]
    parts += [", two spreading. " if of.helped else ". "]
    for name, value in (("Alone", of.alone), ("with a helper", of.with_helper)):
        late = value > of.limit or value - of.clamp_minutes > of.open_limit
        parts += [f"{name} {minutes(value)}, ", strong("too slow" if late else "in time")]
        parts += ["; " if name == "Alone" else ". "]
    closed = "the bag drawn down" if of.in_bag else "all clamps tight"
    parts += [f"Spread and laid within {minutes(of.open_limit)}, {closed} within {minutes(of.limit)} min."]
    force = _bag(card) if of.in_bag else _force(card)
    return words(*parts, size=10), words(*force, *_over(card), size=10), words(*_moisture(card), size=10)


def _unit(card: _Card) -> str:
    return "psi" if card.plan.display.unit == "in" else "MPa"


def _bag(card: _Card) -> Iterator[Part]:
    """A bag presses evenly, with less than the air outside."""
    of, places = card.of, 1 if card.plan.display.unit == "in" else 3
    yield strong("Bag: ")
    yield f"{number(of.pressure, places)} {_unit(card)} all over; at least {number(of.least, 2)}. "
    yield f"The glue's sheet asks for {number(of.floor, 2)} to {number(of.goal, 2)}; "
    yield "thin flat leaves have held with what a bag gives (practice, no source)."


def _force(card: _Card) -> Iterator[Part]:
    of, unit = card.of, _unit(card)
    enough = "enough" if of.pressure >= of.goal else "over the floor" if of.pressure >= of.floor else "too little"
    yield strong("Clamps: ")
    yield f"{of.clamps} give {number(of.pressure, 1 if unit == 'psi' else 2)} {unit}, "
    yield strong(enough)
    yield f" (floor {number(of.floor, 2)} takes {of.clamps_for_floor}, "
    yield f"the {number(of.goal, 2)} wanted {of.clamps_for_goal})."
    apart = clamps_apart(of)
    if apart is not None:
        yield from (" In pairs, ", *_about(card, apart), " apart")
        if of.spacing is not None:
            over = in_units(apart.value) > in_units(of.spacing.value)
            limit = _about(card, of.spacing)
            yield from (", at most ", *limit, " under this caul", strong(": too far") if over else "")
        yield "."


def _over(card: _Card) -> Iterator[Part]:
    """What the bed, the clamps' opening and their throat do not hold."""
    of = card.of
    if of.over_bed:
        yield from (strong(" Larger than the bed: "), ", ".join(of.over_bed), ".")
    if of.opening is not None and of.open_to.units > of.opening.units:
        yield from (strong(" Too high: "), *_about(card, of.open_to), ", the clamps open to ")
        yield from (*_about(card, of.opening), ".")
    if of.throat is not None and of.middle is not None and in_units(of.throat.value) < in_units(of.middle.value):
        yield from (" The throat, ", *_about(card, of.throat), ", does not reach the middle at ")
        yield from (*_about(card, of.middle), ": crowned cross cauls must.")


def _moisture(card: _Card) -> Iterator[Part]:
    """F61, F66: what wood comes to in the shop's air, and what the glue's water does to a leaf."""
    index = JobIndex(card.plan.job)
    shop, more = shop_moisture(index), pressing_wetter(index, card.of, card.plan.making)
    yield strong("Moisture: ")
    if shop is None:
        yield "the shop's air was not read. Leaves within 2 % of the shop before they are pressed. "
    else:
        yield f"wood comes to {number(Fraction(shop.units), 1)} % in this shop; the leaves within 2 % of it. "
    if more is not None and more.per_cent:
        yield f"The glue's water would make a leaf {number(more.per_cent, 1)} % wetter, "
        yield from (*_about(card, more.grows), " wider over a face: close quickly.")


def _about(card: _Card, of: Figure) -> tuple[Part, ...]:
    """A distance of clamps, on the job's step: nobody sets them closer."""
    step = card.plan.display.step
    return finely(Figure(of.name, half_up(of.value, step), of.source, terms=of.terms), card.plan.display)


def _ready(card: _Card, page: Page, y: float, row: float) -> float:
    """The list to lay out at the left, the layers at the right."""
    pen, high = page.pen, _drawn_height(card, row)
    title = words("Lay out before the bottle is opened", size=9.5, bold=True)
    pen.words(page.x0, y + 5.6, fit(title, LIST - 2))
    size = 10 * min(1, (row + 0.4) / ROW)
    for at, item in enumerate(_items(card)):
        line = y + LIST_HEAD + at * row
        pen.tick(page.x0, line + (row - 0.72 * row) / 2, 0.72 * row)
        pen.words(page.x0 + 6.4, line + 0.7 * row, fit(words(*item, size=size), LIST - 7))
    pen.line(page.x0 + LIST, y, page.x0 + LIST, y + high)
    left = page.x0 + LIST + 3
    numbers = "" if card.of.in_bag else ", numbers: clamps in the order they are tightened"
    title = words(strong("Layers"), numbers, size=9.5)
    pen.words(left, y + 5.6, fit(title, page.x1 - left))
    ground = medium("bench") if card.of.clamps <= MANY else medium("bench", caption=7)
    Placed(pressing(card.plan, card.of.id), ground).draw(page, left, y + 8, page.x1 - left, high - 10)
    page.rule(y + high, OUTLINE)
    return y + high


def _items(card: _Card) -> Iterator[tuple[Part, ...]]:
    display = card.plan.display
    for thing in things(card.plan, card.of):
        name: tuple[Part, ...] = (strong(thing.name), " ") if thing.name else ()
        sizes: list[Part] = []
        for size in thing.sizes:
            sizes += [*([" × "] if sizes else []), *finely(size, display)]
        yield (*name, *sizes, " " if sizes else "", thing.says)


def _order(card: _Card, width: float) -> Iterator[Band]:
    """The order of the lay-up, each step to tick."""
    for at, step in enumerate(order(card.plan, card.of), 1):
        rows = wrap(words(strong(f"{at}  "), step, size=9.5), width - 8)
        yield Band(len(rows) * 4.5 + 2.4, _step_drawer(rows))


def _step_drawer(rows: list[Words]) -> Callable[[Page, float], None]:
    def draw(page: Page, y: float) -> None:
        page.pen.tick(page.x0, y + 1.2, 4.2)
        for at, row in enumerate(rows):
            page.pen.words(page.x0 + 7, y + 4.7 + at * 4.5, row)

    return draw


def _clock_band(card: _Card) -> Band:
    """Boxes for the times by the clock; over each when it should be, once the start is written."""
    of, row = card.of, card.row
    span = minutes(of.limit)

    def draw(page: Page, y: float) -> None:
        pen = page.pen
        line = f"By the clock. From the first box to the third no more than {span} minutes."
        pen.words(page.x0, y + 4.8, words(line, size=9.5, bold=True))
        found = moments(of)
        labels = [_moment(at, in_bag=of.in_bag) for at in found]
        shares = [max(LEAST_SHARE, len(label)) for label in labels]
        x = page.x0
        for at, label, share in zip(found, labels, shares, strict=True):
            wide = (page.x1 - page.x0) * share / sum(shares)
            pen.pencil(x, y + 6.4, wide - 2, 9.4, label)
            told = _should(row.started, at)
            if told:
                pen.words(x + wide - 3.2, y + 14.6, fit(words(told, size=8.5), wide - 4), "right")
            x += wide

    return Band(CLOCK, draw, heavy=True)


def _moment(at: At, *, in_bag: bool) -> str:
    word = "bag drawn down" if in_bag and at.what == "last clamp tight" else at.what
    return word if at.late else f"{word}, not before"


def _should(started: str, at: At) -> str:
    """The latest or earliest time by the clock; of the first box when it was."""
    time = clock(started, at.bound, late=at.late)
    return time if not at.bound or not at.late or not time else f"by {time}"


def _made_band(plan: Plan, part: str) -> Band:
    """Thickness at the four corners, flatness after a day, what was found; readings that exist stand in their boxes."""
    row = plan.job.pressed_panels.get(part)
    panel = panel_of(plan, part)[1]
    pressed = plan.making.fronts[panel.front].build.panel.pressed
    labels = ("corner 1", "corner 2", "corner 3", "corner 4", "flat after 24 h", "voids, remarks")
    names = ("corner_1", "corner_2", "corner_3", "corner_4", "flatness", "note")
    head = words(strong(part), size=10.5)
    told = words("planned ", strong(*finely(pressed, plan.display)), size=9.5)

    def draw(page: Page, y: float) -> None:
        pen, x = page.pen, page.x0 + NAMED
        pen.words(page.x0, y + 5.2, fit(head, NAMED - 2))
        pen.words(page.x0, y + 10.2, fit(told, NAMED - 2))
        unit = (page.x1 - x) / 16
        for label, name, share in zip(labels, names, (2, 2, 2, 2, 3, 5), strict=True):
            wide = unit * share
            pen.pencil(x, y + 1.6, wide - 2, 9.6, label)
            given = getattr(row, name, None) if row is not None else None
            text = given if isinstance(given, str) else given.text.strip() if given is not None else ""
            if text:
                pen.words(x + (wide - 2) / 2, y + 9.8, fit(words(text, size=9), wide - 3), "centre")
            x += wide

    return Band(MADE, draw, heavy=True)

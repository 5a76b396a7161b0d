"""Sheet 8, plan with sweeps: the run from above, have and need of all that opens and meets, and the ways out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.drawing.sweep import sweep
from frontwright.core.figures import Figure
from frontwright.core.findings import Check, WayOut
from frontwright.core.lengths import Display, Length
from frontwright.core.plan import Plan
from frontwright.core.space.checks import degrees
from frontwright.core.space.result import Meeting, Swing
from frontwright.core.survey.result import RunPlan
from frontwright.sheets.base import Leaf, Page
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, text_band
from frontwright.sheets.run_frame import RunFrame, run_leaves
from frontwright.sheets.subjects import Shows, run_ids, run_of, sheet
from frontwright.sheets.words import Part, finely, fit, length, strong, words, wrap

PICTURE, ROW = 96.0, 7.2
HEADS = ("what", "it does", "have", "need", "holds")
SHARES = (0.0, 0.16, 0.6, 0.74, 0.88)
CODES = ("swing", "corner", "drawer-room", "end-gap")
_DOES = {
    "closed": "shut beside {}",
    "past": "opens past {}",
    "hung here": "opens square, hung on the corner, before {}",
    "hung here, pulls meet": "opens square, its pull meeting that of {}",
}


@dataclass(frozen=True, slots=True)
class Conflict:
    """One line of the sheet; `holds` in words."""

    subject: str
    does: str
    have: tuple[Part, ...]
    need: tuple[Part, ...]
    holds: str


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every run round which, or in which, something was entered that its fronts must be clear of."""
    return [_info(plan, run) for run in plan.survey.runs if not run.run.by_itself and _concerned(plan, run)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The drawing and the conflicts; more pages for more of them."""
    run = run_of(plan, info.subject)
    if run is None:
        return []
    frame = RunFrame(
        run=run.id,
        title=f"{run.run.name or 'run'}, what its fronts sweep",
        seen_from="above",
        drawing=sweep(plan, run.id),
        picture=PICTURE,
        heads=HEADS,
        columns=_columns,
        bands=lambda width: list(_bands(plan, run, width)),
    )
    return run_leaves(frame, info, plan.display, paper, "8")


def _concerned(plan: Plan, run: RunPlan) -> bool:
    """Whether anything was entered that makes this sheet worth its paper."""
    job, own = plan.job, {o.id for o in run.openings}
    return (
        any(row.run == run.id for row in job.obstacles.values())
        or any(run.id in corner.at for corner in plan.space.corners)
        or any(row.opening in own for row in job.insides.values())
        or any(gap.run == run.id for gap in plan.space.gaps)
        or any(check.is_open for check in _checks(plan, run))
    )


def _checks(plan: Plan, run: RunPlan) -> Iterator[Check]:
    ids = _ids(plan, run)
    return (check for check in plan.checks if check.code in CODES and check.where[:1] and check.where[0] in ids)


def _ids(plan: Plan, run: RunPlan) -> set[str]:
    return run_ids(run) | {front.id for front in plan.fronts.fronts.values() if front.run == run.id}


def _info(plan: Plan, run: RunPlan) -> SheetInfo:
    told = [
        (f"{one.subject} {one.does}", f"{_plain(one.have)}, needs {_plain(one.need)}") for one in _conflicts(plan, run)
    ]
    told += [(f"{still.kind} {still.of}", str(still.corners)) for still in plan.space.stills.get(run.id, ())]
    figures = tuple((f"width of {s.front}", s.width) for s in _swings(plan, run))
    shows = Shows(figures, tuple(told))
    return sheet(plan, "08", "sweeps", run.id, f"plan with sweeps of run {run.id}", _ids(plan, run), shows)


def _plain(parts: Sequence[Part]) -> str:
    return "".join(str(part) for part in parts)


def _swings(plan: Plan, run: RunPlan) -> Iterator[Swing]:
    return (s for s in plan.space.swings.values() if plan.fronts.fronts[s.front].run == run.id)


# -- the lines


def _conflicts(plan: Plan, run: RunPlan) -> Iterator[Conflict]:
    display = plan.display
    for swing in _swings(plan, run):
        yield _swing(swing)
    for room in plan.space.turning.values():
        if plan.fronts.fronts[room.front].run == run.id:
            yield _line(room.front, f"turns in its gap, {room.side}", room.have, room.need, display)
    for meeting in plan.space.meetings:
        if plan.fronts.fronts[meeting.front].run == run.id:
            yield _line(meeting.front, _does(meeting), meeting.have, meeting.need, display)
    own = {o.id for o in run.openings}
    for box in plan.space.drawers:
        if box.opening in own:
            yield _line(box.opening, f"takes {box.box}, {box.way}", box.have, box.need, display)
    for gap in plan.space.gaps:
        if gap.run == run.id:
            yield _line(run.id, f"{gap.side} end beside the {gap.against}, skin on", gap.have, gap.need, display)


def _swing(swing: Swing) -> Conflict:
    what = {"nothing": "nothing stops it", "hinge": "its hinge stops it", "pull": f"the pull of {swing.stopped_by}"}
    by = what.get(swing.by, swing.name)
    does = f"opens: {by}{', by its pull' if swing.with_pull else ''}"
    have = degrees(Fraction(swing.angle.units)) if swing.angle is not None else "free"
    holds = "no" if swing.short and swing.read else "yes"
    return Conflict(swing.front, does, (have,), (degrees(Fraction(swing.need.units)),), holds)


def _does(meeting: Meeting) -> str:
    return _DOES[meeting.what].format(" and ".join(meeting.others))


def _line(subject: str, does: str, have: Figure, need: Figure, display: Display) -> Conflict:
    holds = "yes" if have.units >= need.units else "no"
    return Conflict(subject, does, finely(have, display), finely(need, display), holds)


def _bands(plan: Plan, run: RunPlan, width: float) -> Iterator[Band]:
    for one in _conflicts(plan, run):
        yield _band(one)
    for check in _checks(plan, run):
        if check.is_open and check.answer is None and (ways := _ways(check, plan.display)):
            line = words(strong("Ways out for ", check.where[0]), ", each tried: ", *ways, size=10)
            yield text_band(wrap(line, width), 5.0)


def _band(one: Conflict) -> Band:
    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, _columns(page), y + 5.2
        ends = (*x[1:], page.x1)
        cells = (
            words(one.subject, size=12, bold=True),
            words(one.does, size=10),
            words(*one.have, size=11, bold=True),
            words(*one.need, size=11),
            words(one.holds, size=11, bold=one.holds == "no"),
        )
        for at, end, cell in zip(x, ends, cells, strict=True):
            pen.words(at, base, fit(cell, end - at - 1.5))

    return Band(ROW, draw)


def _columns(page: Page) -> tuple[float, ...]:
    """Where each column begins."""
    return tuple(page.x0 + share * (page.x1 - page.x0) for share in SHARES)


def _ways(check: Check, display: Display) -> list[Part]:
    parts: list[Part] = []
    for way in check.ways:
        if way.kind == "change" and way.field in _WAYS and way.gives:
            parts += ["; "] if parts else []
            parts += [*_WAYS[way.field](way, display), f" ({way.gives})"]
    return [*parts, "."] if parts else []


def _place(way: WayOut) -> str:
    return way.of.replace(":", " ", 1)


def _at(word: str) -> Callable[[WayOut, Display], tuple[Part, ...]]:
    def said(way: WayOut, display: Display) -> tuple[Part, ...]:
        return (f"{word.format(way.of)} ", length(way.value, display) if isinstance(way.value, Length) else "")

    return said


_WAYS: dict[str, Callable[[WayOut, Display], tuple[Part, ...]]] = {
    "hinge_side": lambda way, _: (f"hang {way.of} on the {way.value}",),
    "scheme": lambda way, _: (f"inset fronts in {_place(way)}",),
    "pull": lambda way, _: (f"flush pulls in {_place(way)}",),
    "pin_left": _at("make {} narrower, its left edge at"),
    "pin_right": _at("make {} narrower, its right edge at"),
    "skin": lambda _way, _: ("no skin",),
    "skin_thickness": _at("a skin of"),
    "inside_edges": lambda way, _: (f"leave the inside edges of {way.of} bare",),
    "squared": lambda way, _: (f"leave the openings of {way.of} as they lean",),
    "inside_thickness": _at("strips inside of"),
}

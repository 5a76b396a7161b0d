"""The findings of a page as lines, and the tabs that count them."""

from __future__ import annotations

from collections.abc import Iterable

from frontwright.core.findings import LEVELS, Check, CheckLevel
from frontwright.desk.contents import Action, FindingLine, Tab
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View
from frontwright.desk.ways import chapter_of, finding_key
from frontwright.desk.wording import space
from frontwright.desk.wording.checks import have, listed, need, reason, sentence, way_word
from frontwright.desk.wording.numbers import count_of

CHAPTERS = (
    ("brief", "Brief"),
    ("survey", "Survey"),
    ("fronts", "Fronts"),
    ("making", "Making"),
    ("veneer", "Veneer"),
    ("facing", "Facing"),
    ("rack", "Rack"),
    ("cuts", "Cuts"),
    ("site", "Site"),
    ("bill", "Bill"),
    ("sheets", "Sheets"),
    ("shop", "Shop"),
)
_HOLDS: dict[str, tuple[tuple[str, str], ...]] = {
    "survey": (("elevation", ""), ("front list", ""), ("door sheet", "door sheets")),
    "fronts": (("elevation", ""), ("front list", ""), ("door sheet", "door sheets")),
    "making": (("door sheet", "door sheets"),),
    "veneer": (("saw sheet", ""), ("leaf map", ""), ("glue-up card", "")),
    "facing": (("trim map", ""),),
    "cuts": (("cutting diagram", ""),),
    "site": (("site pack", ""),),
    "sheets": (),
}


def finding_lines(view: View, chapter: str) -> tuple[FindingLine, ...]:
    """The open findings of a chapter, stops first, answered ones last."""
    return tuple(finding_line(view, check) for check in view.open_checks if chapter_of(check) == chapter)


def finding_line(view: View, check: Check) -> FindingLine:
    """One finding worded, with its ways out as actions."""
    finding = finding_key(check)
    ways = tuple(
        Action(key("way", finding, str(at)), way_word(way, view.job, view.display), way.of)
        for at, way in enumerate(check.ways)
    )
    return FindingLine(
        key=finding,
        level=check.level,
        subject=check.where[0] if check.where else "",
        sentence=sentence(check, view.display),
        have=have(check, view.display),
        need=need(check, view.display),
        reason=" ".join(part for part in (reason(check, view.display), _changes(view, check)) if part),
        ways=ways,
        answerable=check.level in ("warn", "stop"),
        answer=check.answer,
        holds=holds_back(view, check) if check.holds_back else "",
        title=listed(check.where),
    )


def _changes(view: View, check: Check) -> str:
    """What the ways out of a finding would change besides."""
    tried = view.plan.space.tried.get((check.code, check.where, check.case), ())
    return space.changes(tried, view.job, view.display)


def holds_back(view: View, check: Check) -> str:
    """What sheets a stop holds back, in words."""
    if check.code == "surface":
        return "holds back: trim map, site pack"
    fronts = fronts_of_check(view, check)
    words = [
        count_of(len(fronts), one, many) if many else one
        for one, many in _HOLDS[chapter_of(check)]
        if fronts or not many
    ]
    return f"holds back: {', '.join(words)}"


def fronts_of_check(view: View, check: Check) -> tuple[str, ...]:
    """The fronts that a check is about: named themselves, or standing on an opening or run that is."""
    found = view.plan.fronts.fronts.values()
    where = set(check.where)
    return tuple(front.id for front in found if where & {front.id, front.opening, front.run})


def tabs(view: View, stale_sheets: int = 0, held_sheets: int = 0, of_rack: int = 0) -> tuple[Tab, ...]:
    """The pages, each with its strongest finding and how many there are of that strength.

    `of_rack`: what job and rack say differently, and reservations that are over.
    """
    by_chapter: dict[str, list[Check]] = {}
    for check in view.open_checks:
        if check.answer is None:
            by_chapter.setdefault(chapter_of(check), []).append(check)
    found = []
    for chapter, word in CHAPTERS:
        level, count = _strongest(by_chapter.get(chapter, ()))
        if chapter == "sheets":
            level, count = _of_sheets(stale_sheets, held_sheets)
        if chapter == "rack" and of_rack:
            level, count = ("warn", of_rack + (count if level == "warn" else 0)) if level != "stop" else (level, count)
        found.append(Tab(chapter, word, level, count))
    return tuple(found)


def _of_sheets(stale: int, held: int) -> tuple[CheckLevel, int]:
    if held:
        return "stop", held
    return ("warn", stale) if stale else ("ok", 0)


def _strongest(checks: Iterable[Check]) -> tuple[CheckLevel, int]:
    levels = [check.level for check in checks]
    if not levels:
        return "ok", 0
    strongest = max(levels, key=LEVELS.index)
    return strongest, levels.count(strongest)

"""The sheets of a job with the state of each: not printed, current, stale with the reason, or held back."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from frontwright.core.answers import with_answers
from frontwright.core.bill.result import WholeBill
from frontwright.core.findings import Check, Fact
from frontwright.core.job import Job, Printed
from frontwright.core.plan import Plan
from frontwright.desk.contents import SheetLine
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.wording.checks import listed, sentence
from frontwright.sheets.catalogue import HeldBack, Paper, SheetInfo, Stamp, digest, make, sheets_of, with_blanks

MOST_SAID = 60  # letters of a fact that are told whole
FEW = 3
_PARTS = re.compile(r", | \| ")


def sheet_infos(plan: Plan, bill: Callable[[], WholeBill] | None = None) -> dict[str, SheetInfo]:
    """Every sheet of the plan, and of its bill, by its key, in working order."""
    return {info.key: info for info in sheets_of(plan, bill)}


def sheet_lines(plan: Plan, infos: dict[str, SheetInfo]) -> tuple[SheetLine, ...]:
    """The list of sheets as it stands now."""
    return tuple(_line(plan, info) for info in infos.values())


def _line(plan: Plan, info: SheetInfo) -> SheetLine:
    printed = plan.job.printed.get(info.key)
    marks = tuple(f"{check.code} of {listed(check.where)}: {check.answer}" for check in info.answered)
    if info.held:
        reason = " ".join(sentence(check, plan.display) for check in info.held_by)
        return SheetLine(info.key, info.number, info.kind, info.title, info.subject, "held", reason, marks=marks)
    if printed is None:
        return SheetLine(info.key, info.number, info.kind, info.title, info.subject, "not printed", marks=marks)
    if _is_current(printed, info):
        said = f"version {printed.version}, {printed.when}".removesuffix(", ")
        return SheetLine(info.key, info.number, info.kind, info.title, info.subject, "current", said, marks=marks)
    reason = why_stale(printed, info)
    return SheetLine(info.key, info.number, info.kind, info.title, info.subject, "stale", reason, marks=marks)


def stale_checks(plan: Plan, infos: dict[str, SheetInfo]) -> tuple[Check, ...]:
    """One check for every sheet that was printed: it holds, or the sheet shows what is no longer so.

    `where` is the sheet's key; a sheet that the job no longer has is found too.
    """
    return tuple(_stale(printed, infos.get(printed.id)) for printed in plan.job.printed.values())


def _stale(printed: Printed, info: SheetInfo | None) -> Check:
    where = (printed.id,)
    if info is None:
        name = " ".join(part for part in (printed.kind, "sheet", printed.subject) if part)
        return Check("stale-sheet", where, printed.version, None, "warn", "open", "gone", {"sheet": name})
    facts: dict[str, Fact] = {"sheet": info.title}
    if _is_current(printed, info):
        return Check("stale-sheet", where, printed.version, None, "ok", "holds", "", facts)
    facts["why"] = why_stale(printed, info)
    return Check("stale-sheet", where, printed.version, None, "warn", "open", "", facts)


def checked(plan: Plan, bill: Callable[[], WholeBill] | None = None) -> Plan:
    """The plan with the checks of its printed sheets; the same plan where none was printed."""
    if not plan.job.printed:
        return plan
    found = with_answers(plan.job, stale_checks(plan, sheet_infos(plan, bill)))
    own = tuple(check for check in found if check.code == "stale-sheet")
    return replace(plan, checks=(*plan.checks, *own))


def why_stale(printed: Printed, info: SheetInfo) -> str:
    """The first thing that the printed sheet shows otherwise: "width of F7R was 396.5, now 397"."""
    before, now = _facts(printed), dict(_as_printed(printed, info).facts)
    for name, text in now.items():
        if name in before and before[name] != text:
            return f"{name} {_otherwise(before[name], text)}"
    more = next((name for name, text in now.items() if text and name not in before), None)
    if more is not None and before:
        said = now[more] if now[more].startswith("is ") else f"is {now[more]}"
        return f"{more} {said}, which the sheet does not show"
    gone = next((name for name in before if name not in now), None)
    return f"{gone} was {before[gone]} and is gone" if gone is not None else "what it rests on has changed"


def _otherwise(before: str, now: str) -> str:
    """What a fact was and is; of long lists only what is in one of them and not in the other."""
    if max(len(before), len(now)) <= MOST_SAID:
        return f"was {before}, now {now}"
    old, new = (_PARTS.split(text) for text in (before, now))
    gone, come = [one for one in old if one not in new], [one for one in new if one not in old]
    if gone and come:
        return f"was {_few(gone)}, now {_few(come)}"
    if gone or come:
        return f"has {_few(come)} too" if come else f"was with {_few(gone)}"
    return "stands in another order"


def _few(parts: Sequence[str]) -> str:
    """The first few of a list: "A1, A2, A3 and 9 more"."""
    said = ", ".join(part if len(part) <= MOST_SAID else f"{part[:MOST_SAID]}…" for part in parts[:FEW])
    return f"{said} and {len(parts) - FEW} more" if len(parts) > FEW else said


def _is_current(printed: Printed, info: SheetInfo) -> bool:
    return printed.digest == digest(_as_printed(printed, info))


def _as_printed(printed: Printed, info: SheetInfo) -> SheetInfo:
    """The sheet without what was written by hand into boxes that were blank when it was printed."""
    return with_blanks(info, {name for name, text in _facts(printed).items() if not text})


def _facts(printed: Printed) -> dict[str, str]:
    try:
        found = json.loads(printed.facts)
    except ValueError:
        return {}
    return {str(k): str(v) for k, v in found.items()} if isinstance(found, dict) else {}


def version_of(job: Job, info: SheetInfo) -> int:
    """The version that a sheet has or gets: one more than the printed one's where it shows something else."""
    printed = job.printed.get(info.key)
    if printed is None:
        return 1
    return printed.version if _is_current(printed, info) else printed.version + 1


def pdf(
    plan: Plan,
    infos: Sequence[SheetInfo],
    paper: Paper,
    when: str,
    bill: Callable[[], WholeBill] | None = None,
) -> bytes | str:
    """The sheets as one PDF; one sentence where a stop holds one back or none was chosen."""
    if not infos:
        return "Choose the sheets that are wanted."
    versions = {info.key: version_of(plan.job, info) for info in infos}
    try:
        return make(plan, infos, paper, Stamp(printed=when, versions=versions), bill)
    except HeldBack as held:
        return f"{held}. Clear or answer that first."


def printed_edit(job: Job, infos: Sequence[SheetInfo], when: str) -> Edit:
    """The sheets noted as printed or saved, with what they showed."""
    if not infos:
        raise Refused("Choose the sheets that are wanted.")
    rows = tuple(
        Printed(
            info.key,
            info.kind,
            info.subject,
            version_of(job, info),
            digest(info),
            json.dumps(dict(info.facts), ensure_ascii=False),
            when,
        )
        for info in infos
    )
    word = infos[0].title if len(infos) == 1 else f"{len(infos)} sheets"
    return Edit(f"print {word}", lambda before: before.put(*rows))

"""What there is to see to on the Cuts page: layouts that hold no longer, pieces of another lot, what is kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from frontwright.core.plan import asked
from frontwright.core.stock.enough import NOT_CUT
from frontwright.desk.contents import Action, FindingLine
from frontwright.desk.keys import key
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.rack_enough import lying
from frontwright.desk.pages.view import View
from frontwright.desk.rack_wood import LAID_ON
from frontwright.desk.wording.checks import sentence
from frontwright.desk.wording.numbers import count_of
from frontwright.store import StoreError


def cut_findings(view: View) -> tuple[FindingLine, ...]:
    """Every finding of the page, those of the checks first."""
    return (*_with_laying_anew(view), *_other_lot(view), *_on_the_rack(view), *_taken(view), *_kept_note(view))


def _on_the_rack(view: View) -> Iterator[FindingLine]:
    """Pieces of the rack that serve and are nobody's: parts are laid on them once they are reserved for this job."""
    desk = view.rack
    if desk is None or not desk.is_there or not view.plan.stock.groups:
        return
    try:
        rack = desk.rack
    except StoreError:  # the Rack page says why
        return
    enough = desk.remembered.get("cuts", (view.plan, rack), lambda: asked(view.plan, NOT_CUT, lying(view, rack)))
    uses = (use.piece for one in enough.groups for use in one.uses)
    free = [one for one in dict.fromkeys(uses) if one in rack.pieces and one not in rack.reservations]
    takes = [one for one in free if one not in view.job.pieces]
    if takes:
        named = ", ".join(takes[:4]) + (f" and {len(takes) - 4} more" if len(takes) > 4 else "")
        said = "Free on the rack, and would serve: “Lay” takes such pieces by itself before anything is bought."
        word = f"Reserve {takes[0]}" if len(takes) == 1 else f"Reserve the {len(takes)} pieces"
        ways = (Action(key("rack-reserve", *takes), word, takes[0]),)
        yield FindingLine("on the rack", "note", takes[0], said, "", "", "", ways, title=named, shown=True)


def _taken(view: View) -> Iterator[FindingLine]:
    """Pieces of the rack that laying has taken for this job, and why just these."""
    desk = view.rack
    if desk is None or not desk.is_there:
        return
    try:
        held = desk.rack.reservations
    except StoreError:
        return
    laid = dict.fromkeys(one.laid.piece for one in view.plan.stock.layouts if one.laid.piece)
    names = [one for one in laid if (row := held.get(one)) is not None and row.job == desk.mark and row.why == LAID_ON]
    if names:
        named = ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
        said = "Taken from the rack: free, of this wood and thickness, dry, large enough; own pieces went before them."
        reason = "Nothing is bought for what lies on them. They are reserved for this job; undo gives them back."
        yield FindingLine("taken", "note", names[0], said, "", "", reason, title=named)


def _with_laying_anew(view: View) -> Iterator[FindingLine]:
    """A layout that holds no longer can be laid anew at once."""
    layouts = {one.id: one for one in view.plan.stock.layouts}
    for line in finding_lines(view, "cuts"):
        layout = layouts.get(line.subject)
        if layout is None or not layout.faults:
            yield line
            continue
        anew = Action(key("lay", "open", layout.group), "Lay anew what no longer holds", layout.id)
        yield replace(line, ways=(anew, *line.ways))


def _other_lot(view: View) -> Iterator[FindingLine]:
    """Pieces that only the rule of one lot leaves on the shelf; the rule can be another one."""
    for check in view.plan.checks:
        if (check.code, check.case) == ("batch", "other lot"):
            place = key("limits", "limits", "one_lot")
            ways = (Action(key("lead", "shop:Limits", place), "Lay without this rule", check.where[0]),)
            have, need = f"have {check.value}", "need one lot for all that is seen"
            said, where = sentence(check, view.display), check.where[0]
            yield FindingLine(f"lot {where}", "note", where, said, have, need, ways=ways, title=where)


def _kept_note(view: View) -> Iterator[FindingLine]:
    """Which leftovers become pieces when their cuts are ticked, and how many go to burn."""
    kept = [f"{one.id} {rest.letter}" for one in view.plan.stock.layouts for rest in one.remainders if rest.keep]
    burned = sum(not rest.keep for one in view.plan.stock.layouts for rest in one.remainders)
    done = {f"{row.laid} {row.id.rpartition(' ')[2]}" for row in view.job.leftovers.values() if row.piece}
    waiting = [name for name in kept if name not in done]
    if not waiting:
        return
    burn = f" {count_of(burned, 'hatched one goes', 'hatched ones go')} to burn." if burned else ""
    short = ", ".join(waiting[:3]) + (f" and {len(waiting) - 3} more" if len(waiting) > 3 else "")
    sentence = f"{_remainders(len(waiting))} large enough to keep: they get labels when their cuts are ticked.{burn}"
    yield FindingLine("note kept", "note", waiting[0], sentence, "", "", title=short)


def _remainders(count: int) -> str:
    return "One remainder is" if count == 1 else f"{count} remainders are"

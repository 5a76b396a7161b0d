"""What an action's key has done: its verb and its objects, as an edit."""

from __future__ import annotations

from collections.abc import Callable

from frontwright.core.job import Job
from frontwright.desk.edits import bill, condition, cuts, entry, facing, fronts, making, readings, space, survey
from frontwright.desk.edits.edit import Edit, Refused


def edit_of(job: Job, verb: str, objects: tuple[str, ...]) -> Edit:
    """The edit of an action. Refused where what it is about is no longer there."""
    made = _VERBS.get(verb)
    if made is None:
        raise Refused(f"Nothing is known by “{verb}”: choose a button of the page.")
    try:
        return made(job, *objects)
    except TypeError as wrong:
        raise Refused(f"“{verb}” takes other objects than {', '.join(objects) or 'none'}.") from wrong


def is_edit(verb: str) -> bool:
    return verb in _VERBS


def _add_run(job: Job, room: str) -> Edit:
    return survey.add_run(job, room)


def _add_openings(job: Job, room: str) -> Edit:
    return survey.add_run(job, room, by_itself=True)


def _add_opening(job: Job, run: str, after: str = "") -> Edit:
    return survey.add_opening(job, run, after)


_VERBS: dict[str, Callable[..., Edit]] = {
    "add-member": survey.add_member,
    "add-rail": survey.add_rail,
    "add-column": _add_opening,
    "add-opening": _add_opening,
    "add-room": survey.add_room,
    "add-run": _add_run,
    "add-openings": _add_openings,
    "split": survey.split,
    "move": survey.move,
    "move-opening": survey.move_opening,
    "remove": survey.remove,
    "add-row": fronts.add_row,
    "let-go": fronts.let_go,
    "new": making.new_entry,
    "copy": making.copy_entry,
    "delete": entry.remove_row,
    "add-piece": bill.add_piece,
    "copy-piece": bill.copy_piece,
    "add-defect": bill.add_defect,
    "keep-layout": cuts.keep_layout,
    "take-layout-away": cuts.take_away,
    "let-part-go": cuts.let_part_go,
    "put-by-hand": cuts.put_by_hand,
    "put-on-bill": cuts.to_buy,
    "strike": readings.strike,
    "add-obstacle": space.add_obstacle,
    "add-corner": space.add_corner,
    "add-inside": space.add_inside,
    "add-trim": facing.add_trim,
    "over-paint": readings.over_paint,
    "add-surface": condition.add_surface,
    "add-repair": condition.add_repair,
    "add-line": condition.add_line,
}

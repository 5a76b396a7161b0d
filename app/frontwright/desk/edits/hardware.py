"""What is refused of hinges and pulls: data that contradict each other, a pull that would lie off its front."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from frontwright.core.findings import Check
from frontwright.core.hardware.sense import Contradiction, contradictions
from frontwright.core.job import HingeType, Job, Plate, Shop
from frontwright.core.lengths import Display, Length
from frontwright.core.plan import derive
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.rows import table
from frontwright.desk.keys import Place
from frontwright.desk.wording.fields import field_word, subject_word
from frontwright.desk.wording.numbers import length_text

OF_A_PULL = ("holes", "across", "from_edge", "from_end", "from_top", "kind")


def hinge_holds[W: (Job, Shop)](before: W, after: W, place: Place, display: Display) -> W:
    """The changed whole; Refused where the entry contradicts what else is told of this hinge."""
    if place.table != "hinge_types":
        return after
    known = set(contradictions(before.hinge_types.get(place.row) or HingeType("")))
    row = after.hinge_types.get(place.row) or HingeType("")
    for one in contradictions(row):
        if one not in known and place.field in one.fields:
            raise Refused(_said(after, place, one, row, display))
    return after


def _said(whole: Job | Shop, place: Place, one: Contradiction, row: HingeType, display: Display) -> str:
    """What contradicts what, and the way out."""
    subject = subject_word(whole, place.table, place.row)
    word = field_word("hinge_types", place.field)
    others = [name for name in one.fields if name != place.field]
    told = ", ".join(f"{field_word('hinge_types', name)} {_text(row, name)}" for name in others)
    start = f"{word[:1].upper()}{word[1:]} of {subject}: {_text(row, place.field)} and {told}"
    if one.kind == "sum" and one.makes is not None:
        made = length_text(one.makes if isinstance(one.makes, Length) else Length(round(one.makes)), display)
        return f"{start} make a cover of {made}; empty one of them, or put it right first."
    if one.kind == "deep":
        return f"{start}: the cup would come through the door; put one of them right first."
    return f"{start} cannot both be; put the other one right first, or empty it."


def _text(row: HingeType, name: str) -> str:
    value: Any = getattr(row, name)
    return value.text.strip() if value is not None else ""


def pull_lies_on(before: Job, after: Job, place: Place) -> Job:
    """The changed job; Refused where the entry moves a pull off a front that it lay on."""
    if place.table != "pull_types" or place.field not in OF_A_PULL or before == after:
        return after
    was = {check.where for check in _off(before)}
    off = next((check for check in _off(after) if check.where not in was), None)
    if off is None:
        return after
    word = field_word("pull_types", place.field)
    said = f"{word[:1].upper()}{word[1:]} of {subject_word(after, place.table, place.row)}"
    raise Refused(f"{said}: the pull would lie off {off.where[0]}; type a size that leaves it on.")


def _off(job: Job) -> Iterator[Check]:
    return (check for check in derive(job).checks if check.code == "swing" and check.case == "pull off")


def plates_of(whole: Job | Shop, hinge: str) -> tuple[Plate, ...]:
    """The plates that are for this hinge alone."""
    return tuple(plate for plate in table(whole, "plates").values() if plate.hinge == hinge)

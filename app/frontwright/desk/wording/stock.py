"""Sentences of the stock's checks: wood of another lot, layouts that hold no longer."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from frontwright.core.lengths import Display
from frontwright.core.stock.result import Group
from frontwright.desk.wording.numbers import length_text

if TYPE_CHECKING:
    from frontwright.desk.wording.checks import Say

FAULTS: dict[str, Callable[[Say], str]] = {
    "no piece": lambda say: f"Layout {say.where} lies on {say('other', 'a piece')}, which is not there any more.",
    "taken": lambda say: f"Layout {say.where} lies on {say('other')}, on which another layout lies already.",
    "piece size": lambda say: f"Layout {say.where} lies on {say('other')}, whose size nobody told.",
    "not wanted": lambda say: f"{say('part')} on layout {say.where} is not wanted any more.",
    "twice": lambda say: f"{say('part')} on layout {say.where} is laid twice.",
    "size": lambda say: f"{say('part')} has grown by {say('by')} since layout {say.where} was made.",
    "outside": lambda say: f"{say('part')} reaches {say('by')} beyond what layout {say.where} lies on.",
    "overlap": lambda say: f"{say('part')} and {say('other')} lie {say('by')} over each other on layout {say.where}.",
    "kerf": lambda say: f"{say('part')} and {say('other')} on layout {say.where} leave {say('by')} less than the kerf.",
    "defect": lambda say: f"{say('part')} on layout {say.where} lies on a defect.",
    "grain": lambda say: f"{say('part')} on layout {say.where} lies across its grain.",
    "grade": lambda say: f"{say('part')} will be seen; {say('other')} on layout {say.where} is for hidden parts.",
    "thin": lambda say: f"{say('other')} on layout {say.where} is not as thick as its parts want it.",
    "edge to edge": lambda say: f"The parts on layout {say.where} cannot be cut free from edge to edge.",
}


def _fault(say: Say) -> str:
    return FAULTS[say("fault")](say)


def _fault_more(say: Say) -> str:
    more = say.check.facts.get("more")
    held = "Lay it anew; what is cut already stays as it is."
    return f"And {more} more on it. {held}" if more else held


SENTENCES: dict[tuple[str, str], Callable[[Say], str]] = {
    ("batch", "holds"): lambda say: f"Piece {say.where} holds everything of its lot that is seen.",
    ("batch", "other lot"): lambda say: (
        f"Piece {say.where} ({say.value}) is left: what is seen of {say('group')} must come from one lot, and it does "
        "not hold all of it."
    ),
    ("batch", "mixed"): lambda say: (
        f"Layout {say.where} brings another lot among what is seen of {say('group')}: {say('parts')}."
    ),
    ("layout", ""): lambda say: f"Layout {say.where} holds.",
    ("layout", "fault"): _fault,
}
REASONS: dict[tuple[str, str], Callable[[Say], str] | str] = {
    ("batch", "mixed"): "One door stands out for ever. Lay them on pieces of one lot.",
    ("layout", "fault"): _fault_more,
}

_GROUPS = {"board": "boards", "sheet": "sheets", "core": "cores", "leaf": "leaves"}
_LEFT = {
    "sizes": "large enough for a part",
    "batch": "kept for repairs of its batch",
    "short": "shorter than the least that is kept",
    "narrow": "narrower than the least that is kept",
    "worth less": "worth less than handling it",
    "by hand": "decided by hand",
    "value": "worth its place",
}


def group_word(group: Group, display: Display) -> str:
    """ "boards oak 20": what a group of parts is cut from, in the job's own way of writing lengths."""
    if group.on_leaves:
        return "strips"
    form = _GROUPS.get(group.form, group.form)
    return " ".join(word for word in (form, group.species, length_text(group.thickness.value, display)) if word)


def reason_word(reason: str, until: str = "") -> str:
    """Why a remainder is kept or goes to burn."""
    said = _LEFT.get(reason, reason)
    return f"{said}, to {until}" if until else said

"""Sentences and buttons of what does not open, does not fit or closes a gap."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from frontwright.core.findings import WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import Display, Length
from frontwright.core.space.result import Tried
from frontwright.desk.wording import hardware
from frontwright.desk.wording.numbers import count_of, length_text

if TYPE_CHECKING:
    from frontwright.desk.wording.checks import Say


def _meets(say: Say) -> str:
    """What meets what: "its pull meets the trim", "it meets the pull of F2"."""
    own = "its pull meets" if say.check.facts.get("pull") else "it meets"
    by, name, of = say("by"), say("name"), say("of")
    if by == "pull":
        return f"{own} the pull of {of}"
    if by in ("front", "cabinet") and name == of:
        return f"{own} {of}"
    return f"{own} the {name or by}"


def _other(say: Say) -> str:
    return " and ".join(say.check.where[1:]) or "the other leg"


SENTENCES: dict[tuple[str, str], Callable[[Say], str]] = {
    ("swing", ""): lambda say: f"{say.where} opens as far as it must, {say.limit}.",
    ("swing", "short"): lambda say: f"{say.where} opens to {say.value} only: there {_meets(say)}.",
    ("swing", "hinge"): lambda say: f"{say.where} opens to {say.value} only: its hinge goes no further.",
    ("swing", "drawer"): lambda say: (
        f"{say.where} opens to {say.value}: the drawer behind it, {say('drawer')}, scrapes until {say.limit}."
    ),
    ("swing", "flap"): lambda say: (
        f"{say.where} opens to {say.value} only: there {'its pull' if say.check.facts.get('pull') else 'it'} "
        f"meets the {say('name')} above it."
    ),
    ("swing", "turns"): lambda say: f"The free edge of {say.where} has {say.value} to turn in.",
    ("swing", "free edge"): lambda say: (
        f"The back corner of {say.where} takes {say.limit} to turn, the gap on the {say('side')} is {say.value}."
    ),
    ("swing", "draws"): lambda say: f"{say.where} comes out in full before the {say('name')}.",
    ("swing", "drawn"): lambda say: (
        f"{say.where} comes out {say.value} only, then the {say('name')} stops it; its box is {say.limit} long."
    ),
    ("swing", "pull off"): lambda say: f"The pull {say('pull')} lies {say.value} off {say.where}.",
    ("corner", "closed"): lambda say: (
        f"{say.check.where[0]} stands {say.value} from the other leg; beside {_other(say)} it needs {say.limit}."
    ),
    ("corner", "past"): lambda say: (
        f"{say.check.where[0]} stands {say.value} from the other leg; to open past {_other(say)} it needs {say.limit}."
    ),
    ("corner", "hung here"): lambda say: (
        f"{say.check.where[0]} is hung on the corner, {say.value} from the other leg; "
        f"to open square before {_other(say)} it needs {say.limit}."
    ),
    ("corner", "pulls meet"): lambda say: (
        f"{say.check.where[0]} is hung on the corner, {say.value} from the other leg; "
        f"its pull meets that of {_other(say)}, and it needs {say.limit}."
    ),
    ("cup-fit", "plate seat"): lambda say: (
        f"The frame that {say.where} is hung on is {say.value} thick, its plate {say.limit} wide."
    ),
    ("cup-fit", "screw seat"): lambda say: (
        f"The side that {say.where} is hung on is {say.value} thick; the screws of its plate need {say.limit}."
    ),
    ("drawer-room", "across"): lambda say: f"Beside the box in {say.where} and its runners {say.value} is left.",
    ("drawer-room", "upright"): lambda say: f"Above the box in {say.where} {say.value} is left.",
    ("end-gap", "left"): lambda say: _gap(say),
    ("end-gap", "right"): lambda say: _gap(say),
}


def _gap(say: Say) -> str:
    skin = f" once the skin of {say('skin')} is on" if "skin" in say.check.facts else ""
    return f"At the {say('side')} end of {say.where} {say.value} is left to the {say('against')}{skin}."


REASONS: dict[tuple[str, str], Callable[[Say], str] | str] = {
    ("swing", "short"): "The pivot is the hinge edge of its face. What is offered was tried.",
    ("swing", "flap"): "Seen from the side, about the top edge of its face. What is offered was tried.",
    ("swing", "drawer"): "Counted with the thickness of the open door and the room beside the box.",
    ("swing", "free edge"): "It turns about its hinge edge; the back corner stands out furthest.",
    ("swing", "drawn"): "Counted from the face of its pull.",
    ("corner", "past"): "The thickness of the other front, its pull, and a clearance.",
    ("corner", "closed"): "The thickness of the other front and a clearance.",
    ("corner", "hung here"): "The thickness of the other front, the greater pull, and a clearance.",
    ("corner", "pulls meet"): "Both pulls stand at one height and as far from the corner.",
    ("cup-fit", "plate seat"): "A narrower plate, or a block behind the frame.",
    ("cup-fit", "screw seat"): "Shorter screws, or a block on the side.",
    ("drawer-room", "across"): lambda say: (
        f"Both edges are covered with {say('strip')}." if say.check.facts.get("covered") else "It is wider than that."
    ),
    ("drawer-room", "upright"): lambda say: (
        f"Both rails are covered with {say('strip')}." if say.check.facts.get("covered") else "It is higher than that."
    ),
    ("end-gap", "left"): lambda say: f"The gap was read as {say('bare')}.",
    ("end-gap", "right"): lambda say: f"The gap was read as {say('bare')}.",
}

NEEDS: dict[str, str] = {"swing": "at least", "corner": "at least", "drawer-room": "at least", "end-gap": "at least"}


def way_word(way: WayOut, job: Job, display: Display) -> str:
    """What stands on the button of a way out of the space; empty where it is none of these."""
    made = _way(way)
    if made is None or way.kind != "change" or way.value is None or not way.gives:
        return ""
    return f"{made(way, job, display)}: {way.gives}"


def _way(way: WayOut) -> Callable[[WayOut, Job, Display], str] | None:
    """How a way out is called: an edge moved for a hinge may go either way."""
    return _WAYS.get(way.field) or hardware.WAYS.get(way.field)


def _change(way: WayOut, _job: Job, _display: Display) -> str:
    return f"Change {way.of}"


def changes(tried: Sequence[Tried], job: Job, display: Display) -> str:
    """What each way out that was tried would change besides, a sentence each; empty where none changes anything."""
    return " ".join(said for one in tried if (said := _changes(one, job, display)))


def _changes(one: Tried, job: Job, display: Display) -> str:
    parts = [f"{name} becomes {length_text(new, display)} {_WIDE[what]}" for name, what, _, new in one.sizes[:_FEW]]
    if len(one.sizes) > _FEW:
        parts = [f"{count_of(len({name for name, *_ in one.sizes}), 'front')} take other sizes"]
    brings = dict.fromkeys(f"{_BRINGS.get(check.code, check.code)} of {check.where[0]}" for check in one.brings)
    if brings:
        more = [*list(brings)[:_FEW], *(["more"] if len(brings) > _FEW else [])]
        parts.append(f"then see to {listed(more)}")
    if not parts:
        return ""
    return f"{(_way(one.way) or _change)(one.way, job, display)}: {', '.join(parts)}."


def listed(words: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


_FEW = 2  # more sizes or findings than these are only counted
_WIDE = {"width": "wide", "height": "high"}
_BRINGS: dict[str, str] = {
    "cover": "the cover",
    "hinge-overlay": "the hinges",
    "cup-fit": "the cups",
    "row-sum": "the row",
    "wall-clearance": "the gap to the wall",
    "hinge-count": "the hinges",
    "field": "the field",
    "panel-movement": "the panel",
    "swing": "the swing",
    "corner": "the corner",
    "drawer-room": "the box",
    "end-gap": "the end",
}


def _place(way: WayOut) -> str:
    """ "run L", "opening A": what a look holds for."""
    return way.of.replace(":", " ", 1)


def _narrower(way: WayOut, _job: Job, display: Display) -> str:
    side = way.field.removeprefix("pin_")
    at = length_text(way.value, display) if isinstance(way.value, Length) else ""
    return f"Make {way.of} narrower, {side} edge at {at}"


def _thin(what: str) -> Callable[[WayOut, Job, Display], str]:
    def said(way: WayOut, _job: Job, display: Display) -> str:
        return f"{what} {length_text(way.value, display) if isinstance(way.value, Length) else ''} thick"

    return said


_WAYS: dict[str, Callable[[WayOut, Job, Display], str]] = {
    "hinge_side": lambda way, _job, _display: f"Hang {way.of} on the {way.value}",
    "scheme": lambda way, _job, _display: f"Inset fronts in {_place(way)}",
    "pull": lambda way, _job, _display: f"Flush pulls in {_place(way)}",
    "pin_left": _narrower,
    "pin_right": _narrower,
    "skin": lambda _way, _job, _display: "No skin at this end",
    "skin_thickness": _thin("A skin"),
    "inside_edges": lambda way, _job, _display: f"Leave the inside edges of {way.of} bare",
    "inside_thickness": _thin("Strips inside"),
    "squared": lambda way, _job, _display: f"Leave the openings of {way.of} as they lean",
}

"""Sentences and buttons of hinges, plates and cups."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from frontwright.core.findings import WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import Display, Length
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of, length_text

if TYPE_CHECKING:
    from frontwright.desk.wording.checks import Say

type Sentence = Callable[[Say], str]


def _word(say: Say, fact: str) -> str:
    return field_word("hinge_types", say(fact))


def _fields(say: Say) -> str:
    names = [field_word("hinge_types", name) for name in say("fields").split(", ")]
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _beyond(say: Say) -> str:
    plate = f" on the plate {say('plate')}" if say("plate") else ""
    side = f"{say('side')}-hand " if say("side") != "top" else ""
    return f"Cover is {say.value} at the {side}hinges: the hinge for {say('given')}{plate} reaches {say.limit}."


def _at_the_end(say: Say) -> str:
    plate = f" on the plate {say('plate')}" if say("plate") else ""
    side = f"{say('side')}-hand " if say("side") != "top" else ""
    return (
        f"Cover is {say.value} at the {side}hinges: the hinge for {say('given')}{plate} is then near the end of its "
        "adjustment."
    )


SENTENCES: dict[tuple[str, str], Sentence] = {
    ("hinge-overlay", ""): lambda say: f"Cover of {say.where} is {say.value} at the hinges.",
    ("hinge-overlay", "at the end"): _at_the_end,
    ("hinge-overlay", "beyond"): _beyond,
    ("hinge-overlay", "no frame"): lambda say: (
        f"{say.where} is hung on the {say('side')}, where it meets another door: no frame is there."
    ),
    ("hinge-overlay", "two plates"): lambda say: f"{say.where} {say.verb('hangs', 'hang')} on two plates: {say.value}.",
    ("hinge-overlay", "plates lack"): lambda say: (
        f"The plate {say('plate')} is lacking {count_of(int(say('lacking')), 'time')}: for {say.where}."
    ),
    ("hinge-overlay", "other box"): lambda say: (
        f"The hinge of {say.where} is made for a {say('made for')} box, this one is {say('box')}."
    ),
    ("hinge-overlay", "data order"): lambda say: (
        f"Of the hinge {say.where} “{_word(say, 'second')}” is less than “{_word(say, 'first')}”."
    ),
    ("hinge-overlay", "data sum"): lambda say: (
        f"Of the hinge {say.where} edge, constant and plate make a cover of {say('makes')}, and another one is told."
    ),
    ("hinge-overlay", "data deep"): lambda say: f"The cup of the hinge {say.where} is as deep as its thickest door.",
    ("cup-fit", "in the way"): lambda say: (
        f"The hinge of {say.where} at {say.value} from the bottom meets {say('of')}, and no height beside it is free."
    ),
    ("cup-fit", "too thick"): lambda say: f"{say.where} is {say.value} thick; its hinge takes {say.limit} at most.",
    ("cup-fit", "thin enough"): lambda say: f"{say.where} is no thicker than its hinge takes.",
    ("cup-fit", "depth"): lambda say: (
        f"Behind the frame of {say.where} there is {say.value}; its hinge needs {say.limit}."
    ),
    ("cup-fit", "deep enough"): lambda say: f"Behind the frame of {say.where} there is room for its hinge.",
}
REASONS: dict[tuple[str, str], Sentence | str] = {
    ("hinge-overlay", "beyond"): "Counted at each hinge's own height, from the surface that its plate sits on.",
    ("hinge-overlay", "two plates"): "They are marked on the boring sheet; do not mix them up at the bench.",
    ("hinge-overlay", "plates lack"): "Every other one on hand is under a hinge that wants it more.",
    ("hinge-overlay", "data sum"): "Cover = cup from the edge + constant − plate. One of the figures is misread.",
    ("hinge-overlay", "data order"): "Look at the maker's sheet; one of the two is misread.",
    ("hinge-overlay", "other box"): "Its plate may find nothing to sit on.",
    ("cup-fit", "in the way"): "Move the shelf, or take a hinge with a shorter plate.",
    ("cup-fit", "too thick"): "It binds on the hinge edge as it opens.",
    ("cup-fit", "depth"): "Arm and soft close foul what stands there.",
}
AT_LEAST = ("depth", "deep enough")  # cases whose limit is the least


def _move_edge(way: WayOut, _job: Job, display: Display) -> str:
    side = way.field.removeprefix("cover_")
    at = length_text(way.value, display) if isinstance(way.value, Length) else ""
    return f"Move the {side} edge of {way.of} to {at}"


def _figure(what: str) -> Callable[[WayOut, Job, Display], str]:
    def said(way: WayOut, _job: Job, display: Display) -> str:
        at = length_text(way.value, display) if isinstance(way.value, Length) else str(way.value)
        return what.format(of=way.of, at=at)

    return said


def _hinge(way: WayOut, job: Job, _display: Display) -> str:
    row = job.hinge_types.get(str(way.value))
    return f"Take the hinge {row.name if row is not None and row.name else way.value}"


WAYS: dict[str, Callable[[WayOut, Job, Display], str]] = {
    "hinge": _hinge,
    "new plate": _figure("Get plates {at} high for {of}"),
    "edge_distance": _figure("Bore the cups of {of} {at} from the edge"),
    "stile": _figure("Stiles of {of} {at} wide"),
    "top_rail": _figure("Top rails of {of} {at} wide"),
    "thickness": _figure("{of} {at} thick"),
    "cover_left": _move_edge,
    "cover_right": _move_edge,
    "cover_top": _move_edge,
}

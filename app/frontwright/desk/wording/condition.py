"""Sentences and buttons of surfaces that cannot be glued to, of old paint, loose frames and drawer fronts."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from frontwright.core.findings import WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import Display, Length
from frontwright.desk.wording.numbers import length_text

if TYPE_CHECKING:
    from frontwright.desk.wording.checks import Say

_RUN_OF: dict[str, str] = {
    "faces": "frame faces of {}",
    "inside edges": "inside edges of {}",
    "left end": "left end of {}",
    "right end": "right end of {}",
    "underside": "underside of {}",
    "top": "top of {}",
    "toe kick": "toe kick of {}",
    "inside": "inside of {}",
}


def surface_word(run: str, where: str) -> str:
    """A surface as it is spoken of: "frame faces of K"."""
    return _RUN_OF.get(where, "{}").format(run)


def _surface(say: Say) -> str:
    return surface_word(say("run"), say("at"))


def _up(text: str) -> str:
    return text[:1].upper() + text[1:]


SENTENCES: dict[tuple[str, str], Callable[[Say], str]] = {
    ("surface", ""): lambda say: f"{_up(_surface(say))}: {say.value}; nothing speaks against working on it.",
    ("surface", "not looked at"): lambda say: f"{_up(_surface(say))}: covered, and nobody has said what is on it.",
    ("surface", "lifting"): lambda say: f"{_up(_surface(say))}: {say.value}. What is glued onto it comes off with it.",
    ("surface", "let go"): lambda say: f"{_up(_surface(say))}: the strip glued on for a day let go.",
    ("surface", "film"): lambda say: f"{_up(_surface(say))}: {say('finish')}, and no strip was glued on for a day.",
    ("surface", "greasy"): lambda say: f"{_up(_surface(say))}: {say.value}, not washed until a drop of water spreads.",
    ("surface", "lead"): lambda say: f"{_up(_surface(say))}: lead was found, and it is not said how it is keyed.",
    ("surface", "lead dry"): lambda say: f"{_up(_surface(say))}: lead was found, and it is to be keyed dry.",
    ("surface", "no swab"): lambda say: (
        f"{_up(_surface(say))}: paint that may be from before lead was banned, and no swab was taken."
    ),
    ("surface", "old paint dry"): lambda say: (
        f"{_up(_surface(say))}: paint that may hold lead is to be keyed dry, and no swab was taken."
    ),
    ("repair", ""): lambda say: f"{_up(say.value)}{_at(say)} of run {say('run')} is put right.",
    ("repair", "to do"): lambda say: f"{_up(say.value)}{_at(say)} of run {say('run')} must be put right first.",
    ("repair", "not said"): lambda say: f"Box {say.where} of run {say('run')} is not sound.",
    ("drawer-front", ""): lambda say: f"{say.value} behind {say.where} let it come down on its bumpers.",
    ("drawer-front", "fixed"): lambda say: f"The old front of {say.where} is the end of its box.",
    ("drawer-front", "stands out"): lambda say: (
        f"The box of {say.where} stands out {say('over')} too far for its front to shut."
    ),
    ("drawer-front", "screw"): lambda say: f"Screws of {say.value} hold {say.where} and stay behind its face.",
    ("drawer-front", "screw through"): lambda say: f"Screws of {say.value} come out of the face of {say.where}.",
    ("drawer-front", "screw short"): lambda say: f"Screws of {say.value} have too little of {say.where} to hold in.",
    ("old-hinge", ""): lambda say: f"The old hinges take {say.where} as it is.",
    ("old-hinge", "lipped"): lambda say: f"The old hinges are for a lipped door and cannot carry {say.where}.",
    ("old-hinge", "worn"): lambda say: f"The old hinges of {say.where} are worn.",
    ("old-hinge", "count"): lambda say: f"There are {say.value} old hinges for {say.where}, which takes {say.limit}.",
    ("old-hinge", "thick"): lambda say: (
        f"{say.where} is {say.value} thick, its old hinges were made for {say.limit}: it binds on the hinge side."
    ),
    ("old-hinge", "cover"): lambda say: (
        f"The old hinges give a cover of {say.limit}; {say.where} lies {say.value} over their plates."
    ),
    ("old-hinge", "cup"): lambda say: (
        f"The old cup of {say.where} reaches {say.value} from the edge; stile, joint and wall leave {say.limit}."
    ),
    ("old-hinge", "floor"): lambda say: f"Under the old cup of {say.where} {say.value} of wood is left.",
    ("old-holes", ""): lambda say: f"New screws of {say.where} stand clear of old holes.",
    ("old-holes", "near"): lambda say: (
        f"A screw of the new plates of {say.where} goes in {say.value} from an old hole."
    ),
    ("drawer-front", "packing"): lambda say: (
        f"{say.value} behind {say.where} do not bring it down on its bumpers; that takes {say.limit}."
    ),
}


def _at(say: Say) -> str:
    at = say("at")
    return f", {at}," if at else ""


_LEAD = (
    "Wet or with a stripper, floor sheeted, no heat gun, dust wiped up wet. "
    "Local codes and certified people decide; children and pregnant people keep away."
)
REASONS: dict[tuple[str, str], Callable[[Say], str] | str] = {
    ("surface", "not looked at"): "A cross cut and a pull of tape say whether it holds, a drop of alcohol what it is.",
    ("surface", "lifting"): "Such strips are off within a year. What is offered was tried against the rest of it.",
    ("surface", "let go"): "Another way of making it good, then a new trial for a day.",
    ("surface", "film"): "Cut it away at the member, or glue on a strip and pull it off after a day.",
    ("surface", "greasy"): "Wash it more than once; no adhesive holds on wax or kitchen grease.",
    ("surface", "lead"): _LEAD,
    ("surface", "lead dry"): _LEAD,
    ("surface", "no swab"): "Swab it, say how old it is, or work on it as if it held lead.",
    ("surface", "old paint dry"): _LEAD,
    ("repair", "to do"): "Strips and hinges on a frame that moves come loose with it.",
    ("repair", "not said"): "Say under repairs what is wrong with it.",
    ("drawer-front", "fixed"): "Saw it off and screw a front on, or make that end of the box anew.",
    ("drawer-front", "stands out"): "Set the runners back, or make the end of the box anew.",
    ("drawer-front", "screw through"): "It passes box front and packing, and must leave wood before the face.",
    ("drawer-front", "screw short"): "It passes box front and packing, and needs the rest to bite.",
    ("old-hinge", "lipped"): "Its offset is that of a rabbeted edge; a flat door wants another hinge.",
    ("old-hinge", "thick"): "Hinges are made for doors of one thickness, or up to it.",
    ("old-hinge", "cover"): "Hinges that are used again say what the cover is; it is no longer free.",
    ("old-hinge", "count"): "By its height or its mass.",
    ("old-holes", "near"): lambda say: f"It would run into the hole: glue plugs into all {say('plugs')} first.",
    ("drawer-front", "packing"): "Facing and bumper, less what the box stands out before the bare frame.",
}
NEEDS: dict[str, str] = {"old-holes": "at least"}
_SIZES = {"packing": "Packing of", "screw": "Screws of", "thickness": "Make it as thick as the old ones,"}
_WORDS: dict[tuple[str, str], str] = {
    ("made_good", "peel and key"): "Peel and key",
    ("made_good", "cut away at edges"): "Cut away at the edges",
    ("made_good", "mechanical and adhesive"): "Pins or screws and adhesive",
    ("clean", "yes"): "Wash it until water spreads",
    ("keyed", "wet"): "Key it wet",
    ("keyed", "chemical"): "Take it off with a stripper",
    ("keyed", "certified people"): "Leave it to certified people",
    ("treated", "keep"): "Leave it as it is",
    ("done", "yes"): "It is put right",
    ("use", "replace"): "Replace the old hinges",
    ("plugged", "yes"): "The old holes are plugged",
    ("way", "sawn off"): "Saw the front off",
    ("way", "box end remade"): "Make the box end anew",
}


def way_word(way: WayOut, job: Job, display: Display) -> str:
    """What stands on the button of a way out of this chapter; empty where it is none of these."""
    if way.kind != "change" or way.value is None:
        return ""
    if way.field in _SIZES and way.of in {**job.openings, **job.door_builds} and isinstance(way.value, Length):
        word = f"{_SIZES[way.field]} {length_text(way.value, display)}"
        return f"{word}: {way.gives}" if way.gives else word
    word = _WORDS.get((way.field, str(way.value)), "")
    return f"{word}: {way.gives}" if word and way.gives else word

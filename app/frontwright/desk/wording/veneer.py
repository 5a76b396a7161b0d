"""Sentences, reasons and ways out of the veneer's checks; what an edit moved, leaf by leaf."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import Display, Length
from frontwright.desk.wording.numbers import capital, count_of, length_text

if TYPE_CHECKING:
    from frontwright.core.plan import Plan
    from frontwright.core.veneer.result import Seat, SlicePlan
    from frontwright.desk.wording.checks import Say

MOST_MOVES = 6
PRESSURE = {"in": "psi", "mm": "MPa"}
FACES = {"show": "show face", "back": "back"}


def _machine(say: Say) -> str:
    short = say.check.facts.get("short")
    lacking = f": short by {short}" if short else ""
    return f"With the saw “{say.where}” the billets give {say.value} leaves of the {say.limit} wanted{lacking}."


def _heavy(say: Say) -> str:
    return f"A slice of billet {say.where} loses {say('loss')}, not {say('planned loss')}"


def _minutes(say: Say) -> str:
    how = "with a helper" if say.check.facts.get("helped") else "alone"
    clamps = count_of(int(str(say.check.facts.get("clamps", 0))), "clamp")
    press = "in the bag" if say.check.facts.get("bag") else f"with {clamps}"
    return f"Gluing up {say.where} {how} {press} takes {say.value} minutes; the glue leaves {say.limit}."


def _face(say: Say, panel: str = "") -> str:
    """A face in words: "the show face of DA-P", "strips"."""
    of = say(panel) if panel else say.where
    side = say("side")
    return f"the {FACES[side]} of {of or 'no front'}" if side in FACES else of or side


def _pressed_thick(say: Say) -> str:
    """How much comes off which face, and what the saw learns of it."""
    show, back = say("off show"), say("off back")
    faces = f"{show} off each face" if show == back else f"{show} off the show face and {back} off the back"
    return (
        f"Taking {faces} brings it to plan: rabbet and lip stay. "
        f"For leaves still to be sawn the fence moves {say('fence')} towards the blade."
    )


def _apart(say: Say) -> str:
    return f"Shell and core of billet {say.where} are {say.value} % of moisture apart."


SENTENCES: dict[tuple[str, str], Callable[[Say], str]] = {
    ("resaw-yield", ""): _machine,
    ("resaw-yield", "machine"): _machine,
    ("resaw-yield", "too thick"): lambda say: (
        f"A leaf of {say.value} is thicker than the whole of billet {say.where}, {say.limit}."
    ),
    ("resaw-yield", "seen"): lambda say: f"{_heavy(say)}: it gives all of its {say.limit} leaves.",
    ("resaw-yield", "at risk"): lambda say: (
        f"{_heavy(say)}: {count_of(int(str(say.check.facts['more'])), 'more leaf', 'more leaves')}, "
        f"{say.value} in all, but the rest is down to {say('rest')}."
    ),
    ("resaw-yield", "lost"): lambda say: (
        f"{_heavy(say)}: it gives {say.value} leaves, not {say.limit}; {say('leaf')} will be missing."
    ),
    ("resaw-yield", "too tall"): lambda say: (
        f"Billet {say.where} is {say.value} wide; the saw “{say('machine')}” takes {say.limit} on edge."
    ),
    ("resaw-yield", "belly"): lambda say: (
        f"The blade of “{say('machine')}” leans: leaves of {say.where} are {say.value} off at mid height."
    ),
    ("resaw-yield", "no loss"): lambda say: (
        f"By the readings after {say.where} its leaves are {say('mean')} thick, more than went from the billet."
    ),
    ("resaw-yield", "leaf missing"): lambda say: (
        f"{capital(_face(say))} has {say.value} of the {say.limit} leaves that it wants; the others cannot be used."
    ),
    ("resaw-yield", "misplaced"): lambda say: f"Leaf {say.where} does not fit where it was put: {_face(say, 'of')}.",
    ("resaw-yield", "spares"): lambda say: f"{say.value} leaves are to spare; {say.limit} are usual.",
    ("resaw-yield", "strip too wide"): lambda say: (
        f"Strip {say.where} is {say.value} wide when rough; a leaf gives {say.limit}. It is on no leaf."
    ),
    ("resaw-yield", "strip too long"): lambda say: (
        f"Strip {say.where} is {say.value} long when rough; the leaves for strips are {say.limit}. It is on no leaf."
    ),
    ("resaw-yield", "joint moved"): lambda say: (
        f"Leaf {say.where} is {say.value} wide when jointed, half of {say('of')} is {say.limit}."
    ),
    ("resaw-yield", "narrower"): lambda say: (
        f"{say.where} rough is {say.value} across; {say('leaves')} leaves cover {say.limit}, one fewer on each face."
    ),
    ("moisture", ""): _apart,
    ("moisture", "shell and core"): _apart,
    ("balance", ""): lambda say: f"The veneers of {say.where} are alike on both faces.",
    ("balance", "one face"): lambda say: f"{say.where} is veneered on one face at a time.",
    ("balance", "unlike"): lambda say: (
        f"The veneers of {say.where} are unlike: {say('show')} on the show face, {say('back')} on the back."
    ),
    ("balance", "core grain"): lambda say: f"The grain of the core of {say.where} runs along its leaves.",
    ("moisture", "shop"): lambda say: (
        f"Billet {say.where} is {say.value} % of moisture {say('way')} than wood comes to in the shop, {say('shop')} %."
    ),
    ("veneer-left", "planed"): lambda say: (
        f"After {count_of(int(str(say.check.facts.get('passes', 0))), 'pass', 'passes')} {say.value} of veneer is left "
        f"on the {FACES.get(say('face'), 'face')} of {say.where}."
    ),
    ("veneer-left", "pressed thick"): lambda say: (
        f"{say.where} is pressed {say('over')} too thick. Worked back, its leaves were {say('were')}, "
        f"not {say('slice')}."
    ),
    ("press-time", ""): _minutes,
    ("press-time", "minutes"): _minutes,
    ("press-time", "open"): lambda say: (
        f"Spreading and laying {say.where} takes {say.value} minutes; the glue stays open for {say.limit}."
    ),
    ("press-load", "bed"): lambda say: f"{say('panels')} is larger than the bed, {say('length')} by {say('width')}.",
    ("press-load", "opening"): lambda say: (
        f"The clamps must open to {say.value} for {say.where}; they open to {say.limit}."
    ),
    ("press-load", "bag"): lambda say: (
        f"The bag presses {say.where} with {say.value}{measure(say.check, say.display)}."
    ),
    ("press-load", "throat"): lambda say: (
        f"The middle of {say.where} is {say.value} from the edge; the clamps reach {say.limit}."
    ),
    ("press-load", ""): lambda say: f"The clamps press {say.where} with {say.value}{measure(say.check, say.display)}.",
    ("press-load", "pressure"): lambda say: (
        f"{count_of(int(str(say.check.facts.get('clamps', 0))), 'clamp')} on {say.where} press with "
        f"{say.value}{measure(say.check, say.display)}."
    ),
}

REASONS: dict[tuple[str, str], Callable[[Say], str] | str] = {
    ("resaw-yield", "machine"): lambda say: (
        f"With every rest planed to one more leaf it would be {say('rests')}." if say("rests") else ""
    ),
    ("resaw-yield", "too thick"): "One of the two was typed in another unit, or the billet was read across its width.",
    ("resaw-yield", "at risk"): lambda say: (
        f"One more slice as heavy as these and {say('leaf')} is gone. Before the next slice there are still ways out."
    ),
    ("resaw-yield", "lost"): lambda say: (
        f"If the saw goes on so, {say('more')} more come and {say('rest')} is left. "
        "Before the next slice there are still ways out."
    ),
    ("resaw-yield", "too tall"): "Another saw, or rip it before sawing; its leaves are narrower then.",
    ("resaw-yield", "belly"): "Both passes lean to the same place; the other face to the fence makes a step of it.",
    ("resaw-yield", "no loss"): "One of the readings is wrong, or was taken in another unit.",
    ("resaw-yield", "misplaced"): "It is too short, or the places there are taken; put it elsewhere.",
    ("resaw-yield", "spares"): "One leaf in ten of each length is usual, and one at least of each set.",
    ("resaw-yield", "leaf missing"): "Of the leaves that were sawn too many can no longer serve.",
    ("resaw-yield", "strip too wide"): "Take it from a wider billet, or of two strips.",
    ("resaw-yield", "strip too long"): "Longer leaves for strips, or a board.",
    ("resaw-yield", "joint moved"): lambda say: f"With the joint {say('by')} off the middle it serves all the same.",
    ("resaw-yield", "narrower"): lambda say: (
        f"With {say('over size')} over size at each edge instead, two leaves are saved on the panel."
    ),
    ("moisture", ""): "Leaves of such a billet bow when they are sawn; wait until shell and core are within 2 %.",
    ("balance", "one face"): "Glued on one face today and on the other tomorrow, a panel bends; glue both at once.",
    ("balance", "unlike"): "The thicker veneer bends the panel; take the next passes from that face.",
    ("balance", "core grain"): "Nothing holds the leaves across, and the panel bends; turn the core, or cut another.",
    ("moisture", "shop"): "Leaves rest 24 to 72 hours, stickered and weighted, until they are within 2 %; then press.",
    ("veneer-left", "planed"): "Each pass takes from one face; the thinner one counts.",
    ("veneer-left", "pressed thick"): _pressed_thick,
    ("press-time", "minutes"): "It sets before the last clamp is tight. What is offered was tried.",
    ("press-time", "open"): "It skins over before the last leaf lies. What is offered was tried.",
    ("press-load", "bed"): "What is offered was tried; else another press.",
    ("press-load", "opening"): "Panels, platens and cauls together are higher than the clamps open.",
    ("press-load", "bag"): (
        "A bag presses evenly and has held thin flat leaves, though glue sheets ask for more (practice, no source)."
    ),
    ("press-load", "throat"): "Crowned cauls bridge what the clamps do not reach.",
    ("press-load", "pressure"): lambda say: (
        f"The least pressure takes {say('for floor')} clamps, the full one {say('for goal')}."
    ),
}

NEEDS: dict[str, str] = {"balance": "at most", "moisture": "at most", "press-time": "at most"}
PLAIN_NEEDS = frozenset({("veneer-left", "pressed thick")})  # what was planned, no least and no most


def measure(check: Check, display: Display) -> str:
    """The unit of a finding's figures where they are no lengths, with the space before it."""
    if check.code == "press-time":
        return " min"
    if check.code == "moisture":
        return " %"
    if check.code == "press-load" and check.case in ("", "pressure", "bag"):
        return f" {PRESSURE[display.unit]}"
    return " leaves" if check.code == "resaw-yield" and isinstance(check.value, int) else ""


def way_word(way: WayOut, job: Job, display: Display) -> str:
    """What stands on the button of a way out of the veneer; empty where it is none of these."""
    if way.kind == "enter" and way.of == "billets":
        return "Enter the billets that are lacking" if job.billets else "Enter these billets"
    if way.kind == "enter" and way.field == "billet":
        return f"Add a billet like {way.of}"
    if way.kind == "enter" and way.field == "thickness" and way.value is not None:
        return f"Leave it {_value(way, display)}: measure it, the rabbet follows"
    if way.kind != "change":
        return ""
    made = _BILLET.get(way.field) if way.of in job.billets else None
    made = made or _CHANGES.get(way.field)
    if way.field in ("glue", "press"):
        return _other(way, job)
    said = made(way.of, _value(way, display)) if made is not None else ""
    return f"{said}: {way.gives}" if said and way.gives else said


def _value(way: WayOut, display: Display) -> str:
    if isinstance(way.value, Length | Fraction):
        return length_text(way.value, display)
    return way.value if isinstance(way.value, str) else ""


def _other(way: WayOut, job: Job) -> str:
    """Another glue or press: one that is there and was tried, else what it would have to be."""
    row = getattr(job, "glues" if way.field == "glue" else "presses").get(way.value)
    if row is None:
        return f"A glue that leaves {way.gives}" if way.gives else f"Choose another {way.field}"
    word = "Glue with" if way.field == "glue" else "Press with"
    return ": ".join(part for part in (f"{word} {row.name or row.id}", way.gives) if part)


_BILLET: dict[str, Callable[[str, str], str]] = {"machine": lambda of, _value: f"Saw {of} with another saw"}
_CHANGES: dict[str, Callable[[str, str], str]] = {
    "machine": lambda of, _value: f"Change the blade before {of}",
    "slice_now": lambda _of, value: f"Saw on at {value}",
    "keep_now": lambda _of, value: f"Keep back {value}",
    "slice": lambda of, _value: f"Change the leaf of {of}",
    "helper": lambda _of, _value: "Glue up with a helper",
    "both_faces": lambda of, _value: f"Glue both faces at once in pressing {of}",
    "panels": lambda _of, value: f"Glue up in halves {value}".strip(),
    "lie": lambda _of, value: "Lay one on the other" if value == "stacked" else "Lay them in a row",
    "clamps": lambda _of, value: f"Use {count_of(int(value), 'clamp')}" if value.isdigit() else "Change the clamps",
    "core_grain": lambda of, _value: f"Turn the core of {of} across the leaves",
    "left": lambda of, _value: f"Read what was left after {of} again",
    "thick_1": lambda of, _value: f"Read the thickness of {of} again",
    "side": lambda of, _value: f"Put {of} elsewhere",
    "out_of_square": lambda of, _value: f"Set the blade of {of} square",
    "moisture_shell": lambda of, _value: f"Read the shell of {of} again",
    "moisture_core": lambda of, _value: f"Read the core of {of} again",
    "strip_leaf": lambda _of, _value: "Change the leaf for strips",
    "pass": lambda of, value: f"Plane {value} off {of}" if value else f"Plane {of} further",
}


def saw_word(saw: str, blade: str) -> str:
    """A saw with its blade: "Band saw, wide blade"."""
    return f"{saw}, {blade}" if blade else saw


def place_word(seat: Seat | None) -> str:
    """Where a leaf goes: "show face of DA-P", "rail strips 1", "spare"."""
    if seat is None:
        return "no place"
    if seat.side in FACES:
        return f"{FACES[seat.side]} of {seat.of or 'no front'}"
    return seat.of if seat.side in ("skin", "strips") and seat.of else seat.side


def moved(before: Plan, after: Plan) -> str:
    """What an edit moved: leaves that go elsewhere, faces that are short now, billets that give fewer or more."""
    said = [*_moves(before, after), *_short(before, after), *_yields(before, after)]
    return f"{capital('; '.join(said))}." if said else ""


def _moves(before: Plan, after: Plan) -> list[str]:
    was = {seat.leaf: seat for seat in before.veneer.seats}
    now = {seat.leaf: seat for seat in after.veneer.seats}
    there = {leaf.id for plan in before.veneer.plans for leaf in plan.slices}
    groups: dict[tuple[str, str], list[str]] = {}
    for leaf in dict.fromkeys((*was, *now)):
        change = (_the_place(was.get(leaf)), _the_place(now.get(leaf)))
        if leaf in there and change[0] != change[1]:
            groups.setdefault(change, []).append(leaf)
    said = [_move(", ".join(leaves), old, new) for (old, new), leaves in groups.items()]
    more = len(said) - MOST_MOVES
    return [*said[:MOST_MOVES], f"{more} more changes" if more > 1 else said[-1]] if more > 0 else said


def _the_place(seat: Seat | None) -> str:
    return f"the {place_word(seat)}" if seat is not None and seat.side in FACES else place_word(seat) if seat else ""


def _move(leaves: str, old: str, new: str) -> str:
    if not new:
        return f"{leaves} out of {old}"
    return f"{leaves} from {old} to {new}" if old else f"{leaves} in, to {new}"


def _short(before: Plan, after: Plan) -> Iterator[str]:
    was = {(one.of, one.side): one.has for one in before.veneer.missing}
    for one in after.veneer.missing:
        if was.get((one.of, one.side)) != one.has:
            word = FACES.get(one.side, "")
            place = f"the {word} of {one.of}" if word else one.of
            yield f"{place} has {one.has} of {one.wanted} leaves"


def _yields(before: Plan, after: Plan) -> Iterator[str]:
    was = {plan.id: _gives(plan.slices) for plan in before.veneer.plans}
    for plan in after.veneer.plans:
        gives = _gives(plan.slices)
        if plan.id in was and was[plan.id] != gives:
            yield f"billet {plan.id} gives {count_of(gives, 'leaf', 'leaves')} now, not {was[plan.id]}"


def _gives(slices: tuple[SlicePlan, ...]) -> int:
    return len({one.number for one in slices if one.state not in ("lost", "spoiled")})

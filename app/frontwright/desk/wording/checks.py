"""A sentence for every check, what is there and what is needed, the reason below it, and the words of the ways out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.findings import Check, Fact, WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import IN_SIXTYFOURTHS, IN_TENTH_MM, UNITS_IN, Display, Length, shown
from frontwright.desk.wording import condition, facing, hardware, site, space, stock, veneer
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import decimal, length_text

THIN = ("panel-movement", "veneer-left", "lip", "nominal-thickness", "resaw-yield", "balance", "moisture")
ROW_FIELD = {"rabbet": "rabbet_width"}  # what the trade calls it -> the field that holds it
CONDITION = ("surfaces", "repairs", "drawers", "old_hinges", "cabinets")
COUNTS = ("readings", "hinge-count", "unread", "layout", "stale-sheet")  # codes whose value is a count and no length


@dataclass(frozen=True, slots=True)
class Say:
    """A check's facts, as they stand in a sentence."""

    check: Check
    display: Display

    def __call__(self, name: str, otherwise: str = "") -> str:
        """A fact by its name, as text; `otherwise` where the check does not bring it."""
        fact = self.check.facts.get(name)
        return otherwise if fact is None else self.text(fact)

    @property
    def fine(self) -> Display:
        """What thin things and movements are told in: a tenth of a millimetre, a 64th."""
        if self.check.code not in THIN:
            return self.display
        return IN_TENTH_MM if self.display.unit == "mm" else IN_SIXTYFOURTHS

    @property
    def value(self) -> str:
        return self.text(self.check.value)

    @property
    def size(self) -> str:
        """The value without its sign: how much, whichever way."""
        value = self.check.value
        if isinstance(value, Length):
            return self.text(abs(value))
        return self.text(abs(value) if isinstance(value, Fraction) else value)

    @property
    def limit(self) -> str:
        limit = self.check.limit
        return " to ".join(self.text(one) for one in limit) if isinstance(limit, tuple) else self.text(limit)

    @property
    def where(self) -> str:
        return listed(self.check.where)

    @property
    def entry(self) -> str:
        """The field that an entry stands in: "width of OA"."""
        word = field_word(self("table"), self("field"))
        return f"{word[:1].upper()}{word[1:]} of {self.where}"

    def verb(self, one: str, many: str) -> str:
        return one if len(self.check.where) == 1 else many

    def text(self, fact: Fact | None) -> str:
        """A length in the job's step, a limit that comes from a root in its decimals, a count or text as it is."""
        if fact is None:
            return ""
        if isinstance(fact, str):
            return fact
        if isinstance(fact, Length):
            return length_text(fact, self.fine)
        if self.check.code in COUNTS or isinstance(fact, int):
            return decimal(fact, 2)
        return length_text(fact, self.fine)


type Sentence = Callable[[Say], str]


def listed(words: tuple[str, ...]) -> str:
    """ "F1", "F1 and F2", "F1, F2 and F3"."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


def _closure(say: Say) -> str:
    return f"The members add up to {say('sum')}, the overall is {say('overall')}: {say.size} is not accounted for."


def _spread(say: Say) -> str:
    across, up = say.check.facts.get("widths"), say.check.facts.get("heights")
    word = "widths" if across == say.check.value or up is None else "heights"
    return f"The {word} read of {say.where} differ by {say.value}."


def _readings(say: Say) -> str:
    if say.value == "0":
        return f"None of the {say.limit} readings of {say.where} was taken; all of them are assumed."
    return f"{say.value} of {say.limit} readings of {say.where} were taken; the others are assumed as these."


def _nominal(say: Say) -> str:
    thing = say("what", "sheet or core")
    rests = say("cut", "groove or rabbet")
    return f"The {thing} was never measured. The {rests} of {say.where} rests on its nominal thickness."


def _rail_proof(say: Say) -> str:
    return f"Stiles and rails of {say.where} as cut make {say.value}; the front is {say.limit} wide."


def _cup(say: Say) -> str:
    return f"The cup of {say.where} reaches {say.value} from the edge; stile, joint and wall leave {say.limit}."


def _lip(say: Say) -> str:
    return f"The lip beside the rabbet of {say.where} is {say.value} thick."


def _unread(say: Say) -> str:
    return f"{say.entry}: “{say.value}” cannot be read."


def _row_sum(say: Say) -> str:
    return f"Fronts and gaps of {say.where} add up to {say.value}, the overall is {say.limit}."


_SENTENCES: dict[tuple[str, str], Sentence] = {
    ("closure", ""): _closure,
    ("closure", "named"): _closure,
    ("closure", "unexplained"): _closure,
    ("closure", "upright"): lambda say: (
        f"Rails and openings add up to {say('sum')} at {say.where}, the height is {say('overall')}: {say.size} "
        "is not accounted for."
    ),
    ("closure", "like a member"): _closure,
    ("closure", "apart"): lambda say: f"By the running tape {say.where} stand {say.value} apart.",
    ("closure", "backwards"): lambda say: f"By what was read {say.where} ends {say.size} before it begins.",
    ("closure", "crossing"): lambda say: f"By the running tape {say.where} lie {say.size} over each other.",
    ("closure", "two readings"): lambda say: (
        f"The {say('what')} of {say.where} was read as {say('own')}, run and rails make it {say('run')}."
    ),
    ("closure", "old front"): lambda say: (
        f"The {say('what')} of {say.where} was read as {say('own')}, "
        f"its old front less its cover makes it {say('old')}."
    ),
    ("spread", ""): _spread,
    ("racking", "lean"): lambda say: f"{say.where} leans by {say.size} {_way(say)}.",
    ("racking", "residual"): lambda say: (
        f"The second diagonal of {say.where} is {say.size} off what the sides and the first one foretell, "
        f"{say('foretold')}."
    ),
    ("racking", "no quadrilateral"): lambda say: (
        f"The sides of {say.where} and its first diagonal, {say.value}, close no figure of four corners."
    ),
    ("racking", ""): lambda say: f"{say.where} leans by {say.size}.",
    ("readings", ""): _readings,
    ("wind", ""): lambda say: f"{say.where} is out of flat: its fourth corner stands off by {say.value}.",
    ("bow", ""): lambda say: f"{say.where} stands proud by {say.value}; a flat front rocks on it.",
    ("rail-proof", ""): _rail_proof,
    ("rail-proof", "cut wrong"): _rail_proof,
    ("rail-proof", "no room"): lambda say: f"Stiles or rails of {say.where} leave no field between them.",
    ("nominal-thickness", ""): _nominal,
    ("row-sum", ""): lambda say: f"Fronts and gaps of {say.where} add up to {say.value}, the overall is {say.limit}.",
    ("row-sum", "off"): lambda say: (
        f"Fronts and gaps of {say.where} add up to {say.value}, the overall is {say.limit}."
    ),
    ("row-sum", "overlap"): lambda say: f"{say.where} lie over each other by {say.value}.",
    ("row-sum", "no size"): lambda say: (
        f"{say.where} comes out {say('width')} wide and {say('height')} high; its edges cross."
    ),
    ("cup-fit", ""): _cup,
    ("cup-fit", "joint"): _cup,
    ("cup-fit", "floor"): lambda say: f"Under the cup of {say.where} {say.value} of wood is left.",
    ("cover", ""): lambda say: f"The least cover of {say.where} is {say.value}, counting lean and the widest reading.",
    ("dowel-rabbet", ""): lambda say: f"The dowels of {say.where} are clear of the rabbet.",
    ("dowel-rabbet", "keep clear"): lambda say: (
        f"The rabbet reaches the dowels of {say.where}: keep them {say.value} from the inner edge."
    ),
    ("dowel-rabbet", "no room"): lambda say: (
        f"The rabbet leaves the rails of {say.where} no room for two dowels; they must keep {say.value} from it."
    ),
    ("hinge-count", ""): lambda say: f"{say.where} takes {say.value} hinges.",
    ("wall-clearance", ""): lambda say: (
        f"{say.where} stands {say.value} clear of the {say('against', 'wall')} at its tightest."
    ),
    ("kerf-vs-reveal", ""): lambda say: (
        f"The kerf, {say.value}, is wider than the gap, {say.limit}: the grain through {say.where} does not run on."
    ),
    ("veneer-left", ""): lambda say: f"After planing and sanding {say.value} of veneer is left on {say.where}.",
    ("panel-movement", ""): lambda say: f"The panel of {say.where} has room to move.",
    ("panel-movement", "slab"): lambda say: f"{say.where} {say.verb('moves', 'move')} {say.value} over the year.",
    ("panel-movement", "tight"): lambda say: (
        f"The solid panel of {say.where} swells by {say.value} and has room for {say.limit}."
    ),
    ("panel-movement", "loose"): lambda say: (
        f"At the driest only {say.value} of the panel of {say.where} is left in the groove."
    ),
    ("lip", ""): _lip,
    ("lip", "rabbet"): _lip,
    ("lip", "groove"): lambda say: f"Beside the groove of {say.where} {say.value} of wood is left on each side.",
    ("field", ""): lambda say: f"A field of {say.where} is {say.value} high, low for a framed front.",
    ("unread", ""): _unread,
    ("unread", "unread"): _unread,
    ("unread", "no size"): lambda say: f"{say.entry}: {say.value} is no size.",
    **veneer.SENTENCES,
    **stock.SENTENCES,
    **space.SENTENCES,
    **facing.SENTENCES,
    **hardware.SENTENCES,
    **condition.SENTENCES,
    **site.SENTENCES,
}


def _what_stays_open(say: Say) -> str:
    value, limit = say.check.value, say.check.limit
    if isinstance(value, str | None) or isinstance(limit, str | tuple | None):
        return "Fix it at mid height."
    left = _units(limit) - _units(value)
    return f"Fix it at mid height; each gap keeps {say.text(left)} or more." if left > 0 else "The gap closes on it."


_REASONS: dict[tuple[str, str], Sentence | str] = {
    ("closure", "unexplained"): lambda say: (
        f"No member is {say.size}, no swapped pair of digits makes it, and nothing read twice speaks for it. "
        "Look where two boxes meet, and at what was read only once."
    ),
    ("closure", "upright"): "Look for a rail left out, and at what was read only once.",
    ("closure", "like a member"): lambda say: (
        f"It is as much as {say('like')}: was a member left out, or counted twice?"
    ),
    ("closure", "apart"): "Boxes that were never drawn tight have a seam between them.",
    ("closure", "backwards"): "An edge or a size beside it was misread.",
    ("closure", "crossing"): "One of the two edges was misread.",
    ("closure", "named"): lambda say: (
        f"{say('suspect 0')} alone would explain it, were it {say('meant 0')} ({say('kind 0')})."
    ),
    ("closure", "two readings"): "One of the two was misread; the running tape gives the place.",
    ("closure", "old front"): "Either one was misread, or the old front never hung evenly.",
    ("spread", ""): "Cover follows the widest, inset fronts the least; position the running tape.",
    ("racking", "lean"): "A square front shows a tapered gap or reveal here.",
    ("racking", "residual"): "Equal diagonals do not prove it square when its heights differ.",
    ("racking", "no quadrilateral"): "One of the six figures is wrong; no lean is worked out.",
    ("readings", ""): "A second width and height say whether the frame is parallel, diagonals if it leans.",
    ("nominal-thickness", ""): "Sheet sold by its nominal thickness is usually thinner.",
    ("cover", ""): "Under it the opening shows beside the front.",
    ("dowel-rabbet", "keep clear"): "Nearer than that a dowel stands in the rabbet or breaks out into it.",
    ("row-sum", "overlap"): "An edge that was held in place crosses its neighbour.",
    ("panel-movement", "slab"): _what_stays_open,
    ("panel-movement", "tight"): "It bursts the frame in the wet season; give it more clearance.",
    ("panel-movement", "loose"): "It may slip out in the dry season; deepen the groove or give less clearance.",
    ("rail-proof", "cut wrong"): "A part was cut to another size than planned, or measured wrongly.",
    ("rail-proof", "no room"): "Narrower stiles or rails, or a slab.",
    ("cup-fit", "joint"): "The cup is bored into groove or rabbet: a wider stile, or the cup nearer the edge.",
    ("cup-fit", "floor"): "The cup breaks through the face: a shallower cup, or thicker stock.",
    ("field", ""): "Lower rails, or a slab.",
    ("lip", "rabbet"): "The rabbet is as deep as the panel; thinner leaves, or thicker stock.",
    ("lip", "groove"): "The groove is as wide as the panel; a thinner panel, or thicker stock.",
    ("row-sum", "no size"): "Edges that are held or chosen leave no front between them.",
    ("wind", ""): "A flat door stands off at one corner by most of it.",
    ("veneer-left", ""): "The chain runs from the leaf as sawn: glue face, show face, what is left.",
    ("unread", ""): "It is kept as typed and counts for nothing until it is put right.",
    **veneer.REASONS,
    **stock.REASONS,
    **space.REASONS,
    **facing.REASONS,
    **hardware.REASONS,
    **condition.REASONS,
    **site.REASONS,
}
_SIZES_ONLY = ("closure", "racking")  # judged by how much, whichever way
_NEEDS: dict[str, str] = {
    "closure": "at most",
    "spread": "at most",
    "racking": "at most",
    "wind": "at most",
    "bow": "at most",
    "cup-fit": "at most",
    "kerf-vs-reveal": "at most",
    "panel-movement": "at most",
    "cover": "at least",
    "veneer-left": "at least",
    "wall-clearance": "at least",
    "lip": "at least",
    "field": "at least",
    "nominal-thickness": "a measured one",
    **veneer.NEEDS,
    **space.NEEDS,
    **facing.NEEDS,
    **condition.NEEDS,
}


_AT_LEAST = (
    "floor",
    "plate seat",
    "screw seat",
    *hardware.AT_LEAST,
)  # cases of a code whose other cases need at most so much


def _units(value: Length | Fraction | int) -> Fraction:
    return Fraction(value.units) if isinstance(value, Length) else Fraction(value)


def _way(say: Say) -> str:
    value = say.check.value
    to_the_left = isinstance(value, Length | Fraction | int) and _units(value) > 0
    return "to the left" if to_the_left else "to the right"


def known_cases() -> frozenset[tuple[str, str]]:
    """Every code and case that has a sentence of its own."""
    return frozenset(_SENTENCES)


def sentence(check: Check, display: Display) -> str:
    """What the check found, in one sentence."""
    made = _SENTENCES.get((check.code, check.case)) or _SENTENCES.get((check.code, ""))
    return made(Say(check, display)) if made else f"{check.code} of {listed(check.where)}."


def reason(check: Check, display: Display) -> str:
    """The second line: why it is so, and where to look; empty where the sentence says it all."""
    made = _REASONS.get((check.code, check.case)) or _REASONS.get((check.code, ""), "")
    return made if isinstance(made, str) else made(Say(check, display))


def have(check: Check, display: Display) -> str:
    """ "have 1/8"; empty where there is nothing to measure."""
    say = Say(check, display)
    text = say.size if check.code in _SIZES_ONLY else say.value
    return f"have {text}{veneer.measure(check, display)}" if text else ""


def need(check: Check, display: Display) -> str:
    """ "need at most 0.083"; empty where there is no limit."""
    usual = "" if (check.code, check.case) in veneer.PLAIN_NEEDS else _NEEDS.get(check.code, "")
    word = "at least" if check.case in _AT_LEAST else usual
    if check.limit is None:
        return f"need {word}" if word.startswith("a ") else ""
    return " ".join(part for part in ("need", word, _limit(check, display)) if part) + veneer.measure(check, display)


def _limit(check: Check, display: Display) -> str:
    """A limit that comes from a root is told as a decimal: it is no size to be found on a rule."""
    say = Say(check, display)
    if check.roots and isinstance(check.limit, Fraction) and shown(check.limit, say.fine).about:
        return decimal(check.limit / UNITS_IN[display.unit], 3 if display.unit == "in" else 2)
    return say.limit


def way_word(way: WayOut, job: Job, display: Display) -> str:
    """What stands on the button of a way out."""
    own = (chapter.way_word(way, job, display) for chapter in (condition, facing, space, veneer))
    return next((word for word in own if word), "") or _WAYS[way.kind](way, job, display)


def _read_again(way: WayOut, job: Job, _display: Display) -> str:
    what = way.field or "it"
    if way.of in job.runs and way.field == "overall":
        return "Read the overall again"
    return f"Read the {what} of {way.of} again"


def _change(way: WayOut, job: Job, display: Display) -> str:
    if way.field.startswith("pin"):
        front = job.fronts.get(way.of)
        held = front is not None and any((front.pin_left, front.pin_right, front.pin_bottom, front.pin_top))
        return f"Let {way.of} go from where it is held" if held else f"Hold an edge of {way.of}"
    word = _field(way, job)
    value = way.value
    to = "" if value is None else f" to {value if isinstance(value, str) else length_text(value, display)}"
    return f"Change the {word}{to}" if word else f"Change {way.of}{to}"


def _field(way: WayOut, job: Job) -> str:
    name = ROW_FIELD.get(way.field, way.field)
    if not name:
        return ""
    table = "looks"
    for candidate in (
        *CONDITION,
        "front_rows",
        "fronts",
        "door_builds",
        "panel_builds",
        "hinge_types",
        "pull_types",
        "members",
        "trims",
        "adhesives",
        "facings",
    ):
        if way.of in getattr(job, candidate):
            table = candidate
    return field_word(table, name)


_WAYS: dict[str, Callable[[WayOut, Job, Display], str]] = {
    "enter seam": lambda way, _job, _display: f"Enter a seam after {way.of}",
    "read again": _read_again,
    "change": _change,
    "enter": lambda way, job, _display: f"Enter the {_field(way, job) or way.field or 'figure'}",
    "look at": lambda way, _job, _display: f"Look at {way.of}",
}

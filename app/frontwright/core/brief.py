"""The fixed questions of the first visit, and which of them nobody asked: those are conditions of a price (stage 1)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.assumed import LEAD_BAN
from frontwright.core.job import Brief, FrontKind, Job, Pricing
from frontwright.core.lengths import FOOT, Exact, Length, in_units

METRE = Length.mm(1000)
Part = Literal["stays", "changes", "who", "works", "sound"]
SCOPE = ("stays", "goes", "put right first")
WHO = ("we do", "the client does", "others do")
YES_NO = ("yes", "no", "not known")
PARTS: dict[Part, str] = {
    "stays": "What stays, what goes",
    "changes": "What is going to change",
    "who": "Who does what",
    "works": "During the work",
    "sound": "Is refacing right at all",
}


@dataclass(frozen=True, slots=True)
class Question:
    """A fixed question: `says` as it is asked, `short` as a condition names it ("whether ..."), the usual answers if it
    has them, and `why` it is asked."""

    key: str
    part: Part
    says: str
    short: str
    choices: tuple[str, ...] = ()
    why: str = ""


QUESTIONS: tuple[Question, ...] = (
    Question("boxes", "stays", "The boxes", "whether the boxes stay", SCOPE),
    Question("insides", "stays", "The insides of the boxes", "what becomes of the insides", SCOPE),
    Question("drawer boxes", "stays", "The drawer boxes", "whether the drawer boxes stay", SCOPE),
    Question("tops", "stays", "Counters and tops", "whether counters and tops stay", SCOPE),
    Question("appliances", "stays", "The appliances", "whether the appliances stay", SCOPE),
    Question("floor", "stays", "The floor", "whether the floor stays", SCOPE),
    Question(
        "counter changes",
        "changes",
        "Will the counter change within two years?",
        "whether the counter will change within two years",
        YES_NO,
        "a thicker one closes the gap over the fronts",
    ),
    Question(
        "floor changes",
        "changes",
        "Will the floor be raised within two years?",
        "whether the floor will be raised within two years",
        YES_NO,
        "changes the toe kick, can wall in appliances",
    ),
    Question(
        "appliance changes",
        "changes",
        "Will an appliance change within two years?",
        "whether an appliance will change within two years",
        YES_NO,
        "does it go in, do doors beside it open",
    ),
    Question(
        "behind",
        "changes",
        "What is behind strips and fillers?",
        "what is behind strips and fillers",
        why="gaps, pipes, a wall out of plumb",
    ),
    Question(
        "empties",
        "who",
        "Who empties the boxes, and when?",
        "who empties the boxes, and when",
        why="nothing can be begun before",
    ),
    Question("takes out", "who", "Who takes out appliances and sinks?", "who takes out appliances and sinks", WHO),
    Question(
        "lines",
        "who",
        "Who sees to gas, water and electricity?",
        "who sees to gas, water and electricity",
        why="moving lines is for licensed people",
    ),
    Question("paints inside", "who", "Who paints or cleans the insides?", "who paints or cleans the insides", WHO),
    Question("waste", "who", "Who takes the old fronts away?", "who takes the old fronts away", WHO),
    Question("lived in", "works", "Is the room lived in meanwhile?", "whether the room is lived in meanwhile", YES_NO),
    Question(
        "children",
        "works",
        "Children under six, pregnant people there?",
        "whether children or pregnant people live there",
        YES_NO,
        "dust of old paint harms them most",
    ),
    Question(
        "room to work",
        "works",
        "Where is room to work, and is there power?",
        "where work can be laid down and whether there is power",
    ),
    Question("sound", "sound", "Are the boxes sound and square enough?", "whether the boxes are sound", YES_NO),
    Question(
        "layout",
        "sound",
        "Are they laid out as people want them?",
        "whether the layout is as wanted",
        YES_NO,
        "fine fronts do not mend a bad layout",
    ),
    Question(
        "drawer fronts",
        "sound",
        "Are drawer fronts part of the drawer box?",
        "whether drawer fronts are part of their boxes",
        YES_NO,
        "sawn off, or the box end made anew",
    ),
)


def brief_of(job: Job) -> Brief:
    """The one row of the brief."""
    return job.briefs.get("brief") or Brief()


def answer_of(job: Job, question: str) -> str:
    """What was said to a question; empty is *not asked*."""
    row = job.asked.get(question)
    return row.answer.strip() if row is not None else ""


def unasked(job: Job) -> Iterator[Question]:
    """The questions nobody asked yet."""
    return (question for question in QUESTIONS if not answer_of(job, question.key))


def near_match(job: Job) -> str:
    """What is to be matched without a sample of it; empty where nothing is, or a sample was taken."""
    brief = brief_of(job)
    if brief.match_sample or not any((brief.match_what, brief.match_species, brief.match_finish)):
        return ""
    return brief.match_what or ", ".join(part for part in (brief.match_species, brief.match_finish) if part)


def ban_year(job: Job) -> int:
    """From when on paint counts as free of lead: the year told, else the usual one of the job's unit."""
    told = brief_of(job).lead_ban
    return told if told is not None else LEAD_BAN[job.heading.unit]


@dataclass(frozen=True, slots=True)
class Bracket:
    """F1: hours by what was counted, and between which they are quoted until the survey is done.

    `wide`: what makes it wide: ends nobody saw, finishes nobody knows, kinds of which the shop has no hours.
    """

    hours: Fraction
    low: int
    high: int
    wide: tuple[str, ...]


def bracket(job: Job, frame: Exact | None, wide: Iterable[str] = ()) -> Bracket | None:
    """The hours of a job by the shop's record; None where it has none of anything counted.

    `frame`: the length of frame that is covered, by the survey; what was counted at the first visit goes before it.
    """
    prices, brief = job.pricings.get("pricing") or Pricing(), brief_of(job)
    kinds = [front.kind for front in job.fronts.values()]
    told = brief.frame_length.value if brief.frame_length is not None else None
    length = Fraction(in_units(told or frame or Length(0))) / (METRE if job.heading.unit == "mm" else FOOT).units
    counted = (
        ("a door", _or(brief.doors, kinds, "door", "glass"), prices.hours_door),
        ("a drawer front", _or(brief.drawers, kinds, "drawer"), prices.hours_drawer),
        ("a fixed front", _or(brief.fixed_fronts, kinds, "fixed", "appliance"), prices.hours_fixed),
        ("the frame", length, prices.hours_frame),
    )
    known = [count * each.value for _, count, each in counted if each is not None and each.value is not None]
    if not known:
        return None
    hours = sum(known, Fraction(0))
    unknown = tuple(f"no hours of {word}" for word, count, each in counted if count and each is None)
    return Bracket(hours, _nearest(hours * 5 / 6), _nearest(hours * 7 / 6), (*unknown, *wide))


def _or(told: int | None, kinds: list[FrontKind], *these: FrontKind) -> Fraction:
    return Fraction(told if told is not None else sum(kind in these for kind in kinds))


def _nearest(hours: Fraction) -> int:
    """To the whole hour, half up."""
    return math.floor(hours + Fraction(1, 2))

"""The fixed questions of the first visit, and which of them nobody asked: those are conditions of a price (stage 1)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from frontwright.core.assumed import LEAD_BAN
from frontwright.core.job import Brief, Job

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
        "it changes the toe kick and can wall in an appliance",
    ),
    Question(
        "appliance changes",
        "changes",
        "Will an appliance be exchanged within two years?",
        "whether an appliance will be exchanged within two years",
        YES_NO,
        "does the new one go in, do the doors beside it open",
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
        "Do children under six or pregnant people live there?",
        "whether children or pregnant people live there",
        YES_NO,
        "dust of old paint harms them most",
    ),
    Question(
        "room to work",
        "works",
        "Where can work be laid down, and is there power?",
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
        "then they are sawn off, or the box end is made anew",
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

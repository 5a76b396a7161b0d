"""What to mind where work can hurt, in short sentences: one list for pages and sheets.

The usual cautions, after `resources/reference/safety.csv`. Machine manuals, safety data sheets, local codes and
licensed people go before all of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

DEFERS = "Local codes and licensed people decide; the maker's safety data sheets come first."
Hazard = Literal[
    "lead found",
    "lead not ruled out",
    "asbestos",
    "dust",
    "solvents",
    "oily rags",
    "lifting",
    "gas",
    "water",
    "electric",
    "lines not located",
]


@dataclass(frozen=True, slots=True)
class Caution:
    """What it is about in a word or two, and what to do."""

    word: str
    says: tuple[str, ...]


CAUTIONS: dict[Hazard, Caution] = {
    "lead found": Caution(
        "lead found",
        (
            "no dry sanding, no dry scraping, no heat gun, no flame: wet or chemical only",
            "sheet off floor and boxes, keep children and pregnant people away, fitted respirator",
            "wipe down wet at the end of each day; bag dust and rags; wash before eating",
            "paid work in old houses needs certified people in many places: ask before it is begun",
        ),
    ),
    "lead not ruled out": Caution(
        "old paint, no swab",
        (
            "paint from before lead was banned: swab it, or work as if lead had been found",
            "until then no dry sanding, no scraping dry, no heat",
        ),
    ),
    "asbestos": Caution(
        "old floor, old glue",
        (
            "black or brittle glue, sheet-floor backing and tile at a toe kick may hold asbestos",
            "do not sand, scrape or break it: have a sample tested, leave removal to licensed people",
        ),
    ),
    "dust": Caution(
        "dust",
        (
            "draw dust off at the tool; a fitted respirator when sanding; eyes covered",
            "dust of oak and beech is rated as a cause of cancer: keep the room shut off from the house",
        ),
    ),
    "solvents": Caution(
        "solvents, glue",
        (
            "windows open, pilot lights and sparks out, for contact adhesive, thinner and stripper alike",
            "gloves and glasses with epoxy; stop where a rash begins; a large mix in a cup grows hot",
        ),
    ),
    "oily rags": Caution(
        "oily rags",
        ("they can catch fire by themselves within hours: spread flat outdoors to dry, or wet in a lidded can",),
    ),
    "lifting": Caution(
        "lifting",
        (
            "boxes on a wall: look at their fixings first, and never weaken them; two people for large doors",
            "doors come off the upper hinge last, with a hand under them",
        ),
    ),
    "gas": Caution(
        "gas behind",
        (
            "locate the line before a screw or pin goes in; no flame, no solvent beside it",
            "moving or shutting it is for licensed people",
        ),
    ),
    "water": Caution(
        "water behind",
        ("locate the pipe, know where it is shut off; short screws there; moving it is for licensed people",),
    ),
    "electric": Caution(
        "electric behind",
        (
            "circuit off and proved dead before a screw, pin or blade goes near it",
            "moving sockets or cable is for licensed people",
        ),
    ),
    "lines not located": Caution(
        "gas, water, electric",
        ("nobody has said what runs behind these fronts: look before screws and pins go into the frame",),
    ),
}

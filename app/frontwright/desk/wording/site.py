"""Sentences of fronts as they were made, and of sheets that show what is no longer so."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from frontwright.desk.wording.checks import Say


def _wind(say: Say) -> str:
    beyond = ", more than they can be" if say.check.facts.get("beyond") else ""
    return f"{say.where} is wound: its fourth corner stands off by {say.value}; hinges set by {say('by')} each{beyond}."


def _bow(say: Say) -> str:
    beyond = ", more than they can be" if say.check.facts.get("beyond") else ""
    return f"{say.where} is bowed by {say.value}; hinges set by {say('by')} each{beyond}."


SENTENCES: dict[tuple[str, str], Callable[[Say], str]] = {
    ("racking", "as made"): lambda say: f"The diagonals of {say.where} as made differ by {say.size}.",
    ("wind", "as made"): _wind,
    ("bow", "as made"): _bow,
    ("wind", "as made, no hinges"): lambda say: f"{say.where} as made is wound: a corner stands off by {say.value}.",
    ("bow", "as made, no hinges"): lambda say: f"{say.where} as made is bowed by {say.value}.",
    ("stale-sheet", ""): lambda say: f"The {say('sheet')} that was printed is no longer right: {say('why')}.",
    ("stale-sheet", "gone"): lambda say: f"The {say('sheet')} that was printed is no longer wanted: take it down.",
}
REASONS: dict[tuple[str, str], Callable[[Say], str] | str] = {
    ("racking", "as made"): "Press it square while the glue is soft; later it is planed to fit, or made anew.",
    ("wind", "as made"): "More than half of what hinges can be set in depth is a bad plan: rest it, flatten it, "
    "or make it anew.",
    ("bow", "as made"): "A further hinge in the middle draws a tall door straight; else rest it, or make it anew.",
    ("wind", "as made, no hinges"): "Screws draw a drawer front flat where its box is stiff.",
    ("bow", "as made, no hinges"): "Screws draw a drawer front flat where its box is stiff.",
    ("stale-sheet", ""): "Print it again, and take the old one off the wall.",
}
HOW: dict[str, str] = {
    "on the line": "on line",
    "from the gap": "by the gap to its neighbour",
    "in its opening": "in its opening, gaps even",
    "by spacers": "by spacers, box shut",
    "fixed": "fixed from behind, gaps even",
}

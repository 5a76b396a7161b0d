"""Sentences and buttons of what covers a run and what it is stuck on with."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from frontwright.core.findings import WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import Display
from frontwright.desk.keys import parts_of

if TYPE_CHECKING:
    from frontwright.desk.wording.checks import Say

GROUNDS = {
    "not said": "a surface that nobody looked at",
    "bare wood": "bare wood",
    "sound finish": "a sound finish",
    "sound film": "sound film",
    "lifting": "what is lifting",
    "laminate": "plastic laminate",
    "greasy": "a greasy surface",
}
PREPARED = {  # before anything is glued on
    "not said": "find out what is on it; degrease and key it",
    "bare wood": "clean and flat",
    "sound finish": "degrease, key with 80 grit (wet where there may be lead), dust off",
    "sound film": "cut off at the member, else small strips on keyed film; trial strip for a day",
    "lifting": "peel and scrape first",
    "laminate": "degrease and key",
    "greasy": "degrease again and again: a drop of water must spread; then key",
}
SENTENCES: dict[tuple[str, str], Callable[[Say], str]] = {
    ("press-time", "mix"): lambda say: (
        f"{say('adhesive')} on {say.where}: a strip takes {say.value} minutes, a mix is good for {say.limit}."
    ),
    ("panel-movement", "fixed"): lambda say: (
        f"The {say('kind')} {say.where} moves {say.value} over the year and is fixed along both edges."
    ),
    ("panel-movement", "slotted"): lambda say: f"The {say('kind')} {say.where} is free to move {say.value}.",
    ("strip-width", ""): lambda say: f"{say.where} is {say.value} wide on {say('on')}, at most {say.limit} is there.",
    ("strip-width", "no size"): lambda say: f"Of {say.where} nothing is left: it comes out at {say.value}.",
    ("adhesive", ""): lambda say: f"{say('adhesive')} holds on what was found on {say.where}.",
    ("adhesive", "ground"): lambda say: (
        f"{say('adhesive')} does not hold on {GROUNDS.get(say('ground'), 'what is there')}: {say.where}, {say('what')}."
    ),
}
REASONS: dict[tuple[str, str], Callable[[Say], str] | str] = {
    ("press-time", "mix"): "It sets before the strip is on: a slower one, or a helper.",
    ("panel-movement", "fixed"): "It splits or bows: fix one edge, and the other through slots.",
    ("strip-width", ""): "Read it again; a strip lies on its member and on the edges that it covers.",
    ("adhesive", "ground"): "A strip that is glued on it falls off within a year.",
}
NEEDS = {"strip-width": "at most"}


def way_word(way: WayOut, _job: Job, _display: Display) -> str:
    """What stands on the button of a way out of the facing; empty where it is none of these."""
    table, row, field = ((*parts_of(way.field), "", "", ""))[:3] if way.field.count("/") >= 2 else ("", "", "")
    if (table, field) == ("trims", "slotted"):
        return f"Fix {row} along one edge, slots at the other"
    if (table, field) == ("facings", "adhesive"):
        return f"Use {way.value} on {row}" if way.value else f"Leave the adhesive of {row} to its surfaces"
    return ""

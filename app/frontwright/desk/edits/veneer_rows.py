"""Rows of the veneer whose id alone says what they are: a leaf, a panel out of the press, a pass, a pressing."""

from __future__ import annotations

import re
from typing import Any

from frontwright.core.job import Job, Leaf, PlanePass, PressedPanel, Pressing

MOST_LEAVES = 99
TABLES = ("leaves", "pressed_panels", "plane_passes", "pressings")


def veneer_row(job: Job, table: str, row: str) -> Any:
    """A new row of this table for its id; None where the id is that of nothing in the job."""
    if table == "leaves":
        return _leaf(job, row)
    if table == "plane_passes":
        return _pass(job, row)
    if front_of(job, row) is None:
        return None
    return PressedPanel(row) if table == "pressed_panels" else _pressing(job, row)


def front_of(job: Job, panel: str) -> str | None:
    """The front whose panel has this id ("DA-P", "DA-P2"); None if there is none."""
    found = re.fullmatch(r"(.+)-P\d{0,2}", panel)
    return found[1] if found and found[1] in job.fronts else None


def leaf_id(billet: str, number: int) -> str:
    return f"{billet}{number}"


def pass_id(panel: str, number: int) -> str:
    return f"{panel} pass {number}"


def passes_of(job: Job, panel: str) -> list[PlanePass]:
    """The passes of a panel through the planer, in order."""
    return sorted((p for p in job.plane_passes.values() if p.panel == panel), key=lambda p: p.number)


def next_pass(job: Job, panel: str) -> str:
    """The id of a panel's pass to come."""
    return pass_id(panel, max((one.number for one in passes_of(job, panel)), default=0) + 1)


def _leaf(job: Job, row: str) -> Leaf | None:
    for billet in sorted(job.billets, key=len, reverse=True):
        number = row.removeprefix(billet)
        if row.startswith(billet) and number.isascii() and number.isdigit() and 1 <= int(number[:4]) <= MOST_LEAVES:
            return Leaf(row, billet, int(number)) if row == leaf_id(billet, int(number)) else None
    return None


def _pass(job: Job, row: str) -> PlanePass | None:
    """The faces are taken in turn, the show face first."""
    panel, _, number = row.rpartition(" pass ")
    if front_of(job, panel) is None or not (number.isascii() and number.isdigit()) or int(number[:4]) > MOST_LEAVES:
        return None
    last = passes_of(job, panel)[-1:]
    return PlanePass(row, panel, int(number), "back" if last and last[0].face == "show" else "show")


def _pressing(job: Job, panel: str) -> Pressing:
    """A panel pressed by itself, with glue, clamps and helper as the job's other pressings."""
    usual = next(iter(job.pressings.values()), Pressing(""))
    return Pressing(panel, (panel,), usual.glue, usual.press, usual.helper, usual.clamps)

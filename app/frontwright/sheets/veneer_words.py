"""What the sheets of the veneer have in common: machines, seats and faces in words, checks of the veneer alone."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from frontwright.core.drawing.lettering import plain_number
from frontwright.core.job import Machine
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import BilletPlan, Mounted, Seat
from frontwright.sheets.info import SheetInfo
from frontwright.sheets.subjects import Shows, sheet

CODES = ("resaw-yield", "balance", "veneer-left", "press-time", "press-load", "moisture", "nominal-thickness")
AS_PLANNED = ("to come", "good")  # states of a leaf that are not worth a word on paper


def of_veneer(
    plan: Plan, number: str, kind: str, subject: str, title: str, ids: Iterable[str], shows: Shows
) -> SheetInfo:
    """A sheet that only checks of the veneer concern: a billet may be lettered like an opening."""
    info = sheet(plan, number, kind, subject, title, ids, shows)
    held = tuple(check for check in info.held_by if check.code in CODES)
    return replace(info, held_by=held, answered=tuple(check for check in info.answered if check.code in CODES))


def machine_of(plan: Plan, of: BilletPlan) -> Machine:
    """The machine that a billet is sawn with now."""
    found = plan.job.machines.get(of.saw_now.machine)
    return found or Machine(of.machine, "table saw" if "table" in of.machine else "band saw")


def saw_words(plan: Plan, saw: Mounted) -> str:
    """A saw with its blade: "Band saw, wide blade"."""
    machine = plan.job.machines.get(saw.machine)
    name = machine.name or machine.id if machine is not None else saw.machine
    return ", ".join(word for word in (name, blade_words(plan, saw)) if word)


def blade_words(plan: Plan, saw: Mounted) -> str:
    """The blade by its name; nothing where the saw has none of its own."""
    blade = plan.job.blades.get(saw.blade)
    return blade.name or blade.id if blade is not None else ""


def seat_words(plan: Plan, seat: Seat | None) -> str:
    """Where a leaf goes: "DA-P show, 1 of 4"; "spare"."""
    if seat is None or seat.side == "spare":
        return "spare" if seat is not None else ""
    alike = [s for s in plan.veneer.seats if (s.of, s.side) == (seat.of, seat.side)]
    if seat.side == "strips":
        return seat.of
    count = f", {seat.seat} of {len(alike)}" if len(alike) > 1 else ""
    return f"{seat.of} {'' if seat.side == 'skin' else seat.side}".rstrip() + count


def seats_by_leaf(plan: Plan) -> dict[str, Seat]:
    return {seat.leaf: seat for seat in plan.veneer.seats}


def minutes(value: Fraction) -> str:
    """Minutes to two places, half up, as the findings tell them."""
    return number(Fraction((value * 200 + 1) // 2, 100), 2)


def number(value: Fraction, places: int = 1) -> str:
    """A number without the sign of rounding."""
    return plain_number(value, places).removeprefix("~")

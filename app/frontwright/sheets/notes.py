"""What was found about a part and matters to whoever holds it, in the words of the sheet."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import Display, Exact
from frontwright.core.plan import Plan
from frontwright.sheets.words import Part, finely, length


@dataclass(frozen=True, slots=True)
class Note:
    """A finding on a sheet: its level, and the line that says it."""

    level: str
    parts: tuple[Part, ...]


def notes(plan: Plan, subjects: Collection[str], codes: Collection[str]) -> Iterator[Note]:
    """The open findings of these codes on these subjects; alike ones are told once, with all their subjects."""
    told: dict[tuple[object, ...], tuple[Check, list[str]]] = {}
    for check in plan.checks:
        on = [where for where in check.where if where in subjects]
        if check.is_open and check.code in codes and check.level != "ok" and on:
            key = (check.code, check.level, check.case, str(check.value), str(check.limit))
            told.setdefault(key, (check, []))[1].extend(on)
    for check, where in told.values():
        yield Note(check.level, tuple(_WORDS[check.code](plan, check, list(dict.fromkeys(where)))))


def _hinge_overlay(plan: Plan, check: Check, where: list[str]) -> Iterator[Part]:
    yield from (_names(where), " cover" if len(where) > 1 else " covers", " ", *_value(plan.display, check))
    hinge = plan.hardware.hinges.get(where[0])
    if hinge is not None and hinge.cover is not None:
        yield from (" at the hinge: plates for ", length(hinge.cover.value, plan.display))
        yield " at the end of their adjustment." if check.level != "stop" else " do not reach it."
    else:
        yield " at the hinge: near the end of the adjustment."


def _cover(plan: Plan, check: Check, where: list[str]) -> Iterator[Part]:
    yield from (_names(where), " will cover only ", *_value(plan.display, check), " of the frame at the worst place.")


def _wall(plan: Plan, check: Check, where: list[str]) -> Iterator[Part]:
    yield from (_names(where), ": only ", *_value(plan.display, check), " stay clear of the wall where it leans.")


def _kerf(plan: Plan, check: Check, where: list[str]) -> Iterator[Part]:
    yield from ("The kerf of ", *_value(plan.display, check), " is wider than the gap: the grain breaks between ")
    yield from (_names(where), ".")


def _dowels(plan: Plan, check: Check, _where: list[str]) -> Iterator[Part]:
    yield "The rabbet reaches into the dowels: "
    if check.level == "stop":
        yield "there is no place for them clear of it."
    else:
        yield from ("keep them ", *_value(plan.display, check), " from the inner edge.")


def _panel(plan: Plan, check: Check, where: list[str]) -> Iterator[Part]:
    yield from ("The wood of ", _names(where), " moves by ", *_value(plan.display, check), " over the year.")


def _nominal(_plan: Plan, _check: Check, _where: list[str]) -> Iterator[Part]:
    yield "The panel has not been measured: cut nothing that holds it before it has been."


def _cup(plan: Plan, check: Check, where: list[str]) -> Iterator[Part]:
    yield from (
        "The cup of ",
        _names(where),
        " comes too near the joint or the face: ",
        *_value(plan.display, check),
        ".",
    )


_WORDS: dict[str, Callable[[Plan, Check, list[str]], Iterator[Part]]] = {
    "hinge-overlay": _hinge_overlay,
    "cover": _cover,
    "wall-clearance": _wall,
    "kerf-vs-reveal": _kerf,
    "dowel-rabbet": _dowels,
    "panel-movement": _panel,
    "nominal-thickness": _nominal,
    "cup-fit": _cup,
}


def _names(where: list[str]) -> str:
    return " and ".join([", ".join(where[:-1]), where[-1]]) if len(where) > 1 else where[0]


def _value(display: Display, check: Check) -> tuple[Part, ...]:
    value = check.value
    if value is None:
        return ("too little",)
    return (value,) if isinstance(value, str) else finely(Figure("", _exact(value)), display)


def _exact(value: Exact | int) -> Exact:
    return Fraction(value) if isinstance(value, int) else value


def scheme_of(fronts: Collection[FrontPlan], display: Display) -> tuple[Part, ...]:
    """What holds for all of these fronts: "full cover, gap 4 throughout"; "mixed" where they differ."""
    schemes = list(dict.fromkeys(front.look.scheme for front in fronts))
    if len(schemes) != 1:
        return (" and ".join(schemes),)
    scheme = schemes[0]
    if scheme == "full cover":
        gaps = {front.look.gap.units: front.look.gap for front in fronts}
        if len(gaps) == 1:
            (gap,) = gaps.values()
            return (scheme, ", gap ", length(gap.value, display), " throughout")
    reveals = {f.look.reveal.units: f.look.reveal for f in fronts if f.look.reveal is not None}
    if scheme == "partial cover" and len(reveals) == 1:
        (reveal,) = reveals.values()
        return (scheme, ", reveal ", length(reveal.value, display))
    return (scheme,)

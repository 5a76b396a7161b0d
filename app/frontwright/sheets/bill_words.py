"""What a price rests on, and money, in words for paper and lists."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from frontwright.core.bill.result import CostWhat, Proviso, ProvisoKind
from frontwright.core.lengths import Display, decimal, finest, show
from frontwright.core.stock.result import Condition

LINES: dict[CostWhat, str] = {
    "wood bought": "wood, bought",
    "own wood": "wood, from the shop",
    "hardware": "hardware",
    "finish and glue": "finish and glue",
    "handling": "handling of wood and hardware",
    "work": "work",
    "reserve": "reserve",
}


CONDITIONS: dict[ProvisoKind, str] = {
    "no price": "No price is known of {of}: that is not in this sum.",
    "usual size": "No supplier's size is entered for {of}: a usual size is reckoned with.",
    "own share": "Wood from the shop is charged at {share} of its price.",
    "waste": "Waste of the wood that is not laid out yet is reckoned at {share} of its parts.",
    "no rate": "No price of an hour is entered: work is not in this sum.",
    "no hours": "No operations are entered: work is not in this sum.",
    "no handling": "No share for handling is entered: none is in this sum.",
    "no reserve": "No reserve is entered: none is in this sum.",
    "not read": "Not measured yet: {of}.",
    "assumed": "Sizes of {of} rest on assumed figures.",
    "not asked": "Not asked yet, and reckoned as if nothing changes: {of}.",
    "near match": "No sample was taken of {of}: what is made is a near match.",
    "finding": "Still open: {of}.",
}


def money(cents: Fraction | int, currency: str) -> str:
    """Money from its smallest unit, half up, with its currency as the shop writes it: "2877.80 EUR"."""
    return f"{decimal(Fraction(cents) / 100, 2)} {currency}".rstrip()


def percent(share: Fraction) -> str:
    """A share as per cent, to a tenth: "15 %"."""
    return f"{decimal(share * 100, 1).removesuffix('.0')} %"


ALLOWED = {
    "release": "{of} is released",
    "other batch": "another batch is allowed",
    "keep-backs": "what is kept back of the billets counts as leaves",
    "glue up": "{of} may be glued up of two",
    "narrower": "{of} may be {by} narrower",
    "machine": "the billets are sawn on {of}",
}


def alternative(of: Condition, display: Display) -> str:
    """One thing that would have to be allowed, so that nothing or less of a group is bought."""
    by = f"{show(of.by, finest(of.by, display))} {display.unit}" if of.by is not None else "a little"
    said = ALLOWED[of.kind].format(of=of.of, by=by)
    return f"{said}, and {of.still} are short even so" if of.still else said


def conditions(provisos: Iterable[Proviso]) -> list[str]:
    """What a price rests on, a sentence for each kind of proviso."""
    together: dict[ProvisoKind, list[Proviso]] = {}
    for one in provisos:
        together.setdefault(one.kind, []).append(one)
    return [_condition(kind, of) for kind, of in together.items()]


def _condition(kind: ProvisoKind, provisos: Sequence[Proviso]) -> str:
    named = [_named(one) for one in provisos if one.of]
    value = provisos[0].value
    share = percent(value) if value is not None else "a share"
    return CONDITIONS[kind].format(of="; ".join(dict.fromkeys(named)), share=share)


def _named(of: Proviso) -> str:
    """What it is about; a finding by its code in words and its subjects."""
    code, _, subjects = of.of.partition(": ")
    return f"{code.replace('-', ' ')} of {subjects}" if of.kind == "finding" else of.of

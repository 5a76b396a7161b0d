"""What a price rests on, and money, in words for paper and lists."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.bill.result import CostWhat, Proviso, ProvisoKind
from frontwright.core.lengths import decimal

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
    "no price": "No price is known of {of}: it is not in this sum.",
    "usual size": "No supplier's size is entered for {of}: a usual size is reckoned with.",
    "own share": "Wood from the shop is charged at {share} of its price.",
    "waste": "Waste is reckoned at {share} of the parts; the wood is not all laid out yet.",
    "no rate": "No price of an hour is entered: work is not in this sum.",
    "no hours": "No operations are entered: work is not in this sum.",
    "no handling": "No share for handling is entered: none is in this sum.",
    "no reserve": "No reserve is entered: none is in this sum.",
    "not read": "Not measured yet: {of}.",
    "assumed": "Sizes of {of} rest on assumed figures.",
    "finding": "Still open: {of}.",
}


def money(cents: Fraction | int, currency: str) -> str:
    """Money from its smallest unit, half up, with its currency as the shop writes it: "2877.80 EUR"."""
    return f"{decimal(Fraction(cents) / 100, 2)} {currency}".rstrip()


def percent(share: Fraction) -> str:
    """A share as per cent, to a tenth: "15 %"."""
    return f"{decimal(share * 100, 1).removesuffix('.0')} %"


def condition(of: Proviso) -> str:
    """One sentence on what a price rests on."""
    code, colon, subjects = of.of.partition(":")
    named = f"{code.replace('-', ' ')}{colon}{subjects}" if of.kind == "finding" else of.of
    return CONDITIONS[of.kind].format(of=named, share=percent(of.value) if of.value is not None else "a share")

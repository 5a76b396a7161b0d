"""A leftover at birth: what it has from the piece it was cut of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from frontwright.core.job import Amount, Defect, Piece, PieceForm
from frontwright.core.lengths import Length, Typed, Unit, typed_length
from frontwright.core.stock.result import Clear, Offer

_CENTS = 100


def born(
    parent: Piece,
    name: str,
    size: tuple[Typed | None, Typed | None, Typed | None],
    *,
    job: str = "",
    when: str = "",
    shelf: str | None = None,
    form: PieceForm | None = None,
) -> Piece:
    """The piece of this name and size (length, width, thickness) that is left of another.

    Species, batch, cut, figure, grade, moisture with its date and shelf go on, and of the price its share by content
    (rounded half up to a hundredth). `job`: what the job is called that cut it, on the day `when`.
    """
    length, width, thickness = size
    left = replace(
        parent,
        id=name,
        form=form or parent.form,
        length=length,
        width=width,
        thickness=thickness or parent.thickness,
        count=1,
        shelf=parent.shelf if shelf is None else shelf,
        note="",
        photo="",
        end_trim=None,
        edge_trim=None,
        from_job=job,
        from_piece=parent.id,
        state="free",
        came=when[:10],
        looked=when[:10],
    )
    return replace(left, price=price_share(parent, left))


def born_bad(defects: Sequence[Defect], parent: Offer, rest: Clear, name: str, unit: Unit) -> Iterator[Defect]:
    """The bad places of a parent (`defects` in the order of its offer's) that lie on a rest of it, as those of the new
    piece: clipped to it, from its own left end and lower edge."""
    for row, bad in zip(defects, parent.defects, strict=True):
        left, low = max(bad.along, rest.along), max(bad.across, rest.across)
        right = min(bad.along + bad.length, rest.along + rest.length)
        high = min(bad.across + bad.width, rest.across + rest.width)
        if left < right and low < high:
            sizes = (left - rest.along, low - rest.across, right - left, high - low)
            along, across, length, width = (typed_length(one, unit) for one in sizes)
            yield Defect(f"{name} {row.id}", name, row.what, along, across, length, width)


def price_share(parent: Piece, part: Piece) -> Amount | None:
    """What of the price paid for a piece falls to a part of it, by content; None where a size or the price is open."""
    whole, share = content(parent), content(part)
    if parent.price is None or parent.price.value is None or not whole or share is None:
        return None
    cents = int(parent.price.value * share / whole * _CENTS + Fraction(1, 2))
    return Amount(f"{cents // _CENTS}.{cents % _CENTS:02}", Fraction(cents, _CENTS))


def content(piece: Piece) -> Fraction | None:
    """Length by width by thickness in cubic units; None where one is not known."""
    product = Fraction(1)
    for size in (piece.length, piece.width, piece.thickness):
        value: Length | None = size.value if size is not None else None
        if value is None:
            return None
        product *= value.units
    return product

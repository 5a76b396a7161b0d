"""The grammar of entries, worked out exactly as it is read (recursive descent, fractions throughout).

    sum      = product { ("+" | "-") product }
    product  = signed { ("*" | "/") signed }
    signed   = [ "+" | "-" ] operand
    operand  = "(" sum ")" [ unit ] | figure [ unit ] | figure foot [ "-" ] [ figure [ inch ] ]
    figure   = number | whole "/" whole | whole whole "/" whole | [ whole ] glyph

A number without a unit is plain while it multiplies or divides, and in the job's unit once it is added to a length
or is the result.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.lengths.length import FOOT, INCH, Length
from frontwright.core.lengths.tokens import Kind, Token, UnreadableError

DEEPEST = 8


@dataclass(frozen=True, slots=True)
class Quantity:
    """A plain number, or, when ``is_length``, a number of units."""

    number: Fraction
    is_length: bool = False

    def in_units(self, bare: Length) -> Fraction:
        """The number of units, a plain number counted in the unit ``bare``."""
        return self.number if self.is_length else self.number * bare.units


def worked_out(tokens: Sequence[Token], bare: Length) -> Quantity:
    """The quantity that the marks of an entry come to; ``bare`` is the length that a number without unit counts.

    UnreadableError where they make no length, unfinished where typing on may still make one of them.
    """
    _refuse_three_storeys(tokens)
    return _Entry(tokens, bare).whole()


def _refuse_three_storeys(tokens: Sequence[Token]) -> None:
    """5/8/2 written together: nobody can tell which two of the three make the fraction."""
    for over, middle, under in zip(tokens, tokens[1:], tokens[2:], strict=False):
        together = over.touches(middle) and middle.touches(under)
        if over.kind == under.kind == "/" and middle.kind in ("number", "glyph") and together:
            raise UnreadableError(
                f"Two division strokes about {middle.text}: put brackets round the part that is divided first."
            )


class _Entry:
    """The marks of one entry and how far they are read."""

    def __init__(self, tokens: Sequence[Token], bare: Length) -> None:
        self._tokens = tokens
        self._bare = bare
        self._at = 0
        self._depth = 0

    def whole(self) -> Quantity:
        quantity = self._sum()
        stray = self._peek()
        if stray is None:
            return quantity
        if stray.kind == ")":
            raise UnreadableError("A bracket closes here that was not opened.")
        if stray.kind == "unit":
            raise UnreadableError(f"“{stray.text}” follows a length that already has its unit.")
        raise UnreadableError(f"A sign is missing before “{stray.text}”.")

    def _sum(self) -> Quantity:
        total = self._product()
        while sign := self._take("+", "-"):
            self._refuse_double(sign)
            if sign.kind == "-":
                self._refuse_lopsided(sign)
            total = self._added(total, self._product(), -1 if sign.kind == "-" else 1)
        return total

    def _added(self, left: Quantity, right: Quantity, sign: int) -> Quantity:
        if not left.is_length and not right.is_length:
            return Quantity(left.number + sign * right.number)
        return Quantity(left.in_units(self._bare) + sign * right.in_units(self._bare), is_length=True)

    def _product(self) -> Quantity:
        product = self._signed()
        while sign := self._take("*", "/"):
            factor = self._signed()
            product = _times(product, factor) if sign.kind == "*" else self._divided(product, factor)
        return product

    def _divided(self, quantity: Quantity, by: Quantity) -> Quantity:
        if by.is_length:
            raise UnreadableError("A length is divided by a number, not by a length.")
        if not by.number:
            raise self._division_by_zero()
        return Quantity(quantity.number / by.number, quantity.is_length)

    def _division_by_zero(self) -> UnreadableError:
        # 5/0 may yet become 5/0.5; after a bracket or a further mark nothing can mend it
        mendable = self._peek() is None and self._tokens[-1].kind == "number"
        return UnreadableError("Nothing can be divided by 0.", unfinished=mendable)

    def _signed(self) -> Quantity:
        sign = self._take("+", "-")
        if sign is None:
            return self._operand()
        following = self._peek()
        if following is not None and not sign.touches(following):
            raise UnreadableError(f"Put the sign “{sign.text}” right before its number.", unfinished=True)
        self._refuse_double(sign)
        quantity = self._operand()
        return Quantity(-quantity.number, quantity.is_length) if sign.kind == "-" else quantity

    def _operand(self) -> Quantity:
        token = self._peek()
        if token is None:
            raise UnreadableError(f"A number is missing after “{self._tokens[self._at - 1].text}”.", unfinished=True)
        if token.kind == "(":
            return self._bracket()
        if token.kind in ("number", "glyph"):
            return self._quantity()
        raise UnreadableError(f"A number is missing before “{token.text}”.")

    def _bracket(self) -> Quantity:
        self._at += 1
        self._depth += 1
        if self._depth > DEEPEST:
            raise UnreadableError(f"More than {DEEPEST} brackets inside each other: work out a part of it first.")
        quantity = self._sum()
        if self._peek() is None:
            raise UnreadableError("A bracket is not closed.", unfinished=True)
        if not self._take(")"):
            raise UnreadableError(f"A sign is missing before “{self._tokens[self._at].text}”.")
        self._depth -= 1
        if quantity.is_length or not (unit := self._take("unit")):
            return quantity
        return Quantity(quantity.number * unit.size.units, is_length=True)

    def _quantity(self) -> Quantity:
        number = self._figure()
        unit = self._take("unit")
        if unit is None:
            return Quantity(number)
        units = number * unit.size.units
        if unit.size == FOOT and self._inches_follow(unit):
            units += self._inches() * INCH.units
        return Quantity(units, is_length=True)

    def _inches_follow(self, foot: Token) -> bool:
        """A number after the feet; a hyphen directly between a foot mark and a number joins them (and is taken)."""
        hyphen, number = self._peek(), self._peek(1)
        if hyphen is not None and hyphen.kind == "-" and number is not None and foot.is_foot_mark:
            joins = foot.touches(hyphen) and hyphen.touches(number) and number.kind in ("number", "glyph")
            self._at += joins
        following = self._peek()
        return following is not None and following.kind in ("number", "glyph")

    def _inches(self) -> Fraction:
        number = self._figure()
        unit = self._take("unit")
        if unit is not None and unit.size != INCH:
            # 5' 11' may yet become 5' 11''
            mendable = self._peek() is None and unit.is_foot_mark
            raise UnreadableError(f"Inches follow feet, not “{unit.text}”.", unfinished=mendable)
        return number

    def _figure(self) -> Fraction:
        first = self._tokens[self._at]
        self._at += 1
        if not first.is_whole:
            return first.number
        if glyph := self._take("glyph"):
            return first.number + glyph.number
        if self._fraction_follows(first):
            return self._under_the_stroke(first)
        if (over := self._peek()) and over.kind == "number":
            return first.number + self._fraction_after(first)
        return first.number

    def _fraction_follows(self, over: Token) -> bool:
        """A stroke and a whole number, written together with the whole number ``over`` before them."""
        stroke, under = self._peek(), self._peek(1)
        if stroke is None or under is None or stroke.kind != "/":
            return False
        return over.touches(stroke) and stroke.touches(under) and under.is_whole

    def _under_the_stroke(self, over: Token) -> Fraction:
        under = self._tokens[self._at + 1]
        self._at += 2
        if not under.number:
            raise self._division_by_zero()
        return over.number / under.number

    def _fraction_after(self, whole: Token) -> Fraction:
        """The fraction of a mixed number; two numbers side by side have no other meaning."""
        over = self._tokens[self._at]
        self._at += 1
        if over.is_whole and self._fraction_follows(over):
            fraction = self._under_the_stroke(over)
            if fraction < 1:
                return fraction
            raise UnreadableError(f"The fraction after {whole.text} is not under 1.", unfinished=True)
        stroke = self._peek()
        begun = stroke is None or (stroke.kind == "/" and over.touches(stroke) and self._peek(1) is None)
        if over.is_whole and begun:
            raise UnreadableError(f"The fraction after {whole.text} is not finished.", unfinished=True)
        thousands = ", or it is one number with a space in its thousands" if len(over.text) == 3 else ""
        raise UnreadableError(f"{whole.text} and {over.text} stand side by side: a sign is missing{thousands}.")

    def _refuse_double(self, sign: Token) -> None:
        following = self._peek()
        if following is not None and following.kind in ("+", "-") and sign.touches(following):
            raise UnreadableError(f"Two signs stand together, “{sign.text}{following.text}”: one is meant.")

    def _refuse_lopsided(self, hyphen: Token) -> None:
        before, following = self._tokens[self._at - 2], self._peek()
        if following is not None and before.touches(hyphen) != hyphen.touches(following):
            raise UnreadableError(
                "A hyphen with a space on one side only: put one on both sides or on none.", unfinished=True
            )

    def _peek(self, ahead: int = 0) -> Token | None:
        at = self._at + ahead
        return self._tokens[at] if at < len(self._tokens) else None

    def _take(self, *kinds: Kind) -> Token | None:
        token = self._peek()
        if token is None or token.kind not in kinds:
            return None
        self._at += 1
        return token


def _times(left: Quantity, right: Quantity) -> Quantity:
    if left.is_length and right.is_length:
        raise UnreadableError("Two lengths are multiplied: that is an area, and one length is asked for here.")
    return Quantity(left.number * right.number, left.is_length or right.is_length)

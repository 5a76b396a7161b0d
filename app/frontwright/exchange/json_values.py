"""Single values of the JSON form from what JSON gives."""

from __future__ import annotations

import re
from fractions import Fraction

from frontwright.core.job import Amount, amount
from frontwright.core.job.declared import MOST_COUNT, Declared
from frontwright.core.lengths import LONGEST, Length, Typed, Unit, typed

_NUMBER = r"-?[0-9]{1,60}(?:\.[0-9]{1,60}|/[0-9]{1,60})?"
NUMBER = f"^{_NUMBER}$"
LENGTH = f"^{_NUMBER} (in|mm)$"
LONGEST_TEXT = 20_000


class WrongValueError(Exception):
    """A value is not what its field takes; `str()` says what the field must be."""


def value_from(field: Declared, found: object, unit: Unit) -> object:
    """The value of a field from what JSON gives for it; WrongValueError if the field does not take it."""
    if found is None and field.optional:
        return None
    match field.kind:
        case "length":
            return _typed(found, unit)
        case "amount":
            return _amount(found)
        case "texts" if isinstance(found, list):
            return tuple(_text(one) for one in found)
        case "text":
            return _choice(field, _text(found))
        case _:
            return _plain(field, found)


def _plain(field: Declared, found: object) -> object:
    if not field.takes(found):
        least = f"from {field.least} to" if field.least > 0 else "of at most"
        raise WrongValueError(
            {
                "count": f"must be a whole number {least} {MOST_COUNT:,}",
                "yes or no": "must be true or false",
                "texts": "must be a list of texts",
            }[field.kind]
        )
    return found


def _choice(field: Declared, text: str) -> str:
    if not field.takes(text):
        raise WrongValueError("must be one of " + ", ".join(f"“{choice}”" for choice in field.choices))
    return text


def _text(found: object) -> str:
    if not isinstance(found, str):
        raise WrongValueError("must be text")
    if len(found) > LONGEST_TEXT:
        raise WrongValueError(f"must be text of at most {LONGEST_TEXT:,} characters")
    if not found.isascii() and any("\ud800" <= character <= "\udfff" for character in found):
        raise WrongValueError("must be text without halves of characters")
    return found


def _typed(found: object, unit: Unit) -> Typed:
    if isinstance(found, str):
        return typed(_text(found), unit)
    text, exact = _pair(found, "must be a length as text, such as “23 5/8”, or an object of “text” and “is”")
    return Typed(text, None if exact is None else _length(exact))


def _amount(found: object) -> Amount:
    if isinstance(found, str):
        return amount(_text(found))
    text, exact = _pair(found, "must be a number as text, such as “0.5”, or an object of “text” and “is”")
    return Amount(text, None if exact is None else _number(exact))


def _pair(found: object, otherwise: str) -> tuple[str, str | None]:
    if not isinstance(found, dict) or set(found) != {"text", "is"}:
        raise WrongValueError(otherwise)
    return _text(found["text"]), None if found["is"] is None else _text(found["is"])


def _length(exact: str) -> Length:
    if not re.fullmatch(LENGTH, exact):
        raise WrongValueError(f"“is” must be an exact length such as “23.625 in” or “3000/127 in”, not “{exact[:60]}”")
    number, unit = exact.split(" ")
    try:
        length = Length.inch(_number(number)) if unit == "in" else Length.mm(_number(number))
    except ValueError as error:
        raise WrongValueError(f"“is” must be a whole number of 1/80 000 mm, and “{exact[:60]}” is none") from error
    if abs(length) > LONGEST:
        raise WrongValueError(f"“is” must be a length of at most 30 m, and “{exact[:60]}” is longer")
    return length


def _number(exact: str) -> Fraction:
    try:
        return Fraction(exact if re.fullmatch(NUMBER, exact) else "")
    except (ValueError, ZeroDivisionError) as error:
        raise WrongValueError(f"“is” must be an exact number such as “0.5” or “1/3”, not “{exact[:60]}”") from error

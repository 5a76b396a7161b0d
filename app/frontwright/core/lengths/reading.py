"""From what a person types to a length: the value, and a sentence where it is doubtful or cannot be read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from frontwright.core.lengths.display import IN_SIXTYFOURTHS, IN_TENTH_MM, Display, both_units, exact_text, show
from frontwright.core.lengths.entry import Read, Typed
from frontwright.core.lengths.grammar import Amount, worked_out
from frontwright.core.lengths.length import INCH, LONGEST, MM, UNITS_IN, Length, Unit, half_up
from frontwright.core.lengths.tokens import MOST_CHARACTERS, Token, UnreadableError, tokens_of

LONGEST_RUN = MM * 8_000
"""A run over 8 m is suspicious (THE-JOB.md section 3, Run: overall), and nothing of a job is longer than its run."""

_BARE: dict[Unit, Length] = {"in": INCH, "mm": MM}
_FINE: dict[Unit, Display] = {"in": IN_SIXTYFOURTHS, "mm": IN_TENTH_MM}


def read(text: str, unit: Unit) -> Read:
    """How ``text`` is understood in a job whose unit is ``unit``; nothing is raised, whatever the text.

    What is over the 30 m is unfinished, not refused: 1200m may be on its way to 1200mm.
    """
    entry = text.strip()
    if not entry:
        return Read(text, None, None, "empty")
    try:
        return _understood(text, entry, unit)
    except UnreadableError as error:
        return Read(text, None, None, "unfinished" if error.unfinished else "refused", problem=error.sentence)


def typed(text: str, unit: Unit) -> Typed:
    """``text`` as typed beside its value."""
    return Typed(text, read(text, unit).value)


def typed_length(length: Length, unit: Unit) -> Typed:
    """A value set by the program as if it had been typed: the text reads back as exactly ``length``, without doubt.

    Inches get a fraction down to 1/128; where inches will not do, the text is in millimetres with their unit.
    """
    inches = Fraction(length.units, UNITS_IN["in"])
    if unit == "mm":
        return Typed(_plain_decimal(exact_text(length, "mm")), length)
    if inches.denominator in (1, 2, 4, 8, 16, 32, 64, 128):
        return Typed(show(length, Display("in", Length.inch("1/128"))), length)
    return Typed(_plain_decimal(exact_text(length, "mm")) + " mm", length)


def _plain_decimal(text: str) -> str:
    """With a nought more after exactly three decimals, which would be taken for thousands."""
    return text + "0" if text[-4:-3] == "." else text


def _understood(text: str, entry: str, unit: Unit) -> Read:
    if len(entry) > MOST_CHARACTERS:
        raise UnreadableError(f"Longer than {MOST_CHARACTERS} characters: type one length.")
    tokens = tokens_of(entry)
    meant = _mixed_by_hyphen(tokens, unit) or tokens
    amount = worked_out(meant, _BARE[unit])
    exact = amount.in_units(_BARE[unit])
    value = half_up(exact)
    if abs(value) > LONGEST:
        raise UnreadableError(_too_long(amount, unit), unfinished=True)
    doubts = " ".join(_doubts(tokens, meant, amount, unit))
    return Read(text, exact, value, "value", doubt=doubts or None)


def _mixed_by_hyphen(tokens: Sequence[Token], unit: Unit) -> list[Token] | None:
    """The marks without their hyphen where 23-5/8 is the whole entry and means 23 5/8; None where it does not.

    It does in an inch job, with an inch mark, and after feet. Feet may stand before it and a unit after it.
    """
    rest = list(tokens)
    end = rest.pop() if rest and rest[-1].kind == "unit" else None
    feet = 0
    if len(rest) > 1 and rest[0].kind == "number" and rest[1].kind == "unit" and rest[1].size.units == 12 * INCH.units:
        joined = len(rest) > 2 and rest[2].kind == "-" and rest[1].is_foot_mark and rest[1].touches(rest[2])
        feet = 3 if joined else 2
    if not _is_hyphenated(rest[feet:]):
        return None
    if unit == "in" or feet or (end is not None and end.size == INCH):
        return [token for at, token in enumerate(tokens) if at != feet + 1]
    return None


def _is_hyphenated(tokens: Sequence[Token]) -> bool:
    """Exactly A-B/C or A-glyph, written together."""
    kinds = [token.kind for token in tokens]
    if kinds not in (["number", "-", "number", "/", "number"], ["number", "-", "glyph"]):
        return False
    together = all(token.touches(following) for token, following in pairwise(tokens))
    return together and all(token.is_whole for token in tokens if token.kind == "number")


def _doubts(tokens: Sequence[Token], meant: Sequence[Token], amount: Amount, unit: Unit) -> Iterator[str]:
    """A sentence for each other way in which the entry can be meant."""
    exact = amount.in_units(_BARE[unit])
    this = both_units(exact, _FINE[unit])
    if meant is not tokens:
        other = _other_reading(tokens, unit)
        yield f"Read as {this}. If the hyphen takes away{other}: put a space on both sides of it."
    thousands = [_as_thousands(token) for token in meant]
    if thousands != list(meant):
        other = _other_reading(thousands, unit)
        yield f"Read as {this}, the mark as a decimal mark. If it marks thousands{other}: leave it out."
    if abs(exact) <= LONGEST_RUN.units:
        return
    if amount.is_length or unit == "mm":
        yield f"Read as {this}, longer than a run usually is."
    else:
        other = both_units(amount.in_units(MM), IN_TENTH_MM)
        yield f"Read as {this}, longer than a run usually is. If millimetres are meant, {other}: type mm after it."


def _other_reading(tokens: Sequence[Token], unit: Unit) -> str:
    """The other value as a clause of a sentence; nothing where it is no length either."""
    try:
        exact = worked_out(tokens, _BARE[unit]).in_units(_BARE[unit])
    except UnreadableError:
        return ""
    return f", {both_units(exact, _FINE[unit])}" if abs(exact) <= LONGEST.units else ""


def _as_thousands(token: Token) -> Token:
    """1.234 as 1234; any other mark, and 0.625, whose nought no thousands begin with, as it is."""
    whole, _, decimals = token.text.replace(",", ".").partition(".")
    if token.kind != "number" or len(decimals) != 3 or not whole.strip("0"):
        return token
    return replace(token, text=whole + decimals, number=Fraction(whole + decimals))


def _too_long(amount: Amount, unit: Unit) -> str:
    if unit == "in" and not amount.is_length and abs(amount.in_units(MM)) <= LONGEST.units:
        return "In inches this is over 30 m, longer than any length may be. If millimetres are meant, type mm after it."
    return "This is over 30 m, longer than any length may be."

"""From what a person types to a length: the value, and a sentence where it is doubtful or cannot be read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from frontwright.core.lengths.display import IN_SIXTYFOURTHS, IN_THOUSANDTHS, Display, both_units, exact_text, show
from frontwright.core.lengths.entry import Read, Typed
from frontwright.core.lengths.grammar import Quantity, worked_out
from frontwright.core.lengths.length import FOOT, INCH, LONGEST, MM, Length, Unit, half_up
from frontwright.core.lengths.tokens import MOST_CHARACTERS, Token, UnreadableError, tokens_of

LONGEST_RUN = MM * 8_000
"""A run over 8 m is doubted, and nothing of a job is longer than its run."""

_BARE: dict[Unit, Length] = {"in": INCH, "mm": MM}
_THOUSANDTHS: dict[Unit, Display] = {"in": IN_THOUSANDTHS, "mm": Display("mm", Length.mm("0.001"))}
_TYPED_INCHES = Display("in", Length.inch("1/128"))


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

    Inches are a fraction down to 1/128, else a short decimal; what is neither is in millimetres, with their unit.
    (A length over 8 m is as doubtful here as anywhere, and over 30 m it does not read back.)
    """
    millimetres = _without_doubt(exact_text(length, "mm"))
    if unit == "mm":
        return Typed(millimetres, length)
    inches = exact_text(length, "in")
    if length.units % _TYPED_INCHES.step.units == 0:
        return Typed(show(length, _TYPED_INCHES), length)
    if "/" not in inches and len(inches.partition(".")[2]) <= 4:
        return Typed(_without_doubt(inches), length)
    return Typed(f"{millimetres} mm", length)


def _without_doubt(decimal: str) -> str:
    """A decimal with a nought more where its mark could be taken for that of thousands."""
    return decimal + "0" if _sets_off_thousands(decimal) else decimal


def _understood(text: str, entry: str, unit: Unit) -> Read:
    if len(entry) > MOST_CHARACTERS:
        raise UnreadableError(f"Longer than {MOST_CHARACTERS} characters: type one length.")
    tokens = tokens_of(entry)
    meant = _mixed_by_hyphen(tokens, unit) or tokens
    quantity = worked_out(meant, _BARE[unit])
    exact = quantity.in_units(_BARE[unit])
    value = half_up(exact)
    if abs(value) > LONGEST:
        raise UnreadableError(_too_long(quantity, unit), unfinished=True)
    return Read(text, exact, value, "value", doubt=_doubt(tokens, meant, quantity, unit))


def _mixed_by_hyphen(tokens: Sequence[Token], unit: Unit) -> list[Token] | None:
    """The marks without their hyphen where 23-5/8 is the whole entry and means 23 5/8; None where it does not.

    It does in an inch job, with an inch mark, and after feet. Feet may stand before it and a unit after it.
    """
    rest = list(tokens)
    end = rest.pop() if rest and rest[-1].kind == "unit" else None
    feet = 0
    if len(rest) > 1 and rest[0].kind == "number" and rest[1].kind == "unit" and rest[1].size == FOOT:
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


def _doubt(tokens: Sequence[Token], meant: Sequence[Token], quantity: Quantity, unit: Unit) -> str | None:
    """How the entry was read, in both units, and each other way in which it can be meant; None if there is none."""
    others = [*_other_signs(tokens, meant, unit), *_unlikely_sizes(meant, quantity, unit)]
    if not others:
        return None
    return " ".join((f"Read as {_in_both(quantity.in_units(_BARE[unit]), unit)}.", *others))


def _other_signs(tokens: Sequence[Token], meant: Sequence[Token], unit: Unit) -> Iterator[str]:
    """Hyphens and decimal marks that can be meant in another way."""
    if meant is not tokens:
        yield f"If the hyphen takes away, {_other_reading(tokens, unit)}put a space on both sides of it."
    joined = _joined_after_feet(meant)
    if joined != list(meant):
        yield f"If the hyphen joins feet and inches, {_other_reading(joined, unit)}put a space in its place."
    thousands = [_as_thousands(token) for token in meant]
    if thousands != list(meant):
        yield f"If the mark is one of thousands, {_other_reading(thousands, unit)}leave it out."


def _unlikely_sizes(tokens: Sequence[Token], quantity: Quantity, unit: Unit) -> Iterator[str]:
    """What is longer than a run, and inches that make another foot."""
    for at, (foot, inches) in enumerate(pairwise(tokens)):
        is_fraction = [token.kind for token in tokens[at + 2 : at + 3]] == ["/"]
        if foot.size == FOOT and inches.is_whole and inches.number >= 12 and not is_fraction:
            yield f"After the feet stand {inches.text} in, which is a foot and more."
    if abs(quantity.in_units(_BARE[unit])) <= LONGEST_RUN.units:
        return
    yield "This is longer than a run usually is."
    if unit == "in" and not quantity.is_length:
        yield f"If millimetres are meant, it is {_in_both(quantity.in_units(MM), 'mm')}: type mm after it."


def _other_reading(tokens: Sequence[Token], unit: Unit) -> str:
    """The other value, within a sentence; nothing where it is no length either."""
    try:
        exact = worked_out(tokens, _BARE[unit]).in_units(_BARE[unit])
    except UnreadableError:
        return ""
    return f"it is {_in_both(exact, unit)}: " if abs(exact) <= LONGEST.units else ""


def _in_both(exact: Fraction, unit: Unit) -> str:
    """Both units, fine enough to tell two readings apart: inches that are no 64ths as decimals."""
    in_64ths = unit == "in" and exact % IN_SIXTYFOURTHS.step.units == 0
    return both_units(exact, IN_SIXTYFOURTHS if in_64ths else _THOUSANDTHS[unit])


def _joined_after_feet(tokens: Sequence[Token]) -> list[Token]:
    """The marks without the hyphen of 5ft-3in, which takes away; only after a foot mark does it join (5'-3)."""
    feet = [at for at, token in enumerate(tokens) if token.size == FOOT and not token.is_foot_mark]
    hyphens = {at + 1 for at in feet if [token.kind for token in tokens[at + 1 : at + 3]] == ["-", "number"]}
    return [token for at, token in enumerate(tokens) if at not in hyphens or not tokens[at - 1].touches(token)]


def _as_thousands(token: Token) -> Token:
    """1.234 as 1234; any other mark as it is."""
    if token.kind != "number" or not _sets_off_thousands(token.text):
        return token
    figures = token.text.replace(",", "").replace(".", "")
    return replace(token, text=figures, number=Fraction(figures))


def _sets_off_thousands(decimal: str) -> bool:
    """Exactly three figures after the mark; not 0.625 and .625, as no thousands begin with a nought."""
    whole, _, decimals = decimal.replace(",", ".").partition(".")
    return len(decimals) == 3 and whole.lstrip("-0") != ""


def _too_long(quantity: Quantity, unit: Unit) -> str:
    if unit == "in" and not quantity.is_length and abs(quantity.in_units(MM)) <= LONGEST.units:
        return "In inches this is over 30 m, longer than any length may be. If millimetres are meant, type mm after it."
    return "This is over 30 m, longer than any length may be."

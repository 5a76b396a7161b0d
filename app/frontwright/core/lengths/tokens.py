"""The marks an entry is made of: numbers, fraction glyphs, units, signs and brackets."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.lengths.length import FOOT, INCH, MM, Length

MOST_CHARACTERS = 64
MOST_TOKENS = 32

type Kind = Literal["number", "glyph", "unit", "+", "-", "*", "/", "(", ")"]


class UnreadableError(ValueError):
    """Text that is no length, with the sentence that says so; ``unfinished`` where more typing may mend it."""

    def __init__(self, sentence: str, *, unfinished: bool = False) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.unfinished = unfinished


@dataclass(frozen=True, slots=True)
class Token:
    """One mark of an entry, from ``start`` up to ``end`` in its text.

    ``number`` is the value of a number or glyph; ``size`` is the length a unit stands for.
    """

    kind: Kind
    text: str
    start: int
    end: int
    number: Fraction = Fraction(0)
    size: Length = MM

    @property
    def is_whole(self) -> bool:
        """A number written without a decimal mark, as the figures of a fraction are."""
        return self.kind == "number" and self.text.isdecimal()

    @property
    def is_foot_mark(self) -> bool:
        return self.kind == "unit" and len(self.text) == 1 and self.text in _FOOT_MARKS

    def touches(self, following: Token) -> bool:
        """No space lies between this mark and the following one."""
        return self.end == following.start


_SPACES = " \t\u00a0\u2002\u2003\u2007\u2009\u200a\u202f"
_DIGITS = "0123456789"
_DECIMAL_MARKS = ".,"
_FOOT_MARKS = "'′’‘ʹ"
_INCH_MARKS = '"″”“ʺ'
_GLYPHS = {
    **dict(zip("½⅓⅔¼¾", map(Fraction, ("1/2", "1/3", "2/3", "1/4", "3/4")), strict=True)),
    **{glyph: Fraction(fifths, 5) for fifths, glyph in enumerate("⅕⅖⅗⅘", 1)},
    **dict(zip("⅙⅚", map(Fraction, ("1/6", "5/6")), strict=True)),
    **dict(zip("⅛⅜⅝⅞", map(Fraction, ("1/8", "3/8", "5/8", "7/8")), strict=True)),
    **dict(zip("⅐⅑⅒", map(Fraction, ("1/7", "1/9", "1/10")), strict=True)),
}
_WORDS = {"mm": MM, "cm": MM * 10, "m": MM * 1000}
_WORDS |= dict.fromkeys(("in", "inch", "inches"), INCH) | dict.fromkeys(("ft", "foot", "feet"), FOOT)
_SIGNS: dict[str, Kind] = {
    **dict.fromkeys("-−–‐‑", "-"),
    **dict.fromkeys("*×xX·", "*"),
    **dict.fromkeys("/÷∕⁄", "/"),
    "+": "+",
    "(": "(",
    ")": ")",
}


def tokens_of(text: str) -> list[Token]:
    """The marks of ``text``. UnreadableError where a mark is none of an entry's, or there are too many of them."""
    found: list[Token] = []
    at = 0
    while at < len(text):
        if text[at] in _SPACES:
            at += 1
            continue
        found.append(_token(text, at))
        at = found[-1].end
        if len(found) > MOST_TOKENS:
            raise UnreadableError(f"More than {MOST_TOKENS} numbers and signs: work out a part of it first.")
    return found


def _token(text: str, at: int) -> Token:
    mark = text[at]
    if mark in _DIGITS or mark in _DECIMAL_MARKS:
        return _number(text, at)
    if mark in _SIGNS:
        return Token(_SIGNS[mark], mark, at, at + 1)
    if mark in _GLYPHS:
        return Token("glyph", mark, at, at + 1, number=_GLYPHS[mark])
    if mark in _INCH_MARKS:
        return Token("unit", mark, at, at + 1, size=INCH)
    if mark in _FOOT_MARKS:
        return _foot_or_double_mark(text, at)
    if mark.isalpha():
        return _word(text, at)
    if mark in "\r\n\v\f\u2028\u2029":
        raise UnreadableError("More than one line: type one length.")
    if not mark.isprintable():
        raise UnreadableError("There is a character here that cannot be seen: type the length anew.")
    raise UnreadableError(f"“{mark}” has no meaning in a length.")


def _foot_or_double_mark(text: str, at: int) -> Token:
    """A foot mark; two of them together are an inch mark."""
    end = _run_end(text, at, _FOOT_MARKS, most=2)
    return Token("unit", text[at:end], at, end, size=INCH if end - at == 2 else FOOT)


def _number(text: str, at: int) -> Token:
    """Figures with at most one mark among them, point or comma, which is the decimal mark."""
    end = _run_end(text, at, _DIGITS + _DECIMAL_MARKS)
    written = text[at:end]
    marks = sum(written.count(mark) for mark in _DECIMAL_MARKS)
    if marks > 1:
        raise UnreadableError(
            f"“{written}” has {marks} marks: one decimal mark is read, thousands are written without any."
        )
    if written[-1] in _DECIMAL_MARKS:
        raise UnreadableError(f"Figures are missing after “{written}”.", unfinished=end == len(text))
    return Token("number", written, at, end, number=Fraction(written.replace(",", ".")))


def _word(text: str, at: int) -> Token:
    """The name of a unit, in any case, as "in." too; the letter x is none of a name but a sign."""
    end = at
    while end < len(text) and text[end].isalpha() and text[end] not in _SIGNS:
        end += 1
    written = text[at:end]
    name = written.casefold()
    size = _WORDS.get(name)
    if size is None:
        begun = end == len(text) and any(word.startswith(name) for word in _WORDS)
        raise UnreadableError(f"“{written}” is no unit: in, ft, mm, cm and m are.", unfinished=begun)
    if name in ("in", "ft") and text[end : end + 1] == "." and not text[end + 1 : end + 2].isdecimal():
        end += 1
    return Token("unit", text[at:end], at, end, size=size)


def _run_end(text: str, at: int, marks: str, most: int = MOST_CHARACTERS) -> int:
    end = at
    while end < len(text) and text[end] in marks and end - at < most:
        end += 1
    return end

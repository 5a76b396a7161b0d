"""Some thousand generated entries against ``fractions.Fraction``: values worked out beside the text, never from it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from frontwright.core.lengths import LONGEST, Length, Unit, read

# Written out on purpose, not taken from the program: units of 1/80 000 mm.
PER_INCH = Fraction(254, 10) * 80_000
PER: dict[str, Fraction] = {
    "mm": Fraction(80_000),
    "cm": Fraction(800_000),
    "in": PER_INCH,
    '"': PER_INCH,
    "″": PER_INCH,
}


@dataclass(frozen=True)
class Written:
    """An entry, or a part of one, with its value: a plain number, or units when ``is_length``."""

    text: str
    number: Fraction
    is_length: bool
    is_atom: bool = True

    def bracketed(self) -> Written:
        return self if self.is_atom else Written(f"({self.text})", self.number, self.is_length)

    def units(self, unit: Unit) -> Fraction:
        return self.number if self.is_length else self.number * PER[unit]


def figure(luck: Random) -> tuple[str, Fraction]:
    whole = luck.randrange(0, 40)
    under = luck.choice([2, 3, 4, 8, 16, 32, 64])
    over = luck.randrange(1, under)
    tenths = luck.randrange(0, 100)
    return luck.choice(
        [
            (str(whole), Fraction(whole)),
            (f"{over}/{under}", Fraction(over, under)),
            (f"{whole} {over}/{under}", whole + Fraction(over, under)),
            (f"{whole}{luck.choice('.,')}{tenths:02d}", whole + Fraction(tenths, 100)),
            (f"{whole}⅝", whole + Fraction(5, 8)),
        ]
    )


def atom(luck: Random) -> Written:
    text, number = figure(luck)
    kind = luck.randrange(4)
    if kind == 0:
        mark = luck.choice(list(PER))
        return Written(text + luck.choice(["", " "]) + mark, number * PER[mark], is_length=True)
    if kind == 1:
        feet, mark = luck.randrange(1, 7), luck.choice(["'", "' ", "’", " ft ", "'-"])
        return Written(f"{feet}{mark}{text}″", (feet * 12 + number) * PER_INCH, is_length=True)
    return Written(text, number, is_length=False)


def term(luck: Random, unit: Unit, depth: int) -> Written:
    """A product or quotient that is allowed: at most one length in it, and not under the stroke."""
    left = part(luck, unit, depth).bracketed()
    right = part(luck, unit, depth).bracketed()
    if right.is_length and left.is_length:
        return left
    if luck.random() < 0.5 and not right.is_length and right.number:
        return Written(f"{left.text} / {right.text}", left.number / right.number, left.is_length, is_atom=False)
    sign = luck.choice(["*", " * ", " x ", "×"])
    number = left.number * right.number
    return Written(left.text + sign + right.text, number, left.is_length or right.is_length, is_atom=False)


def part(luck: Random, unit: Unit, depth: int) -> Written:
    if depth == 0 or luck.random() < 0.3:
        return atom(luck)
    if luck.random() < 0.4:
        return term(luck, unit, depth - 1)
    left, right = part(luck, unit, depth - 1), part(luck, unit, depth - 1).bracketed()
    sign = luck.choice([" + ", " - ", "+"])
    factor = -1 if "-" in sign else 1
    text = left.text + sign + right.text
    if not left.is_length and not right.is_length:
        return Written(text, left.number + factor * right.number, is_length=False, is_atom=False)
    return Written(text, left.units(unit) + factor * right.units(unit), is_length=True, is_atom=False)


def generated(unit: Unit, wanted: int) -> list[Written]:
    """Entries within the limits of length, tokens and size."""
    luck = Random(f"entries in {unit}")
    found: list[Written] = []
    while len(found) < wanted:
        entry = part(luck, unit, 3)
        marks = re.findall(r"[0-9.,]+|[a-z]+|\S", entry.text)
        if len(entry.text) <= 64 and len(marks) <= 32 and abs(entry.units(unit)) <= LONGEST.units:
            found.append(entry)
    return found


def test_generated_entries_come_to_what_fractions_come_to() -> None:
    units: tuple[Unit, ...] = ("in", "mm")
    for unit in units:
        for entry in generated(unit, 2500):
            understood = read(entry.text, unit)
            assert understood.exact == entry.units(unit), (entry.text, unit, understood)
            nearest = (2 * entry.units(unit) + 1) // 2
            assert understood.value == Length(nearest), (entry.text, unit)


def test_every_beginning_of_a_generated_entry_is_a_value_or_unfinished() -> None:
    units: tuple[Unit, ...] = ("in", "mm")
    for unit in units:
        for entry in generated(unit, 500):
            for end in range(len(entry.text) + 1):
                beginning = entry.text[:end]
                state = read(beginning, unit).state
                assert state == ("value" if end == len(entry.text) else state)
                assert state != "refused", (beginning, entry.text, unit)

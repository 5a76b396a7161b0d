"""The rack searched as a person asks: "ash, same batch as that door, at least 28 long, dry".

A question is words in any order, with or without commas: a wood, a form, `batch X`, `same batch as` a front or piece,
`at least` (`over`, `under`, `at most`, `exactly`) a length `long`, `wide` or `thick`, `dry` or `wet`, a state or `any`,
`shelf X` or `on X`, `not looked at for a year`, a grade, a cut, or the name of a piece or batch. What is understood is
said back; what is not is named.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import get_args

from frontwright.core.assumed import wettest
from frontwright.core.job import Piece, PieceForm
from frontwright.core.lengths import Display, Length, read, show
from frontwright.core.stock.counting import not_looked_at
from frontwright.core.stock.rack import GONE, Rack, state_of

Fits = Callable[[Piece], bool]
USUALLY_WET = wettest(None)

_FORMS: tuple[str, ...] = get_args(PieceForm)
_PLURALS = {"leaves": "leaf", "solid panels": "solid panel"} | {f"{form}s": form for form in _FORMS if form != "leaf"}
_STATES = ("free", "reserved", "in work", "used up", "burned")
_GRADES = ("show", "plain", "hidden")
_CUTS = {"flat": "flat", "flat sawn": "flat", "rift": "rift", "quarter": "quarter", "quarter sawn": "quarter"}
_AXES = {"long": "length", "wide": "width", "thick": "thickness"}
_BOUNDS: dict[str, str] = {
    "at least": "at least", "from": "at least", "over": "over", "longer than": "over", "more than": "over",
    "at most": "at most", "up to": "at most", "under": "under", "less than": "under", "exactly": "exactly",
}  # fmt: skip
_HOLDS: dict[str, Callable[[Length, Length], bool]] = {
    "at least": lambda is_, asked: is_ >= asked,
    "over": lambda is_, asked: is_ > asked,
    "at most": lambda is_, asked: is_ <= asked,
    "under": lambda is_, asked: is_ < asked,
    "exactly": lambda is_, asked: is_ == asked,
}
_FILLERS = {"and", "with", "a", "an", "the", "of", "some", "is", "are", "all", "please", "piece", "pieces", "that"}
_SAME = re.compile(
    r"(?:the )?same (?:batch|tree|lot) as (?:(?:that|the) )?(?:door|drawer|front|piece|board)?\s*(\S*)", re.IGNORECASE
)
_BATCH = re.compile(r"batch (?=\S)", re.IGNORECASE)
_SHELF = re.compile(r"(?:on )?shelf (?=\S)", re.IGNORECASE)
_ON = re.compile(r"(?:on|at|in) (?=\S)", re.IGNORECASE)
_WORD = re.compile(r"\S+")
_MARKS = ",;.?!"
_MOST_WORDS = 8  # of a length such as 1 ft 11 5/8 in


@dataclass(frozen=True, slots=True)
class Search:
    """A question as it was understood.

    `said`: each understood wish in words, in the order asked; `unknown`: the words that were not; `problem`: one
    sentence where a wish was understood but cannot be met with (a length that cannot be read, a batch nobody knows).
    """

    said: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    problem: str = ""
    wishes: tuple[Fits, ...] = ()
    every_state: bool = False


@dataclass(frozen=True, slots=True)
class Asking:
    """What a question is read against: the rack; what batches a front is of; what "that" is; how lengths are shown.

    `wet_above`: moisture in per cent over which wood is wet; `today`: a date, written 2026-12-20.
    """

    rack: Rack
    display: Display
    batches: Mapping[str, Collection[str]] = field(default_factory=dict)
    selected: str = ""
    wet_above: Fraction = USUALLY_WET
    today: str = ""


class _Reader:
    """Goes through a question from its left, taking off what it understands."""

    def __init__(self, text: str, asking: Asking) -> None:
        self.rest = " ".join(text.split())
        self.asking = asking
        self.said: list[str] = []
        self.unknown: list[str] = []
        self.problem = ""
        self.wishes: list[Fits] = []
        self.every_state = False
        woods = {piece.species.casefold() for piece in asking.rack.pieces.values() if piece.species}
        self.woods = woods | {word for wood in woods for word in wood.split()}
        self.names = {piece.casefold(): piece for piece in asking.rack.pieces}

    def read(self) -> Search:
        while self.rest:
            self.rest = self.rest.lstrip(" ,;")
            if self.rest and not any(take(self) for take in _TAKERS):
                self._pass_over()
        known = tuple(dict.fromkeys(self.said))
        return Search(known, tuple(self.unknown), self.problem, tuple(self.wishes), self.every_state)

    def _pass_over(self) -> None:
        word, _, self.rest = self.rest.partition(" ")
        word = word.strip(_MARKS)
        if word and word.casefold() not in _FILLERS:
            self.unknown.append(word)

    def wish(self, said: str, fits: Fits) -> bool:
        self.said.append(said)
        self.wishes.append(fits)
        return True

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """What stands next, taken off, if it is of this pattern."""
        found = pattern.match(self.rest)
        if found:
            self.rest = self.rest[found.end() :]
        return found

    def take_one(self, words: Collection[str]) -> str | None:
        """The longest of these that stands next as whole words, taken off."""
        low = self.rest.casefold()
        for word in sorted(words, key=len, reverse=True):
            if low.startswith(word) and not low[len(word) : len(word) + 1].strip(" " + _MARKS):
                self.rest = self.rest[len(word) :]
                return word
        return None


def _same_batch(reader: _Reader) -> bool:
    found = reader.take(_SAME)
    if not found:
        return False
    asked = found[1].strip(_MARKS) or reader.asking.selected
    name = next(
        (n for n in (*reader.asking.batches, *reader.asking.rack.pieces) if n.casefold() == asked.casefold()), ""
    )
    if not name:
        reader.problem = reader.problem or (
            f"“{asked}” is no piece of the rack and no front of this job: name another for “same batch as”."
            if asked
            else "Name the front or piece after “same batch as”."
        )
        return True
    piece = reader.asking.rack.pieces.get(name)
    batches = {*reader.asking.batches.get(name, ()), *([piece.batch] if piece else [])} - {""}
    if not batches:
        reader.problem = reader.problem or f"Nobody said of which batch {name} is: enter it with its piece."
    return reader.wish(
        f"same batch as {name} ({', '.join(sorted(batches)) or 'not known'})", lambda piece: piece.batch in batches
    )


def _batch_or_shelf(reader: _Reader) -> bool:
    """The name of a batch or shelf: one of the rack's, of several words too, else the next word."""
    field = "batch" if reader.take(_BATCH) else "shelf" if reader.take(_SHELF) else ""
    if not field:
        return False
    names = {name.casefold() for piece in reader.asking.rack.pieces.values() if (name := getattr(piece, field))}
    word = reader.take_one(names)
    if word is None and (found := reader.take(_WORD)):
        word = found[0].strip(_MARKS)
    asked = word or ""
    said = next((n for p in reader.asking.rack.pieces.values() if (n := getattr(p, field)).casefold() == asked), asked)
    return reader.wish(f"{field} {said}", lambda piece: getattr(piece, field).casefold() == asked.casefold())


def _bare_batch(reader: _Reader) -> bool:
    """The name of a batch without the word before it, where no piece is called so."""
    there = reader.asking.rack.pieces.values()
    names = {piece.batch.casefold(): piece.batch for piece in there if piece.batch}
    word = reader.take_one(names)
    if word is None:
        return False
    return reader.wish(f"batch {names[word]}", lambda piece: piece.batch.casefold() == word)


def _bare_shelf(reader: _Reader) -> bool:
    """The name of a shelf without the word before it, "on A1" or only "A1", where nothing else is called so."""
    names = {piece.shelf.casefold(): piece.shelf for piece in reader.asking.rack.pieces.values() if piece.shelf}
    before = reader.rest
    reader.take(_ON)
    word = reader.take_one(names)
    if word is None:
        reader.rest = before
        return False
    return reader.wish(f"shelf {names[word]}", lambda piece: piece.shelf.casefold() == word)


def _size(reader: _Reader) -> bool:
    before = reader.rest
    bound = reader.take_one(_BOUNDS)
    words = reader.rest.split()
    at = next((n for n, word in enumerate(words[: _MOST_WORDS + 1]) if word.casefold().strip(_MARKS) in _AXES), 0)
    number, axis = " ".join(words[:at]), words[at].casefold().strip(_MARKS) if at else ""
    understood = read(number, reader.asking.display.unit)
    if understood.value is None and not (bound and any(mark.isdigit() for mark in number)):
        reader.rest = before
        return False
    reader.rest = " ".join(words[at + 1 :])
    if understood.value is None:
        why = understood.problem or "write it as 23 5/8 or 600 mm."
        reader.problem = reader.problem or f"“{number}” before “{axis}” is no length: {why}"
        return True
    kind = _BOUNDS[bound or "at least"]
    asked, holds = understood.value, _HOLDS[kind]
    said = f"{kind} {show(asked, reader.asking.display)} {axis}"

    def fits(piece: Piece) -> bool:
        size = getattr(piece, _AXES[axis])
        return size is not None and size.value is not None and holds(size.value, asked)

    return reader.wish(said, fits)


def _moisture(reader: _Reader) -> bool:
    word, limit = reader.take_one(("dry", "wet")), reader.asking.wet_above
    if word is None:
        return False

    def fits(piece: Piece) -> bool:
        value = piece.moisture.value if piece.moisture else None
        return value is not None and (value <= limit) == (word == "dry")

    return reader.wish(f"{word} ({'up to' if word == 'dry' else 'over'} {limit} %)", fits)


def _not_seen(reader: _Reader) -> bool:
    if reader.take_one(("not looked at for a year", "not seen for a year")) is None:
        return False
    old = {piece.id for piece in not_looked_at(reader.asking.rack, reader.asking.today)}
    return reader.wish("not looked at for a year", lambda piece: piece.id in old)


def _state(reader: _Reader) -> bool:
    word = reader.take_one(("any", "any state", "not looked at", *_STATES))
    if word is None or word == "not looked at":
        return word is not None and reader.wish("never looked at", lambda piece: not piece.looked)
    reader.every_state = True
    if word.startswith("any"):
        reader.said.append("in any state")
        return True
    rack = reader.asking.rack
    return reader.wish(word, lambda piece: state_of(rack, piece) == word)


def _form(reader: _Reader) -> bool:
    word = reader.take_one((*_FORMS, *_PLURALS, "leftover", "leftovers", "rest", "rests"))
    if word is None:
        return False
    if word not in _FORMS and word not in _PLURALS:
        return reader.wish("leftover", lambda piece: bool(piece.from_piece))
    form = _PLURALS.get(word, word)
    return reader.wish(form, lambda piece: piece.form == form)


def _grade_or_cut(reader: _Reader) -> bool:
    grade = reader.take_one([f"{one} grade" for one in _GRADES] + list(_GRADES))
    if grade is not None:
        asked = grade.split()[0]
        return reader.wish(f"{asked} grade", lambda piece: piece.grade == asked)
    cut = reader.take_one(_CUTS)
    return cut is not None and reader.wish(f"{_CUTS[cut]} sawn", lambda piece: piece.cut == _CUTS[cut])


def _wood(reader: _Reader) -> bool:
    wood = reader.take_one(reader.woods)
    if wood is None:
        return False
    words = set(wood.split())
    return reader.wish(wood, lambda piece: words <= set(piece.species.casefold().split()))


def _name(reader: _Reader) -> bool:
    found = reader.take_one(reader.names)
    if found is None:
        return False
    name = reader.names[found]
    reader.every_state = True  # who asks for a piece by its name wants to see it whatever became of it
    return reader.wish(name, lambda piece: piece.id == name)


_TAKERS: tuple[Callable[[_Reader], bool], ...] = (
    _same_batch, _batch_or_shelf, _size, _name, _moisture, _not_seen, _state, _form, _grade_or_cut, _wood, _bare_batch,
    _bare_shelf,
)  # fmt: skip


def understood(text: str, asking: Asking) -> Search:
    """How a question is understood; nothing is raised, whatever the text."""
    return _Reader(text, asking).read()


def found(rack: Rack, search: Search) -> tuple[Piece, ...]:
    """The pieces that meet every wish; unless a state is asked for, those that are still there."""
    return tuple(
        piece
        for piece in rack.pieces.values()
        if (search.every_state or piece.state not in GONE) and all(fits(piece) for fits in search.wishes)
    )

"""Have I enough, in words: what it is cut from, what would have to be allowed, what is short, why pieces are left."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from frontwright.core.lengths import Display
from frontwright.core.stock.result import Buy, Candidate, Condition, GroupAnswer, Refusal, Use
from frontwright.desk.wording.numbers import count_of, decimal, figure_text, length_text
from frontwright.sheets.bill_words import alternative

MOST_NAMED = 3


def question_word(question: str) -> str:
    """A question as it stands in the chooser."""
    return question if question in ("this job", "what is not yet cut") else f"one more like {question}"


def said_of(answer: GroupAnswer, shelves: dict[str, str], display: Display) -> str:
    """What stands beside the answer for a group."""
    if answer.answer == "yes":
        return _from(answer.uses, shelves)
    if answer.answer == "yes, if":
        return condition_text(answer.conditions[0], display)
    lacking = sum(answer.short.values())
    parts = _named(answer.short)
    why = [refused_text(one, display) for one in answer.refused[:2] if one.refusals]
    return "; ".join([f"short by {lacking}: {parts}", *why])


def _from(uses: Iterable[Use], shelves: dict[str, str]) -> str:
    """ "from L-11, shelf A1"."""
    found = [f"{one.piece}, shelf {shelves[one.piece]}" if shelves.get(one.piece) else one.piece for one in uses]
    if not found:
        return "everything is cut"
    more = f" and {len(found) - MOST_NAMED} more" if len(found) > MOST_NAMED else ""
    return f"from {'; '.join(found[:MOST_NAMED])}{more}"


def _named(short: Iterable[str]) -> str:
    names = list(short)
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return f"{', '.join(names[:MOST_NAMED])}{more}"


def _held(one: Condition) -> str:
    job = str(one.facts.get("job", ""))
    until = str(one.facts.get("until", ""))
    return "".join([f" by {job}" if job else "", f" (reserved to {until})" if until else ""])


def condition_text(one: Condition, display: Display) -> str:
    """One condition; where it does not clear everything, what is missing then still."""
    said = alternative(one, display)
    return f"{said}{_held(one)}" if one.kind == "release" else said


def refused_text(one: Candidate, display: Display) -> str:
    """ "L-12 is wet (14 %, limit 11)"."""
    return f"{one.piece.id} {' and '.join(_refusal(refusal, display) for refusal in one.refusals[:2])}"


def _by(refusal: Refusal, word: str, display: Display) -> str:
    return f"is {length_text(refusal.by, display)} too {word}" if refusal.by is not None else f"is too {word}"


def _wet(refusal: Refusal, _: Display) -> str:
    is_, most = refusal.facts.get("is", ""), refusal.facts.get("most", "")
    return f"is wet ({_number(is_)} %, limit {_number(most)})"


def _number(value: str | Fraction) -> str:
    return decimal(value, 1) if isinstance(value, Fraction) else str(value)


def _reserved(refusal: Refusal, _: Display) -> str:
    job, until = refusal.facts.get("job", ""), refusal.facts.get("until", "")
    past = ", which is over" if refusal.facts.get("past") else ""
    return "is reserved" + (f" by {job}" if job else "") + (f" to {until}{past}" if until else "")


_REFUSALS: dict[str, Callable[[Refusal, Display], str]] = {
    "used up": lambda _, __: "is in work elsewhere or used up",
    "species": lambda one, _: f"is {one.facts.get('is', 'another wood')}",
    "size not told": lambda _, __: "has a size that nobody told",
    "thin": lambda one, display: _by(one, "thin", display),
    "thick": lambda one, display: _by(one, "thick", display),
    "short": lambda one, display: _by(one, "short", display),
    "narrow": lambda one, display: _by(one, "narrow", display),
    "wet": _wet,
    "batch": lambda one, _: f"is of batch {one.facts['is']}" if one.facts.get("is") else "is of another batch",
    "reserved": _reserved,
    "grade": lambda _, __: "is for hidden parts",
    "defects": lambda one, _: f"has no clear place large enough ({one.facts.get('what') or 'bad places'})",
}


def _refusal(refusal: Refusal, display: Display) -> str:
    return _REFUSALS[refusal.kind](refusal, display)


def refusals_text(one: Candidate, display: Display) -> str:
    """Every reason that keeps a piece out."""
    return " and ".join(_refusal(refusal, display) for refusal in one.refusals)


def buy_text(one: Buy, display: Display) -> str:
    """ "2 boards 1 × 6 × 96"."""
    size = " × ".join(figure_text(f, display) for f in (one.thickness, one.width, one.length))
    return f"{count_of(one.count, one.form)} {size}"

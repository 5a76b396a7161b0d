"""Words on paper: pieces of text and figures of one line, how wide they are, and how they are fitted and broken.

Places and widths on a page are plain numbers of millimetres and sizes of letters are points: they are paper, not
lengths of the trade, which stay exact until they are shown.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from frontwright.core.drawing.lettering import Laid, in_mm, layout_figure
from frontwright.core.figures import Figure
from frontwright.core.lengths import Display, Exact, Length, Shown, Typed, Unit, exact_text, shown
from frontwright.sheets.fonts import Face, em_width, printable

POINT = 25.4 / 72  # millimetres
CLIPPED = "…"
SMALLER = 0.65  # a struck-out size beside the one that holds
FINER: dict[Unit, tuple[Length, ...]] = {
    "in": (Length.inch("1/64"), Length.inch("1/128")),
    "mm": (Length.mm("0.1"), Length.mm("0.01")),
}


@dataclass(frozen=True, slots=True)
class Atom:
    """A piece of a line: text, or a length with a fraction to be stacked. `size` in points. `struck`: struck out."""

    text: str | Shown
    size: float
    bold: bool = False
    condensed: bool = False
    struck: bool = False

    @property
    def face(self) -> Face:
        if self.condensed:
            return "DejaVuSansCondensed-Bold" if self.bold else "DejaVuSansCondensed"
        return "DejaVuSans-Bold" if self.bold else "DejaVuSans"

    @property
    def width(self) -> float:
        """Millimetres from its beginning to its end."""
        em = laid(self.text, self.face).width if isinstance(self.text, Shown) else em_width(self.text, self.face)
        return em * self.size * POINT


@dataclass(frozen=True, slots=True)
class Strong:
    """Parts of a line in bold."""

    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Struck:
    """Parts of a line struck out, thin and smaller than the rest."""

    parts: tuple[Part, ...]


Words = tuple[Atom, ...]
Part = str | Shown | Strong | Struck


def strong(*parts: Part) -> Strong:
    return Strong(parts)


def words(*parts: Part, size: float = 10, bold: bool = False, condensed: bool = False) -> Words:
    """One line of these parts; every text is made printable here."""
    return tuple(_atoms(parts, Atom("", size, bold, condensed)))


def length(exact: Exact, display: Display) -> Part:
    """A length to the job's step, without a sign of where it comes from."""
    return _part(shown(exact, display))


def figure(of: Figure, display: Display) -> tuple[Part, ...]:
    """A figure by its source: in brackets where it is assumed or rests on an assumed one, `is` before as-built."""
    return _sourced(of, length(of.value, display))


def with_plan(of: Figure, display: Display) -> tuple[Part, ...]:
    """A figure by its source; beside a measured one the planned one, struck out where it reads otherwise."""
    is_now = length(of.value, display)
    if of.planned is None or (planned := length(of.planned.value, display)) == is_now:
        return _sourced(of, is_now)
    return (*_sourced(of, is_now), " ", Struck((planned,)))


def exactly(of: Figure, display: Display) -> tuple[Part, ...]:
    """A figure to its last digit, for sums: to a finer step than the job's where it takes one."""
    finer = (display, *(Display(display.unit, step, display.decimals) for step in FINER[display.unit]))
    for each in finer:
        as_shown = shown(of.value, each)
        if not as_shown.about:
            return _sourced(of, _part(as_shown))
    return _sourced(of, exact_text(of.value, display.unit))


def finely(of: Figure, display: Display) -> tuple[Part, ...]:
    """A figure of something thin or of hardware: to 1/64 in or a tenth of a millimetre where the job's step is too
    coarse; in an inch job in millimetres where it is a round size there ("35 mm")."""
    own = in_mm(of.value, display)
    if own is not None:
        return _sourced(of, own)
    as_shown = shown(of.value, display)
    if as_shown.about:
        as_shown = shown(of.value, Display(display.unit, FINER[display.unit][0], display.decimals))
    return _sourced(of, _part(as_shown))


def _sourced(of: Figure, part: Part) -> tuple[Part, ...]:
    if of.source == "as-built":
        return ("is ", part)
    return ("(", part, ")") if of.rests else (part,)


def typed_size(*sizes: Typed | None) -> tuple[str, ...]:
    """Sizes as they were typed, with a mark between them; what cannot be read has a question mark."""
    given = [of.text.strip() if of.value is not None else f"{of.text.strip()}?" for of in sizes if of is not None]
    return (" × ".join(given),) if given else ()


def text_of(*parts: Part) -> str:
    """The parts as plain text, fractions written on the line."""
    return "".join(text_of(*part.parts) if isinstance(part, Strong | Struck) else str(part) for part in parts)


def width_of(line: Words) -> float:
    """Millimetres that a line takes."""
    return sum(atom.width for atom in line)


def fit(line: Words, width: float) -> Words:
    """The line as it goes into `width` millimetres: as it is, else condensed, else clipped with three dots."""
    if width_of(line) <= width:
        return line
    narrow = tuple(replace(atom, condensed=True) for atom in line)
    return narrow if width_of(narrow) <= width else _clipped(narrow, width)


def wrap(line: Words, width: float) -> list[Words]:
    """The line broken at its spaces into lines of at most `width` millimetres; a longer word is broken."""
    lines: list[Words] = []
    row: list[Atom] = []
    used = 0.0
    for word in _unbreakables(line, width):
        space = replace(word[0], text=" ") if row else None
        needed = width_of(tuple(word)) + (space.width if space else 0)
        if row and used + needed > width:
            lines.append(tuple(row))
            row, used, space, needed = [], 0.0, None, width_of(tuple(word))
        row += [space, *word] if space else word
        used += needed
    return [*lines, tuple(row)] if row else lines


@lru_cache(maxsize=5_000)
def laid(text: Shown, face: Face) -> Laid:
    """A length laid out for letters of size 1, its fraction stacked."""
    return layout_figure(text, 1.0, lambda digits, size, _bold: em_width(digits, face) * size, face.endswith("Bold"))


def _part(text: Shown) -> Part:
    return text if text.numerator else str(text).replace("-", "−")


def _atoms(parts: tuple[Part, ...], like: Atom) -> Iterator[Atom]:
    for part in parts:
        if isinstance(part, Strong):
            yield from _atoms(part.parts, replace(like, bold=True))
        elif isinstance(part, Struck):
            yield from _atoms(part.parts, replace(like, bold=False, size=like.size * SMALLER, struck=True))
        elif isinstance(part, Shown):
            yield replace(like, text=part)
        elif part:
            yield replace(like, text=printable(part))


def _clipped(line: Words, width: float) -> Words:
    room = width - replace(line[-1], text=CLIPPED).width
    kept: list[Atom] = []
    for atom in line:
        if atom.width <= room:
            kept.append(atom)
            room -= atom.width
            continue
        if isinstance(atom.text, str):
            kept.append(replace(atom, text=_head(atom, room) + CLIPPED))
            return tuple(kept)
        break
    return (*kept, replace(line[-1], text=CLIPPED))


def _head(atom: Atom, room: float) -> str:
    """As many of the atom's first letters as go into the room."""
    text = str(atom.text)
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if replace(atom, text=text[:middle]).width <= room else (low, middle - 1)
    return text[:low].rstrip()


def _unbreakables(line: Words, width: float) -> Iterator[list[Atom]]:
    """What must stay together: atoms without a space between them, each group no wider than `width`."""
    group: list[Atom] = []
    for atom in line:
        if not isinstance(atom.text, str):
            group.append(atom)
            continue
        first, *rest = atom.text.split(" ")
        if first:
            group.append(replace(atom, text=first))
        for word in rest:
            if group:
                yield from _broken(group, width)
            group = [replace(atom, text=word)] if word else []
    if group:
        yield from _broken(group, width)


def _broken(group: list[Atom], width: float) -> Iterator[list[Atom]]:
    if width_of(tuple(group)) <= width or len(group) > 1 or not isinstance(group[0].text, str):
        yield group
        return
    rest = group[0]
    while rest.width > width and len(str(rest.text)) > 1:
        head = _head(rest, width) or str(rest.text)[:1]
        yield [replace(rest, text=head)]
        rest = replace(rest, text=str(rest.text)[len(head) :])
    yield [rest]

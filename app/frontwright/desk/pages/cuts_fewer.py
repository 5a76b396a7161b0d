"""Whether fewer pieces would do: what is laid, what it takes at least, and in a sentence why."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from textwrap import wrap

from frontwright.core.lengths import Length
from frontwright.core.stock.result import Group, LaidOut, LayoutPlan
from frontwright.desk.contents import Column, Table, TableRow
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.stock import group_word

_LINE = 34  # letters in a line of the sentence under a narrow table


def fewer_table(view: View) -> Table:
    """A row a kind of wood, and under them why one fewer cannot be, or that nobody has shown it."""
    columns = (Column("", axis=False, share=2), Column("laid"), Column("at least"), Column("gap", axis=False))
    rows: list[TableRow] = []
    said: list[str] = []
    for group in view.plan.stock.groups:
        layouts = [one for one in view.plan.stock.layouts if one.group == group.id and one.parts]
        if not layouts:
            continue
        least = _least(view, group, layouts)
        gap = len(layouts) - least
        rows.append(_fewer_row(view, group, len(layouts), least))
        if not said and gap == 0:
            said = [_why(view, group, layouts)]
    whole = " ".join([*said, *_open_gap(view)]) if rows else ""
    lines = [TableRow("", (words(line),)) for line in wrap(whole, _LINE)]
    return Table("fewer", "Can it be done with fewer?", "", columns, (*rows, *lines))


def _least(view: View, group: Group, layouts: list[LayoutPlan]) -> int:
    """What was shown when all of it was laid, as long as that is still what is laid; else a quick bound.

    What is kept as it is counts whole there, and at least so many for the rest.
    """
    from frontwright.desk.laying import at_least, stays, to_lay

    shown = {one.laid.least for one in layouts}
    if len(shown) == 1 and (least := shown.pop()) is not None and _as_laid(view, group, layouts):
        return least
    kept = sum(stays(one, anew=True) for one in layouts)
    return kept + sum(at_least(task) for task in to_lay(view.plan, anew=True, only=group.id))


def _as_laid(view: View, group: Group, layouts: list[LayoutPlan]) -> bool:
    """Whether every part of the group lies, holds, and is of the size with which it was laid."""
    sizes = {want.id: (want.length, want.width) for want in group.wants}
    same = all(part.cut or sizes.get(part.part) == _size(part) for one in layouts for part in one.parts)
    return same and not view.plan.stock.unlaid.get(group.id) and all(one.valid for one in layouts)


def _size(part: LaidOut) -> tuple[Length, Length]:
    """Along and across the part's own grain."""
    return (part.width, part.length) if part.turned else (part.length, part.width)


def _fewer_row(view: View, group: Group, laid: int, least: int) -> TableRow:
    subject = f"fewer {group.id}"
    gap = "none" if laid <= least else str(laid - least)
    cells = (
        words(group_word(group, view.display), subject),
        words(str(laid), subject, bold=True),
        words(str(min(least, laid)), subject),
        words(gap, subject, bold=True),
    )
    return TableRow(subject, cells)


def _why(view: View, group: Group, layouts: list[LayoutPlan]) -> str:
    """Why one fewer cannot be, by faces where those say it."""
    faces = sum(part.length.units * part.width.units for one in layouts for part in one.parts)
    largest = max((one.offer.usable[0].units * one.offer.usable[1].units for one in layouts), default=0)
    used = Fraction(faces, sum(one.content.all for one in layouts) or 1)
    share = f"{group_word(group, view.display)} is used to {round(used * 100)} %."
    share = share[:1].upper() + share[1:]
    if len(layouts) == 1:
        return f"It cannot be done with fewer than one. {share}"
    if faces > largest * (len(layouts) - 1):
        many = Fraction(faces, largest)
        return (
            f"It cannot be done with fewer: the faces of the parts are {float(many):.1f} times that of the largest "
            f"piece. {share}"
        )
    if all(one.laid.piece for one in layouts):
        return f"It cannot be done with fewer without buying: what is there goes first. {share}"
    return f"It cannot be done with fewer: the search has proved it. {share}"


def _open_gap(view: View) -> Iterator[str]:
    for group in view.plan.stock.groups:
        layouts = [one for one in view.plan.stock.layouts if one.group == group.id and one.parts]
        if layouts and _least(view, group, layouts) < len(layouts):
            yield f"Whether {group_word(group, view.display)} could do with one fewer, nobody has shown."

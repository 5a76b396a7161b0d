"""What lies beside the cuts of a layout: what is left of it, what lies nowhere yet, and parts placed by hand."""

from __future__ import annotations

from frontwright.core.figures import Figure
from frontwright.core.stock.cuts import LayoutCuts
from frontwright.core.stock.result import LayoutPlan, Remainder
from frontwright.desk.contents import Action, Cell, Choice, Column, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.wording.stock import group_word, reason_word

MOST = 40  # rows of what lies nowhere yet


def left_table(view: View, layout: LayoutPlan, cuts: LayoutCuts) -> Table:
    """The remainders of a layout: kept or burned, why, changed by hand, and the piece that each became."""
    columns = (
        Column("rest", axis=False),
        Column("length"),
        Column("width"),
        Column("rule says", axis=False),
        Column("because", axis=False, share=2),
        Column("by hand", axis=False),
        Column("shelf", axis=False),
        Column("after cut", axis=False),
        Column("piece", axis=False),
    )
    rows = tuple(_left_row(view, layout, rest, cuts) for rest in layout.remainders)
    aside = "kept or burned by the shop's rule; changed by hand with a reason"
    return Table("left", f"What is left of {layout.id}", aside, columns, rows)


def _left_row(view: View, layout: LayoutPlan, rest: Remainder, cuts: LayoutCuts) -> TableRow:
    subject = f"{layout.id} {rest.letter}"
    row = rest.decided
    by_hand = "" if row is None else "keep" if row.keep else "burn"
    choices = (Choice("", "as the rule"), Choice("keep", "keep"), Choice("burn", "burn"))
    place = key("leftovers", subject, "keep")
    decide = view.choice(place, by_hand, choices, subject, f"remainder {rest.letter} of {layout.id}, kept or burned")
    shelf: Cell = words("", subject)
    why: Cell = words(reason_word(rest.reason, rest.until), subject)
    if row is not None:
        shelf = view.entry("leftovers", subject, "shelf")
        if rest.reason == "by hand":
            why = view.entry("leftovers", subject, "why")
    last = max(cuts.frees.get(rest.letter, frozenset()), default=0)
    keep = rest.keep if rest.reason != "by hand" else not rest.keep
    cells = (
        words(rest.letter, subject, bold=True),
        worked(Figure("length", rest.length, "derived"), subject, "length"),
        worked(Figure("width", rest.width, "derived"), subject, "width"),
        words("keep" if keep else "burn", subject),
        why,
        decide,
        shelf,
        words(str(last) if last else "", subject),
        words(row.piece if row is not None else "", subject, bold=True),
    )
    return TableRow(subject, cells)


def not_laid(view: View, chosen: str) -> Table:
    """Parts that lie on no layout that holds, with what they wait for; each can be placed by hand."""
    columns = (Column("part", axis=False, share=2), Column("length"), Column("width"), Column("pieces"))
    rows: list[TableRow] = []
    leaves = any(piece.form in ("leaf", "strip") for piece in view.job.pieces.values())
    for group in view.plan.stock.groups:
        parts = view.plan.stock.unlaid.get(group.id, {})
        if not parts:
            continue
        aside = "wait for their leaves" if group.on_leaves and not leaves else count_of(sum(parts.values()), "piece")
        rows.append(TableRow("", (words(group_word(group, view.display)),), head=True, aside=aside))
        wants = {want.id: want for want in group.wants}
        rows += [
            TableRow(
                part,
                (
                    words(part, part, bold=True),
                    worked(Figure("length", wants[part].length, "derived"), part, "length"),
                    worked(Figure("width", wants[part].width, "derived"), part, "width"),
                    words(str(count), part),
                ),
            )
            for part, count in list(parts.items())[:MOST]
        ]
    group_of = {want.id: group.id for group in view.plan.stock.groups for want in group.wants}
    one = view.selected
    actions: tuple[Action, ...] = ()
    if chosen and one in group_of and any(one in parts for parts in view.plan.stock.unlaid.values()):
        actions = (Action(key("put-by-hand", group_of[one], one, chosen), f"Put {one} on {chosen} by hand", one),)
    return Table("not laid", "Not laid yet", "" if rows else "nothing", columns, tuple(rows), actions)


def by_hand(view: View, layout: LayoutPlan) -> Table:
    """Where each part of the layout lies; moved by typing it stays there, and the rest is laid round it."""
    columns = (
        Column("part", axis=False, share=2),
        Column("lies on", axis=False),
        Column("along", "from the lower left"),
        Column("across", "from the lower left"),
        Column("turned", axis=False),
        Column("by hand", axis=False),
    )
    choices = tuple(Choice(one.id, one.id) for one in view.plan.stock.layouts)
    rows = []
    for part in sorted(layout.parts, key=lambda p: (p.across.units, p.along.units)):
        row = part.row
        where = view.choice(key("laid_parts", row, "laid"), layout.id, choices, row, f"piece that {row} lies on")
        cells = (
            words(row, row, bold=True),
            where if not part.cut else words(layout.id, row),
            view.entry("laid_parts", row, "along") if not part.cut else worked(_at("along", part.along), row, "along"),
            view.entry("laid_parts", row, "across")
            if not part.cut
            else worked(_at("across", part.across), row, "across"),
            view.entry("laid_parts", row, "turned") if not part.cut else words("yes" if part.turned else "", row),
            view.entry("laid_parts", row, "pinned") if not part.cut else words("cut", row),
        )
        rows.append(TableRow(row, cells))
    one = view.job.laid_parts.get(view.selected)
    actions = [Action(key("lay", "anew", layout.group), "Lay the rest round them", layout.id)]
    if one is not None and one.pinned:
        actions.append(Action(key("let-part-go", one.id), f"Let {one.id} go", one.id))
    aside = "a part that is moved stays where it is put"
    return Table("by hand", "Placed by hand", aside, columns, tuple(rows), tuple(actions))


def _at(name: str, length: object) -> Figure:
    from frontwright.core.lengths import ZERO, Length

    return Figure(name, length if isinstance(length, Length) else ZERO, "as-built")

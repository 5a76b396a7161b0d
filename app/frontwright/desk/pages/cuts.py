"""The Cuts page: one laid piece with its parts and its cuts in order, whether fewer pieces would do, what is left."""

from __future__ import annotations

from functools import cache

from frontwright.core.figures import Figure
from frontwright.core.lengths import Length
from frontwright.core.plan import Plan
from frontwright.core.stock.cuts import CutRow, LayoutCuts, cuts_of
from frontwright.core.stock.result import LaidOut, LayoutPlan
from frontwright.desk.contents import Action, Board, Cell, Choice, Column, PageContents, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.cuts_fewer import fewer_table
from frontwright.desk.pages.cuts_findings import cut_findings
from frontwright.desk.pages.cuts_left import by_hand, left_table, not_laid
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.numbers import count_of, length_text
from frontwright.desk.wording.stock import group_word

NAMED = 2  # things that a row of cuts gives, by name
NARROW, STRETCH = 8, 3  # a piece so many times as long as wide is drawn so many times too wide


def cuts_page(view: View) -> PageContents:
    """The whole page of the layout on which the chooser stands; before anything is laid, what is to be laid."""
    layouts = {one.id: one for one in view.plan.stock.layouts}
    chosen = chosen_of(view, layouts)
    findings = cut_findings(view)
    if not chosen:
        return PageContents(
            "cuts",
            "Cuts",
            (),
            "",
            _advice(view),
            ((not_laid(view, ""),),),
            None,
            findings,
            _actions(view),
            key("lay", "open"),
        )
    layout = layouts[chosen]
    cuts = cuts_of(layout)
    return PageContents(
        chapter="cuts",
        title="Cuts",
        choosers=tuple(Choice(one.id, layout_word(view, one)) for one in layouts.values()),
        chosen=chosen,
        advice=_advice(view),
        bands=(
            (_pieces(view, layout, cuts), _cuts(view, layout, cuts), fewer_table(view)),
            (left_table(view, layout, cuts), not_laid(view, chosen)),
            (by_hand(view, layout),),
        ),
        board=_board(view, chosen),
        findings=findings,
        actions=_actions(view),
        start=_start(view, layout, cuts),
    )


def _start(view: View, layout: LayoutPlan, cuts: LayoutCuts) -> str:
    """The next cut that is to be ticked; of what is still to be bought its first piece."""
    if layout.laid.piece is None:
        first = max(layout.parts, key=lambda p: p.length.units * p.width.units, default=None)
        return key("figure", first.row, "length") if first is not None else ""
    return key("cuts", layout.id, str(_next_row(view, layout, cuts)))


def chosen_of(view: View, layouts: dict[str, LayoutPlan]) -> str:
    """The layout that is selected, or on which what is selected lies; else what was chosen, else the first."""
    selected = view.selected
    if selected in layouts:
        return selected
    row = view.job.laid_parts.get(selected)
    if row is not None and row.laid in layouts:
        return row.laid
    own = [one for one in layouts if selected.startswith(f"{one} ")]  # a cut or a remainder of it
    if own:
        return max(own, key=len)
    if view.chosen in layouts:
        return view.chosen
    on = next((one.id for one in layouts.values() if any(part.part == selected for part in one.parts)), "")
    return on or next(iter(layouts), "")


def layout_word(view: View, layout: LayoutPlan) -> str:
    """ "oak 6.2, 2440 × 1220, to buy"."""
    group = next((one for one in view.plan.stock.groups if one.id == layout.group), None)
    size = f"{length_text(layout.offer.length, view.display)} × {length_text(layout.offer.width, view.display)}"
    piece = view.job.pieces.get(layout.laid.piece or "")
    where = "to buy" if piece is None else f"shelf {piece.shelf}" if piece.shelf else piece.state
    what = group_word(group, view.display) if group is not None else layout.group
    return ", ".join(word for word in (what, size, where) if word)


def _board(view: View, chosen: str) -> Board:
    from frontwright.core.drawing.layout import layout
    from frontwright.core.drawing.strips import strips

    rest = strips(view.plan, chosen)
    of = next(one for one in view.plan.stock.layouts if one.id == chosen)
    narrow = of.offer.width * NARROW < of.offer.length
    drawings = (layout(view.plan, chosen, stretch=STRETCH if narrow else 1), *(() if rest is None else (rest,)))
    return Board(drawings, wide=True)


def _advice(view: View) -> str:
    layouts = view.plan.stock.layouts
    open_ = sum(sum(parts.values()) for group, parts in view.plan.stock.unlaid.items() if group in _laid_groups(view))
    took = f"   found in {view.lay.took:.1f} s" if view.lay is not None and view.lay.took and layouts else ""
    if open_:
        return f"{count_of(open_, 'part')} not laid yet"
    return f"Everything is laid: {_what_on(view)}{took}" if layouts else "There is nothing to lay"


def _laid_groups(view: View) -> set[str]:
    """Groups that are laid out here: leaves are sawn, and strips lie on them once they are."""
    leaves = any(piece.form in ("leaf", "strip") for piece in view.job.pieces.values())
    return {one.id for one in view.plan.stock.groups if one.cut != "billets" and (leaves or not one.on_leaves)}


def _what_on(view: View) -> str:
    """ "1 sheet, 5 boards, K-05": bought ones by their kind, own ones by name."""
    kinds: dict[str, int] = {}
    own: list[str] = []
    for one in view.plan.stock.layouts:
        if one.laid.piece:
            own.append(one.laid.piece)
        else:
            word = one.group.partition(" ")[0]
            kinds[word] = kinds.get(word, 0) + 1
    return ", ".join([*(count_of(n, word) for word, n in kinds.items()), *dict.fromkeys(own)])


def _actions(view: View) -> tuple[Action, ...]:
    if view.lay is not None and view.lay.busy:
        return (Action(key("lay-use"), "Use this one"), Action(key("lay-stop"), "Stop"))
    found = [Action(key("lay", "open"), "Lay")]
    if view.plan.stock.layouts:
        found.append(Action(key("lay", "anew"), "Lay all anew"))
    return tuple(found)


# -- pieces


def _pieces(view: View, layout: LayoutPlan, cuts: LayoutCuts) -> Table:
    columns = (
        Column("piece", axis=False),
        Column("", axis=False),
        Column("length"),
        Column("width"),
        Column("cuts", axis=False),
    )
    parts = sorted(layout.parts, key=lambda p: -p.length.units * p.width.units)
    rows = tuple(_piece_row(view, layout, part, cuts) for part in parts)
    one = layout.id
    keep = "Let go" if layout.laid.pinned else "Keep"
    actions = []
    if not layout.cuts:
        away = Action(key("take-layout-away", one), f"Take {one} away", one)
        actions = [Action(key("keep-layout", one), keep, one), away]
    if layout.laid.piece is None:
        actions.insert(0, Action(key("has-come", one), "It has come", one))
    return Table("laid", f"Pieces of {one}, largest first", "along the grain first", columns, rows, tuple(actions))


def _piece_row(view: View, layout: LayoutPlan, part: LaidOut, cuts: LayoutCuts) -> TableRow:
    long, wide = (part.width, part.length) if part.turned else (part.length, part.width)
    wrong = any(part.part in (fault.part, fault.other) for fault in layout.faults)
    bounds = sorted(cuts.frees.get(part.row, frozenset()))
    state = "cut" if part.cut else "by hand" if part.pinned else kinds(view.plan).get(part.part, "")
    numbers = ", ".join(str(one) for one in bounds[-2:])
    cells = (
        words(part.row, part.row, bold=True, level="stop" if wrong else "ok"),
        words(state, part.row),
        worked(_figure("length", long), part.row, "length", bold=True),
        worked(_figure("width", wide), part.row, "width", bold=True),
        words(numbers, part.row),
    )
    return TableRow(part.row, cells)


def _figure(name: str, length: Length) -> Figure:
    return Figure(name, length, "derived")


@cache
def _kinds_of(parts: tuple[tuple[str, str], ...]) -> dict[str, str]:
    return dict(parts)


def kinds(plan: Plan) -> dict[str, str]:
    """Part -> what it is, in a word."""
    return _kinds_of(tuple((part.id, part.kind) for part in plan.making.parts))


# -- cuts


def _next_row(view: View, layout: LayoutPlan, cuts: LayoutCuts) -> int:
    """The first cut of the first row that is not made."""
    done = _done(view, layout)
    return next(
        (row.cuts[0] for row in cuts.rows if not set(row.cuts) <= done), cuts.rows[0].cuts[0] if cuts.rows else 0
    )


def _done(view: View, layout: LayoutPlan) -> set[int]:
    return {row.cut for row in view.job.cuts_done.values() if row.laid == layout.id}


def _cuts(view: View, layout: LayoutPlan, cuts: LayoutCuts) -> Table:
    columns = (
        Column("made", axis=False),
        Column("cut", axis=False),
        Column("grain", axis=False),
        Column("set at"),
        Column("gives", axis=False, share=2),
    )
    done = _done(view, layout)
    gives = _given(layout, cuts)
    rows = tuple(_cut_row(layout, row, cuts, done, gives) for row in cuts.rows)
    aside = f"{count_of(cuts.settings, 'setting')}, {count_of(len(cuts.cuts), 'cut')}"
    actions = []
    if layout.laid.piece and len(done) < len(cuts.cuts):
        actions.append(Action(key("cut-tick", layout.id), "Next cut is made", layout.id))
    if any(part.cut for part in layout.parts) or _has_born(view, layout):
        actions.append(Action(key("print-labels", layout.id), f"Labels of {layout.id}", layout.id))
    if done:
        actions.append(Action(key("cut-back", layout.id), "Take the last back", layout.id))
    return Table("cuts", "Cuts, by fence and stop", aside, columns, rows, tuple(actions))


def _has_born(view: View, layout: LayoutPlan) -> bool:
    """Whether a leftover of the layout has become a piece."""
    return any(row.laid == layout.id and row.piece for row in view.job.leftovers.values())


def _cut_row(
    layout: LayoutPlan, row: CutRow, cuts: LayoutCuts, done: set[int], gives: dict[int, list[str]]
) -> TableRow:
    subject = f"{layout.id} cut {row.cuts[0]}"
    made = set(row.cuts) <= done
    name = f"{_numbers(row.cuts)} made, of {layout.id}"
    tick = Cell(key("cuts", layout.id, str(row.cuts[0])), "tick", "yes" if made else "", None, (), subject, name)
    given = [name for cut in row.cuts for name in gives.get(cut, ())]
    names = list(dict.fromkeys(given))
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    said = ", ".join(names[:NAMED]) + more or ("off" if row.turn == 0 else "")
    grain = "trim" if row.turn == 0 else row.direction
    cells = (
        tick if layout.laid.piece else words("", subject),
        words(_numbers(row.cuts), subject, bold=True),
        words(grain, subject),
        worked(_figure("set at", _whole(row, cuts)), subject, "set at", bold=True),
        words(said, subject),
    )
    return TableRow(subject, cells)


def _whole(row: CutRow, cuts: LayoutCuts) -> Length:
    """A trim is told with its kerf, as it was entered; else what comes off."""
    if row.turn:
        return row.setting
    band = next(cut.band for cut in cuts.cuts if cut.number == row.cuts[0])
    return row.setting + (band.length if row.direction == "across" else band.width)


def _numbers(cuts: tuple[int, ...]) -> str:
    """ "6, 7" or "1 to 4"."""
    if len(cuts) > 2 and cuts[-1] - cuts[0] == len(cuts) - 1:
        return f"{cuts[0]} to {cuts[-1]}"
    return ", ".join(str(cut) for cut in cuts)


def _given(layout: LayoutPlan, cuts: LayoutCuts) -> dict[int, list[str]]:
    """Cut -> what it is the last one to free."""
    found: dict[int, list[str]] = {}
    kept = {rest.letter for rest in layout.remainders if rest.keep}
    letters = {rest.letter for rest in layout.remainders}
    for name, bounds in cuts.frees.items():
        if name in letters - kept:
            continue
        found.setdefault(max(bounds, default=0), []).append(f"{name} is off" if name in kept else name)
    return found

"""The Facing page: what covers a run, piece by piece in gluing order, what the covering does, and what holds it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from frontwright.core.assumed import entered
from frontwright.core.drawing.facing_map import edge_section, facing_map
from frontwright.core.drawing.section import finer
from frontwright.core.facing.result import RunFacing, Strip, TrimPlan
from frontwright.core.facing.trims import WIDTHS
from frontwright.core.figures import Figure
from frontwright.core.job import Allowances
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import show
from frontwright.core.skins import depth_seen, skin_thickness, strip_of
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Action, Board, Choice, Column, Form, FormLine, PageContents, Table, TableRow
from frontwright.desk.edits.facing import KINDS
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import is_wide
from frontwright.desk.pages.facing_holds import holds_bands
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import count_of

_MADE = {"sawn": "leaf", "bought": "sheet", "solid": "board"}
_TRIM = ("kind", "made_of", "width", "thickness", "projects", "recess", "left", "right", "back", "floor", "allowance")
_MORE = ("side", "longest", "slotted", "cut")


def facing_page(view: View) -> PageContents:
    """The whole page of the chosen run, or of the first that stands on a datum."""
    runs = [run for run in view.plan.survey.runs if not run.run.by_itself]
    run = chosen_run(view, runs)
    if run is None:
        said = "No run with a frame of its own: openings by themselves take no strips"
        return PageContents("facing", "Facing", (), "", said, (), None, finding_lines(view, "facing"), ())
    faced = view.plan.facing.runs.get(run.id) or RunFacing(run.id, (), (), (), {}, None)
    bands: list[tuple[Table | Form, ...]] = []
    if faced.pieces:
        bands.append((_pieces(view, faced), _does(view, run, faced)))
    if view.plan.veneer.nests:
        bands.append((_leaves(view),))
    bands.append((_choices(view, run), _ends(view, run)))
    bands.append((_trim(view, run),))
    bands += holds_bands(view, faced)
    return PageContents(
        chapter="facing",
        title="Facing",
        choosers=tuple(Choice(one.id, run_word(view, one)) for one in runs),
        chosen=run.id,
        advice=_advice(view, faced),
        bands=tuple(bands),
        board=_board(view, run, faced),
        findings=finding_lines(view, "facing"),
        start=key("figure", faced.pieces[0].id, "length") if faced.pieces else key("facings", run.id, "faces"),
    )


def chosen_run(view: View, runs: list[RunPlan]) -> RunPlan | None:
    """The run that the chooser stands on, else the one in which the selected piece or member lies, else the first."""
    by_choice = next((run for run in runs if run.id == view.chosen), None)
    of = {piece.id: piece.run for piece in view.plan.facing.pieces} | {t.id: t.run for t in view.job.trims.values()}
    holding = next((run for run in runs if of.get(view.selected) == run.id or view.selected in run.order), None)
    return by_choice or holding or next(iter(runs), None)


def run_word(view: View, run: RunPlan) -> str:
    """ "faces in 2 mm strips, right end in a 6.2 skin"; "bare"."""
    pieces = [piece for piece in view.plan.facing.pieces if piece.run == run.id]
    said: list[str] = []
    strip = next((piece for piece in pieces if piece.kind == "stile strip"), None)
    if strip is not None:
        said.append(f"faces in {show(strip.thickness.value, finer(view.display))} strips")
    for skin in (piece for piece in pieces if piece.kind == "skin"):
        said.append(f"{skin.on} in a {show(skin.thickness.value, finer(view.display))} skin")
    return ", ".join(part for part in (run.run.name, *said) if part) or "bare"


def _advice(view: View, faced: RunFacing) -> str:
    if not faced.pieces:
        return "Nothing is covered yet"
    strips = sum(1 for piece in view.plan.facing.strips)
    leaves = sum(leaf.count for leaf in view.plan.veneer.leaves if leaf.use != "panels")
    sawn = f", {count_of(strips, 'strip')} from {count_of(leaves, 'leaf', 'leaves')}" if strips and leaves else ""
    return f"{count_of(len(faced.pieces), 'piece')} in gluing order{sawn}"


def _board(view: View, run: RunPlan, faced: RunFacing) -> Board:
    drawing = facing_map(view.plan, run.id, view.selected)
    cuts = [cut for side in ("right", "left") if (cut := edge_section(view.plan, run.id, side)) is not None]
    return Board((drawing, *cuts) if faced.pieces else (drawing,), wide=is_wide(drawing))


# -- pieces


def _pieces(view: View, faced: RunFacing) -> Table:
    numbers = {piece.id: piece.number for piece in faced.pieces}
    columns = (
        Column("order", axis=False),
        Column("piece", axis=False, share=2),
        Column("length"),
        Column("width"),
        Column("thick"),
        Column("rough length"),
        Column("rough width"),
        Column("from", axis=False),
        Column("covers", axis=False, share=2),
        Column("is, wide"),
    )
    rows = tuple(_piece(view, piece, numbers) for piece in faced.pieces)
    return Table("pieces", "Pieces, in gluing order", "widest reading governs", columns, rows, fine=True)


def _piece(view: View, piece: Strip, numbers: dict[str, int]) -> TableRow:
    one = piece.id
    level = view.level_of(one, "strip-width")
    cells = (
        words(str(piece.number), one, bold=True),
        words(_called(piece), one),
        worked(piece.length, one, "length", bold=True),
        worked(piece.width, one, "width", bold=True, level=level),
        worked(piece.thickness, one, "thickness"),
        worked(piece.rough_length, one, "rough length"),
        worked(piece.rough_width, one, "rough width"),
        words(_from(view, piece), one),
        words(covers_word(piece, numbers), one),
        view.entry("as_built", f"{one} width", "value", None, subject=one, word=f"width of {one} as it is"),
    )
    return TableRow(one, cells)


def _called(piece: Strip) -> str:
    own = piece.id.removeprefix(f"{piece.run} ")
    return f"{own}, tapered" if piece.ends is not None else own


def covers_word(piece: Strip, numbers: dict[str, int]) -> str:
    """Whose edges a piece covers: "edge of 1", "edges of 2 and 3"."""
    found = [str(numbers[one]) for one in piece.covers if one in numbers]
    if not found:
        return {"skin": "end", "return": "inside edge"}.get(piece.kind, "")
    return f"edge of {found[0]}" if len(found) == 1 else f"edges of {', '.join(found[:-1])} and {found[-1]}"


def _from(view: View, piece: Strip) -> str:
    """The leaf that a strip is laid on, else what it is cut from."""
    leaves: dict[str, int] = {}
    for use, leaf in view.plan.veneer.nests:
        leaves[use] = leaves.get(use, 0) + 1
        if any(piece.id == strip.id for row in leaf.rows for strip in row.strips):
            return f"{use} {leaves[use]}"
    return _MADE[piece.made_of]


def _leaves(view: View) -> Table:
    """The leaves that strips are laid on, each with how much of its width they take."""
    kerf = entered(view.unit, (view.job.allowances.get("allowances") or Allowances()).rip_kerf, "kerf").length
    wide = view.plan.veneer.usable_width
    rows, count = list[TableRow](), Counter[str]()
    for use, leaf in view.plan.veneer.nests:
        count[use] += 1
        one, used = f"{use} {count[use]}", leaf.used(kerf)
        own = words(show(used, view.display), one, bold=True)
        bar = replace(
            own, text=f"{own.text} of {show(wide.value, view.display)}", bar=(used.units, 0, wide.length.units)
        )
        held = ", ".join(strip.id for row in leaf.rows for strip in row.strips)
        rows.append(TableRow(one, (words(one, one, bold=True), bar, own, words(held, one))))
    columns = (
        Column("leaf", axis=False),
        Column("", axis=False),
        Column("taken", axis=False),
        Column("strips on it", axis=False, share=4),
    )
    aside = f"of all runs; {show(wide.value, view.display)} of a leaf can be used"
    return Table("strip leaves", "Leaves for the strips", aside, columns, tuple(rows))


# -- what the covering does


def _does(view: View, run: RunPlan, faced: RunFacing) -> Form:
    lines = [FormLine(label, words(text, run.id)) for label, text in _words(view, run, faced)]
    if run.overall is not None and faced.length is not None:
        figures = [("run as taped", run.overall), ("run with its skins", faced.length)]
        lines = [*(FormLine(label, worked(one, run.id, label, bold=True)) for label, one in figures), *lines]
    return Form("does", "What the covering does", "", tuple(lines), fine=True)


def _words(view: View, run: RunPlan, faced: RunFacing) -> Iterator[tuple[str, str]]:
    display = finer(view.display)
    squared = sum(1 for one in faced.openings.values() if one.squared)
    inside = f"{count_of(len(faced.openings), 'opening')} smaller" if faced.openings else "not covered"
    yield "inside edges", f"{inside}, squared" if squared else inside
    own = {o.id for o in run.openings}
    rooms = [room for room in view.plan.space.drawers if room.opening in own]
    tight = [room.opening for room in rooms if room.short]
    yield "drawers", f"no longer into {', '.join(tight)}" if tight else "go in" if rooms else "boxes not measured"
    for gap in view.plan.space.gaps:
        if gap.run == run.id:
            yield (
                f"gap at the {gap.side} end",
                f"{show(gap.have.value, display)}, needs {show(gap.need.value, display)}",
            )
    for packing in faced.packings:
        ends = " to ".join(dict.fromkeys(show(end.value, display) for end in packing.ends))
        if packing.what != "drawer front":
            yield f"packing behind {packing.of.removeprefix(f'{run.id} ')}", ends
    drawers = [packing for packing in faced.packings if packing.what == "drawer front"]
    thick = sorted({show(one.ends[0].value, display) for one in drawers})
    if drawers:
        yield "packing behind drawer fronts", f"{', '.join(thick)} behind {', '.join(one.of for one in drawers)}"


# -- what is chosen


def _choices(view: View, run: RunPlan) -> Form:
    one, index = run.id, JobIndex(view.job)
    thick = strip_of(index, one, None, "facing")
    figures: dict[str, Figure] = {"thickness": thick, "inside_thickness": thick}
    names = ("faces", "made_of", "thickness", "through", "inside_edges", "inside_thickness", "squared", "match")
    lines = [FormLine(field_word("facings", n), view.entry("facings", one, n, figures.get(n))) for n in names]
    row = view.job.facings.get(one)
    said = cell_name(view.job, "facings", one, "adhesive")
    place = key("facings", one, "adhesive")
    chosen = row.adhesive or "" if row is not None else ""
    held = view.choice(place, chosen, named_choices(view.job.adhesives, "by the surface"), one, said)
    return Form(
        "facing", "What is covered, and with what", "", (*lines, FormLine(field_word("facings", "adhesive"), held))
    )


def _ends(view: View, run: RunPlan) -> Table:
    names = ("skin", "skin_thickness", "depth_seen", "depth_bottom", "proud")
    index = JobIndex(view.job)
    rows = []
    for side, end in run.ends.items():
        deep = depth_seen(index, run.run, end)
        figures = {
            "depth_seen": deep if deep.source == "assumed" else None,
            "skin_thickness": skin_thickness(index, run.id, side),
        }
        cells = (view.entry("ends", end.id, name, figures.get(name), subject=end.id) for name in names)
        rows.append(TableRow(end.id, (words(side, end.id, bold=True), *cells)))
    columns = (Column("", axis=False), *(Column(field_word("ends", name), axis=name != "skin") for name in names))
    return Table("ends", "Skins on the ends", "how much of the end is seen?", columns, tuple(rows))


def _trim(view: View, run: RunPlan) -> Table:
    plans = view.plan.facing.runs[run.id].trims if run.id in view.plan.facing.runs else ()
    by_id = {plan.id: plan for plan in plans}
    rows = [row.id for row in view.job.trims.values() if row.run == run.id]
    heads = (*_TRIM, *_MORE)
    words_ = {"left", "right", "kind", "made_of", "floor", "side", "slotted", "cut"}
    columns = (
        Column("", axis=False),
        *(Column(field_word("trims", name), axis=name not in words_) for name in heads),
        Column("long point"),
        Column("joints", axis=False, share=2),
    )
    shown = tuple(
        TableRow(
            one,
            (
                view.name("trims", one),
                *(view.entry("trims", one, name, _usual(view, by_id.get(one), name)) for name in heads),
                worked(by_id[one].length if one in by_id else None, one, "long point", bold=True),
                words(_joints(view, by_id.get(one)), one),
            ),
        )
        for one in rows
    )
    actions = [
        Action(key("add-trim", run.id, kind), f"Add a{'n' if kind[0] in 'au' else ''} {kind}", run.id) for kind in KINDS
    ]
    if view.selected in rows:
        actions.append(Action(key("delete", "trims", view.selected), f"Take out {view.selected}", view.selected))
    return Table("trim", "Trim", "toe kick, valance, light rail, top, fillers", columns, shown, tuple(actions))


def _usual(view: View, plan: TrimPlan | None, name: str) -> Figure | None:
    """What an empty field of a trim stands at."""
    if plan is None:
        return None
    kind, kick = plan.trim.kind, plan.trim.kind == "toe kick"
    usual = WIDTHS.get(kind) if name == "width" else "kick recess" if name == "recess" and kick else ""
    if name == "allowance" and kick:
        usual = "kick scribe" if plan.trim.floor == "scribed" else "kick clear"
    if usual:
        return view.assumed(usual)
    return plan.thickness if name == "thickness" else None


def _joints(view: View, plan: TrimPlan | None) -> str:
    """Where it is pieced, how it turns back, how it moves."""
    if plan is None:
        return "length of the run not known"
    said = [
        f"pieced at {show(at.value, view.display)}{f' under {front}' if front else ', no front hides it'}"
        for at, front in plan.joints
    ]
    said += [f"mitred {' and '.join(plan.mitred)}"] if plan.mitred else []
    said += [_moves(view, plan)] if plan.swell is not None else []
    return "; ".join(said)


def _moves(view: View, plan: TrimPlan) -> str:
    swell, shrink = (show(one.value, view.display) for one in (plan.swell, plan.shrink) if one is not None)
    return f"swells {swell}, shrinks {shrink}: fixed along one edge, slots at the other"

"""The Making page: the build of a front, its parts by set-up, its proofs, its panel, hinges and cup."""

from __future__ import annotations

from collections.abc import Iterable

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import CupPlan, HingePlan
from frontwright.core.lengths import in_units
from frontwright.core.making.result import BuildPlan, FrontMaking, PanelPlan, Part, Proof, SetUp
from frontwright.desk.contents import (
    Action,
    Cell,
    Choice,
    Column,
    Form,
    FormLine,
    PageContents,
    Table,
    TableRow,
)
from frontwright.desk.edits.woods import choosable
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import making_board
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word, value_word
from frontwright.desk.wording.numbers import bare_text, count_of, figure_text

_ENGAGEMENT = {"dowelled": "rabbet_width", "stub tenon": "groove", "cope and stick": "stick", "mitred": "groove"}
_WORK = {"crosscut": "Crosscut, stop at", "rip": "Rip, fence at", "sheet": "Sheet, grain along"}
_PANEL_FIELDS = {
    "veneered": ("core_is", "core", "slice", "glue_loss", "show_loss", "least_left", "core_grain"),
    "sheet": ("sheet_is", "sheet"),
    "solid": ("solid",),
}


def making_page(view: View) -> PageContents:
    """The whole page of the chosen front, or of the first."""
    made = chosen_front(view)
    choosers = tuple(Choice(one, front_word(view, one)) for one in view.plan.making.fronts)
    if made is None:
        return PageContents("making", "Making", choosers, "", "", (), None, finding_lines(view, "making"), ())
    front = view.plan.fronts.fronts[made.front]
    bands: list[tuple[Table | Form, ...]] = [(_build_line(view, made),), (_parts(view, made),)]
    bands.append((_build(view, made), *_panel(view, made)))
    bands.append(_hardware(view, front))
    bands.append(_as_built(view, made))
    return PageContents(
        chapter="making",
        title="Making",
        choosers=choosers,
        chosen=made.front,
        advice=f"Set-ups are counted over all {count_of(len(view.plan.making.fronts), 'front')}",
        bands=tuple(band for band in bands if band),
        board=making_board(view, made.front),
        findings=finding_lines(view, "making"),
        actions=(
            Action(key("new", "door_builds"), "Add a door build"),
            Action(key("copy", "door_builds", made.build.id), f"Copy the build of {made.front}", made.front),
        )
        if made.build.id in view.job.door_builds
        else (Action(key("new", "door_builds"), "Add a door build"),),
    )


def chosen_front(view: View) -> FrontMaking | None:
    """The front that the chooser stands on, that is selected or holds the selected part, or the first."""
    made = view.plan.making.fronts
    if view.chosen in made:
        return made[view.chosen]
    by_subject = next((m for m in made.values() if view.selected in (m.front, *(p.id for p in m.parts))), None)
    return by_subject or next(iter(made.values()), None)


def front_word(view: View, front: str) -> str:
    """A front in the chooser: "door, hinges right, stub tenon and groove"."""
    plan = view.plan.fronts.fronts[front]
    build = view.plan.making.fronts[front].build
    hinges = f"hinges {plan.hinge_side}" if plan.hinge_side else ""
    kind = value_word("fronts", "kind", plan.front.kind)
    return ", ".join(part for part in (kind, hinges, value_word("door_builds", "kind", build.kind)) if part)


# -- the build


def _build_figures(build: BuildPlan) -> dict[str, Figure | None]:
    figures: dict[str, Figure | None] = {
        "thickness": build.thickness,
        "stile": build.stile,
        "top_rail": build.top_rail,
        "bottom_rail": build.bottom_rail,
        "mid_rail": build.mid_rail,
        "drawer_rail": build.drawer_rail,
        "clearance": build.clearance,
        "tongue": build.tongue,
        "dowel": build.dowel,
        "dowel_depth": build.dowel_depth,
        "dowel_outer": build.dowel_outer,
        "dowel_wall": build.dowel_wall,
    }
    if build.kind in _ENGAGEMENT:
        figures[_ENGAGEMENT[build.kind]] = build.engagement
    return figures


def _build_fields(kind: str) -> tuple[str, ...]:
    if kind == "slab":
        return ("thickness_is", "thickness")
    return ("thickness_is", "stile", "top_rail", "bottom_rail", _ENGAGEMENT[kind], "clearance")


def _build_line(view: View, made: FrontMaking) -> Form:
    build = made.build
    if build.id not in view.job.door_builds:
        actions = (Action(key("new", "door_builds"), "Choose this build", made.front),)
        lines = tuple(
            FormLine(field_word("door_builds", name), worked(figure, made.front, field_word("door_builds", name)))
            for name, figure in _build_figures(build).items()
            if name in _build_fields(build.kind)
        )
        return Form("build", "Build", "nobody has chosen one; all of it is assumed", lines, actions, across=True)
    figures = _build_figures(build)
    lines = tuple(_field(view, "door_builds", build.id, name, figures.get(name)) for name in _build_fields(build.kind))
    panel = _panel_thickness(view, build.panel) if build.kind != "slab" else ()
    used = sum(1 for one in view.plan.making.fronts.values() if one.build.id == build.id)
    aside = f"{build.name or build.id}, {count_of(used, 'front')}"
    return Form("build", "Build", aside, (*lines, *panel), across=True)


def _panel_thickness(view: View, panel: PanelPlan) -> tuple[FormLine, ...]:
    if panel.id not in view.job.panel_builds:
        return ()
    name = {"veneered": "core_is", "sheet": "sheet_is", "solid": "solid"}[panel.kind]
    return (_field(view, "panel_builds", panel.id, name, panel.nominal),)


def _field(view: View, table: str, row: str, name: str, figure: Figure | None = None) -> FormLine:
    return FormLine(field_word(table, name), view.entry(table, row, name, figure))


def _build(view: View, made: FrontMaking) -> Form:
    """All of the build, one line a field."""
    build = made.build
    if build.id not in view.job.door_builds:
        return Form("whole build", "Build, whole", "", ())
    figures = _build_figures(build)
    above = _build_fields(build.kind)
    shown = [name for name in figures if name not in above and _says(build.kind, name)]
    first = [_field(view, "door_builds", build.id, name) for name in ("name", "kind")]
    first.append(_chosen(view, "door_builds", build.id, "panel", "panel_builds", "no panel"))
    first.append(_chosen(view, "door_builds", build.id, "species", "species", "as the look says"))
    rest = [_field(view, "door_builds", build.id, name, figures[name]) for name in shown]
    if build.kind != "slab":
        rest += [_field(view, "door_builds", build.id, name) for name in ("mid_rails", "mid_rail_at")]
    return Form("whole build", "Build, whole", build.id, (*first, *rest))


def _says(kind: str, name: str) -> bool:
    """Whether a build of this kind has that figure."""
    if kind == "slab":
        return name == "thickness"
    if name.startswith("dowel"):
        return kind == "dowelled"
    return name != "tongue" or kind in ("cope and stick", "stub tenon")


def _chosen(view: View, table: str, row: str, name: str, home: str, empty: str) -> FormLine:
    rows = choosable(view.job, view.shop, home)
    own = getattr(getattr(view.job, table)[row], name) or ""
    cell = view.choice(
        key(table, row, name), own, named_choices(rows, empty), row, cell_name(view.job, table, row, name)
    )
    return FormLine(field_word(table, name), cell)


def _panel(view: View, made: FrontMaking) -> tuple[Form, ...]:
    panel = made.build.panel
    if made.slab:
        return ()
    figures = {
        "core": panel.core,
        "sheet": panel.nominal,
        "solid": panel.nominal,
        "slice": panel.slice,
        "glue_loss": panel.glue_loss,
        "show_loss": panel.show_loss,
        "least_left": panel.least_left,
    }
    lines: list[FormLine] = []
    if panel.id in view.job.panel_builds:
        lines += [_field(view, "panel_builds", panel.id, name) for name in ("name", "kind")]
        fields = _PANEL_FIELDS[panel.kind][1:]  # the first stands in the line of the build above
        lines += [_field(view, "panel_builds", panel.id, name, figures.get(name)) for name in fields]
    chain = [("panel, finished", panel.thickness)]
    if panel.kind == "veneered":
        chain = [("pressed", panel.pressed), ("veneer left", panel.veneer_left), *chain]
    lines += [FormLine(word, worked(figure, made.front, word, bold=word.startswith("panel"))) for word, figure in chain]
    return (Form("panel", "Panel", value_word("panel_builds", "kind", panel.kind), tuple(lines)),)


# -- parts by set-up


def _elsewhere(view: View, made: FrontMaking) -> str:
    """What parts of no set-up come from: the blank of a row with the grain running through, or the glazier."""
    row = view.plan.fronts.row_of.get(made.front)
    if row is None:
        return "Glass, cut to size"
    return f"From the blank of {row.row.id}, {bare_text(row.blank_length, view.display)} long"


def _parts(view: View, made: FrontMaking) -> Table:
    rows: list[TableRow] = []
    for set_up, parts in _by_set_up(view.plan.making.set_ups, made):
        head = f"{_WORK[set_up.work]} {bare_text(set_up.setting, view.display)}" if set_up else _elsewhere(view, made)
        aside = f"{set_up.pieces} in the job" if set_up else ""
        rows.append(TableRow("", (words(head, bold=True),), head=True, aside=aside))
        rows += [_part_row(view, part) for part in parts]
    rows += [_proof_row(view, proof) for proof in made.proofs]
    columns = (
        Column("part", axis=False, share=2),
        Column("pieces"),
        Column("length"),
        Column("width"),
        Column("thick"),
        Column("length", "rough"),
        Column("width", "rough"),
    )
    aside = "length along the grain first; type a size that was measured"
    return Table("parts", f"Parts of {made.front}, by set-up", aside, columns, tuple(rows), (), tall=True)


def _by_set_up(set_ups: Iterable[SetUp], made: FrontMaking) -> list[tuple[SetUp | None, list[Part]]]:
    """The front's parts under the setting at which each is cut to length, or out of sheet."""
    found: list[tuple[SetUp | None, list[Part]]] = []
    left = {part.id: part for part in made.parts}
    for set_up in set_ups:
        if set_up.work == "rip":
            continue
        mine = [left.pop(part.id) for part in set_up.parts if part.id in left]
        if mine:
            found.append((set_up, mine))
    return [*found, (None, list(left.values()))] if left else found


def _part_row(view: View, part: Part) -> TableRow:
    one = part.id
    return TableRow(
        one,
        (
            words(_part_word(part), one),
            words(str(part.qty), one),
            _size(view, part, "length", part.length),
            _size(view, part, "width", part.width),
            _size(view, part, "thickness", part.thickness),
            worked(part.rough_length, one, "rough length"),
            worked(part.rough_width, one, "rough width"),
        ),
    )


def _part_word(part: Part) -> str:
    return f"{part.kind}, left and right" if part.kind == "stile" and part.qty == 2 else part.kind


def _size(view: View, part: Part, what: str, figure: Figure) -> Cell:
    """A size of a part: nobody types it; what can be typed is what was measured on the thing made."""
    row = next((b.id for b in view.job.as_built.values() if (b.of, b.what) == (part.id, what)), f"{part.id} {what}")
    word = f"{what} of {part.id}, as built"
    return view.entry("as_built", row, "value", figure, subject=part.id, word=word, bold=what != "thickness")


def _proof_row(view: View, proof: Proof) -> TableRow:
    left = _side(view, proof.left)
    said = f"{left} = {_side(view, proof.right)}  {'agrees' if proof.agrees else 'does not agree'}"
    return TableRow("", (words(f"proof, {proof.kind}"), words(said)), result=True)


def _side(view: View, terms: tuple[tuple[int, Figure], ...]) -> str:
    text = ""
    for times, figure in terms:
        size = figure_text(figure, view.display)
        part = size if abs(times) == 1 else f"{abs(times)} × {size}"
        text += f"{' − ' if times < 0 else ' + ' if text else ''}{part}"
    return text


def _as_built(view: View, made: FrontMaking) -> tuple[Table, ...]:
    """The sizes measured on this front and its parts, by whom and when."""
    ids = {made.front, *(part.id for part in made.parts)}
    found = [row for row in view.job.as_built.values() if row.of in ids]
    if not found:
        return ()
    rows = tuple(
        TableRow(
            row.of,
            (words(f"{row.what} of {row.of}", row.of), *(view.entry("as_built", row.id, n) for n in ("by", "when"))),
        )
        for row in found
    )
    columns = (Column("size", axis=False, share=2), Column("measured by", axis=False), Column("on", axis=False))
    return (Table("as built", "Measured on the thing made", "", columns, rows),)


# -- hinges and cup


def _hardware(view: View, front: FrontPlan) -> tuple[Table | Form, ...]:
    hinge = view.plan.hardware.hinges.get(front.id)
    if hinge is None:
        return ()
    found: list[Table | Form] = [_hinges(view, hinge)]
    cup = view.plan.hardware.cups.get(front.id)
    if cup is not None:
        found.append(_cup(cup))
    return tuple(found)


def _hinges(view: View, hinge: HingePlan) -> Form:
    lines = [FormLine("hinges", words(count_of(hinge.count, "hinge"), hinge.front)), FormLine("why", words(hinge.why))]
    lines += [
        FormLine(f"hinge {at} from the bottom", worked(height, hinge.front, f"hinge {at} from the bottom"))
        for at, height in enumerate(hinge.heights, 1)
    ]
    if hinge.type in view.job.hinge_types:
        lines += [_field(view, "hinge_types", hinge.type or "", name, _hinge_figure(view, name)) for name in _HINGE]
    return Form("hinges", "Hinges", hinge.name or "not chosen", tuple(lines))


_HINGE = (
    *("cover", "adjust", "cup", "cup_depth", "edge_distance", "wall", "floor", "end_distance"),
    *("opens", "plate_width", "screw"),
)


def _hinge_figure(view: View, name: str) -> Figure | None:
    keys = {
        "adjust": "hinge adjust",
        "cup": "cup",
        "cup_depth": "cup depth",
        "edge_distance": "edge distance",
        "wall": "cup wall",
        "floor": "cup floor",
        "end_distance": "hinge end",
    }
    return view.assumed(keys[name]) if name in keys else None


def _cup(cup: CupPlan) -> Form:
    shown = (
        ("centre from the edge", cup.centre),
        ("far edge", cup.far_edge),
        ("joint leaves", cup.limit),
        ("floor left", cup.floor_left),
        ("floor wanted", cup.floor_least),
    )
    lines = tuple(FormLine(word, worked(figure, cup.front, word)) for word, figure in shown)
    fits = in_units(cup.far_edge.value) <= in_units(cup.limit.value)
    return Form("cup", "Cup, bored from the back", "clear of the joint" if fits else "into the joint", lines)

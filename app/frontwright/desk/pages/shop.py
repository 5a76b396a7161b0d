"""The Shop page: reusable entries, a line a field, a column an entry; the job's copies first, then the shop's own."""

from __future__ import annotations

from frontwright.core.assumed import COMMON, entered
from frontwright.core.facing.bonds import ADHESIVE_USUAL
from frontwright.core.figures import Figure
from frontwright.core.job import Shop
from frontwright.core.job.declared import Declared
from frontwright.core.veneer.pressing import PRESS_USUAL, usual_number
from frontwright.desk.contents import Action, Cell, Choice, Column, PageContents, Table, TableRow
from frontwright.desk.edits.making import moved_on
from frontwright.desk.edits.rows import fields_of, table
from frontwright.desk.edits.woods import choosable
from frontwright.desk.keys import key
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.view import SHOP, View, down, named_choices, words
from frontwright.desk.wording.fields import cell_name, field_word, table_word
from frontwright.desk.wording.numbers import count_of

TITLES = {
    "door_builds": "Door builds",
    "panel_builds": "Panel builds",
    "hinge_types": "Hinges",
    "plates": "Plates",
    "pull_types": "Pulls",
    "machines": "Saws",
    "blades": "Blades",
    "species": "Woods",
    "glues": "Glues",
    "presses": "Clamps and presses",
    "adhesives": "Adhesives",
    "learned": "Learned figures",
    "allowances": "Allowances",
    "limits": "Limits",
    "finishes": "Finishes",
    "finish_rooms": "Finish room",
    "label_sheets": "Labels",
    "supplier_sizes": "Supplier sizes",
    "keep_rules": "What is kept",
    "operations": "Hours",
    "pricings": "Prices",
}
SINGLE = {
    "allowances": "allowances",
    "limits": "limits",
    "finish_rooms": "finish room",
    "label_sheets": "labels",
    "pricings": "pricing",
}  # table -> its only row
SHOP_ONLY = "learned"
_REFERS = {"hinge": "hinge_types", "panel": "panel_builds", "species": "species", "blade": "blades"}
_ASSUMED: dict[str, dict[str, str]] = {
    "door_builds": {
        "thickness": "thickness",
        "stile": "stile",
        "top_rail": "top rail",
        "bottom_rail": "bottom rail",
        "mid_rail": "mid rail",
        "drawer_rail": "drawer rail",
        "groove": "groove",
        "stick": "stick",
        "rabbet_width": "rabbet width",
        "dowel": "dowel",
        "dowel_outer": "dowel outer",
        "dowel_wall": "dowel wall",
    },
    "panel_builds": {
        "core": "core",
        "sheet": "sheet",
        "solid": "solid panel",
        "slice": "slice",
        "glue_loss": "glue loss",
        "show_loss": "show loss",
        "least_left": "veneer warn",
    },
    "hinge_types": {
        "adjust": "hinge adjust",
        "cup": "cup",
        "cup_depth": "cup depth",
        "edge_distance": "edge distance",
        "wall": "cup wall",
        "floor": "cup floor",
        "end_distance": "hinge end",
        "two_to": "two hinges",
        "three_to": "three hinges",
        "four_to": "four hinges",
        "five_to": "five hinges",
        "adjust_height": "hinge adjust up",
        "adjust_depth": "hinge adjust out",
        "plate_long": "plate long",
        "stands_in": "stands in",
        "screws_apart": "cup screws apart",
        "screws_behind": "cup screws behind",
        "screw_hole": "cup screw hole",
        "screw_hole_deep": "cup screw hole deep",
        "wide": "wide door",
    },
    "pull_types": {
        "projection": "pull projection",
        "holes": "pull holes",
        "from_end": "pull end",
        "thread": "pull thread",
        "screw_hole": "pull hole",
    },
    "adhesives": {"film": "glue film"},
    "allowances": {
        "solid_length": "solid length",
        "solid_width": "solid width",
        "plane_rough": "plane rough",
        "panel_edge": "panel edge",
        "leaf_over_panel": "leaf over panel",
        "leaf_edge": "leaf edge",
        "strip_length": "strip length",
        "strip_width": "strip width",
        "strip_show_loss": "strip show loss",
        "skin_scribe": "skin scribe",
        "billet_over_leaf": "billet over leaf",
        "row_end": "row end",
        "rip_kerf": "kerf",
    },
    "limits": {
        "reading_error": "reading error",
        "spread_cover": "spread cover",
        "spread_inset": "spread inset",
        "lean_cover": "lean cover",
        "lean_inset": "lean inset",
        "wall_clearance": "end gap",
    },
}
_MITRED = ("top_rail", "bottom_rail", "drawer_rail")  # as wide as the stile, or the mitre is not 45°
_MACHINE = {"kerf": "kerf", "wander": "wander", "rejoint": "rejoint", "keep_back": "keep back"}


def shop_page(view: View) -> PageContents:
    """The whole page: one kind of entries, by the chooser."""
    name = next((one for one, title in TITLES.items() if title == view.chosen), "door_builds")
    behind = moved_on(view.job, view.shop)
    apart = count_of(len(behind), "entry differs", "entries differ")
    advice = _small_labels(view) if name == "label_sheets" else f"{apart} from the shop's" if behind else ""
    return PageContents(
        chapter="shop",
        title="Shop",
        choosers=tuple(Choice(title, "") for title in TITLES.values()),
        chosen=TITLES[name],
        advice=advice,
        bands=((_entries(view, name),),),
        board=None,
        findings=finding_lines(view, "shop"),
        actions=tuple(
            Action(key("take-over", one, row), f"Take over the shop's {table_word(one)} {row}", row)
            for one, row in behind
        ),
    )


def _small_labels(view: View) -> str:
    """Said where the grid leaves labels too small to read: plain paper is taken then."""
    row = view.job.label_sheets.get("labels")
    if row is None or not row.columns or not row.rows:
        return "Without labels across and labels down they go on plain paper"
    from frontwright.sheets.labels import grid_of

    small = [word for paper, word in (("a4", "A4"), ("letter", "letter")) if grid_of(row, paper).plain]  # type: ignore[arg-type]  # one of Paper
    least = "under 30 × 14 mm: fewer of them, or smaller margins"
    return f"Plain paper on {' and '.join(small)}, labels would be {least}" if small else ""


def _entries(view: View, name: str) -> Table:
    mine, theirs = _rows_of(view, name)
    fields = [field for field in fields_of(Shop.kinds()[name]) if field.name != "id"]
    head = () if name in SINGLE else (_names(view, name, mine, theirs),)
    rows = tuple(_field_row(view, name, field, mine, theirs) for field in fields)
    columns = (
        Column("", axis=False, share=2),
        *(Column(row, "this job's copy") for row in mine),
        *(Column(row, "the shop's own") for row in theirs),
    )
    learned = "what the saws of earlier jobs lost: how often it was seen, and how far it spreads"
    aside = learned if name == SHOP_ONLY else "a line a figure; the job works from its own copy"
    whole = down((*head, *rows))
    fine = name == SHOP_ONLY
    return Table(name, TITLES[name], aside, columns, whole, _actions(view, name, mine, theirs), tall=True, fine=fine)


def _rows_of(view: View, name: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    if name in SINGLE:
        return (SINGLE[name],), (SINGLE[name],)
    return () if name == SHOP_ONLY else tuple(table(view.job, name)), tuple(table(view.shop, name))


def _names(view: View, name: str, mine: tuple[str, ...], theirs: tuple[str, ...]) -> TableRow:
    cells = [words("called"), *(view.name(name, row) for row in mine), *(words(row, f"{SHOP}{row}") for row in theirs)]
    return TableRow("", tuple(cells))


def _field_row(view: View, name: str, field: Declared, mine: tuple[str, ...], theirs: tuple[str, ...]) -> TableRow:
    cells: list[Cell] = [words(field_word(name, field.name))]
    cells += [_cell(view, name, row, field) for row in mine]
    cells += [view.shop_entry(name, row, field.name, _usual(view, name, row, field.name)) for row in theirs]
    return TableRow("", tuple(cells))


def _cell(view: View, name: str, row: str, field: Declared) -> Cell:
    if (name, field.name) == ("blades", "machine"):
        return words(view.job.blades[row].machine, row)
    if field.name in _REFERS and name != "supplier_sizes":
        home = _REFERS[field.name]
        rows = choosable(view.job, view.shop, home)
        if home == "blades":
            rows = {one: blade for one, blade in view.job.blades.items() if blade.machine == row}
        text = getattr(table(view.job, name)[row], field.name) or ""
        said = cell_name(view.job, name, row, field.name)
        return view.choice(key(name, row, field.name), text, named_choices(rows, "none"), row, said)
    return view.entry(name, row, field.name, _usual(view, name, row, field.name))


def _usual(view: View, name: str, row: str, field: str) -> Figure | None:
    """The figure that stands for an entry's field until it is chosen."""
    if name == "machines" and field in _MACHINE:
        saw = view.job.machines.get(row) or view.shop.machines.get(row)
        return view.assumed(f"{saw.kind if saw else 'band saw'} {_MACHINE[field]}")
    if name == "blades" and field in ("kerf", "wander"):
        blade = view.job.blades.get(row) or view.shop.blades.get(row)
        saw = view.job.machines.get(blade.machine) or view.shop.machines.get(blade.machine) if blade else None
        return entered(view.unit, getattr(saw, field, None), f"{saw.kind if saw else 'band saw'} {field}")
    if name == "adhesives" and field in ADHESIVE_USUAL:
        return Figure(field_word(name, field), ADHESIVE_USUAL[field], "assumed", COMMON, measure="number")
    if (name == "glues" and field not in ("name", "note")) or (name == "presses" and field in PRESS_USUAL):
        return usual_number(view.unit, field)
    build = view.job.door_builds.get(row) or view.shop.door_builds.get(row)
    if name == "door_builds" and build is not None and build.kind == "mitred" and field in _MITRED:
        return entered(view.unit, build.stile, "stile", field_word(name, field))
    found = _ASSUMED.get(name, {}).get(field)
    return view.assumed(found) if found else None


def _actions(view: View, name: str, mine: tuple[str, ...], theirs: tuple[str, ...]) -> tuple[Action, ...]:
    word = table_word(name)
    behind = {row for one, row in moved_on(view.job, view.shop) if one == name}
    found: list[Action] = []
    if name not in (*SINGLE, SHOP_ONLY):
        found.append(Action(key("new", name), f"Add a {word}"))
        found.append(Action(key("shop-new", name), f"Add a {word} to the shop"))
        found += [
            Action(key("take-over", name, row), f"Use {row} in this job", row) for row in theirs if row not in mine
        ]
    found += [Action(key("take-over", name, row), f"Take over the shop's {row}", row) for row in mine if row in behind]
    one = view.selected
    if name not in SINGLE and one in mine:
        found.append(Action(key("keep-in-shop", name, one), f"Keep {one} in the shop", one))
        found.append(Action(key("copy", name, one), f"Copy {one}", one))
        found.append(Action(key("delete", name, one), f"Take out {one}", one))
    if name in SINGLE and SINGLE[name] in table(view.job, name):
        found.append(
            Action(key("keep-in-shop", name, SINGLE[name]), f"Keep these {TITLES[name].lower()} in the shop", name)
        )
    if one.startswith(SHOP) and one.removeprefix(SHOP) in theirs and name not in SINGLE:
        row = one.removeprefix(SHOP)
        found.append(Action(key("shop-delete", name, row), f"Take {row} out of the shop", one))
    return tuple(found)

"""Words for tables, fields and choices: one word for one thing, in cells, edits and sentences."""

from __future__ import annotations

from typing import Any

from frontwright.core.job import Job, Reading, Shop

TABLES: dict[str, str] = {
    "headings": "the job",
    "rooms": "room",
    "runs": "run",
    "ends": "end",
    "cabinets": "box",
    "members": "member",
    "columns": "column",
    "openings": "opening",
    "readings": "reading",
    "old_fronts": "old front",
    "obstacles": "obstacle",
    "corners": "corner",
    "insides": "thing inside",
    "looks": "look",
    "fronts": "front",
    "front_rows": "row of fronts",
    "door_builds": "door build",
    "panel_builds": "panel build",
    "hinge_types": "hinge",
    "pull_types": "pull",
    "machines": "saw",
    "blades": "blade",
    "species": "wood",
    "allowances": "allowances",
    "limits": "limits",
    "label_sheets": "labels",
    "facings": "facing",
    "pieces": "piece",
    "billets": "billet",
    "leaves": "leaf",
    "glues": "glue",
    "presses": "press",
    "pressings": "pressing",
    "pressed_panels": "panel out of the press",
    "plane_passes": "pass through the planer",
    "learned": "learned figure",
    "as_built": "size as built",
    "answers": "answer",
    "printed": "printed sheet",
}

_ANY: dict[str, str] = {
    "id": "name on the drawing",
    "name": "name",
    "note": "note",
    "by": "read by",
    "when": "read on",
    "kind": "kind",
    "place": "place",
    "run": "run",
    "room": "room",
    "column": "column",
    "cabinet": "box",
    "opening": "opening",
    "thickness": "thickness",
    "species": "wood",
    "width": "width",
    "height": "height",
    "depth": "depth",
    "value": "size",
    "panel": "panel",
    "kerf": "kerf",
}
_FIELDS: dict[str, dict[str, str]] = {
    "headings": {
        "name": "name of the job",
        "client": "client",
        "address": "address",
        "unit": "unit",
        "step": "step of front edges",
        "decimals": "shown as",
        "shop_temperature": "air of the shop, °",
        "shop_humidity": "humidity of the shop, %",
    },
    "rooms": {
        "moisture_low": "moisture, driest",
        "moisture_made": "moisture when made",
        "moisture_high": "moisture, wettest",
    },
    "runs": {
        "stands": "stands",
        "by_itself": "openings by themselves",
        "datum": "datum",
        "slope_shows": "slope shown by the level",
        "slope_over": "length of the level",
    },
    "ends": {
        "kind": "end",
        "gap_top": "gap at the top",
        "gap_middle": "gap in the middle",
        "gap_bottom": "gap at the bottom",
        "leans": "lean of the wall",
        "leans_over": "lean read over",
        "depth_seen": "depth seen",
        "skin": "skin",
        "skin_thickness": "skin thick",
    },
    "cabinets": {"kind": "box", "side": "side thick", "sound": "sound"},
    "members": {"bow": "bow", "bow_over": "bow read over"},
    "openings": {"fronts": "what it holds"},
    "old_fronts": {"cover": "cover it had"},
    "looks": {
        "scheme": "scheme",
        "cover": "cover on the frame",
        "gap": "gap between fronts",
        "meeting_gap": "meeting gap of a pair",
        "reveal": "reveal between fronts",
        "reveal_left": "left reveal",
        "reveal_right": "right reveal",
        "reveal_top": "top reveal",
        "reveal_bottom": "bottom reveal",
        "edge_left": "left edge of the row",
        "edge_right": "right edge of the row",
        "edge_top": "top edge",
        "edge_bottom": "bottom edge",
        "reveals_on": "reveals counted on",
        "equal_fronts": "fronts equally wide",
        "inset_side": "inset gap, sides",
        "inset_top": "inset gap, top",
        "inset_bottom": "inset gap, bottom",
        "inset_meeting": "meeting gap, inset pair",
        "least_cover": "least cover",
        "door_build": "build of doors",
        "drawer_build": "build of drawer fronts",
        "door_grain": "grain of doors",
        "drawer_grain": "grain of drawer fronts",
        "hinge": "hinge",
        "cut": "cut of the wood",
        "pulls": "pulls on a front",
        "pull": "pull",
    },
    "fronts": {
        "hinge_side": "hinge side",
        "grain": "grain",
        "build": "build",
        "pin_left": "left edge held at",
        "pin_right": "right edge held at",
        "pin_bottom": "bottom edge held at",
        "pin_top": "top edge held at",
    },
    "front_rows": {
        "direction": "runs along a",
        "fronts": "fronts",
        "grain_through": "grain runs through",
        "share_edges": "outer edges shared",
        "blank_end": "blank over each end",
        "trim": "trim at each cut",
    },
    "door_builds": {
        "kind": "joint",
        "thickness": "thickness",
        "thickness_is": "milled stock",
        "stile": "stile",
        "top_rail": "top rail",
        "bottom_rail": "bottom rail",
        "mid_rail": "mid rail",
        "mid_rails": "mid rails",
        "mid_rail_at": "mid rail centre at",
        "drawer_rail": "rails of drawer fronts",
        "groove": "groove deep",
        "stick": "stick deep",
        "rabbet_width": "rabbet wide",
        "clearance": "clearance",
        "tongue": "tongue",
        "dowel": "dowel",
        "dowel_depth": "dowel deep",
        "dowel_outer": "dowel from outer edge",
        "dowel_wall": "wood beside a dowel",
    },
    "panel_builds": {
        "core": "core thick",
        "core_is": "core as measured",
        "sheet": "sheet thick",
        "sheet_is": "sheet as measured",
        "solid": "solid panel thick",
        "slice": "leaf as sawn",
        "glue_loss": "loss, glue face",
        "show_loss": "loss, show face",
        "least_left": "least veneer left",
        "core_grain": "grain of the core",
    },
    "hinge_types": {
        "cover": "cover given",
        "adjust": "adjustment, each way",
        "constant": "cover without plate",
        "plate": "plate",
        "cup": "cup across",
        "cup_depth": "cup deep",
        "edge_distance": "cup from the edge",
        "wall": "wood beside the cup",
        "floor": "wood under the cup",
        "end_distance": "outer hinge from the end",
        "two_to": "two hinges to a height of",
        "three_to": "three to",
        "four_to": "four to",
        "five_to": "five to",
        "two_mass": "two hinges to a mass of",
        "three_mass": "three to",
        "four_mass": "four to",
        "five_mass": "five to",
        "opens": "opens to, degrees",
        "plate_width": "plate wide",
        "screw": "screws deep",
    },
    "pull_types": {
        "projection": "stands out by",
        "holes": "hole to hole",
        "across": "wide, across a door",
        "from_edge": "from the free edge",
        "from_end": "from the near end",
        "from_top": "drawers, from the top",
    },
    "obstacles": {
        "kind": "what it is",
        "side": "stands",
        "away": "distance",
        "out": "stands out by",
        "handle": "its handle, further out",
        "low": "from the height",
        "high": "to the height",
        "begins": "from the place",
        "ends": "to the place",
        "wanted": "gap it must keep",
        "moves": "can be pushed aside",
    },
    "corners": {
        "left": "left leg",
        "right": "right leg",
        "angle": "angle, degrees",
        "runs_on": "leg that runs on",
        "hidden": "hidden of it",
    },
    "insides": {
        "kind": "what is inside",
        "length": "length",
        "runner": "runner, each side",
        "at": "lower edge at",
    },
    "machines": {
        "blade": "blade mounted",
        "out_of_square": "blade out of square, degrees",
        "wander": "wander",
        "rejoint": "re-joint loss",
        "keep_back": "keep-back",
        "blade_height": "blade height",
        "overlap": "overlap of two passes",
        "most_height": "most height",
        "chosen": "planned with",
    },
    "blades": {
        "machine": "of the saw",
        "out_of_square": "out of square, degrees",
    },
    "species": {
        "flat": "movement, flat sawn",
        "quarter": "movement, quarter sawn",
        "density": "density",
        "source": "source",
    },
    "allowances": {
        "solid_length": "solid parts, longer by",
        "solid_width": "solid parts, wider by",
        "plane_rough": "planing from rough",
        "panel_edge": "shop-made panel, each edge",
        "leaf_over_panel": "leaf longer than the panel by",
        "leaf_edge": "edge joint of a leaf",
        "strip_length": "strips, longer by",
        "strip_width": "strips, wider by",
        "strip_leaf": "leaf for strips",
        "strip_show_loss": "show face loss of strips",
        "skin_scribe": "scribe of a skin",
        "billet_over_leaf": "billet longer than the leaf by",
        "billet_step": "billet lengths in steps of",
        "row_end": "blank of a row, over each end",
        "rip_kerf": "kerf when ripping",
        "spare_rest": "rest counts as a leaf from",
    },
    "label_sheets": {
        "columns": "labels across",
        "rows": "labels down",
        "left": "left margin",
        "top": "top margin",
        "right": "right margin, else as the left",
        "bottom": "bottom margin, else as the top",
        "gap_across": "gap between, across",
        "gap_down": "gap between, down",
    },
    "limits": {
        "reading_error": "reading error of the tape",
        "spread_cover": "spread under a cover",
        "spread_inset": "spread round an inset",
        "lean_cover": "lean under a cover",
        "lean_inset": "lean round an inset",
        "wall_clearance": "clearance to a wall",
    },
    "facings": {
        "faces": "frame faces covered",
        "thickness": "facing thick",
        "inside_edges": "inside edges covered",
        "inside_thickness": "strips inside thick",
    },
    "pieces": {
        "form": "form",
        "batch": "batch",
        "length": "length",
        "count": "pieces",
        "shelf": "shelf",
    },
    "readings": {"over_paint": "over paint", "status": "status", "struck": "struck out"},
    "as_built": {"of": "part", "what": "size of", "by": "measured by", "when": "measured on"},
    "answers": {"answer": "answer"},
    "billets": {
        "id": "letter",
        "piece": "cut from",
        "machine": "sawn with",
        "slice": "leaf as sawn",
        "slice_now": "leaves to come",
        "keep_now": "kept back of it",
        "ring_angle": "rings to the face, degrees",
        "moisture_shell": "moisture, shell %",
        "moisture_core": "moisture, core %",
        "moisture_on": "moisture read on",
        "figure": "figure",
        "match": "match",
        "counted": "losses counted",
    },
    "leaves": {
        **{f"thick_{at}": f"thickness at point {at}" for at in range(1, 7)},
        "unjointed": "billet left, not jointed yet",
        "left": "billet left",
        "good_length": "good length",
        "state": "state",
        "machine": "sawn with",
        "front": "front",
        "side": "side",
        "seat": "seat from the left",
    },
    "pressed_panels": {
        **{f"corner_{at}": f"corner {at}" for at in range(1, 5)},
        "flatness": "out of flat",
    },
    "plane_passes": {"face": "face", "thickness": "thickness after the pass"},
    "glues": {
        "open_minutes": "open time, minutes",
        "clamp_minutes": "time to the last clamp, minutes",
        "used_share": "share of it to be used",
        "spread_rate": "area spread a minute",
        "weight": "glue, g a m²",
        "layup_minutes": "laying up a panel, minutes",
        "clamp_seconds": "each clamp, seconds",
        "pressure_floor": "least pressure",
        "pressure_goal": "full pressure",
        "press_minutes": "in the press, minutes",
    },
    "presses": {
        "clamps": "clamps",
        "force": "force of a clamp",
        "throat": "throat",
        "bed_length": "bed, length",
        "bed_width": "bed, width",
        "caul": "caul high",
        "platen": "platen thick",
        "opening": "clamps open to",
        "bag_pressure": "pressure of the bag",
        "close_minutes": "closing the bag, minutes",
    },
    "pressings": {
        "panels": "panels",
        "glue": "glue",
        "press": "clamps or press",
        "helper": "with a helper",
        "clamps": "clamps used",
        "both_faces": "both faces at once",
        "temperature": "temperature, °",
        "started": "bottle opened at",
        "closed": "last clamp tight at",
        "lie": "lay-up",
    },
    "learned": {
        "what": "figure",
        "machine": "saw",
        "value": "learned",
        "count": "jobs counted",
        "spread": "spread",
        "last_job": "last job",
    },
}

_VALUES: dict[str, str] = {
    "book": "book match",
    "slip": "slip match",
    "random": "random match",
    "in": "inches",
    "mm": "millimetres",
    "wall": "against wall",
    "corner": "in a corner",
    "appliance": "at an appliance",
    "open": "open to view",
    "none": "no skin",
    "sawn": "sawn skin",
    "bought": "bought skin",
    "base": "on the floor",
    "flat": "flat sawn",
    "quarter": "quarter sawn",
    "bare frame": "the bare frame",
    "skins": "the skins",
    "stub tenon": "stub tenon and groove",
    "dowelled": "dowelled butt, rear rabbet",
    "slab": "solid slab",
    "veneered": "veneered on a core",
    "sheet": "bought veneered sheet",
    "solid": "solid wood",
    "vertical": "upright",
    "horizontal": "along the run",
}
_VALUES_OF: dict[tuple[str, str], dict[str, str]] = {
    ("leaves", "side"): {"show": "show face", "back": "back", "strips": "strips", "skin": "skin", "spare": "spare"},
    ("plane_passes", "face"): {"show": "show face", "back": "back"},
    ("panel_builds", "core_grain"): {
        "across": "across the leaves",
        "along": "along the leaves",
        "none": "none, fibre board",
    },
    ("presses", "kind"): {"clamps": "clamps", "vacuum bag": "vacuum bag"},
    ("pressings", "lie"): {"stacked": "one on the other", "side by side": "in a row"},
    ("facings", "inside_edges"): {"none": "no", "sides": "at the sides", "all round": "all round"},
    ("obstacles", "kind"): {"wall": "wall", "appliance": "appliance", "cabinet": "cabinet or island"},
    ("obstacles", "side"): {"left": "at the left end", "right": "at the right end", "before": "before the run"},
    ("corners", "runs_on"): {"left": "the left one", "right": "the right one", "": "neither"},
    ("runs", "stands"): {"wall": "on the wall", "base": "on the floor"},
    ("fronts", "kind"): {"open": "open", "appliance": "appliance", "glass": "glass door", "fixed": "fixed front"},
    ("pieces", "form"): {"sheet": "sheet"},
    ("openings", "fronts"): {
        "door": "door",
        "pair": "pair of doors",
        "drawer": "drawer",
        "fixed": "fixed front",
        "appliance": "appliance",
        "glass": "glass door",
        "open": "open",
    },
}
_NAMED = (
    "door_builds",
    "panel_builds",
    "hinge_types",
    "pull_types",
    "machines",
    "blades",
    "species",
    "glues",
    "presses",
)
_WHAT = {
    "width": {"": "width", "top": "width, top", "middle": "width, middle", "bottom": "width, bottom"},
    "height": {"": "height", "left": "height, left", "middle": "height, middle", "right": "height, right"},
}


def table_word(table: str) -> str:
    return TABLES.get(table, table.replace("_", " "))


def field_word(table: str, field: str) -> str:
    """The word for a field: its own in this table, else the one it has everywhere."""
    return _FIELDS.get(table, {}).get(field) or _ANY.get(field) or field.replace("_", " ")


def value_word(table: str, field: str, value: str) -> str:
    """The word for a choice; an empty one is what is inherited or not said."""
    if not value:
        return "as above" if table == "looks" else "by the plan" if table == "leaves" else "not said"
    return _VALUES_OF.get((table, field), {}).get(value) or _VALUES.get(value, value)


def reading_word(what: str, at: str) -> str:
    """What was read, and where: "width, top", "diagonal /", "overall, at mid height"."""
    if what in _WHAT:
        return _WHAT[what].get(at, f"{what}, {at}")
    if what == "diagonal":
        return f"diagonal {at}"
    return f"{what}, at {at} height" if at else what


def reading_name(reading: Reading) -> str:
    return f"{reading_word(reading.what, reading.at)}, of {reading.of}"


def subject_word(whole: Job | Shop, table: str, row: str) -> str:
    """The row as it is called in a sentence: "build kitchen", "F7R", "the look of run K"."""
    if table in ("headings", "allowances", "limits"):
        return ""
    if table == "looks":
        level, _, subject = row.partition(":")
        return f"{level} {subject}"
    found: Any = getattr(whole, table).get(row)
    if isinstance(found, Reading):
        return reading_name(found)
    if table in _NAMED and found is not None:
        return found.name or row
    return row


def cell_name(whole: Job | Shop, table: str, row: str, field: str) -> str:
    """The spoken name of a cell, which is also the name of its edit: "hinge side of F7R"."""
    subject = subject_word(whole, table, row)
    word = field_word(table, field)
    return f"{word} of {subject}" if subject else word

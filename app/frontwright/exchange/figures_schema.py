"""The schema of the figures (`frontwright-figures`): what every section holds. Further keys may be added, none goes."""

from __future__ import annotations

type Schema = dict[str, object]

_KINDS: dict[str, Schema] = {
    "text": {"type": "string"},
    "text?": {"type": ["string", "null"]},
    "count": {"type": "integer"},
    "count?": {"type": ["integer", "null"]},
    "yes": {"type": "boolean"},
    "length": {"type": "string", "pattern": r"^-?\d+(\.\d+|/\d+)?$"},
    "length?": {"type": ["string", "null"], "pattern": r"^-?\d+(\.\d+|/\d+)?$"},
    "number": {"type": "string", "pattern": r"^-?\d+(\.\d+)?$"},
    "number?": {"type": ["string", "null"], "pattern": r"^-?\d+(\.\d+)?$"},
    "texts": {"type": "array", "items": {"type": "string"}},
    "texts?": {"type": ["array", "null"], "items": {"type": "string"}},
    "any": {},
}


def _row(fields: str, **inner: Schema) -> Schema:
    """An object of these fields, each as "name:kind"; a name alone is a length or null."""
    named = [field.partition(":") for field in fields.split()]
    found: dict[str, Schema] = {name: _KINDS[kind or "length?"] for name, _, kind in named}
    return {"type": "object", "required": [*found, *inner], "properties": found | inner}


def _rows(fields: str, **inner: Schema) -> Schema:
    return {"type": "array", "items": _row(fields, **inner)}


_LAYOUT_PART = _rows("part:text number:count along across length width turned:yes pinned:yes cut:yes")
_REMAINDER = _rows("letter:text along across length width form:text keep:yes reason:text until:text value:number?")
_CONTENT = _row("all:number parts:number kerf:number trims:number remainders:number waste:number")
_OTHER = "other_content:number? other_measure:text?"
_BUY = "size:text? supplier:text length width thickness count:count cost:number? days:count?"
_ANSWER: Schema = {"enum": ["yes", "yes, if", "no"]}
_GROUP = _rows(
    "group:text form:text species:text thickness need:count have:count",
    answer=_ANSWER,
    uses=_rows("piece:text count:count parts:texts"),
    refused=_rows("piece:text", why=_rows("kind:text by")),
    conditions=_rows("kind:text of:text by still:count"),
    short={"type": "object", "additionalProperties": {"type": "integer"}},
    buy=_rows(f"{_BUY} form:text content:number parts:texts"),
)
_COST_LINES = _rows("what:text of:text cost:number")
_BILL = _row(
    "finish_area:number",
    pull=_rows("shelf:text piece:text form:text species:text batch:text count:count for:texts"),
    buy=_rows(f"{_BUY} what:text name:text amount:number measure:text {_OTHER}"),
    hours=_rows("operation:text name:text count:count minutes:number spent:number?"),
    costs=_row(
        "currency:text material:number waste:number waste_is:text hardware:number handling:number hours:number "
        "rate:number reserve:number total:number",
        lines=_COST_LINES,
    ),
    keep=_rows("layout:text letter:text"),
    quote=_row(
        "currency:text total:number",
        lines=_rows("what:text cost:number"),
        conditions=_rows("kind:text of:text value:number?"),
    ),
)
_SECTIONS: dict[str, Schema] = {
    "members": _rows("id:text kind:text left right centre bottom top"),
    "openings": _rows(
        "id:text width_least width_middle width_most height_least height_most lean square_diagonal "
        "second_diagonal_predicted second_diagonal_residual"
    ),
    "closures": _rows("run:text at:text? sum overall error limit readings:count"),
    "sums": _rows("of:texts terms:texts total equals"),
    "fronts": _rows(
        "id:text kind:text opening:text left right bottom top width height hinge_side:text? least_cover mass:number?",
        overlay=_row("left right top bottom"),
    ),
    "sights": _rows("front:text width height"),
    "parts": _rows("id:text front:text kind:text qty:count length width thickness rough_length rough_width"),
    "panels": _rows(
        "front:text along_grain across_grain thickness grain:text core_along core_across leaves_across:count? "
        "leaf_length joints:texts? outer_visible"
    ),
    "rows": _rows("fronts:texts blank_length blank_width gap kerf trim movement"),
    "chains": _rows("of:text slice glued pressed veneer_left panel rabbet_depth rabbet_width tongue lip"),
    "dowels": _rows("front:text rail:text from_outer_edge:texts"),
    "cups": _rows("front:text far_edge limit centre floor_left"),
    "leaves": _rows("for:text length count:count spares:count"),
    "billets": _rows("id:text machine:text length width thickness slice loss leaves:count rest"),
    "strips": _rows("id:text on:text length width thickness rough_length rough_width order:count"),
    "surfaces": _rows(
        "id:text run:text where:text finish:text? state:text? glued:yes meets:text may_be_glued:yes may_hold_lead:yes"
    ),
    "drawers": _rows("opening:text packing box_front screw_least screw_most screw"),
    "old_holes": _rows("front:text opening:text heights:texts plugs:count nearest needed"),
    "hazards": _rows("hazard:text run:text at:texts"),
    "not_asked": _KINDS["texts"],
    "facing": _rows(
        "run:text length",
        pieces=_rows(
            "number:count id:text kind:text on:text order:count made_of:text covers:texts length width thickness "
            "rough_length rough_width"
        ),
    ),
    "covered_openings": _rows(
        "opening:text squared:yes widths:texts heights:texts", returns=_rows("side:text strip packing:texts")
    ),
    "trims": _rows(
        "id:text run:text kind:text mitred:texts length width thickness altogether swell shrink",
        joints=_rows("at under:text?"),
    ),
    "packings": _rows("of:text what:text length width ends:texts"),
    "bonds": _rows(
        "run:text where:text surface:text adhesive:text? film millilitres:number strips:count per_mix:count mixes:count"
    ),
    "pins": _rows("run:text pieces:texts least most pin count:count"),
    "hinges": _rows(
        "front:text count:count heights:texts type:text? covers:texts moved:texts forward",
        plates=_rows("plate:text? height gives adjusted lacking:yes"),
    ),
    "pulls": _rows(
        "front:text type:text? low high screws:count screw_least screw_most screw chosen:yes",
        spans={"type": "array", "items": _KINDS["texts"]},
    ),
    "borings": _rows(
        "front:text hinge_edge:text? pull_chosen:yes",
        holes=_rows("kind:text from_hinge_edge from_left from_bottom diameter depth"),
    ),
    "bumpers": _rows("front:text count:count thick"),
    "wall_weights": _rows("run:text new:number old:number? added:number"),
    "swings": _rows(
        "front:text side:text opens:number? need:number stopped_by:text? by:text with_pull:yes together:number?"
    ),
    "turning_rooms": _rows("front:text side:text have need"),
    "corner_rooms": _rows("corner:text front:text others:texts what:text have need"),
    "drawer_rooms": _rows("opening:text box:text way:text have need"),
    "end_gaps": _rows("run:text side:text against:text have need"),
    "stock": _rows(
        f"form:text species:text thickness width length qty:count content:number? finished:number? measure:text "
        f"at_hand:number lacks:number {_OTHER}"
    ),
    "layouts": _rows(
        "id:text piece:text? size:text? group:text length width thickness kerf trims:texts valid:yes cuts_done:count "
        "measure:text",
        parts=_LAYOUT_PART,
        remainders=_REMAINDER,
        content=_CONTENT,
        faults=_rows("kind:text part:text other:text by"),
    ),
    "strip_leaves": _rows("for:text widths:texts", rows={"type": "array", "items": _KINDS["texts"]}),
    "enough": _row("question:text", answer=_ANSWER, groups=_GROUP),
    "bill": _BILL,
    "finish": _rows(
        "id:text name:text fronts_and_strips:texts area:number coats:count volume:number waiting:number minutes:number "
        "last_day:count hang_day:count bumper_day:count",
        steps=_rows("what:text name:text dry:number volume:number"),
        loads=_rows("number:count", places={"type": "array", "items": _KINDS["texts"]}),
        visits=_rows("load:count step:count day:count begins:number takes:number late:yes"),
    ),
    "fronts_made": _rows("front:text diagonal diagonals_allowed diagonals_differ wind bow hinge_adjust"),
    "work": _rows("number:count stage:text what:text pieces:count settings:count of:texts rest:text"),
    "lines": _rows("run:text number:count fronts:texts at left right held:text least_cover"),
    "hanging": _rows("number:count run:text front:text how:text line:count spacer beside:text plates:texts adjusted"),
    "packing": _rows("group:text what:text count:text why:text"),
    "story_sticks": _rows("run:text way:text lanes:texts length", marks=_rows("at what:text lane:count")),
    "checks": _rows(
        "code:text where:texts value:text? limit:any answer:text? ways_out:any",
        level={"enum": ["ok", "note", "warn", "stop"]},
        state={"enum": ["holds", "open", "cleared", "compared"]},
    ),
}


def figures_schema() -> Schema:
    """The schema of the whole, as JSON Schema of the draft of 2020-12."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "frontwright-figures",
        "description": "Everything derived of a job. Lengths are exact strings in the job's unit: a decimal, or a/b "
        "where the decimal would not end; null does not apply. Contents are board feet and square feet, or m3 and m2; "
        "money is in whole units of the shop's currency.",
        "type": "object",
        "required": ["format", "version", "unit", *_SECTIONS],
        "properties": {
            "format": {"const": "frontwright-figures"},
            "version": {"const": 1},
            "unit": {"enum": ["in", "mm"]},
            **_SECTIONS,
        },
    }

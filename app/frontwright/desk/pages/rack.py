"""The Rack page: every piece of the shop, searched as a person asks; where it came from; is there enough."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from frontwright.core.assumed import wettest
from frontwright.core.job import Amount, Piece, Reservation
from frontwright.core.job.declared import Declared
from frontwright.core.stock.ancestry import Descent, descent
from frontwright.core.stock.rack import GONE, Rack, in_unit, state_of
from frontwright.core.stock.search import Search
from frontwright.desk.contents import (
    Action,
    Board,
    Cell,
    Column,
    FindingLine,
    Form,
    FormLine,
    PageContents,
    Table,
    TableRow,
)
from frontwright.desk.edits.rows import fields_of
from frontwright.desk.keys import key
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.rack_counting import counting_table, lots_table
from frontwright.desk.pages.rack_enough import answer_of, enough_bands, purchase_finding
from frontwright.desk.pages.view import RACK, View, words
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of
from frontwright.store import StoreError

FORMS = ("board", "billet", "leaf", "strip", "panel", "sheet", "core", "solid panel")
MOST_ROWS = 150  # of a table; who has more asks for less
IN_TABLE = ("form", "batch", "length", "width", "thickness", "moisture", "shelf")
IN_FORM = (
    "species", "count", "moisture_on", "cut", "figure", "grade", "planed", "end_trim", "edge_trim", "price", "came",
    "looked", "from_job", "from_piece", "photo", "note",
)  # fmt: skip
PIECE_FIELDS: tuple[Declared, ...] = tuple(one for one in fields_of(Piece) if one.name != "id")


def rack_page(view: View) -> PageContents:
    """The whole page."""
    problem = ""
    try:
        rack = view.rack.rack if view.rack is not None else Rack()
    except StoreError as error:
        rack, problem, view = Rack(), str(error), replace(view, rack=None)
    search, pieces = _found(view, rack)
    chosen = _chosen(view, rack, pieces)
    enough = answer_of(view, rack)
    bands: list[tuple[Table | Form, ...]] = [(_pieces(view, rack, pieces, search),)]
    if view.wish.counting:
        bands.append((counting_table(view, rack),))
    bands += enough_bands(view, rack, enough)
    if chosen is not None:
        bands.append((_piece(view, rack, chosen), _defects(view, rack, chosen)))
    bands.append((lots_table(view, rack),))
    return PageContents(
        chapter="rack",
        title="Rack",
        choosers=(),
        chosen="",
        advice=_advice(view),
        bands=tuple(bands),
        board=_board(view, rack, chosen),
        findings=(*_problems(view, problem), *purchase_finding(view, rack, enough), *finding_lines(view, "rack")),
        actions=_page_actions(view),
        search=view.wish.search,
        start="" if pieces else key("rack-come", FORMS[0]),
        found=_how_many(view, rack, pieces),
    )


# -- which pieces


def whole(view: View, rack: Rack) -> Mapping[str, Piece]:
    """Every piece: those of the rack in the job's unit, as the job has them where it has them, and those of the job
    that the rack never had."""

    def made() -> Mapping[str, Piece]:
        there = view.rack.pieces_in(view.unit) if view.rack is not None else {}
        return {**there, **dict(view.job.pieces.items())}

    return view.rack.remembered.get("whole", (rack, view.job), made) if view.rack is not None else made()


def _found(view: View, rack: Rack) -> tuple[Search | None, tuple[Piece, ...]]:
    every = whole(view, rack)
    asked = view.wish.search.strip()
    if not asked or view.rack is None or not view.rack.is_there:
        needle = asked.casefold()
        return None, tuple(
            piece
            for piece in every.values()
            if (piece.state not in GONE or needle == piece.id.casefold())
            and (not needle or all(word in _words_of(piece) for word in needle.split()))
        )
    search, pieces = view.rack.search(asked, view.display, view.selected if view.selected in every else "")
    return search, tuple(every[piece.id] for piece in pieces)


def _words_of(piece: Piece) -> str:
    return " ".join((piece.id, piece.form, piece.species, piece.batch, piece.shelf, piece.note)).casefold()


def _chosen(view: View, rack: Rack, pieces: tuple[Piece, ...]) -> Piece | None:
    every = whole(view, rack)
    return every.get(view.selected) or next(iter(pieces), None)


def _how_many(view: View, rack: Rack, pieces: tuple[Piece, ...]) -> str:
    every = sum(piece.state not in GONE for piece in whole(view, rack).values())
    return f"{len(pieces)} of {count_of(every, 'piece')}" if view.wish.search.strip() else count_of(every, "piece")


def _advice(view: View) -> str:
    if view.rack is None or not view.rack.is_there:
        return "No shop file is open: these are the pieces of this job"
    if not whole(view, view.rack.rack):
        return "Nothing is on the rack yet"
    old = view.rack.not_looked_at()
    if not old:
        return "Every piece was looked at within a year"
    shelves = {piece.shelf for piece in old}
    return f"Not looked at for a year:  {count_of(len(old), 'piece')}, {count_of(len(shelves), 'shelf', 'shelves')}"


def _page_actions(view: View) -> tuple[Action, ...]:
    word = "Close the count" if view.wish.counting else "Counting day"
    there = view.rack is not None and view.rack.is_there
    paper = (Action(key("print-counting"), "Print the counting list"),) if view.wish.counting and there else ()
    return (Action(key("counting"), word), *paper)


# -- the table of pieces


def cell_of(view: View, piece: Piece, name: str) -> Cell:
    """A field of a piece, where it is the job's in the job, else on the rack."""
    if piece.id in view.job.pieces:
        return view.entry("pieces", piece.id, name)
    return view.rack_entry("pieces", piece, name)


def _pieces(view: View, rack: Rack, pieces: tuple[Piece, ...], search: Search | None) -> Table:
    columns = (
        Column("piece", axis=False),
        Column("form", axis=False),
        Column("batch", axis=False),
        Column("length"),
        Column("width"),
        Column("thick"),
        Column("%", axis=False),
        Column("shelf", axis=False),
        Column("state", axis=False, share=2),
    )
    rows = tuple(_piece_row(view, rack, piece) for piece in pieces[:MOST_ROWS])
    more = f"the first {MOST_ROWS} of {len(pieces)}" if len(pieces) > MOST_ROWS else "length along the grain first"
    return Table("pieces", "Pieces", _understood(search) or more, columns, rows, _piece_actions(view, rack))


def _understood(search: Search | None) -> str:
    """How the question was understood, word for word; what was not is named."""
    if search is None:
        return ""
    if search.problem:
        return search.problem
    said = ", ".join(search.said)
    unknown = f"not understood: {', '.join(search.unknown)}" if search.unknown else ""
    return "; ".join(part for part in (said, unknown) if part)


def _piece_row(view: View, rack: Rack, piece: Piece) -> TableRow:
    own = piece.id in view.job.pieces
    name = (
        view.name("pieces", piece.id) if own else replace(view.rack_entry("pieces", piece, "id"), bold=True, quiet=True)
    )
    cells = [name, *(cell_of(view, piece, field) for field in IN_TABLE)]
    moisture = 1 + IN_TABLE.index("moisture")  # words on the shelf are read off right after it
    cells[moisture] = replace(cells[moisture], then=cells[1 + IN_TABLE.index("shelf")].key)
    if wet := _is_wet(view, piece):
        cells[moisture] = replace(cells[moisture], level="warn", hint=wet)
    cells.append(words(_state(view, rack, piece) + (", wet" if wet else ""), piece.id, bold=_held(view, rack, piece)))
    return TableRow(piece.id, tuple(cells))


def _is_wet(view: View, piece: Piece) -> str:
    """Why a piece cannot be used yet; empty where it is dry or nobody measured."""
    limits = view.job.limits.get("limits")
    most = wettest(limits.moisture_most if limits is not None else None)
    value = piece.moisture.value if isinstance(piece.moisture, Amount) else None
    return "wet: more than joinery wood may have" if value is not None and value > most else ""


def _reservation(rack: Rack, piece: Piece) -> Reservation | None:
    return rack.reservations.get(piece.id)


def _held(view: View, rack: Rack, piece: Piece) -> bool:
    held = _reservation(rack, piece)
    return held is not None and (view.rack is None or held.job != view.rack.mark)


def _state(view: View, rack: Rack, piece: Piece) -> str:
    """ "reserved to 2026-12-20", "in work", "free"; of another job's with its name."""
    if piece.id not in rack.pieces:
        return "of this job" if piece.state == "free" else piece.state
    held, state = _reservation(rack, piece), state_of(rack, rack.pieces[piece.id])
    if held is None:
        return state
    who = "this job" if view.rack is not None and held.job == view.rack.mark else held.name or "another job"
    until = f" to {held.until}" if held.until else ""
    return f"{state}{until}, {who}"


def _piece_actions(view: View, rack: Rack) -> tuple[Action, ...]:
    there = view.rack is not None and view.rack.is_there
    chosen = whole(view, rack).get(view.selected)
    found = list(_own_actions(view, rack, chosen)) if chosen is not None else []
    verb = "rack-come" if there else "add-piece"
    found += [Action(key(verb, form), f"A new {form}") for form in FORMS]
    return tuple(found)


def _own_actions(view: View, rack: Rack, piece: Piece) -> list[Action]:
    """What can be done with the selected piece, as it stands."""
    one = piece.id
    if one not in rack.pieces:
        found = [
            Action(key("copy-piece", one), f"Another like {one}", one),
            Action(key("delete", "pieces", one), f"Take out {one}", one),
        ]
        if view.rack is not None and view.rack.is_there:
            found.insert(0, Action(key("rack-take-in"), "Take the job's pieces into the rack", one))
        return found
    held, state = _reservation(rack, piece), rack.pieces[one].state
    mine = held is not None and view.rack is not None and held.job == view.rack.mark
    found = []
    if state == "free" and held is None:
        found.append(Action(key("rack-reserve", one), f"Reserve {one}", one))
        found.append(Action(key("rack-like", one), f"Another like {one}", one))  # a rack is entered stack by stack
    if mine and state == "free":
        found += [
            Action(key("rack-take", one), f"Take {one} in work", one),
            Action(key("rack-release", one), f"Release {one}", one),
        ]
    if held is not None and not mine and state == "free":
        why = f"needed for {view.job.heading.name or 'another job'}"
        found.append(Action(key("rack-release-for", one, why), f"Release {one} from {held.name or 'its job'}", one))
    if state not in GONE and (held is None or mine):
        found += [
            Action(key("rack-use-up", one), f"{one} is used up", one),
            Action(key("rack-burn", one), f"Burn {one}", one),
        ]
    if state != "free" or held is not None:
        found.append(Action(key("rack-like", one), f"Another like {one}", one))
    if state not in GONE:
        found.append(Action(key("rack-look", one), f"{one} was looked at", one))
    if view.rack is not None and view.rack.undo_name:
        found.append(Action(key("rack-take-back"), f"Take back: {view.rack.undo_name}", one))
    return found


# -- one piece


def _piece(view: View, rack: Rack, piece: Piece) -> Form:
    """Everything else that is known of a piece, in the order in which one looks at it."""
    lines = [
        FormLine(field_word("pieces", name), cell_of(view, piece, name)) for name in IN_FORM if name != "from_piece"
    ]
    held = _reservation(rack, piece)
    if held is not None and view.rack is not None and held.job == view.rack.mark:
        for name, word in (("until", "reserved until"), ("why", "reserved because")):
            place = key(f"{RACK}reservations", piece.id, name)
            lines.append(
                FormLine(word, Cell(place, "text", getattr(held, name), None, (), piece.id, f"{word}, {piece.id}"))
            )
    aside = f"cut from {piece.from_piece}" if piece.from_piece else ""
    return Form("piece", f"Piece {piece.id}", aside, tuple(lines))


def _defects(view: View, rack: Rack, piece: Piece) -> Table:
    """The bad places of a piece."""
    own = piece.id in view.job.pieces
    table = view.job.defects if own else rack.defects
    defects = [one for one in table.values() if one.piece == piece.id]
    names = ("what", "along", "across", "length", "width")
    columns = (
        Column("what", axis=False),
        Column("from the left"),
        Column("from below"),
        Column("long"),
        Column("wide"),
    )
    rows = tuple(
        TableRow(
            piece.id,
            tuple(
                view.entry("defects", one.id, name, subject=piece.id)
                if own
                else view.rack_entry("defects", in_unit(one, view.unit), name)
                for name in names
            ),
        )
        for one in defects
    )
    add = key("add-defect", piece.id) if own else key("rack-defect", piece.id, view.unit)
    actions = [Action(add, "A bad place", piece.id)] if own or piece.id in rack.pieces else []
    for one in defects[-1:]:
        out = key("delete", "defects", one.id) if own else key("rack-no-defect", piece.id, one.id)
        actions.append(Action(out, "Take the last one out", piece.id))
    aside = "from its left end and lower edge, along the grain first"
    return Table("defects", f"Bad places of {piece.id}", aside, columns, rows, tuple(actions))


# -- the drawing


def _board(view: View, rack: Rack, piece: Piece | None) -> Board | None:
    if piece is None:
        return None
    from frontwright.core.drawing.ancestry import ancestry

    found = descent(rack, piece.id) or Descent(piece, (), (), ())
    kin = (*found.came_of, piece, *found.born)
    states = {one.id: state_of(rack, rack.pieces[one.id]) for one in kin if one.id in rack.pieces}
    every = view.job.defects.values() if piece.id in view.job.pieces else rack.defects.values()
    bad = [in_unit(one, view.unit) for one in every if one.piece == piece.id]
    return Board((ancestry(view.plan, replace(found, piece=piece), states, bad),))


# -- what there is to see to


def _problems(view: View, problem: str) -> list[FindingLine]:
    """The rack cannot be read; job and rack disagree; older pieces are not in it; reservations are over."""
    desk = view.rack
    problem = problem or (desk.problem if desk is not None else "")
    if problem:
        return [FindingLine("rack problem", "warn", "", problem, "", "", title="rack")]
    if desk is None or not desk.is_there:
        return []
    reason, ways = "Take over what the rack says, or put it right there.", _take_over(view)
    found = [
        FindingLine(f"rack differs {n}", "warn", "", said, "", "", reason, ways, title="rack")
        for n, said in enumerate(desk.disagreements())
    ]
    new = desk.to_be_taken_in()
    if new:
        names = ", ".join(piece.id for piece in new[:4]) + (" …" if len(new) > 4 else "")
        said = (
            f"The rack has not got {'this piece' if len(new) == 1 else f'these {len(new)} pieces'} of the job: {names}."
        )
        take = (Action(key("rack-take-in"), "Take them into the rack"),)
        found.append(FindingLine("rack take in", "note", new[0].id, said, "", "", ways=take, title="new"))
    for over in desk.over():
        said = f"Reserved by {over.name or 'a job'} to {over.until}, which is over."
        free = (Action(key("rack-release-for", over.id, "its time is over"), f"Release {over.id}", over.id),)
        found.append(FindingLine(f"rack over {over.id}", "note", over.id, said, "", "", ways=free, title=over.id))
    return found


def _take_over(view: View) -> tuple[Action, ...]:
    if view.rack is None:
        return ()
    rack, found = view.rack.rack, []
    for piece in view.rack.moved_on()[:3]:
        found.append(Action(key("rack-take-over", piece.id), f"Take over {piece.id} from the rack", piece.id))
    for one in view.job.pieces:
        there, held = rack.pieces.get(one), rack.reservations.get(one)
        if there is None or there.state in GONE or (held is not None and held.job == view.rack.mark):
            continue
        if held is None:
            found.append(Action(key("rack-reserve", one), f"Reserve {one}", one))
        found.append(Action(key("rack-let-go", one), f"Do without {one}", one))
    return tuple(found[:6])

"""A panel on the Veneer page: its leaves, the chain of thickness both ways, corners after the press, passes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from frontwright.core.figures import Figure, plus, share, total
from frontwright.core.making.result import Chain
from frontwright.core.veneer.result import PanelMade, Seat, SlicePlan
from frontwright.desk.contents import Action, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.veneer_rows import next_pass, pass_id, passes_of
from frontwright.desk.keys import key
from frontwright.desk.pages.veneer_billets import Bands
from frontwright.desk.pages.veneer_leaves import PLACES_ASIDE, by_hand, leaf_actions, state_cell
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.wording.veneer import FACES

_LEAVES = (
    Column("leaf", axis=False),
    Column("place", axis=False),
    Column("lies", axis=False),
    Column("sawn"),
    Column("state", axis=False),
    Column("front", "put there by hand", axis=False),
    Column("side", "put there by hand", axis=False),
    Column("seat", "put there by hand"),
)
_CORNERS = ("corner_1", "corner_2", "corner_3", "corner_4", "flatness", "note")


def panel_bands(view: View, panel: str) -> Bands:
    """The bands of the page that stands on a panel."""
    made = view.plan.veneer.panels[panel]
    return (
        (_leaves(view, panel),),
        (_corners(view, panel, made),),
        (_passes(view, panel, made),),
        (_chain(view, panel, made),),
    )


def _on(view: View, panel: str) -> list[Seat]:
    """The seats of a panel, the show face first, from the left."""
    seats = [seat for seat in view.plan.veneer.seats if seat.of == panel]
    return sorted(seats, key=lambda seat: (seat.side != "show", seat.seat))


def _slices(view: View) -> dict[str, SlicePlan]:
    return {one.id: one for plan in view.plan.veneer.plans for one in plan.slices}


def _leaves(view: View, panel: str) -> Table:
    slices = _slices(view)
    rows = [_leaf_row(view, slices[seat.leaf], seat) for seat in _on(view, panel)]
    rows += [
        TableRow(panel, (words("missing", panel, level="stop"), words(f"{FACES[one.side]}: {one.has} of {one.wanted}")))
        for one in view.plan.veneer.missing
        if one.of == panel
    ]
    actions: tuple[Action, ...] = leaf_actions(view, slices.get(view.selected))
    return Table("places", f"Leaves of {panel}", PLACES_ASIDE, _LEAVES, tuple(rows), actions)


def _leaf_row(view: View, one: SlicePlan, seat: Seat) -> TableRow:
    cells = (
        words(one.id, one.id, bold=True),
        words(f"{FACES[seat.side]}, {seat.seat}", one.id),
        words("shut" if seat.turned else "open", one.id),
        worked(one.thick, one.id, "thickness") if one.thick is not None else words("", one.id),
        state_cell(view, one),
        *by_hand(view, one.id, ("side", "seat")),
    )
    return TableRow(one.id, cells)


# -- the chain of thickness


def _chain(view: View, panel: str, made: PanelMade) -> Table:
    """From slice to lip as planned, what the leaves were, what the panel is, and back to the saw."""
    front = next(m for m in view.plan.making.fronts.values() if any(p.part == panel for p in m.panels))
    columns = (
        Column("", axis=False, share=2),
        Column("planned"),
        Column("show is"),
        Column("back is"),
        Column("panel is"),
    )
    rows = tuple(_chain_rows(view, panel, made, front.chain)) if front.chain is not None else ()
    return Table("chain", "From slice to lip, and back", "what the press says of the saw, too", columns, rows)


def _chain_rows(view: View, panel: str, made: PanelMade, chain: Chain) -> Iterator[TableRow]:
    show, back = _mean(view, panel, "show"), _mean(view, panel, "back")
    yield _row(panel, "slice, mean of the leaves", chain.slice, show, back)
    yield _row(panel, "glued on", chain.glued)
    yield _row(panel, "pressed, four corners", chain.pressed, panel_is=made.pressed)
    if made.leaves_were is not None:
        yield _row(panel, "worked back: the leaves were", chain.slice, panel_is=made.leaves_were)
        yield _row(panel, "thicker than the saw was set by", None, panel_is=made.correction)
    yield _row(panel, "panel by now", chain.pressed, panel_is=made.now)
    yield _row(panel, "veneer left", chain.veneer_left, made.show_left, made.back_left, bold=True)
    if made.too_far.units:
        yield _row(panel, "planed too far by", None, panel_is=made.too_far)
    else:
        yield _row(panel, "still to plane", None, panel_is=made.to_plane)
    finished = view.entry("as_built", f"{panel} thickness", "value", chain.panel, subject=panel)
    blank = words("", panel)
    planned = worked(_planned(chain.panel), panel, "panel, planned")
    yield TableRow(panel, (words("panel, finished", panel, bold=True), planned, blank, blank, finished), result=True)
    if chain.rabbet_depth is not None:
        yield _row(panel, "rabbet deep", chain.rabbet_depth)
    if chain.lip is not None:
        yield _row(panel, "lip", chain.lip)


def _planned(figure: Figure) -> Figure:
    return figure.planned if figure.planned is not None else figure


def _row(
    panel: str,
    said: str,
    planned: Figure | None,
    show: Figure | None = None,
    back: Figure | None = None,
    panel_is: Figure | None = None,
    *,
    bold: bool = False,
) -> TableRow:
    figures = (("planned", planned), ("show", show), ("back", back), ("panel", panel_is))
    cells = (
        worked(figure, panel, f"{said}, {word}", bold=bold) if figure is not None else words("", panel)
        for word, figure in figures
    )
    return TableRow(panel, (words(said, panel, bold=bold), *cells))


def _mean(view: View, panel: str, side: Literal["show", "back"]) -> Figure | None:
    """The mean of the leaves of one face that were measured."""
    slices = _slices(view)
    on = [slices[seat.leaf].thick for seat in _on(view, panel) if seat.side == side]
    thick = [figure for figure in on if figure is not None]
    if not thick:
        return None
    return share(f"leaves of the {FACES[side]}", total("together", *(plus(one) for one in thick)), len(thick))


def _corners(view: View, panel: str, made: PanelMade) -> Form:
    lines = [
        FormLine(field_word("pressed_panels", name), view.entry("pressed_panels", panel, name, subject=panel))
        for name in _CORNERS
    ]
    aside = "thickness at four corners; out of flat after a day" if made.pressed is not None else "not read yet"
    return Form("corners", "Out of the press", aside, tuple(lines), across=True)


# -- passes


def _passes(view: View, panel: str, made: PanelMade) -> Table:
    done = zip(passes_of(view.job, panel), made.left_after, strict=True)
    rows = [_pass_row(view, panel, at, one.id, *left) for at, (one, left) in enumerate(done, 1)]
    rows.append(_next_row(view, panel, made))
    columns = (
        Column("pass", axis=False),
        Column("face", axis=False),
        Column("thickness after"),
        Column("show", "veneer left"),
        Column("back", "veneer left"),
    )
    aside = f"next the {FACES[made.next_face]}; faces in turn, the thickness written after each"
    return Table("passes", f"Passes of {panel}, {count_of(made.passes, 'pass', 'passes')}", aside, columns, tuple(rows))


def _pass_row(view: View, panel: str, number: int, row: str, show: Figure, back: Figure) -> TableRow:
    return TableRow(
        panel,
        (
            words(str(number), panel, bold=True),
            view.entry("plane_passes", row, "face", subject=panel),
            view.entry("plane_passes", row, "thickness", subject=panel),
            worked(show, panel, f"veneer left, show face, after pass {number}"),
            worked(back, panel, f"veneer left, back, after pass {number}"),
        ),
    )


def _next_row(view: View, panel: str, made: PanelMade) -> TableRow:
    """The pass to come: typing its thickness makes it, and Enter goes on to the one after."""
    number = made.passes + 1
    row, after = next_pass(view.job, panel), pass_id(panel, number + 1)
    thickness = view.entry("plane_passes", row, "thickness", subject=panel)
    return TableRow(
        panel,
        (
            words(str(number), panel, bold=True),
            view.entry("plane_passes", row, "face", subject=panel),
            replace(thickness, then=key("plane_passes", after, "thickness")),
        ),
    )

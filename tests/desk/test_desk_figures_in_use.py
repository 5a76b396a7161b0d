"""Where nothing was typed, a cell shows the figure that is used."""

from __future__ import annotations

from collections.abc import Callable

from frontwright.core.job import Job
from frontwright.core.lengths import Length
from frontwright.desk.order import cells
from frontwright.desk.session import Session

Opener = Callable[[Job | str], Session]


def _mm(session: Session, place: str) -> Length:
    figure = next(
        cell.figure
        for cell in [*cells(session.page("facing", "K")), *cells(session.page("survey", "K"))]
        if cell.key == place
    )
    assert figure is not None
    return figure.length


def test_a_skin_and_strips_that_nobody_sized_show_what_leaves_and_sheet_give(open_session: Opener) -> None:
    session = open_session("kitchen-run")
    session.enter("panel_builds/veneered/slice", "3.5")
    session.enter("ends/K right/skin_thickness", "")
    strips = session.plan.facing.strips
    assert {s.thickness.length for s in strips if s.run == "K"} == {Length.mm("2.5")}
    assert _mm(session, "facings/K/thickness") == Length.mm("2.5")
    assert _mm(session, "ends/K right/skin_thickness") == Length.mm("6.2")
    session.enter("ends/K right/skin", "sawn")
    assert _mm(session, "ends/K right/skin_thickness") == Length.mm("2.5")


def test_rails_of_a_mitred_build_show_the_width_of_its_stile(open_session: Opener) -> None:
    session = open_session("kitchen-run")
    for field, text in (
        ("kind", "mitred"),
        ("stile", "65"),
        ("top_rail", ""),
        ("bottom_rail", ""),
        ("drawer_rail", ""),
    ):
        session.enter(f"door_builds/kitchen/{field}", text)
    shown = {cell.key: cell.figure for cell in cells(session.page("shop"))}
    for field in ("top_rail", "bottom_rail", "drawer_rail"):
        figure = shown[f"door_builds/kitchen/{field}"]
        assert figure is not None
        assert figure.length == Length.mm("65")
    made = session.plan.making.fronts["F5"]
    assert made.bottom_rail is not None
    assert made.bottom_rail.length == Length.mm("65")


def test_a_slab_of_a_row_says_the_blank_it_is_cut_from(kitchen: Session) -> None:
    contents = kitchen.page("making", "F1")
    heads = [
        row.cells[0].text for band in contents.bands for block in band for row in getattr(block, "rows", ()) if row.head
    ]
    assert heads == ["From the blank of top row, 2855.5 long"]

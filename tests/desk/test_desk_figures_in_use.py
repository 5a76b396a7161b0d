"""Where nothing was typed, a cell shows the figure that is used."""

from __future__ import annotations

from conftest import Opener
from frontwright.core.lengths import Length
from frontwright.desk.order import cells
from frontwright.desk.session import Session


def _mm(session: Session, place: str) -> Length:
    figure = next(cell.figure for cell in cells(session.page("survey", "K")) if cell.key == place)
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

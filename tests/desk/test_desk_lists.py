"""Lists for a spreadsheet at an open job: the rack's pieces in and out, sheets of the bill as the page has it."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from frontwright.core.job import Defect, HardwareLot, Job, Piece
from frontwright.core.lengths import typed
from frontwright.desk.session import Session
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from pypdf import PdfReader


@pytest.fixture
def session(tmp_path: Path) -> Session:
    job: Job = job_from_json(resource("samples", "kitchen-run.json").read_text("utf-8"))
    return Session.create(tmp_path / "job.frontwright", job, tmp_path / "shop.frontwright-shop")


def test_new_pieces_of_a_list_go_on_the_rack_and_come_out_again(session: Session, tmp_path: Path) -> None:
    (tmp_path / "new.csv").write_text("piece,form,species,length,width,thickness,shelf\nP-1,board,oak,2000,150,27,C3\n")
    outcome = session.lists.take_in(tmp_path / "new.csv")
    assert outcome.problem == ""
    assert session.rack.rack.pieces["P-1"].shelf == "C3"
    assert "P-1" not in session.job.pieces
    assert session.lists.save(tmp_path / "rack.csv", "rack").problem == ""
    assert "P-1,board,oak,,2000 mm,150 mm,27 mm,1,C3" in (tmp_path / "rack.csv").read_text("utf-8-sig")
    assert session.lists.take_in(tmp_path / "rack.csv").said == "rack.csv brings nothing new"
    session.close()


def test_a_count_that_a_list_corrects_is_a_counting_and_other_fields_a_change(session: Session, tmp_path: Path) -> None:
    session.rack.come(Piece("P-1", "board", "oak", "", typed("2000", "mm"), typed("150", "mm"), typed("27", "mm"), 4))
    session.rack.come(Piece("P-2", "board", "oak", "", typed("2000", "mm"), typed("150", "mm"), typed("27", "mm")))
    (tmp_path / "changed.csv").write_text("piece,count,shelf\nP-1,3,\nP-2,,B1\n")
    outcome = session.lists.take_in(tmp_path / "changed.csv")
    assert outcome.problem == ""
    rack = session.rack.rack
    assert (rack.pieces["P-1"].count, rack.pieces["P-2"].shelf) == (3, "B1")
    assert [move.line.kind for move in rack.moves.values()][-2:] == ["count", "change"]
    session.close()


def test_a_bad_row_keeps_the_whole_list_out(session: Session, tmp_path: Path) -> None:
    (tmp_path / "bad.csv").write_text("piece,length\nP-1,2000\nP-2,20 00\n")
    outcome = session.lists.take_in(tmp_path / "bad.csv")
    assert outcome.problem.startswith("bad.csv: Row 3, column length: “20 00” is no length")
    assert "P-1" not in session.rack.rack.pieces
    session.close()


def test_a_list_that_is_no_file_is_one_sentence(session: Session, tmp_path: Path) -> None:
    assert "cannot be read" in session.lists.take_in(tmp_path / "none.csv").problem
    assert "cannot be written" in session.lists.save(tmp_path / "no folder" / "a.xlsx").problem
    assert "There is no list “doors”" in session.lists.save(tmp_path / "a.xlsx", "doors").problem
    assert not (tmp_path / "a.xlsx").exists()
    session.close()


def pulled(session: Session) -> str:
    """What stands on the pull list."""
    session.sheets()
    content = session.sheet_pdf(["12-stock:pull"], "a4")
    assert isinstance(content, bytes)
    return "".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages)


def test_the_pull_sheet_takes_wood_of_the_rack_as_the_bill_page_does(session: Session, tmp_path: Path) -> None:
    assert "P-0" not in pulled(session)
    for number in range(9):
        sizes = typed("2500", "mm"), typed("195", "mm"), typed("27", "mm")
        session.rack.come(Piece(f"P-{number}", "board", "oak", "OK3", *sizes, shelf="A1"))
    session.take_anew()
    assert "P-0" in pulled(session)
    assert session.lists.save(tmp_path / "pull.csv", "pull").problem == ""
    assert "A1,P-0,board,oak,OK3,1," in (tmp_path / "pull.csv").read_text("utf-8-sig")
    session.close()


def test_bad_places_and_hardware_of_the_rack_come_out_as_lists_of_their_own(session: Session, tmp_path: Path) -> None:
    piece = Piece("P-1", "board", "oak", "", typed("2000", "mm"), typed("150", "mm"), typed("27", "mm"))
    session.rack.come(
        piece, [Defect("P-1 1", "P-1", "=knot", typed("600", "mm"), typed("40", "mm"), typed("30", "mm"))]
    )
    session.rack.put_lot(HardwareLot("H-01", "hinge 107", 20, "D1"))
    session.rack.keep_of_lot("H-01", 6)
    for name in ("defects", "hardware"):
        assert session.lists.save(tmp_path / f"{name}.csv", name).problem == ""
    assert "P-1,'=knot,600 mm,40 mm,30 mm," in (tmp_path / "defects.csv").read_text("utf-8-sig")
    assert "H-01,hinge 107,20,6,0,D1" in (tmp_path / "hardware.csv").read_text("utf-8-sig")
    assert "A list is of parts or of pieces" in session.lists.take_in(tmp_path / "defects.csv").problem
    session.close()

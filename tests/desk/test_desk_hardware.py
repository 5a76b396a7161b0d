"""Hinges, plates and pulls at the desk: refused where they contradict themselves, shown, got out of by a button."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from frontwright.core.job import Job
from frontwright.core.lengths import typed
from frontwright.desk.contents import Cell, Form, Table
from frontwright.desk.session import Session
from frontwright.desk.wording.numbers import figure_text

type Opener = Callable[[Job | str], Session]


def table(session: Session, page: str, key: str) -> Table:
    found = [one for band in session.page(page).bands for one in band if isinstance(one, Table) and one.key == key]
    return found[0]


def rows(session: Session, key: str) -> list[list[str]]:
    """The words and figures of a table of the Fronts page."""
    return [[_text(session, cell) for cell in row.cells] for row in table(session, "fronts", key).rows]


def _text(session: Session, cell: Cell) -> str:
    return cell.text or ("" if cell.figure is None else figure_text(cell.figure, session.display))


# -- refused


def test_a_range_of_covers_turned_round_is_refused_and_nothing_is_changed(kitchen: Session) -> None:
    kitchen.enter("hinge_types/cover 18/cover_most", "20")
    before = kitchen.job
    outcome = kitchen.enter("hinge_types/cover 18/cover_least", "21")
    assert outcome.problem == (
        "Cover given, from of Cup hinge, 18 cover: 21 and cover given 18 cannot both be; "
        "put the other one right first, or empty it."
    )
    assert kitchen.job == before


def test_a_cover_that_constant_edge_and_plate_do_not_make_is_refused(kitchen: Session) -> None:
    kitchen.enter("hinge_types/cover 18/constant", "13")
    assert kitchen.enter("hinge_types/cover 18/plate", "0").problem == ""
    said = kitchen.enter("hinge_types/cover 18/plate", "2").problem
    assert "make a cover of 16" in said
    assert kitchen.enter("hinge_types/cover 18/cover", "").problem == ""
    assert kitchen.enter("hinge_types/cover 18/plate", "2").problem == ""


def test_a_table_of_heights_that_does_not_rise_is_refused(kitchen: Session) -> None:
    assert "cannot both be" in kitchen.enter("hinge_types/cover 18/three_to", "800").problem


def test_a_pull_moved_off_its_front_is_refused_and_one_that_stays_on_is_not(kitchen: Session) -> None:
    kitchen.act("new/pull_types")
    assert kitchen.enter("pull_types/pull 1/from_edge", "40").problem == ""
    said = kitchen.enter("pull_types/pull 1/from_edge", "400").problem
    assert said.startswith("From the free edge of pull 1: the pull would lie off F")
    assert kitchen.job.pull_types["pull 1"].from_edge is not None
    assert "off" in kitchen.enter("pull_types/pull 1/from_end", "500").problem


# -- shown


def test_each_hinge_has_its_line_with_height_cover_and_plate(kitchen: Session) -> None:
    found = rows(kitchen, "hinges")
    assert len(found) == 14
    assert found[4] == ["F7R", "Cup hinge, 18 cover", "(90)", "19", "its own", "18", "1", "2 by height"]


def test_plates_are_entered_counted_and_taken(kitchen: Session) -> None:
    kitchen.enter("hinge_types/cover 18/plate", "1")
    for name, height, count in (("plate 1", "0", "2"), ("plate 2", "1", "12")):
        assert kitchen.act("new/plates").select == name
        kitchen.enter(f"plates/{name}/height", height)
        kitchen.enter(f"plates/{name}/count", count)
        kitchen.enter(f"plates/{name}/hinge", "cover 18")
    lines = {row[0]: row for row in rows(kitchen, "plates")}
    assert lines["plate 1"][5:] == ["2", ""]
    assert lines["plate 2"][5:] == ["12", ""]
    assert not any("lacking" in line.sentence for line in kitchen.page("fronts").findings)
    kitchen.enter("plates/plate 2/count", "11")
    assert any("is lacking 1 time" in line.sentence for line in kitchen.page("fronts").findings)


def test_a_hinge_taken_out_takes_its_plates_along_and_undo_brings_both_back(kitchen: Session) -> None:
    kitchen.act("new/plates")
    kitchen.enter("plates/plate 1/hinge", "cover 18")
    before = kitchen.job
    kitchen.act("delete/hinge_types/cover 18")
    assert not kitchen.job.plates
    kitchen.undo()
    assert kitchen.job == before


def test_the_shops_hinge_comes_with_its_plates(kitchen: Session) -> None:
    kitchen.act("new/plates")
    kitchen.enter("plates/plate 1/hinge", "cover 18")
    kitchen.enter("plates/plate 1/height", "3")
    kitchen.act("keep-in-shop/hinge_types/cover 18")
    assert "plate 1" in kitchen.shop.plates
    kitchen.act("delete/hinge_types/cover 18")
    kitchen.act("take-over/hinge_types/cover 18")
    assert "plate 1" in kitchen.job.plates


def test_pulls_are_told_as_they_are_bored_with_the_screw_that_is_sold(kitchen: Session) -> None:
    line = next(row for row in rows(kitchen, "bored pulls") if row[0] == "F5")
    assert line[2:4] == ["(379), (475)", "340.5"]
    assert line[5] == "2 of (28)"


def test_what_hangs_on_the_wall_says_whom_to_ask(laundry: Session) -> None:
    page = laundry.page("fronts")
    forms = [one for band in page.bands for one in band if isinstance(one, Form) and one.key == "weight"]
    assert [line.label for line in forms[0].lines] == ["new fronts", "added on the fixings"]
    said = " ".join(cell.text for row in table(laundry, "fronts", "fixings").rows for cell in row.cells)
    assert "local codes come first" in said


# -- ways out


def test_a_cover_beyond_the_hinge_offers_what_was_tried_and_one_press_clears_it(kitchen: Session) -> None:
    kitchen.enter("hinge_types/cover 18/plate", "0")
    kitchen.enter("looks/opening:12/cover", "2")
    kitchen.enter("fronts/F12/pin_left", "2836")
    finding = next(f for f in kitchen.page("fronts").findings if f.subject == "F12" and "reaches" in f.sentence)
    offered = [way.word for way in finding.ways]
    assert any(word.startswith("Get plates 12 high for cover 18: have 6, need 5 to 7") for word in offered)
    assert any(word.startswith("Move the left edge of F12 to 2824.5: have 17.5, need 17 to 19") for word in offered)
    for way in finding.ways:
        before = kitchen.job
        assert kitchen.act(way.key).problem == ""
        still = [f for f in kitchen.page("fronts").findings if f.subject == "F12" and "reaches" in f.sentence]
        assert not still, way.word
        kitchen.undo()
        assert kitchen.job == before


def test_data_of_a_hinge_from_elsewhere_that_contradict_each_other_are_told(
    open_session: Opener, kitchen: Session
) -> None:
    hinge = replace(kitchen.job.hinge_types["cover 18"], cover_least=typed("20", "mm"), cover_most=typed("22", "mm"))
    session = open_session(kitchen.job.put(hinge))
    told = [f for f in session.page("fronts").findings if "is less than" in f.sentence]
    assert told[0].sentence == "Of the hinge cover 18 “cover given” is less than “cover given, from”."
    assert all(way.word.startswith("Change the") for way in told[0].ways)

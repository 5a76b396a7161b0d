"""The Cuts page: laying as one edit, cuts ticked in their order, parts placed by hand, layouts that hold no longer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.drawing.layout import layout as drawn
from frontwright.core.drawing.marks import Label, Ringed
from frontwright.core.drawing.strips import strips
from frontwright.core.job import Defect, Job
from frontwright.core.lengths import Length, typed, typed_length
from frontwright.core.plan import derive
from frontwright.core.stock.result import LayoutPlan
from frontwright.cutting.floor import floor_plan
from frontwright.desk.contents import Cell, PageContents, Table
from frontwright.desk.keys import key
from frontwright.desk.laid_rows import with_plans
from frontwright.desk.laying import to_lay
from frontwright.desk.order import cells_of
from frontwright.desk.session import Session
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.sheets.labels_wood import labels_of, leftover_labels

Opener = Callable[[Job | str], Session]


def laid_out(name: str) -> Job:
    """A sample with everything laid out by the quick way, so that the same layouts come every time."""
    job = job_from_json(resource("samples", f"{name}.json").read_text("utf-8"))
    return with_plans(job, [(task, floor_plan(task.order)) for task in to_lay(derive(job))])


@pytest.fixture(scope="module")
def kitchen_laid() -> Job:
    return laid_out("kitchen-run")


@pytest.fixture
def session(open_session: Opener, kitchen_laid: Job) -> Session:
    return open_session(kitchen_laid)


def table(page: PageContents, name: str) -> Table:
    return next(block for band in page.bands for block in band if isinstance(block, Table) and block.key == name)


def layout_of(session: Session, laid: str) -> LayoutPlan:
    return next(one for one in session.plan.stock.layouts if one.id == laid)


def sheet(session: Session) -> str:
    return next(one.id for one in session.plan.stock.layouts if one.group.startswith("sheet"))


def cut_all(session: Session, laid: str) -> None:
    while not session.act(key("cut-tick", laid)).problem:
        pass


# -- laying


def test_laid_anew_parts_may_lie_on_the_own_pieces_on_which_they_lie_now() -> None:
    plan = derive(laid_out("laundry-pair"))
    lying = {one.laid.piece for one in plan.stock.layouts if one.laid.piece}
    offered = {source.piece for task in to_lay(plan, anew=True) for source in task.sources}
    assert lying == {"L-03", "L-04"}  # own wood goes before what is bought
    assert lying <= offered


def test_what_is_laid_is_one_edit_and_undo_takes_all_of_it_back(laundry: Session) -> None:
    before = laundry.job
    laundry.lay.seconds = 1.0
    assert laundry.act(key("lay", "open")).said == "Laying boards white ash 3/4"
    said = laundry.lay.finish().said
    assert said.startswith("Laid on 3 pieces")
    assert laundry.undo_name == "lay 3 pieces"
    assert all(not parts for group, parts in laundry.plan.stock.unlaid.items() if group != "strips")
    assert all(one.valid for one in laundry.plan.stock.layouts)
    laundry.undo()
    assert laundry.job == before


def test_what_is_stopped_leaves_the_job_as_it_was(laundry: Session) -> None:
    before, step = laundry.job, laundry.undo_name
    laundry.act(key("lay", "open"))
    assert laundry.lay.busy
    assert laundry.act(key("lay-stop")).said == "Stopped: the job is as it was"
    assert (laundry.job, laundry.undo_name, laundry.lay.busy) == (before, step, False)


def test_the_best_so_far_can_be_used_at_once(laundry: Session) -> None:
    laundry.act(key("lay", "open"))
    assert laundry.act(key("lay-use")).problem == ""
    assert {one.group for one in laundry.plan.stock.layouts} == {"board white ash 0.75", "core 0.1875"}
    assert not laundry.lay.busy


def test_a_layout_of_parts_that_have_changed_meanwhile_is_not_used(laundry: Session) -> None:
    laundry.act(key("lay", "open"))
    laundry.enter("door_builds/framed/stile", "2 1/2")
    outcome = laundry.act(key("lay-use"))
    assert outcome.problem == "The parts have changed while they were laid: lay them again."
    assert laundry.plan.stock.layouts == ()


def test_nothing_is_laid_twice(session: Session) -> None:
    outcome = session.act(key("lay", "open"))
    assert outcome.problem.startswith("Everything that can be laid is laid")


def test_own_pieces_are_laid_on_under_their_own_names(laundry: Session) -> None:
    laundry.lay.seconds = 1.0
    laundry.act(key("lay", "open", "core 0.1875"))
    laundry.lay.finish()
    assert layout_of(laundry, "L-04").laid.piece == "L-04"
    assert {part.part for part in layout_of(laundry, "L-04").parts} == {"DA-P", "DB-P"}


# -- the page


def test_the_page_tells_what_is_laid_and_why_it_cannot_be_fewer(session: Session) -> None:
    page = session.page("cuts", sheet(session))
    assert page.advice.startswith("Everything is laid: ")
    assert page.chosen == sheet(session)
    rows = {row.cells[0].text: [cell.text for cell in row.cells[1:]] for row in table(page, "fewer").rows}
    assert rows["sheets oak 6.2"] == ["1", "1", "none"]
    assert "It cannot be done with fewer than" in " ".join(rows)


def test_a_piece_put_on_the_bill_for_something_else_is_none_that_could_be_saved(session: Session) -> None:
    before = table(session.page("cuts"), "fewer").rows
    count = len(session.plan.stock.layouts)
    assert session.act(key("put-on-bill", "one more", "sheet oak 6.2", "", "1")).problem == ""
    assert len(session.plan.stock.layouts) == count + 1
    assert table(session.page("cuts"), "fewer").rows == before


def test_pieces_stand_largest_first_with_the_cuts_that_free_them(session: Session) -> None:
    page = session.page("cuts", sheet(session))
    rows = table(page, "laid").rows
    faces = []
    for row in rows:
        long, wide = row.cells[2].figure, row.cells[3].figure
        assert long is not None
        assert wide is not None
        faces.append(long.length.units * wide.length.units)
    assert faces == sorted(faces, reverse=True)
    assert rows[0].subject == "K right skin"
    assert all(row.cells[4].text for row in rows)


def test_the_drawing_numbers_every_cut_and_hatches_what_burns(session: Session) -> None:
    laid = sheet(session)
    drawing = drawn(session.plan, laid)
    rings = [
        part.text
        for mark in drawing.marks
        if isinstance(mark, Label)
        for part in mark.choices[0].lines[0].parts
        if isinstance(part, Ringed)
    ]
    count = sum(len(row.cells[1].text) > 0 for row in table(session.page("cuts", laid), "cuts").rows)
    assert sorted(map(int, rings)) == list(range(1, len(rings) + 1))
    assert len(rings) >= count
    assert set(drawing.subjects) >= {part.row for part in layout_of(session, laid).parts}


def test_the_other_pieces_stand_beside_as_strips_that_can_be_chosen(session: Session) -> None:
    beside = strips(session.plan, sheet(session))
    assert beside is not None
    others = [one.id for one in session.plan.stock.layouts if one.id != sheet(session)]
    assert set(beside.subjects) <= set(others)
    session.select(beside.subjects[0])
    assert session.page("cuts").chosen == beside.subjects[0]


def test_the_page_stays_on_the_piece_whose_cut_or_remainder_is_selected(session: Session) -> None:
    laid = sheet(session)
    page = session.page("cuts", laid)
    for row in (*table(page, "cuts").rows[:2], *table(page, "left").rows[:2], *table(page, "by hand").rows[:2]):
        session.select(row.subject)
        assert session.page("cuts", "board 1").chosen == laid


def test_a_piece_of_another_lot_is_left_with_its_reason_and_the_way_to_the_rule(session: Session) -> None:
    note = next(line for line in session.page("cuts").findings if line.title == "K-03")
    assert (note.level, note.have) == ("note", "have sheet lot 1")
    outcome = session.act(note.ways[0].key)
    assert (outcome.chapter, outcome.next_key) == ("shop", key("limits", "limits", "one_lot"))
    assert outcome.next_key in cells_of(session.page("shop"))


def test_strips_are_laid_on_the_leaves_that_there_are(kitchen: Session) -> None:
    waiting = table(kitchen.page("cuts"), "not laid").rows
    assert any(row.aside == "wait for their leaves" for row in waiting)
    leaf = replace(kitchen.job.pieces["K-01"], id="leaf 1", form="leaf", count=6, end_trim=None)
    sizes = {"length": typed("850", "mm"), "width": typed("170", "mm"), "thickness": typed("3", "mm")}
    kitchen._book.apply("leaves", lambda job: job.put(replace(leaf, **sizes)))  # type: ignore[arg-type]  # lengths
    kitchen.take_anew()
    kitchen.lay.seconds = 1.0
    kitchen.act(key("lay", "open", "strips"))
    kitchen.lay.finish()
    layouts = [one for one in kitchen.plan.stock.layouts if one.group == "strips"]
    assert layouts
    assert all(one.valid and one.laid.piece == "leaf 1" for one in layouts)
    assert not kitchen.plan.stock.unlaid["strips"]


# -- cuts


def test_a_sheet_that_is_still_to_be_bought_cannot_be_cut(session: Session) -> None:
    assert "still to be bought" in session.act(key("cut-tick", sheet(session))).problem
    assert len(session.job.cuts_done) == 0


def test_what_has_come_is_a_piece_of_the_rack_on_which_the_layout_lies(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    piece = layout_of(session, laid).laid.piece
    assert piece is not None
    there = session.rack.rack
    assert (there.pieces[piece].form, there.reservations[piece].job) == ("sheet", session.rack.mark)
    assert layout_of(session, laid).valid


def test_ticking_a_row_ticks_those_before_it_and_frees_parts(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    tick = table(session.page("cuts", laid), "cuts").rows[4].cells[0].key
    assert session.enter(tick, "yes").problem == ""
    ticked = [row.cells[0].text for row in table(session.page("cuts", laid), "cuts").rows]
    assert ticked[:5] == ["yes"] * 5
    assert set(ticked[5:]) == {""}


def test_leftovers_are_born_with_what_their_piece_was(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    piece = layout_of(session, laid).laid.piece
    assert piece is not None
    for field, text in (("batch", "lot 7"), ("shelf", "C1"), ("moisture", "8")):
        session.enter(key("pieces", piece, field), text)
    kept = [rest for rest in layout_of(session, laid).remainders if rest.keep]
    assert kept
    cut_all(session, laid)
    rack = session.rack.rack
    born = rack.born_of(piece)
    assert rack.pieces[piece].state == "used up"
    assert sorted(one.length.text for one in born if one.length) == sorted(
        str(rest.length).removesuffix(" mm") if "/" not in str(rest.length) else f"{rest.length.units / 80000:g}"
        for rest in kept
    )
    assert {(one.batch, one.shelf, one.state, one.from_piece) for one in born} == {("lot 7", "C1", "free", piece)}
    labels = {label.name: label for label in leftover_labels(session.plan)}
    assert set(labels) == {one.id for one in born}
    assert all(session.job.pieces.get(name) is None for name in labels)
    assert session.rack.disagreements() == ()


def test_a_bad_place_goes_with_the_leftover_that_has_it(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    piece = layout_of(session, laid).laid.piece
    assert piece is not None
    rest = max((one for one in layout_of(session, laid).remainders if one.keep), key=lambda one: one.length.units)
    knot = (rest.along + Length.mm(40), rest.across + Length.mm(30), Length.mm(25), Length.mm(10))
    places = [typed_length(one, "mm") for one in knot]
    session.rack.change_defects(piece, [Defect("k", piece, "knot", *places)])
    cut_all(session, laid)
    rack = session.rack.rack
    (bad,) = [one for new in rack.born_of(piece) for one in rack.defects_of(new.id)]
    assert rack.pieces[bad.piece].length == typed_length(rest.length, "mm")
    told = [one.value for one in (bad.along, bad.across, bad.length, bad.width) if one is not None]
    assert (bad.what, told) == ("knot", [Length.mm(40), Length.mm(30), Length.mm(25), Length.mm(10)])


def test_a_cut_part_wants_no_wood_any_more_and_no_new_layout_moves_it(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    parts = {part.part for part in layout_of(session, laid).parts}
    cut_all(session, laid)
    group = next(one for one in session.plan.stock.groups if one.id == layout_of(session, laid).group)
    assert {want.id for want in group.wants if not want.open} >= parts
    assert all(task.group.id != group.id for task in to_lay(session.plan, anew=True))
    assert "stays" in session.act(key("take-layout-away", laid)).problem


def test_a_cut_ticked_wrongly_is_taken_back_with_those_after_it(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    piece = layout_of(session, laid).laid.piece
    assert piece is not None
    cut_all(session, laid)
    assert session.enter(key("cuts", laid, "5"), "no").problem == ""
    assert {row.cut for row in session.job.cuts_done.values()} == {1, 2, 3, 4}
    rack = session.rack.rack
    assert rack.pieces[piece].state == "in work"
    assert [one for one in rack.born_of(piece) if one.state == "free"] == []
    assert session.rack.disagreements() == ()
    session.undo()
    assert session.rack.rack.pieces[piece].state == "used up"
    assert session.rack.disagreements() == ()


def test_a_kept_remainder_is_burned_by_hand_with_a_reason(session: Session) -> None:
    laid = sheet(session)
    rest = next(rest for rest in layout_of(session, laid).remainders if rest.keep)
    row = f"{laid} {rest.letter}"
    assert session.enter(key("leftovers", row, "keep"), "burn").problem == ""
    session.enter(key("leftovers", row, "why"), "a shake runs through it")
    changed = next(one for one in layout_of(session, laid).remainders if one.letter == rest.letter)
    assert (changed.keep, changed.reason) == (False, "by hand")
    assert session.job.leftovers[row].why == "a shake runs through it"
    session.enter(key("leftovers", row, "keep"), "")
    assert row not in session.job.leftovers


# -- by hand


def test_a_part_that_is_moved_stays_where_it_is_put_and_the_rest_is_laid_round_it(session: Session) -> None:
    session.lay.seconds = 1.0
    laid = sheet(session)
    part = next(p for p in layout_of(session, laid).parts if p.part == "F9L-P")
    session.enter(key("laid_parts", part.row, "along"), "1500")
    assert session.enter(key("laid_parts", part.row, "across"), "600").problem == ""
    assert session.job.laid_parts[part.row].pinned
    assert session.act(key("lay", "anew", "sheet oak 6.2")).problem == ""
    session.lay.finish()
    row = session.job.laid_parts["F9L-P"]
    assert row.along is not None
    assert row.across is not None
    assert (row.along.text, row.across.text, row.pinned) == ("1500", "600", True)
    assert all(one.valid for one in session.plan.stock.layouts if one.group == "sheet oak 6.2")


def test_parts_over_each_other_are_a_stop_that_laying_anew_clears(session: Session) -> None:
    session.lay.seconds = 1.0
    laid = sheet(session)
    first, second = layout_of(session, laid).parts[:2]
    session.enter(key("laid_parts", second.row, "along"), f"{first.along.units / 80000:g}")
    session.enter(key("laid_parts", second.row, "across"), f"{first.across.units / 80000:g}")
    finding = next(line for line in session.page("cuts", laid).findings if line.level == "stop")
    assert "over each other" in finding.sentence
    anew = next(way for way in finding.ways if way.word == "Lay anew what no longer holds")
    assert session.act(anew.key).problem == ""
    session.lay.finish()
    assert all(line.level != "stop" for line in session.page("cuts").findings)


def test_a_layout_that_no_longer_fits_the_job_is_said(session: Session) -> None:
    session.enter("door_builds/kitchen/stile", "90")
    said = [line.sentence for line in session.page("cuts").findings if line.level == "stop"]
    assert any("has grown by" in sentence for sentence in said)


def test_a_part_is_put_on_a_piece_by_hand(session: Session) -> None:
    laid = sheet(session)
    session._book.apply("lose", lambda job: job.drop(type(job.laid_parts["F5-P"]), "F5-P"))
    session.take_anew()
    session.select("F5-P")
    page = session.page("cuts", laid)
    action = next(one for one in table(page, "not laid").actions if "by hand" in one.word)
    assert session.act(action.key).problem == ""
    row = session.job.laid_parts["F5-P"]
    assert (row.laid, row.pinned) == (laid, True)


def test_every_place_can_be_reached_by_keyboard(session: Session) -> None:
    page = session.page("cuts", sheet(session))
    cells = cells_of(page)
    writable: list[Cell] = [cell for cell in cells.values() if cell.editable]
    parts = layout_of(session, sheet(session)).parts
    assert {key("laid_parts", part.row, name) for part in parts for name in ("along", "across", "turned", "laid")} <= {
        cell.key for cell in writable
    }
    assert replace(page, bands=()).actions[0].word == "Lay"


def test_labels_are_for_just_what_the_cuts_of_one_piece_freed_and_are_printed_at_once(session: Session) -> None:
    laid = sheet(session)
    session.act(key("has-come", laid))
    refused = session.act(key("print-labels", laid))
    assert "tick the cuts that are made first" in refused.problem
    cut_all(session, laid)
    page = session.page("cuts", laid)
    action = next(one for one in table(page, "cuts").actions if one.word == f"Labels of {laid}")
    outcome = session.act(action.key)
    assert outcome.prints == (f"24-labels:of {laid}",)
    names = {label.name for label in labels_of(session.plan, laid)}
    parts = {part.part for part in layout_of(session, laid).parts}
    kept = {row.piece for row in session.job.leftovers.values() if row.laid == laid and row.piece}
    assert kept
    assert names - parts == kept
    assert session.sheet_pdf(outcome.prints)[:5] == b"%PDF-"

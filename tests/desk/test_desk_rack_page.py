"""The Rack page: search, pieces typed into, what a piece came of, enough or not, counting day, lots; and the Bill."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO

import pytest
from frontwright.core.drawing.marks import Outline, Ring
from frontwright.core.job import Job, Piece, amount
from frontwright.core.lengths import typed
from frontwright.core.stock.lots import lots_for
from frontwright.desk.contents import Cell, Form, PageContents, Table
from frontwright.desk.keys import key
from frontwright.desk.order import cells_of
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.session import Session
from frontwright.store import StoreError
from pypdf import PdfReader

Opener = Callable[[Job | str], Session]


def piece(name: str, form: str, batch: str, sizes: tuple[str, str, str], **given: object) -> Piece:
    long, wide, thick = (typed(one, "in") for one in sizes)
    made = Piece(name, form, "white ash", batch, long, wide, thick)  # type: ignore[arg-type]  # a form of the rack
    return replace(made, **given)  # type: ignore[arg-type]


@pytest.fixture
def stocked(laundry: Session) -> Session:
    """The laundry pair with its pieces on the rack, and three more that nobody counts on."""
    laundry.act("rack-take-in")
    laundry.rack.come(piece("L-11", "board", "AS4", ("60", "6", "1"), shelf="A1", moisture=amount("9")))
    laundry.rack.come(piece("L-12", "board", "AS3", ("60", "6", "1"), shelf="A4", moisture=amount("14")))
    laundry.rack.come(piece("L-13", "leaf", "AS1", ("31 1/2", "5 1/8", "1/8"), shelf="B2", from_piece="L-01"))
    laundry.take_anew()
    return laundry


def table(page: PageContents, name: str) -> Table:
    return next(block for band in page.bands for block in band if isinstance(block, Table) and block.key == name)


def ids(page: PageContents) -> list[str]:
    return [row.subject for row in table(page, "pieces").rows]


# -- search


def test_the_rack_is_searched_as_a_person_asks_and_says_how_it_understood(stocked: Session) -> None:
    stocked.act(key("search", "ash, same batch as L-01, at least 28 long"))
    page = stocked.page("rack")
    assert ids(page) == ["L-01", "L-03", "L-13"]
    assert table(page, "pieces").aside == "ash, same batch as L-01 (AS1), at least 28 long"
    assert page.found == "3 of 7 pieces"


def test_words_that_are_not_understood_are_named(stocked: Session) -> None:
    stocked.act(key("search", "dry teak"))
    assert "not understood: teak" in table(stocked.page("rack"), "pieces").aside


def test_without_a_search_every_piece_that_is_there_is_shown(stocked: Session) -> None:
    assert ids(stocked.page("rack")) == ["L-01", "L-02", "L-03", "L-04", "L-11", "L-12", "L-13"]
    stocked.act(key("rack-burn", "L-12"))
    assert "L-12" not in ids(stocked.page("rack"))


# -- pieces


def test_a_field_of_a_piece_that_lies_there_for_everybody_goes_to_the_rack_alone(stocked: Session) -> None:
    before = stocked.job
    place = key("rack:pieces", "L-11", "shelf")
    assert place in cells_of(stocked.page("rack"))
    assert stocked.enter(place, "B7").problem == ""
    assert stocked.rack.rack.pieces["L-11"].shelf == "B7"
    assert stocked.job == before


def test_a_length_that_cannot_be_is_refused_and_kept_as_it_was_typed(stocked: Session) -> None:
    place = key("rack:pieces", "L-11", "length")
    stocked.page("rack")
    assert stocked.enter(place, "0").problem
    cell = cells_of(stocked.page("rack"))[place]
    assert (cell.text, cell.unread) == ("0", True)
    found = stocked.rack.rack.pieces["L-11"].length
    assert found is not None
    assert found.text == "60"


def test_a_block_is_pasted_into_the_rack(stocked: Session) -> None:
    places = [key("rack:pieces", one, "shelf") for one in ("L-11", "L-12", "L-13")]
    stocked.page("rack")
    assert stocked.paste(places, ["C1", "C2", "C3"]).problem == ""
    pieces = stocked.rack.rack.pieces
    assert [pieces[one].shelf for one in ("L-11", "L-12", "L-13")] == ["C1", "C2", "C3"]


def test_half_typed_text_on_the_rack_survives_closing(stocked: Session) -> None:
    place = key("rack:pieces", "L-11", "length")
    stocked.keep_draft(place, "59 1/")
    shop = stocked.path.parent / "shop.frontwright-shop"
    stocked.close()
    again = Session.open(stocked.path, shop)
    cell = cells_of(again.page("rack"))[place]
    assert (cell.text, cell.hint) == ("59 1/", "")
    again.close()


def test_a_rack_that_cannot_be_read_is_said_and_the_job_goes_on(
    stocked: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_: object) -> object:
        raise StoreError("The shop file is damaged: take its last copy.")

    monkeypatch.setattr(RackDesk, "rack", property(broken))
    stocked.take_anew()
    page = stocked.page("rack")
    assert page.findings[0].sentence == "The shop file is damaged: take its last copy."
    assert ids(page) == ["L-01", "L-02", "L-03", "L-04"]
    assert table(stocked.page("bill"), "purchases").rows


def test_a_field_of_a_piece_of_the_job_goes_to_both(stocked: Session) -> None:
    stocked.page("rack")
    assert stocked.enter(key("pieces", "L-01", "shelf"), "C3").problem == ""
    assert (stocked.job.pieces["L-01"].shelf, stocked.rack.rack.pieces["L-01"].shelf) == ("C3", "C3")


def test_the_last_thing_done_on_the_rack_alone_is_taken_back_on_its_page(stocked: Session) -> None:
    stocked.page("rack")
    stocked.enter(key("rack:pieces", "L-11", "shelf"), "B7")
    assert stocked.undo_name == "change L-11"
    stocked.undo()
    assert stocked.rack.rack.pieces["L-11"].shelf == "A1"
    stocked.enter("headings/job/name", "Pair")
    assert stocked.undo_name == "name of the job"


def test_a_new_piece_is_ready_to_be_typed_into(stocked: Session) -> None:
    outcome = stocked.act(key("rack-come", "leaf"))
    assert (outcome.select, outcome.next_key) == ("L-14", key("rack:pieces", "L-14", "batch"))
    assert outcome.next_key in cells_of(stocked.page("rack"))
    assert stocked.rack.rack.pieces["L-14"].form == "leaf"


def test_a_new_piece_is_of_the_wood_of_the_piece_beside_it(stocked: Session) -> None:
    beside = stocked.rack.rack.pieces["L-11"]
    stocked.select("L-11")
    stocked.act(key("rack-come", "board"))
    assert beside.species
    assert stocked.rack.rack.pieces["L-14"].species == beside.species


def test_one_more_piece_is_like_the_first_but_a_piece_of_its_own(stocked: Session) -> None:
    outcome = stocked.act(key("rack-like", "L-11"))
    first, new = (stocked.rack.rack.pieces[name] for name in ("L-11", "L-14"))
    assert outcome.next_key == key("rack:pieces", "L-14", "length")
    assert (new.batch, new.length, new.moisture, new.shelf) == (first.batch, first.length, first.moisture, first.shelf)
    assert (new.state, new.looked, new.from_piece) == ("free", "", None)


def test_a_new_bad_place_and_a_new_lot_are_ready_to_be_typed_into(stocked: Session) -> None:
    stocked.select("L-11")
    for verb in (key("rack-defect", "L-11", "in"), key("rack-lot"), key("add-defect", "L-01")):
        outcome = stocked.act(verb)
        assert outcome.next_key in cells_of(stocked.page("rack"))


def test_a_reading_of_moisture_has_its_day_and_the_shelf_comes_next(stocked: Session) -> None:
    stocked.page("rack")
    outcome = stocked.enter(key("rack:pieces", "L-13", "moisture"), "9")
    assert outcome.next_key == key("rack:pieces", "L-13", "shelf")
    assert len(stocked.rack.rack.pieces["L-13"].moisture_on) == len("2026-11-25")
    stocked.enter(key("pieces", "L-01", "moisture"), "8.5")
    assert stocked.job.pieces["L-01"].moisture_on == stocked.rack.today
    stocked.enter(key("rack:pieces", "L-13", "moisture"), "")
    assert stocked.rack.rack.pieces["L-13"].moisture_on == ""


def test_a_bad_place_may_begin_at_the_very_end_and_nothing_may_come_off_an_edge(stocked: Session) -> None:
    stocked.act(key("rack-defect", "L-11", "in"))
    (bad,) = [one.id for one in stocked.rack.rack.defects_of("L-11")]
    assert stocked.enter(key("rack:defects", bad, "along"), "0").problem == ""
    assert stocked.enter(key("rack:pieces", "L-11", "end_trim"), "0").problem == ""


def test_a_knife_has_no_kerf_and_that_is_said_where_it_is_typed(stocked: Session) -> None:
    outcome = stocked.enter("allowances/allowances/rip_kerf", "0")
    assert outcome.problem == ""
    assert "right for a knife or shear" in outcome.said
    assert all(group.kerf.units == 0 for group in stocked.plan.stock.groups)


def test_a_kerf_wider_than_any_blade_is_refused_with_the_way_out(stocked: Session) -> None:
    outcome = stocked.enter("allowances/allowances/rip_kerf", "3")
    assert "wider than any blade; look at the unit" in outcome.problem
    assert stocked.job.allowances["allowances"].rip_kerf == typed("1/8", "in")


def test_the_tab_of_the_rack_counts_what_is_to_be_seen_to(stocked: Session) -> None:
    def count() -> tuple[str, int]:
        return next((tab.level, tab.count) for tab in stocked.tabs() if tab.chapter == "rack")

    before = count()
    stocked.act(key("rack-reserve-until", "L-11", "2020-01-01"))
    assert count() == ("warn", before[1] + 1)
    stocked.act(key("rack-release", "L-11"))
    assert count() == before


def test_a_piece_is_called_otherwise_everywhere(stocked: Session) -> None:
    stocked.enter(key("rack:pieces", "L-13", "id"), "leaf 13")
    assert "leaf 13" in stocked.rack.rack.pieces
    assert "L-13" not in stocked.rack.rack.pieces


def test_wood_that_is_too_wet_is_marked(stocked: Session) -> None:
    rows = {row.subject: row for row in table(stocked.page("rack"), "pieces").rows}
    assert [cell.level for cell in rows["L-12"].cells].count("warn") == 1
    assert rows["L-12"].cells[-1].text == "free, wet"
    assert all(cell.level == "ok" for cell in rows["L-11"].cells)


FREE = ("Reserve L-11", "L-11 is used up", "Burn L-11", "L-11 was looked at")
OURS = ("Take L-01 in work", "Release L-01")


@pytest.mark.parametrize(("one", "words"), [("L-11", FREE), ("L-01", OURS)])
def test_what_can_be_done_with_a_piece_follows_how_it_stands(
    stocked: Session, one: str, words: tuple[str, ...]
) -> None:
    stocked.select(one)
    offered = {action.word: action.key for action in table(stocked.page("rack"), "pieces").actions}
    assert set(words) <= set(offered)
    for word in words[:1]:
        assert stocked.act(offered[word]).problem == ""
    assert words[0] not in {action.word for action in table(stocked.page("rack"), "pieces").actions}


def test_a_reservation_has_its_date_and_reason(stocked: Session) -> None:
    stocked.act(key("rack-reserve", "L-11"))
    assert stocked.enter(key("rack:reservations", "L-11", "until"), "20 Dec").problem.endswith("or leave it empty.")
    assert stocked.enter(key("rack:reservations", "L-11", "until"), "2099-12-20").problem == ""
    stocked.enter(key("rack:reservations", "L-11", "why"), "rails of box A")
    held = stocked.rack.rack.reservations["L-11"]
    assert (held.until, held.why) == ("2099-12-20", "rails of box A")
    rows = {row.subject: row for row in table(stocked.page("rack"), "pieces").rows}
    assert rows["L-11"].cells[-1].text == "reserved to 2099-12-20, this job"


def test_a_bad_place_is_entered_where_the_piece_is(stocked: Session) -> None:
    stocked.act(key("rack-defect", "L-11", "in"))
    (row,) = stocked.rack.rack.defects_of("L-11")
    stocked.enter(key("rack:defects", row.id, "along"), "12 1/2")
    stocked.act(key("add-defect", "L-01"))
    assert [one.along.text for one in stocked.rack.rack.defects_of("L-11") if one.along] == ["12 1/2"]
    assert [one.piece for one in stocked.job.defects.values()] == ["L-01"]
    assert len(stocked.rack.rack.defects_of("L-01")) == 1


# -- ancestry


def test_the_drawing_runs_down_from_the_board_to_the_chosen_piece(stocked: Session) -> None:
    stocked.select("L-13")
    board = stocked.page("rack").board
    assert board is not None
    drawing = board.drawings[0]
    tops = {mark.subject: mark.box.top for mark in drawing.marks if isinstance(mark, Outline) and mark.fill == "wood"}
    assert set(tops) == {"L-01", "L-13"}
    assert (drawing.subject, drawing.title) == ("L-13", "where it comes from")
    assert [mark.subject for mark in drawing.marks if isinstance(mark, Outline)].index("L-01") == 0


# -- enough


def test_the_question_is_chosen_and_answered_group_by_group(stocked: Session) -> None:
    form = next(block for band in stocked.page("rack").bands for block in band if isinstance(block, Form))
    assert [choice.word for choice in form.lines[0].cell.choices][-2:] == ["one more like DA", "one more like DB"]
    stocked.enter(form.lines[0].cell.key, "DA")
    rows = {row.cells[0].text: row for row in table(stocked.page("rack"), "enough").rows}
    core = rows["cores 3/16"]
    assert core.cells[3].text == "no"
    assert core.cells[2].bar == (2, 0, 3)
    assert core.cells[4].text.startswith("short by 1: ")


def test_what_is_to_be_bought_is_a_finding_whose_ways_are_done_at_once(stocked: Session) -> None:
    finding = next(line for line in stocked.page("rack").findings if line.key == "purchase")
    assert (finding.title, finding.shown) == ("to buy", True)
    assert "L-12 is wet (14 %, limit 11)" in finding.reason
    reserve = next(way for way in finding.ways if way.word == "Reserve L-11")
    assert stocked.act(reserve.key).problem == ""
    assert stocked.rack.rack.reservations["L-11"].job == stocked.rack.mark


def test_what_one_front_more_would_take_is_put_on_the_bill(stocked: Session) -> None:
    def cores() -> list[str]:
        return [r.cells[2].text for r in table(stocked.page("bill"), "purchases").rows if r.cells[0].text == "core"]

    stocked.enter(key("ask", "rack", "question"), "DA")
    finding = next(line for line in stocked.page("rack").findings if line.key == "purchase")
    put = next(way for way in finding.ways if way.word == "Put it on the bill")
    before = cores()
    assert stocked.act(put.key).problem == ""
    assert (before, cores()) == ([], ["1"])
    assert stocked.undo_name == "put one more like DA on the bill"


def test_a_reserved_piece_of_another_job_is_a_condition(stocked: Session, open_session: Opener) -> None:
    other = open_session(Job())
    other.rack.reserve(["L-11"], until="2099-12-20")
    stocked.take_anew()
    finding = next(line for line in stocked.page("rack").findings if line.key == "purchase")
    assert any(way.word.startswith("Release L-11") for way in finding.ways) or "L-11 is reserved" in finding.reason


# -- counting day, lots


def test_counting_day_walks_along_the_shelves_and_corrects_with_a_move(stocked: Session) -> None:
    begun = stocked.act("counting")
    rows = table(stocked.page("rack"), "counting").rows
    assert begun.next_key == next(cell.key for row in rows for cell in row.cells if cell.editable)
    heads = [row.cells[0].text for row in rows if row.head]
    assert heads == ["Shelf A1", "Shelf A4", "Shelf B2", "Without a shelf"]
    stocked.enter(key("rack:pieces", "L-11", "counted"), "0")
    stocked.enter(key("rack:pieces", "L-13", "counted"), "1")
    rack = stocked.rack.rack
    assert rack.pieces["L-11"].state == "used up"
    last = list(rack.moves.values())[-2:]
    assert [(one.line.kind, one.line.piece) for one in last] == [("count", "L-11"), ("look", "L-13")]
    assert last[0].line.why == "found on counting day"


def test_a_lot_of_hardware_is_typed_in_and_leaves_the_purchase_list(stocked: Session) -> None:
    def hinges() -> list[str]:
        return [
            row.cells[2].text for row in table(stocked.page("bill"), "purchases").rows if "hinge" in row.cells[0].text
        ]

    before = hinges()
    stocked.act("rack-lot")
    for field, text in (("what", "half cover"), ("count", "3"), ("shelf", "H1")):
        assert stocked.enter(key("rack:lots", "H-01", field), text).problem == ""
    assert (before, hinges()) == (["4"], ["1"])


# -- the bill


def test_prices_typed_in_come_out_in_the_quote_and_take_their_condition_away(stocked: Session) -> None:
    def conditions() -> list[str]:
        return [row.cells[0].text for row in table(stocked.page("bill"), "conditions").rows]

    assert any("price of an hour" in one for one in conditions())
    stocked.act(key("new", "operations"))
    row = next(iter(stocked.job.operations))
    for place, text in (
        (key("pricings", "pricing", "rate"), "60"),
        (key("pricings", "pricing", "currency"), "EUR"),
        (key("operations", row, "setup"), "30"),
        (key("operations", row, "each"), "15"),
    ):
        assert stocked.enter(place, text).problem == ""
    lines = {row.cells[0].text: row.cells[1].text for row in table(stocked.page("bill"), "quote").rows}
    assert lines["work"] == "60.00"  # half an hour to set up and two fronts of a quarter: one hour at 60
    assert lines["the quote"].endswith(" EUR")
    assert not any("price of an hour" in one for one in conditions())


def test_what_is_pulled_stands_by_shelf_and_can_be_reserved(stocked: Session) -> None:
    page = stocked.page("bill")
    pull = table(page, "pull")
    assert [row.subject for row in pull.rows if row.cells[0].text == "A1"] == ["L-11"]
    assert stocked.act(pull.actions[0].key).problem == ""
    assert stocked.rack.rack.reservations["L-11"].job == stocked.rack.mark


def test_prices_and_sizes_are_kept_in_the_shop_for_the_next_job(stocked: Session) -> None:
    stocked.enter(key("pricings", "pricing", "rate"), "55")
    assert stocked.act(key("keep-in-shop", "pricings", "pricing")).problem == ""
    assert stocked.act(key("keep-in-shop", "supplier_sizes", "4/4 x 6 x 96")).problem == ""
    assert list(stocked.shop.supplier_sizes) == ["4/4 x 6 x 96"]
    stocked.page("shop", "Supplier sizes")
    place = key("shop:supplier_sizes", "4/4 x 6 x 96", "price")
    assert place in cells_of(stocked.page("shop"))
    assert stocked.enter(place, "7.10").problem == ""
    price = stocked.shop.supplier_sizes["4/4 x 6 x 96"].price
    assert price is not None
    assert price.text == "7.10"


def test_without_a_shop_file_the_page_shows_the_pieces_of_the_job(stocked: Session) -> None:
    alone = RackDesk(stocked._book, None, "No shop file can be opened there.", lambda: "2026-11-25")
    stocked._rack = alone
    stocked.take_anew()
    page = stocked.page("rack")
    assert ids(page) == ["L-01", "L-02", "L-03", "L-04"]
    assert page.advice.startswith("No shop file is open")
    cells: dict[str, Cell] = cells_of(page)
    assert key("pieces", "L-01", "length") in cells


def test_the_drawing_of_a_piece_has_its_bad_places(stocked: Session) -> None:
    stocked.select("L-11")
    stocked.act(key("rack-defect", "L-11", "in"))
    (bad,) = [one.id for one in stocked.rack.rack.defects_of("L-11")]
    for field, text in (("along", "0"), ("across", "1/2"), ("length", "2"), ("width", "1")):
        stocked.enter(key("rack:defects", bad, field), text)
    board = stocked.page("rack").board
    assert board is not None
    rings = [mark for mark in board.drawings[0].marks if isinstance(mark, Ring)]
    assert [ring.cross for ring in rings] == [True]


def test_cuts_tells_of_free_pieces_of_the_rack_that_serve_until_they_are_reserved(laundry: Session) -> None:
    laundry.act("rack-take-in")
    laundry.act(key("rack-release", "L-04"))
    assert "L-04" not in laundry.job.pieces
    (line,) = [one for one in laundry.page("cuts").findings if one.key == "on the rack"]
    assert line.title == "L-04"
    laundry.act(line.ways[0].key)
    assert "L-04" in laundry.job.pieces
    assert not [one for one in laundry.page("cuts").findings if one.key == "on the rack"]


def test_hinges_kept_for_another_job_are_not_counted_on_the_bill_and_own_ones_are(stocked: Session) -> None:
    stocked.act("rack-lot")
    (lot,) = stocked.rack.rack.lots
    stocked.enter(key("rack:lots", lot, "count"), "10")
    place = key("rack:lots", lot, "kept")
    assert place in cells_of(stocked.page("rack"))
    assert stocked.enter(place, "4").said == f"4 of {lot} kept for this job"
    row = next(row for row in table(stocked.page("rack"), "lots").rows if row.subject == lot)
    assert row.cells[3].text == "4"
    other = stocked.rack._move("reserve", lot, count=6)
    stocked.rack.make(replace(other, line=replace(other.line, job="other")))
    assert [one.count for one in lots_for(stocked.rack.rack, stocked.rack.mark)] == [4]
    assert "6 of them kept for others" in stocked.enter(place, "5").problem
    assert stocked.enter(place, "").problem == ""
    assert len(stocked.rack.rack.reservations) == 5


def test_the_counting_list_is_printed_by_shelf_with_every_piece_that_is_there(stocked: Session) -> None:
    stocked.act(key("rack-burn", "L-12"))
    stocked.act("counting")
    action = next(one for one in stocked.page("rack").actions if one.word == "Print the counting list")
    prints = stocked.act(action.key).prints
    found = stocked.sheet_pdf(prints)
    assert isinstance(found, bytes)
    text = PdfReader(BytesIO(found)).pages[0].extract_text()
    assert text.index("Shelf A1") < text.index("Shelf B2")
    assert "L-11" in text
    assert "L-12" not in text
    assert stocked.sheets_printed(prints).problem == ""


def test_a_wet_board_that_would_serve_is_offered_to_be_dried_and_its_new_moisture_entered(stocked: Session) -> None:
    way = next(
        way for line in stocked.page("rack").findings for way in line.ways if way.word.startswith("Dry L-12: enter")
    )
    outcome = stocked.act(way.key)
    assert (outcome.chapter, outcome.next_key) == ("rack", key("rack:pieces", "L-12", "moisture"))
    assert outcome.next_key in cells_of(stocked.page("rack"))
    stocked.enter(outcome.next_key, "8")
    assert not any(way.word.startswith("Dry L-12") for line in stocked.page("rack").findings for way in line.ways)

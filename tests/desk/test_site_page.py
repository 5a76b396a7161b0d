"""The Site page: its parts, what is entered there, and what comes of it."""

from __future__ import annotations

from frontwright.core.plan import billed_whole
from frontwright.desk.contents import PageContents, Table
from frontwright.desk.order import cells, cells_of
from frontwright.desk.pages.site import FINISH, HANGING, MADE, PACKING, SNAGS, WORK
from frontwright.desk.session import Session

PARTS = (WORK, FINISH, MADE, HANGING, PACKING, SNAGS)


def part(session: Session, name: str) -> PageContents:
    return session.page("site", name)


def table(page: PageContents, key: str) -> Table:
    return next(block for band in page.bands for block in band if isinstance(block, Table) and block.key == key)


def texts(of: Table) -> list[list[str]]:
    return [[cell.text for cell in row.cells] for row in of.rows]


def test_the_page_shows_a_part_at_a_time(kept: Session) -> None:
    for name in PARTS:
        page = part(kept, name)
        assert page.chosen == name
        assert page.bands
    assert part(kept, "nonsense").chosen == WORK


def test_choosing_a_part_selects_nothing(kitchen: Session) -> None:
    kitchen.select("F5")
    kitchen.choose("site", HANGING)
    assert kitchen.selected == "F5"


def test_a_finish_that_is_added_is_reckoned_with_at_once_and_undo_takes_it_back(kitchen: Session) -> None:
    before = kitchen.job
    kitchen.act("new/finishes")
    assert kitchen.enter("finishes/finish 1/coats", "2").problem == ""
    assert kitchen.enter("finishes/finish 1/cover", "12").problem == ""
    (batch,) = kitchen.plan.finish.batches
    assert (batch.id, len(batch.steps)) == ("finish 1", 2)
    for _ in range(3):
        kitchen.undo()
    assert kitchen.job == before


def test_a_recipe_that_cannot_be_is_refused_with_one_sentence_and_nothing_is_lost(kitchen: Session) -> None:
    kitchen.act("new/finishes")
    before, volume = kitchen.job, kitchen.plan.finish.batches[0].volume
    assert "between" in kitchen.enter("finishes/finish 1/cover", "0").problem
    for place, text in (("coats", "two"), ("dry_hours", "-1"), ("extra", "150"), ("hang_days", "soon")):
        outcome = kitchen.enter(f"finishes/finish 1/{place}", text)
        assert outcome.problem or outcome.said
        assert (outcome.problem or outcome.said).count(".") >= 1
    assert kitchen.plan.finish.batches[0].volume == volume
    assert kitchen.job.finishes["finish 1"].coats == before.finishes["finish 1"].coats


def test_the_first_day_gives_dates(kitchen: Session) -> None:
    kitchen.enter("finish_rooms/finish room/start", "2026-03-30")
    rows = texts(table(part(kitchen, FINISH), "calendar"))
    assert rows[0][0] == "day 1, 30 March"
    assert any(row[0] == "day 3, 1 April" for row in rows)
    kitchen.enter("finish_rooms/finish room/start", "next week")
    assert texts(table(part(kitchen, FINISH), "calendar"))[0][0] == "day 1"


def test_a_test_piece_is_a_record_of_its_own(kitchen: Session) -> None:
    kitchen.act("new/finishes")
    kitchen.act("new/test_pieces")
    for name, text in (("finish", "finish 1"), ("matches", "table"), ("age", "12 years"), ("batch", "OK3")):
        assert kitchen.enter(f"test_pieces/test piece 1/{name}", text).problem == ""
    row = kitchen.job.test_pieces["test piece 1"]
    assert (row.finish, row.matches, row.age, row.batch) == ("finish 1", "table", "12 years", "OK3")
    kitchen.act("delete/finishes/finish 1")
    assert kitchen.job.test_pieces["test piece 1"].finish is None


def test_flat_and_straight_is_a_statement_and_a_size_of_nothing_is_not(kitchen: Session) -> None:
    assert kitchen.enter("as_built/F5 wind/value", "0").problem == ""
    assert kitchen.plan.made.fronts["F5"].wind is not None
    assert "zero" in kitchen.enter("as_built/F5 width/value", "0").problem


def test_a_wound_front_is_found_on_this_page_and_leads_to_its_cell(kitchen: Session) -> None:
    kitchen.enter("as_built/F5 wind/value", "9")
    (finding,) = part(kitchen, MADE).findings
    assert "more than they can be" in finding.sentence
    outcome = kitchen.act(finding.ways[0].key)
    assert outcome.chapter == "site"
    assert outcome.next_key in cells_of(kitchen.page("site"))


def test_hanging_is_listed_in_its_order_beside_the_drawing(kept: Session) -> None:
    page = part(kept, HANGING)
    fronts = [row.cells[1].text for row in table(page, "turns").rows if not row.head]
    assert fronts[:2] == ["F5", "F7L"]
    assert page.board is not None
    assert page.board.drawings[0].title == "in the order of hanging"


def test_what_is_glued_to_is_told_with_how_it_is_made_ready(kept: Session) -> None:
    rows = texts(table(part(kept, PACKING), "preparation"))
    assert rows
    assert any("degrease" in row[2] for row in rows)


def test_snags_are_added_filled_and_counted_until_they_are_done(kitchen: Session) -> None:
    kitchen.act("new/snags")
    kitchen.enter("snags/snag 1/what", "rubs")
    assert part(kitchen, SNAGS).advice == "1 snag not put right yet"
    kitchen.enter("snags/snag 1/done", "2026-04-02")
    assert part(kitchen, SNAGS).advice == ""


def test_hours_by_settings_and_coats_are_counted_by_the_plan(kitchen: Session) -> None:
    before = set(kitchen.job.operations)
    kitchen.act("new/operations")
    (one,) = set(kitchen.job.operations) - before
    kitchen.enter(f"operations/{one}/counts", "setting")
    hours = {h.operation: h.count for h in billed_whole(kitchen.plan).hours}
    assert hours[one] == len(kitchen.plan.making.set_ups)
    kitchen.enter(f"operations/{one}/counts", "coat")
    hours = {h.operation: h.count for h in billed_whole(kitchen.plan).hours}
    assert hours[one] == kitchen.plan.finish.coated


def test_every_part_has_as_many_cells_a_row_as_columns_and_no_key_twice(kept: Session) -> None:
    for name in PARTS:
        page = part(kept, name)
        keys = [cell.key for cell in cells(page) if cell.editable]
        assert len(keys) == len(set(keys)), name
        assert all(cell.name for cell in cells(page) if cell.editable)
        for band in page.bands:
            for block in band:
                if isinstance(block, Table):
                    widths = {len(row.cells) for row in block.rows if not row.head}
                    assert widths <= {len(block.columns)}, (name, block.key)


def test_every_cell_takes_back_what_it_shows(kitchen: Session) -> None:
    for action in ("new/finishes", "new/test_pieces", "new/snags"):
        kitchen.act(action)
    before = kitchen.job
    for name in (FINISH, SNAGS):
        for cell in [one for one in cells(part(kitchen, name)) if one.editable]:
            assert kitchen.enter(cell.key, cell.text).problem == "", cell
    assert kitchen.job == before

"""An open job: drafts, pasting, undo across closing, the shop, the sheets, a random user."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path

import pytest
from frontwright.core.job import Answer, Job
from frontwright.desk.contents import PageContents, SheetLine
from frontwright.desk.edits.start import NewJob
from frontwright.desk.order import cells, cells_of
from frontwright.desk.session import Session, SessionError
from frontwright.exchange.json_form import job_from_json

Opener = Callable[[Job | str], Session]
CHAPTERS = ("brief", "survey", "fronts", "making", "veneer", "bill", "sheets", "shop")


def _shop(session: Session) -> Path:
    return session.path.parent / "shop.frontwright-shop"


def test_steps_drafts_and_the_job_survive_closing(laundry: Session) -> None:
    laundry.enter("readings/OA/width/top", "21 1/8")
    laundry.keep_draft("readings/OB/width/top", "21 1/")
    after = laundry.job
    laundry.close()
    again = Session.open(laundry.path, _shop(laundry))
    assert again.job == after
    assert again.drafts() == {"readings/OB/width/top": "21 1/"}
    assert again.undo_name == "width, top, of OA"
    again.undo()
    assert again.redo_name == "width, top, of OA"
    again.close()


def test_a_refused_text_is_there_with_its_reason_when_the_job_is_opened_again(laundry: Session) -> None:
    problem = laundry.enter("readings/OB/width/top", "0").problem
    laundry.close()
    again = Session.open(laundry.path, _shop(laundry))
    cell = next(c for c in cells(again.page("survey")) if c.key == "readings/OB/width/top")
    assert (cell.text, cell.unread, cell.hint) == ("0", True, problem)
    again.enter("readings/OB/width/top", "21 1/16")
    assert again.drafts() == {}
    again.close()


def test_a_pasted_block_is_one_step_and_what_cannot_stand_is_kept_as_typed(kitchen: Session) -> None:
    before = kitchen.job
    places = [f"readings/{one}/width/top" for one in ("1", "2", "3")]
    outcome = kitchen.paste(places, ["542", "0", "543"])
    assert "zero" in outcome.said
    assert kitchen.undo_name == "paste 2 cells"
    assert kitchen.drafts() == {places[1]: "0"}
    kitchen.undo()
    assert kitchen.job == before


def test_the_step_moves_with_every_change_and_with_none_that_is_none(kitchen: Session) -> None:
    seen: list[int] = []
    kitchen.listen(lambda: seen.append(kitchen.step))
    kitchen.enter("door_builds/kitchen/stile", "70")
    assert seen == []
    kitchen.enter("door_builds/kitchen/stile", "71")
    kitchen.undo()
    assert seen == [kitchen.step - 1, kitchen.step]


def test_undo_with_nothing_to_undo_says_so(kitchen: Session) -> None:
    assert kitchen.undo().problem == "There is nothing to undo."
    assert kitchen.redo().problem == "There is nothing to do again."


def test_a_page_is_made_once_until_something_changes(kitchen: Session) -> None:
    first = kitchen.page("survey")
    assert kitchen.page("survey") is first
    kitchen.select("S3")
    assert kitchen.page("survey") is not first


def test_every_page_has_a_name_for_each_cell_that_can_be_edited_and_no_key_twice(kitchen: Session) -> None:
    for chapter in CHAPTERS:
        page = kitchen.page(chapter)
        editable = [cell for cell in cells(page) if cell.editable]
        assert all(cell.name for cell in editable)
        keys = [cell.key for cell in editable if not cell.key.endswith("/fronts")]  # a pair has its opening twice
        assert len(keys) == len(set(keys)), chapter


def test_every_cell_that_can_be_edited_takes_back_what_it_shows(kitchen: Session, laundry: Session) -> None:
    for session in (kitchen, laundry):
        before = session.job
        for chapter in CHAPTERS:
            shown = [c for c in cells(session.page(chapter)) if c.editable and c.text]
            for cell in shown:
                outcome = session.enter(cell.key, cell.text)
                assert (outcome.problem, session.job) == ("", before), cell.key


def test_an_entry_of_the_shop_comes_into_the_job_when_it_is_chosen(kitchen: Session) -> None:
    assert kitchen.act("keep-in-shop/hinge_types/cover 18").problem == ""
    assert kitchen.act("keep-in-shop/door_builds/hutch").problem == ""
    kitchen.act("delete/door_builds/hutch")
    kitchen.act("delete/panel_builds/veneered")
    assert "hutch" not in kitchen.job.door_builds
    assert kitchen.enter("looks/run:H/door_build", "hutch").problem == ""
    assert kitchen.job.door_builds["hutch"].panel == "veneered"
    assert "veneered" in kitchen.job.panel_builds
    kitchen.undo()
    assert "hutch" not in kitchen.job.door_builds


def test_an_entry_that_moved_on_in_the_shop_is_offered_and_taken_over(kitchen: Session) -> None:
    kitchen.act("keep-in-shop/door_builds/kitchen")
    assert kitchen.page("shop").advice == ""
    assert kitchen.enter("shop:door_builds/kitchen/stile", "65").problem == ""
    assert kitchen.job.door_builds["kitchen"].stile != kitchen.shop.door_builds["kitchen"].stile
    page = kitchen.page("shop")
    assert "1 entry differs" in page.advice
    assert kitchen.act(page.actions[0].key).problem == ""
    assert kitchen.job.door_builds["kitchen"] == kitchen.shop.door_builds["kitchen"]
    assert kitchen.page("shop").advice == ""


def test_what_cannot_be_is_refused_in_the_shop_too(kitchen: Session) -> None:
    kitchen.act("keep-in-shop/door_builds/kitchen")
    shop = kitchen.shop
    assert "zero" in kitchen.enter("shop:door_builds/kitchen/stile", "0").problem
    assert kitchen.shop == shop


def test_entries_of_the_shop_are_added_and_taken_out(kitchen: Session) -> None:
    kitchen.act("shop-new/machines")
    assert list(kitchen.shop.machines) == ["saw 1"]
    kitchen.act("shop-delete/machines/saw 1")
    assert list(kitchen.shop.machines) == []


# -- sheets


def test_a_printed_sheet_is_current_until_a_figure_on_it_changes_and_then_says_which(laundry: Session) -> None:
    door = next(line for line in laundry.sheets() if line.kind == "door" and line.subject == "DA")
    assert door.state == "not printed"
    assert isinstance(laundry.sheet_pdf((door.key,)), bytes)
    laundry.sheets_printed((door.key,))
    assert _sheet(laundry, door.key).state == "current"
    laundry.enter("door_builds/framed/stile", "2 1/2")
    stale = _sheet(laundry, door.key)
    assert stale.state == "stale"
    assert "2 1/4" in stale.reason
    assert "now" in stale.reason
    laundry.sheets_printed((door.key,))
    assert laundry.job.printed[door.key].version == 2
    assert _sheet(laundry, door.key).state == "current"


def test_a_stop_holds_its_sheets_back_until_it_is_answered(open_session: Opener, laundry: Session) -> None:
    laundry = open_session(laundry.job.drop(Answer, "closure R1"))
    laundry.act("remove/members/seam")
    held = [line for line in laundry.sheets() if line.state == "held"]
    assert held
    said = laundry.sheet_pdf((held[0].key,))
    assert isinstance(said, str)
    assert "held back" in said
    finding = next(f for f in laundry.page("survey").findings if f.level == "stop")
    assert "door sheet" in finding.holds
    laundry.answer(finding.key, "the frame was planed since")
    assert not [line for line in laundry.sheets() if line.state == "held"]
    assert isinstance(laundry.sheet_pdf((held[0].key,)), bytes)


def _sheet(session: Session, key: str) -> SheetLine:
    return next(line for line in session.sheets() if line.key == key)


# -- opening, beginning, copies


def test_a_job_that_cannot_be_opened_is_answered_in_one_sentence(tmp_path: Path) -> None:
    foreign = tmp_path / "letter.frontwright"
    foreign.write_text("dear client")
    for path in (foreign, tmp_path, tmp_path / "nowhere.frontwright"):
        with pytest.raises(SessionError, match=r"\.$"):
            Session.open(path, tmp_path / "shop.frontwright-shop")
    assert foreign.read_text() == "dear client"


def test_a_shop_file_that_cannot_be_opened_is_said_and_the_job_opens_without_it(tmp_path: Path) -> None:
    (tmp_path / "shop.txt").write_text("no shop")
    session = Session.start(tmp_path / "job.frontwright", NewJob(width="21", height="26 1/2"), tmp_path / "shop.txt")
    assert "not a shop file" in session.shop_problem
    assert len(session.plan.fronts.fronts) == 1
    assert "not a shop file" in session.act("shop-new/machines").problem
    session.close()


def test_a_copy_as_json_is_the_same_job(kitchen: Session, tmp_path: Path) -> None:
    path = tmp_path / "kitchen.json"
    assert str(path) in kitchen.export(path).said
    assert job_from_json(path.read_text("utf-8")) == kitchen.job
    assert json.loads(path.read_text("utf-8"))["format"] == "frontwright-job"
    assert kitchen.export(tmp_path / "no folder" / "kitchen.json").problem != ""


# -- a random user


@pytest.mark.parametrize("seed", range(4))
def test_a_random_user_can_always_undo_to_the_beginning_and_redo_to_the_end(open_session: Opener, seed: int) -> None:
    chance = random.Random(seed)
    session = open_session("kitchen-run" if seed % 2 else "laundry-pair")
    begun = session.job
    for _ in range(25):
        _do_something(session, chance)
    ended = session.job
    session.page("survey")  # what undo takes back is told for the page that is open: on Shop, the shop's own steps
    while session.undo_name:
        session.undo()
    assert session.job == begun
    while session.redo_name:
        session.redo()
    assert session.job == ended
    session.close()
    again = Session.open(session.path, _shop(session))
    assert again.job == ended
    again.close()


def _do_something(session: Session, chance: random.Random) -> None:
    page = session.page(chance.choice(CHAPTERS))
    kind = chance.random()
    editable = [cell for cell in cells(page) if cell.editable]
    if kind < 0.6 and editable:
        cell = chance.choice(editable)
        choices = [choice.value for choice in cell.choices]
        texts = choices or ["", "0", "21 1/2", "700", "12", "yes", "letters", "3/4", "-4"]
        session.enter(cell.key, chance.choice(texts))
    elif kind < 0.8:
        actions = _actions(page)
        if actions:
            session.act(chance.choice(actions))
    elif kind < 0.9:
        session.undo()
        session.redo()
    else:
        session.select(chance.choice([*session.job.openings, *session.job.fronts, *session.job.members]))


def _actions(page: PageContents) -> list[str]:
    found = [action.key for action in page.actions]
    for band in page.bands:
        for block in band:
            found += [action.key for action in block.actions]
    for finding in page.findings:
        found += [way.key for way in finding.ways]
    return found


def test_on_the_shop_page_undo_takes_back_the_shops_step_and_elsewhere_the_jobs(laundry: Session) -> None:
    laundry.page("survey")
    laundry.enter("readings/R1/overall/mid", "48 1/4")
    laundry.page("shop")
    before = dict(laundry.shop.door_builds)
    laundry.act("shop-new/door_builds")
    (new,) = set(laundry.shop.door_builds) - set(before)
    laundry.enter(f"shop:door_builds/{new}/name", "thin doors")
    assert laundry.undo_name == f"name of {new}, in the shop"
    laundry.undo()
    laundry.undo()
    assert dict(laundry.shop.door_builds) == before
    assert laundry.redo().problem == ""
    assert set(laundry.shop.door_builds) == {*before, new}
    laundry.page("survey")
    assert "overall" in laundry.undo_name
    laundry.undo()
    assert [r.value.text for r in laundry.job.readings.values() if r.what == "overall" and r.value] == ["48 3/16"]
    assert set(laundry.shop.door_builds) == {*before, new}


def test_on_the_shop_page_undo_takes_back_what_was_changed_of_the_jobs_copy(laundry: Session) -> None:
    laundry.page("shop")
    laundry.act("shop-new/door_builds")
    (new,) = laundry.shop.door_builds
    build = next(iter(laundry.job.door_builds))
    laundry.enter(f"door_builds/{build}/name", "my own")
    assert laundry.undo_name.startswith("name of")
    laundry.undo()
    assert laundry.job.door_builds[build].name != "my own"
    assert new in laundry.shop.door_builds


def test_an_opening_put_in_is_typed_into_next(laundry: Session) -> None:
    laundry.page("survey")
    outcome = laundry.act("add-column/R1/B2")
    column = laundry.job.openings[outcome.select].column
    assert outcome.next_key == f"readings/{column}/across/mid"


def test_a_finding_marks_the_cells_in_which_it_is_put_right_and_no_others(laundry: Session) -> None:
    laundry.page("survey")
    laundry.enter("readings/R1/overall/mid", "48 1/2")
    cells = cells_of(laundry.page("survey"))
    assert cells["readings/R1/overall/mid"].level == "stop"
    assert cells["runs/R1/slope_over"].level == "ok"
    assert {key for key, cell in cells.items() if cell.level == "stop"} == {
        "readings/R1/overall/mid",
        "figure/R1/difference",
    }


def test_advice_names_what_waits_for_the_reading_and_no_billet_that_lies_there(laundry: Session) -> None:
    laundry.page("survey")
    assert "billet" not in laundry.page("survey").advice
    laundry.enter("readings/OB/diagonal/\\", "")
    assert laundry.page("survey").advice == "Read next: diagonals of OB"


def test_a_look_that_goes_by_reveals_is_told_by_its_reveal(laundry: Session) -> None:
    laundry.page("fronts")
    laundry.enter("looks/room:laundry/reveal", "1 1/8")
    assert "reveal 1 1/8;" in laundry.page("fronts").advice


def test_beside_a_board_at_the_right_the_fronts_have_the_whole_width(laundry: Session, kitchen: Session) -> None:
    assert [[block.key for block in band] for band in laundry.page("fronts").bands][:2] == [
        ["fronts"],
        ["sums", "look"],
    ]
    assert [block.key for block in kitchen.page("fronts").bands[0]] == ["look", "fronts", "sums"]

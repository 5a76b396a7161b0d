"""The questions of the first visit may stay *not asked*; then they are conditions of the price."""

from __future__ import annotations

from frontwright.core.brief import QUESTIONS
from frontwright.core.plan import billed_whole, quoted
from frontwright.desk.contents import Form, Table
from frontwright.desk.order import cells_of
from frontwright.desk.session import Session


def questions(session: Session) -> dict[str, tuple[str, str]]:
    """Answer and mark of each question on the page."""
    blocks = [block for band in session.page("brief").bands for block in band]
    (table,) = [block for block in blocks if isinstance(block, Table) and block.key == "questions"]
    return {row.subject: (row.cells[1].text, row.cells[2].text) for row in table.rows if not row.head}


def conditions(session: Session) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for one in quoted(session.plan, billed_whole(session.plan)).conditions:
        found.setdefault(one.kind, []).append(one.of)
    return found


def test_a_question_is_not_asked_until_something_was_said_to_it(laundry: Session) -> None:
    assert len(questions(laundry)) == len(QUESTIONS)
    assert questions(laundry)["empties"] == ("", "not asked, nothing can be begun before")
    assert laundry.enter("asked/empties/answer", "the client, the evening before").problem == ""
    assert questions(laundry)["empties"] == ("the client, the evening before", "nothing can be begun before")
    laundry.undo()
    assert questions(laundry)["empties"] == ("", "not asked, nothing can be begun before")


def test_what_was_not_asked_is_a_condition_of_the_price_and_what_was_is_none(laundry: Session) -> None:
    short = "whether the counter will change within two years"
    assert short in conditions(laundry)["not asked"]
    laundry.enter("asked/counter changes/answer", "no")
    assert short not in conditions(laundry)["not asked"]


def test_a_match_without_a_sample_is_quoted_as_a_near_match(laundry: Session) -> None:
    assert "near match" not in conditions(laundry)
    laundry.enter("briefs/brief/match_what", "the cherry next door")
    assert conditions(laundry)["near match"] == ["the cherry next door"]
    laundry.enter("briefs/brief/match_sample", "yes")
    assert "near match" not in conditions(laundry)


def test_a_year_has_four_figures(laundry: Session) -> None:
    assert "is a year" in laundry.enter("briefs/brief/house_year", "62").problem
    assert laundry.enter("briefs/brief/house_year", "1962").problem == ""
    assert laundry.job.briefs["brief"].house_year == 1962


def test_a_question_that_is_none_of_the_fixed_ones_is_refused(laundry: Session) -> None:
    assert laundry.enter("asked/colour of the cat/answer", "grey").problem != ""
    assert not laundry.job.asked


def test_a_photograph_is_noted_with_its_run(laundry: Session) -> None:
    assert laundry.enter("photos/R1 toe kick/file", "0412").problem == ""
    row = laundry.job.photos["R1 toe kick"]
    assert (row.run, row.what, row.file) == ("R1", "toe kick", "0412")


# -- the condition on the Survey page


def block(session: Session, name: str) -> Table | Form:
    blocks = [block for band in session.page("survey").bands for block in band]
    return next(block for block in blocks if block.key == name)


def test_the_survey_tells_of_each_surface_whether_it_may_be_glued_to(kitchen: Session) -> None:
    def verdict() -> dict[str, str]:
        prepared = block(kitchen, "prepared")
        assert isinstance(prepared, Table)
        return {row.subject: row.cells[1].text for row in prepared.rows}

    assert verdict() == {"K faces": "yes, sound finish", "K right end": "yes, sound finish"}
    kitchen.enter("surfaces/K faces/state", "lifting")
    assert verdict()["K faces"] == "not as it is"
    kitchen.enter("surfaces/K faces/finish", "")
    assert verdict()["K faces"] == "not looked at"


def test_a_surface_that_was_never_spoken_of_can_be_added(kitchen: Session) -> None:
    kitchen.act("add-surface/K/toe kick")
    assert "surfaces/K toe kick/finish" in cells_of(kitchen.page("survey"))


def test_what_can_hurt_stands_with_the_run_and_defers_to_local_codes(kitchen: Session) -> None:
    kitchen.enter("surfaces/K faces/finish", "paint")
    kitchen.enter("surfaces/K faces/swab", "lead")
    hazards = block(kitchen, "hazards")
    assert isinstance(hazards, Table)
    assert "Local codes" in hazards.aside
    texts = " ".join(cell.text for row in hazards.rows for cell in row.cells)
    assert "no dry sanding" in texts
    assert "wipe down wet" in texts
    assert "sheet off floor" in texts


def test_a_renamed_run_keeps_its_surfaces_and_a_run_taken_out_takes_them_along(kitchen: Session) -> None:
    kitchen.enter("runs/K/id", "long")
    assert kitchen.plan.condition.surface("long", "faces") is not None
    kitchen.act("remove/runs/long")
    assert {row.run for row in kitchen.job.surfaces.values()} == {"H"}


def test_old_hinges_are_told_in_seven_figures_where_their_opening_is_selected(kitchen: Session) -> None:
    kitchen.select("5")
    seven = block(kitchen, "seven")
    assert isinstance(seven, Form)
    said = kitchen.enter("old_hinges/5/cup", "35")
    assert said.problem == ""
    assert kitchen.job.old_hinges["5"].cup is not None


def test_a_button_of_the_survey_leads_to_the_condition_of_its_run(kitchen: Session) -> None:
    (action,) = [one for one in kitchen.page("survey").actions if one.word == "Condition"]
    outcome = kitchen.act(action.key)
    assert (outcome.chapter, outcome.next_key) == ("survey", "surfaces/K faces/finish")
    assert outcome.next_key in cells_of(kitchen.page("survey"))

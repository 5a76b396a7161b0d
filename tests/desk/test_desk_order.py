"""Cells in measuring order: Enter leads from reading to reading, through all openings of a kitchen."""

from __future__ import annotations

from collections.abc import Callable

from frontwright.core.job import Front, FrontRow, Job, Reading
from frontwright.desk.contents import Table
from frontwright.desk.keys import key
from frontwright.desk.order import measuring_order
from frontwright.desk.session import Session

Opener = Callable[[Job | str], Session]
TWELVE = [str(number) for number in range(1, 13)]
EIGHT = (
    ("width", "top"),
    ("width", "middle"),
    ("width", "bottom"),
    ("height", "left"),
    ("height", "middle"),
    ("height", "right"),
    ("diagonal", "\\"),
    ("diagonal", "/"),
)


def test_the_openings_are_read_width_height_diagonals_from_the_left_and_the_top(kitchen: Session) -> None:
    order = [place for place in measuring_order(kitchen.page("survey")) if place.startswith("readings/")]
    read = [place for place in order if place.split("/")[1] in TWELVE and place.split("/")[2] != "wind gap"]
    assert read == [key("readings", one, what, at) for one in TWELVE for what, at in EIGHT]


def test_the_run_is_read_before_its_openings(kitchen: Session) -> None:
    order = measuring_order(kitchen.page("survey"))
    assert order.index("readings/S6/across/") < order.index("readings/K/overall/")
    assert order.index("readings/K/height/middle") < order.index("readings/1/width/top")


def test_the_twelve_openings_are_typed_with_one_closing_key_a_reading(open_session: Opener, kitchen: Session) -> None:
    """Run and rails stand; each reading takes its text and one key, what an opening holds one choice."""
    whole = kitchen.job
    readings = {r.id: r for r in whole.readings.values() if r.of in TWELVE}
    bare = whole.drop(Reading, *readings).drop(FrontRow, "top row")
    bare = bare.drop(Front, *(f.id for f in whole.fronts.values() if f.opening in TWELVE))
    session = open_session(bare)
    session.page("survey")
    place = key("readings", "1", "width", "top")
    for one in TWELVE:
        for what, at in EIGHT:
            assert place == key("readings", one, what, at)
            text = next(r.value.text for r in readings.values() if (r.of, r.what, r.at) == (one, what, at) and r.value)
            outcome = session.enter(place, text)
            assert outcome.problem == ""
            place = outcome.next_key
    assert {(r.of, r.what, r.at, r.value) for r in session.job.readings.values()} == {
        (r.of, r.what, r.at, r.value) for r in whole.readings.values()
    }
    assert [o.width.value for o in session.plan.survey.openings.values()] == [
        o.width.value for o in kitchen.plan.survey.openings.values()
    ]


def test_what_the_openings_hold_is_chosen_in_the_same_table_and_gives_the_samples_fronts(
    open_session: Opener, kitchen: Session
) -> None:
    whole = kitchen.job
    bare = whole.drop(FrontRow, "top row").drop(Front, *(f.id for f in whole.fronts.values() if f.opening in TWELVE))
    session = open_session(bare)
    holds = {o: "pair" if o in ("7", "9") else whole.fronts[f"F{o}"].kind for o in TWELVE}
    for one, what in holds.items():
        assert session.enter(key("openings", one, "fronts"), what).problem == ""
    assert {(f.id, f.opening, f.kind, f.place) for f in session.job.fronts.values()} == {
        (f.id, f.opening, f.kind, f.place) for f in whole.fronts.values()
    }


def test_enter_passes_over_choices_and_names_while_readings_are_typed(kitchen: Session) -> None:
    kitchen.page("survey")
    assert kitchen.enter("readings/1/diagonal/%2F", "554").next_key == "readings/2/width/top"


def test_the_tables_of_a_page_have_as_many_cells_a_row_as_columns(kitchen: Session, laundry: Session) -> None:
    for session in (kitchen, laundry):
        for chapter in ("brief", "survey", "fronts", "making", "bill", "sheets", "shop"):
            for band in session.page(chapter).bands:
                for block in band:
                    if isinstance(block, Table):
                        widths = {len(row.cells) for row in block.rows if not row.head and not row.result}
                        assert widths <= {len(block.columns)}, (chapter, block.key)


def test_a_run_is_typed_across_member_by_member_with_one_closing_key_a_reading(laundry: Session) -> None:
    laundry.page("survey")
    places = ["readings/A1/across/mid"]
    while places[-1].split("/")[2] != "overall":
        places.append(laundry.enter(places[-1], "1 1/2").next_key)
    assert [place.split("/")[2] for place in places] == ["across"] * (len(places) - 1) + ["overall"]
    assert len(places) == 8


def test_a_running_tape_goes_on_from_edge_to_edge(laundry: Session) -> None:
    laundry.page("survey")
    assert laundry.enter("readings/A1/edge right/mid", "1 1/2").next_key == "readings/A2/edge left/mid"

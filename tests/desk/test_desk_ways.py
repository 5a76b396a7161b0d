"""Findings on the page: each has its sentence, and each way out clears it or leads to the cell that does."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import get_args

import pytest
from frontwright.core.findings import Check, Code, WayOut
from frontwright.core.job import (
    Answer,
    Job,
)
from frontwright.core.lengths import typed
from frontwright.desk.keys import key
from frontwright.desk.order import cells_of
from frontwright.desk.session import Session
from frontwright.desk.ways import CHAPTER_OF, finding_key
from frontwright.desk.wording.checks import have, known_cases, need, reason, sentence, way_word

Opener = Callable[[Job | str], Session]
ENTER = "enter-billets"  # an action among the entries: the billets that the plan counts on
# entries, each on the sample named before it, that together bring every rule to speak
TROUBLES: list[tuple[str, list[tuple[str, str]]]] = [
    ("laundry-pair", [("readings/R1/overall/mid", "48 1/2")]),
    ("laundry-pair", [("readings/R1/overall/mid", "49 3/16")]),
    ("laundry-pair", [("readings/OB/width/top", "22")]),
    ("laundry-pair", [("readings/OB/diagonal/%2F", "34 1/2")]),
    ("laundry-pair", [("readings/OB/diagonal/%2F", "35"), ("readings/OB/diagonal/\\", "33")]),
    ("laundry-pair", [("readings/OA/wind gap/", "1/4"), ("members/A1/bow", "1/4")]),
    ("laundry-pair", [("panel_builds/veneered/core_is", ""), ("panel_builds/veneered/slice", "1/16")]),
    ("laundry-pair", [("panel_builds/veneered/slice", "1/20")]),
    ("laundry-pair", [("door_builds/framed/thickness", "1/2")]),
    ("laundry-pair", [("hinge_types/half cover/edge_distance", "1"), ("hinge_types/half cover/cup_depth", "3/4")]),
    ("laundry-pair", [("hinge_types/half cover/cover", "3/4")]),
    ("laundry-pair", [("door_builds/framed/top_rail", "1 1/4"), ("door_builds/framed/stile", "1 1/2")]),
    ("laundry-pair", [("as_built/DA-RT length/value", "18")]),
    ("laundry-pair", [("readings/OB/width/middle", ""), ("readings/OB/width/middle", "2x")]),
    ("laundry-pair", [("door_builds/framed/kind", "stub tenon"), ("panel_builds/veneered/kind", "solid")]),
    ("laundry-pair", [("panel_builds/veneered/kind", "solid"), ("door_builds/framed/clearance", "0.01")]),
    ("laundry-pair", [("panel_builds/veneered/kind", "solid"), ("door_builds/framed/clearance", "3/8")]),
    ("laundry-pair", [("looks/opening:OA/cover", "0.05"), ("looks/room:laundry/reveal", "2 3/4")]),
    ("kitchen-run", [("looks/run:K/gap", "1")]),
    ("kitchen-run", [("ends/K left/leans", "4")]),
    ("kitchen-run", [("front_rows/top row/kerf", "6")]),
    ("kitchen-run", [("fronts/F4/pin_left", "700")]),
    ("kitchen-run", [("as_built/F5 width/value", "380")]),
    ("kitchen-run", [("readings/HA/width/top", "848"), ("readings/HA/diagonal/%2F", "1250")]),
    ("kitchen-run", [("readings/7/width/middle", "700"), ("readings/7/width/top", "700")]),
    ("kitchen-run", [("readings/7/width/bottom", "700"), ("members/S0/bow", "3")]),
    ("kitchen-run", [("door_builds/kitchen/drawer_rail", "115")]),
    ("kitchen-run", [("looks/room:kitchen/cut", "flat"), ("rooms/kitchen/moisture_high", "20")]),
    ("kitchen-run", [("looks/opening:12/cover", "2"), ("looks/opening:12/scheme", "partial cover")]),
    ("laundry-pair", [("pressings/1/both_faces", "no")]),
    ("laundry-pair", [("pressings/1/helper", "no")]),
    ("laundry-pair", [("pressings/1/panels", "DA-P, DB-P"), ("pressings/1/helper", "no")]),
    ("laundry-pair", [("pressings/1/helper", "no"), ("pressings/1/clamps", "16")]),
    (
        "laundry-pair",
        [
            ("pressings/1/panels", "DA-P, DB-P"),
            ("pressings/1/lie", "side by side"),
            ("glues/wood glue/clamp_minutes", "30"),
        ],
    ),
    ("laundry-pair", [("pressings/1/panels", "DA-P, DB-P"), ("presses/clamps/opening", "3/4")]),
    ("laundry-pair", [("presses/clamps/bed_length", "20"), ("presses/clamps/bed_width", "20")]),
    ("laundry-pair", [("presses/clamps/kind", "vacuum bag"), ("presses/clamps/bag_pressure", "8")]),
    ("laundry-pair", [("panel_builds/veneered/core_grain", "along")]),
    ("laundry-pair", [(ENTER, ""), ("headings/job/shop_humidity", "50"), ("billets/A/moisture_shell", "14")]),
    ("laundry-pair", [("plane_passes/DA-P pass 1/thickness", "5/16")]),
    ("laundry-pair", [(ENTER, ""), ("billets/A/moisture_shell", "12"), ("billets/A/moisture_core", "8")]),
    ("laundry-pair", [(ENTER, ""), ("billets/A/thickness", "1/16")]),
    ("laundry-pair", [(ENTER, ""), ("machines/band saw/most_height", "5")]),
    ("laundry-pair", [(ENTER, ""), ("leaves/A1/thick_1", "1/8"), ("leaves/A1/left", "1 15/32")]),
    ("laundry-pair", [(ENTER, ""), ("leaves/A1/thick_1", "1/8"), ("leaves/A1/left", "1 1/2")]),
    ("laundry-pair", [(ENTER, ""), *((f"leaves/{leaf}/state", "spoiled") for leaf in ("C1", "C2", "D1", "D2"))]),
    ("laundry-pair", [(ENTER, ""), ("delete/billets/A", "")]),
    ("laundry-pair", [("machines/band saw/most_height", "5"), ("allowances/allowances/strip_leaf", "12")]),
    (
        "laundry-pair",
        [
            ("new/pull_types", ""),
            ("looks/room:laundry/pull", "pull 1"),
            ("pull_types/pull 1/projection", "2"),
            ("ends/R1 left/gap_top", "0"),
        ],
    ),
    ("laundry-pair", [("ends/R1 right/kind", "appliance"), ("ends/R1 right/gap_top", "1/8")]),
    ("kitchen-run", [("add-inside/2/drawer box", ""), ("insides/2 drawer box 1/width", "579")]),
    ("kitchen-run", [("surfaces/K faces/finish", "vinyl film"), ("surfaces/K faces/state", "lifting")]),
    ("kitchen-run", [("surfaces/K faces/finish", "vinyl film"), ("surfaces/K faces/trial", "")]),
    ("kitchen-run", [("as_built/F5 diagonal 1/value", "660"), ("as_built/F5 diagonal 2/value", "650")]),
    ("kitchen-run", [("as_built/F5 wind/value", "6"), ("as_built/F7L bow/value", "3")]),
    ("kitchen-run", [("as_built/F5 wind/value", "9"), ("as_built/F7L bow/value", "5")]),
    ("kitchen-run", [("as_built/F6 wind/value", "6"), ("as_built/F1 bow/value", "3")]),
    ("kitchen-run", [("surfaces/K faces/finish", "")]),
    ("kitchen-run", [("surfaces/K faces/finish", "paint"), ("surfaces/K faces/trial", "let go")]),
    ("kitchen-run", [("surfaces/K faces/finish", "oil or wax"), ("surfaces/K right end/finish", "bare")]),
    (
        "kitchen-run",
        [("surfaces/K faces/finish", "paint"), ("surfaces/K faces/swab", "lead"), ("surfaces/K faces/keyed", "")],
    ),
    ("kitchen-run", [("surfaces/K faces/finish", "paint"), ("surfaces/K faces/keyed", "")]),
    (
        "kitchen-run",
        [
            ("surfaces/K faces/finish", "paint"),
            ("surfaces/K faces/swab", "lead"),
            ("surfaces/K faces/keyed", "dry"),
            ("surfaces/K right end/finish", "paint"),
            ("surfaces/K right end/keyed", "dry"),
        ],
    ),
    ("kitchen-run", [("add-repair/K", ""), ("drawers/1/front", "fixed"), ("drawers/2/box_out", "20")]),
    ("kitchen-run", [("drawers/2/box_out", "1"), ("drawers/2/packing", "8")]),
    ("kitchen-run", [("drawers/2/box_front", "12"), ("drawers/2/screw", "60"), ("drawers/3/screw", "16")]),
    (
        "kitchen-run",
        [
            ("old_hinges/5/use", "again"),
            ("old_hinges/5/thickness", "17"),
            ("old_hinges/5/cover", "10"),
            ("old_hinges/5/worn", "yes"),
            ("old_hinges/5/count", "1"),
            ("old_hinges/5/edge_distance", "7"),
            ("old_hinges/5/cup", "60"),
            ("old_hinges/5/cup_depth", "18"),
            ("old_hinges/9/use", "again"),
            ("old_hinges/9/kind", "lipped door"),
            ("old_hinges/7/use", "replace"),
            ("old_hinges/7/plate_1", "58"),
        ],
    ),
    ("kitchen-run", [("facings/K/inside_edges", "all round"), ("facings/K/squared", "yes")]),
    ("kitchen-run", [("as_built/K S1 width/value", "60")]),
    (
        "kitchen-run",
        [("new/adhesives", ""), ("adhesives/adhesive 1/kind", "wood glue"), ("facings/K/adhesive", "adhesive 1")],
    ),
    (
        "kitchen-run",
        [("new/adhesives", ""), ("adhesives/adhesive 1/pot_minutes", "2"), ("facings/K/adhesive", "adhesive 1")],
    ),
    ("kitchen-run", [("add-trim/K/apron", ""), ("trims/K apron/slotted", "no")]),
    ("kitchen-run", [("hinge_types/cover 18/plate", "0"), ("fronts/F12/pin_left", "2836")]),
    (
        "kitchen-run",
        [
            ("hinge_types/cover 18/plate", "1"),
            ("new/plates", ""),
            ("plates/plate 1/height", "0"),
            ("plates/plate 1/count", "1"),
            ("new/plates", ""),
            ("plates/plate 2/height", "1"),
            ("plates/plate 2/count", "1"),
        ],
    ),
    (
        "kitchen-run",
        [
            ("add-inside/5/shelf", ""),
            ("insides/5 shelf 1/at", "40"),
            ("insides/5 shelf 1/height", "490"),
            ("hinge_types/cover 18/most_thickness", "18"),
        ],
    ),
    (
        "kitchen-run",
        [
            ("add-obstacle/K/above", ""),
            ("obstacles/K obstacle 1/away", "0"),
            ("new/pull_types", ""),
            ("pull_types/pull 1/projection", "60"),
            ("fronts/F12/hinge_side", "top"),
        ],
    ),
    ("badly laid", []),
    ("in a corner", []),
]


@pytest.fixture(scope="module")
def samples(kept_laundry: Session, kept: Session, badly_laid: Session, in_a_corner: Session) -> dict[str, Session]:
    found = {"laundry-pair": kept_laundry, "kitchen-run": kept, "badly laid": badly_laid}
    return {**found, "in a corner": in_a_corner}


@pytest.fixture(params=range(len(TROUBLES)))
def troubled(request: pytest.FixtureRequest, samples: dict[str, Session]) -> Iterator[Session]:
    """A sample in which something was entered that a rule speaks about."""
    name, entries = TROUBLES[request.param]
    session = samples[name]
    for place, text in entries:
        _do(session, place, text)
    yield session
    _all_undone(session)


def _do(session: Session, place: str, text: str) -> None:
    """Enter a text; or do an action, which has none."""
    if place.startswith((ENTER, "delete/", "new/", "add-")):
        assert session.act(place).problem == ""
    else:
        session.enter(place, text)


def _all_undone(session: Session) -> None:
    session.page("survey")  # on the Shop page undo is the shop's
    while session.undo_name:
        session.undo()
    for place in list(session.drafts()):
        session.drop_draft(place)


def _open(session: Session) -> Iterator[Check]:
    return (check for check in session.plan.checks if check.is_open)


def test_every_check_has_a_sentence_of_its_own_and_every_button_a_word(troubled: Session) -> None:
    for check in troubled.plan.checks:
        if check.state == "cleared":
            continue
        assert (check.code, check.case) in known_cases(), check
        said = sentence(check, troubled.display)
        assert said[0].isupper() or said[0].isdigit(), said
        assert said.endswith(".")
        assert "None" not in said + have(check, troubled.display) + need(check, troubled.display)
        assert reason(check, troubled.display) == "" or reason(check, troubled.display).endswith(".")
        words = [way_word(way, troubled.job, troubled.display) for way in check.ways]
        assert all(words)
        assert len(set(words)) == len(words), words


def test_a_way_out_clears_its_finding_or_leads_to_a_cell_that_is_on_its_page(troubled: Session) -> None:
    for check in list(_open(troubled)):
        for at, way in enumerate(check.ways):
            before = troubled.job
            outcome = troubled.act(key("way", finding_key(check), str(at)))
            assert outcome.problem == "", (check, way)
            if troubled.job != before:
                still = {finding_key(one) for one in _open(troubled)}
                if way.field != "billet":  # the leaf stays lost; the further billet gives another one for it
                    assert finding_key(check) not in still, (check, way)
                troubled.undo()
                assert troubled.job == before
                continue
            _leads_somewhere(troubled, outcome.chapter, outcome.next_key, outcome.select, way)


def _leads_somewhere(session: Session, chapter: str, place: str, subject: str, way: WayOut) -> None:
    page = session.page(chapter)
    if way.kind == "look at":
        assert subject == way.of
        return
    cell = cells_of(page).get(place)
    assert cell is not None, (chapter, place, way)
    assert cell.editable


def test_every_code_belongs_to_a_page() -> None:
    assert set(CHAPTER_OF) == set(get_args(Code))


def test_every_code_has_a_sentence() -> None:
    assert {code for code, _ in known_cases()} == set(get_args(Code))


def test_the_troubles_bring_every_rule_to_speak(samples: dict[str, Session]) -> None:
    spoken: set[str] = set()
    for name, entries in TROUBLES:
        for place, text in entries:
            _do(samples[name], place, text)
        spoken |= {check.code for check in _open(samples[name])}
        _all_undone(samples[name])
    assert spoken == set(get_args(Code)) - {"stale-sheet"}  # spoken by sheets that were printed, not by a plan


def test_edges_held_over_each_other_in_a_job_from_elsewhere_are_found_and_let_go(
    open_session: Opener, kitchen: Session
) -> None:
    held = replace(kitchen.job.fronts["F4"], pin_left=typed("1500", "mm"))
    session = open_session(kitchen.job.put(held))
    stops = [f for f in session.page("fronts").findings if f.level == "stop"]
    assert any("lie over each other" in stop.sentence for stop in stops)
    assert any("its edges cross" in stop.sentence for stop in stops)
    ways = [way for stop in stops for way in stop.ways if way.word == "Let F4 go from where it is held"]
    session.act(ways[0].key)
    assert not [f for f in session.page("fronts").findings if f.level == "stop"]


# -- the seam


@pytest.fixture
def before_the_seam(open_session: Opener, laundry: Session) -> Session:
    """The laundry as it was before the seam was found."""
    session = open_session(laundry.job.drop(Answer, "closure R1"))
    session.act("remove/members/seam")
    return session


def test_the_stop_on_the_closure_says_sum_overall_and_what_is_left(before_the_seam: Session) -> None:
    stop = next(f for f in before_the_seam.page("survey").findings if f.level == "stop")
    assert stop.sentence == "The members add up to 48 1/16, the overall is 48 3/16: 1/8 is not accounted for."
    assert (stop.have, stop.need) == ("have 1/8", "need at most 0.083")
    assert stop.holds == "holds back: elevation, front list, 2 door sheets"
    assert stop.answerable
    assert "Enter a seam after A2" in [way.word for way in stop.ways]


def test_entering_the_seam_clears_the_stop_and_keeps_it_on_record(before_the_seam: Session) -> None:
    stop = next(f for f in before_the_seam.page("survey").findings if f.level == "stop")
    way = next(way for way in stop.ways if way.word == "Enter a seam after A2")
    before_the_seam.act(way.key)
    job = before_the_seam.job
    assert job.members["seam"].kind == "seam"
    assert [r.value.value for r in job.readings.values() if r.of == "seam" and r.value] == [typed("1/8", "in").value]
    assert (job.answers["closure R1"].value, job.answers["closure R1"].level) == ("0.125", "stop")
    states = [
        (c.code, c.level, c.state) for c in before_the_seam.plan.checks if c.code == "closure" and "R1" in c.where
    ]
    assert ("closure", "stop", "cleared") in states
    assert ("closure", "ok", "holds") in states


def test_an_answer_stands_beside_the_finding_until_its_value_moves(before_the_seam: Session) -> None:
    stop = next(f for f in before_the_seam.page("survey").findings if f.level == "stop")
    before_the_seam.answer(stop.key, "  it is so,   I looked twice ")
    again = next(f for f in before_the_seam.page("survey").findings if f.level == "stop")
    assert (again.answer, again.holds) == ("it is so, I looked twice", "")
    assert [tab.level for tab in before_the_seam.tabs() if tab.chapter == "survey"] == ["ok"]
    before_the_seam.answer(stop.key, "")
    assert list(before_the_seam.job.answers) == []
    assert next(f for f in before_the_seam.page("survey").findings if f.level == "stop").answer is None


def test_an_answer_to_what_has_gone_is_refused(kitchen: Session) -> None:
    assert "has gone" in kitchen.answer("closure/K/", "because").problem
    assert "has gone" in kitchen.act(key("way", "closure/K/", "0")).problem


def test_an_amount_off_either_way_is_told_without_a_sign(laundry: Session) -> None:
    laundry.enter("readings/OB/diagonal/%2F", "34 1/2")
    (check,) = [c for c in _open(laundry) if c.code == "racking" and c.case == "lean"]
    assert "−" not in sentence(check, laundry.display) + have(check, laundry.display)

"""The laundry pair sawn, pressed and planed as it went, not as it was planned: after each step the whole plan is right,
and the sheets on the wall that are wrong now are named, and no others."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from frontwright.core.job import Billet, Job, Leaf, LeafState, PlanePass, PressedPanel
from frontwright.core.lengths import in_units, typed
from frontwright.core.plan import Plan, derive
from frontwright.core.veneer.result import BilletPlan
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.sheets.catalogue import digest, sheets_of

SIXTYFOURTH = 2_032_000 // 64  # units of an inch
BILLETS = {"P": "25 1/2", "Q": "25 1/2", "R": "25 1/2", "M": "31 1/2"}


def planned() -> Job:
    """The sample with its four billets entered, as the pair was laid out."""
    job = job_from_json(resource("samples", "laundry-pair.json").read_text(encoding="utf-8"))
    for place, (letter, length) in enumerate(BILLETS.items()):
        long, wide, thick = (typed(text, "in") for text in (length, "5 1/4", "1 3/4"))
        job = job.put(Billet(letter, place=place, length=long, width=wide, thickness=thick))
    return job


def leaf(job: Job, name: str, thick: str = "", left: str = "", *, on: str | None = None, bad: bool = False) -> Job:
    """With a leaf: its thickness, what then stood of the billet, the saw, and whether it is scorched."""
    read, stood = (typed(text, "in") if text else None for text in (thick, left))
    state: LeafState = "scorched" if bad else "good"
    return job.put(Leaf(name, name[0], int(name[1:]), read, left=stood, state=state, machine=on))


def three_heavy(job: Job) -> Job:
    for name, left in (("P1", "1 1/2"), ("P2", "1 1/4"), ("P3", "1")):
        job = leaf(job, name, "1/8", left)
    return job


def blade_changed(job: Job) -> Job:
    return leaf(job, "P4", on="table saw")


def scorched(job: Job) -> Job:
    return leaf(job, "P4", "1/8", "11/16", on="table saw", bad=True)


def pressed(job: Job) -> Job:
    one, two, three, four = (typed(text, "in") for text in ("31/64", "31/64", "30/64", "32/64"))
    return job.put(PressedPanel("DA-P", one, two, three, four))


def planed(job: Job) -> Job:
    for number, thickness in enumerate(("29/64", "27/64", "24/64", "21/64"), 1):
        face: Literal["show", "back"] = "show" if number % 2 else "back"
        job = job.put(PlanePass(f"DA-P {number}", "DA-P", number, face, typed(thickness, "in")))
    return job


STEPS = (three_heavy, blade_changed, scorched, pressed, planed)


def told(steps: int) -> Job:
    job = planned()
    for step in STEPS[:steps]:
        job = step(job)
    return job


def billet(plan: Plan, name: str = "P") -> BilletPlan:
    return next(one for one in plan.veneer.plans if one.id == name)


def in_64ths(figure: object) -> str:
    """A figure as so many 64ths of an inch."""
    value = getattr(figure, "value", None)
    assert value is not None
    return str(Fraction(in_units(value), SIXTYFOURTH))


def faces(plan: Plan) -> dict[str, list[str]]:
    """What lies where: "DA-P show" and its leaves from the left."""
    found: dict[str, list[tuple[int, str]]] = {}
    for seat in plan.veneer.seats:
        found.setdefault(f"{seat.of} {seat.side}".strip(), []).append((seat.seat, seat.leaf))
    return {place: [name for _, name in sorted(leaves)] for place, leaves in found.items()}


def open_ones(plan: Plan) -> list[tuple[str, str, str, str]]:
    """What is open of the veneer beside the pressure, which was known from the start."""
    return [
        (check.code, check.where[0], check.case, check.level)
        for check in plan.veneer.checks
        if check.is_open and check.code != "press-load"
    ]


def chain(plan: Plan, front: str) -> tuple[str, str]:
    """Rabbet and lip of a door, in 64ths."""
    found = plan.making.fronts[front].chain
    assert found is not None
    return in_64ths(found.rabbet_depth), in_64ths(found.lip)


def stale(step: int) -> set[str]:
    """The sheets that show something else after this step than before it, and those that are there only now."""
    before, after = ({info.key: digest(info) for info in sheets_of(derive(told(at)))} for at in (step - 1, step))
    assert set(before) <= set(after)
    return {key for key, shows in after.items() if before.get(key) != shows}


AS_PLANNED = {
    "DA-P show": ["P1", "P2", "P3", "P4"],
    "DB-P show": ["Q1", "Q2", "Q3", "Q4"],
    "DA-P back": ["R1", "R2", "R3", "R4"],
    "DB-P back": ["P5", "P6", "Q5", "Q6"],
    "R1 right skin skin": ["M1", "M2", "M3"],
    "stile strips 1 strips": ["M4"],
    "stile strips 2 strips": ["M5"],
    "rail strips 1 strips": ["R5"],
    "rail strips 2 strips": ["R6"],
    "spare": ["M6"],
}


def test_the_plan_before_the_first_cut() -> None:
    plan = derive(told(0))
    assert faces(plan) == AS_PLANNED
    assert [(one.id, one.planned, in_64ths(one.rest), one.spare) for one in plan.veneer.plans] == [
        (letter, 6, "22", True) for letter in BILLETS
    ]
    assert open_ones(plan) == []
    assert chain(plan, "DA") == chain(plan, "DB") == ("22", "26")


def test_three_slices_heavy_put_the_sixth_leaf_at_risk() -> None:
    plan = derive(told(1))
    one = billet(plan)
    assert one.seen is not None
    assert (one.seen.slices, in_64ths(one.seen.loss), in_64ths(one.seen.pitch)) == (3, "8", "16")
    assert (one.seen.more, one.seen.leaves, in_64ths(one.rest)) == (3, 6, "16")
    assert [slice_.id for slice_ in one.slices if slice_.at_risk] == ["P6"]
    assert [in_64ths(s.left_should) for s in one.slices] == ["97", "82", "67", "48", "32", "16"]
    assert open_ones(plan) == [("resaw-yield", "P", "at risk", "warn")]
    assert faces(plan) == AS_PLANNED
    assert {in_64ths(other.rest) for other in plan.veneer.plans if other.id != "P"} == {"22"}


def test_the_blade_changed_costs_that_leaf_and_the_spare_takes_its_place() -> None:
    plan = derive(told(2))
    one = billet(plan)
    assert one.seen is not None
    assert (one.seen.slices, in_64ths(one.seen.loss), in_64ths(one.seen.pitch)) == (0, "12", "20")
    assert (one.seen.more, one.seen.leaves, in_64ths(one.rest)) == (2, 5, "24")
    assert [(s.id, s.state) for s in one.slices[3:]] == [("P4", "to come"), ("P5", "to come"), ("P6", "lost")]
    assert faces(plan) == {
        **{k: v for k, v in AS_PLANNED.items() if k != "spare"},
        "DB-P back": ["P5", "M6", "Q5", "Q6"],
    }
    assert open_ones(plan) == [("resaw-yield", "P", "lost", "warn")]


def test_a_scorched_leaf_goes_to_the_back_and_its_face_is_taken_whole_from_another_billet() -> None:
    plan = derive(told(3))
    one = billet(plan)
    assert one.seen is not None
    assert (one.seen.slices, in_64ths(one.seen.loss), one.seen.more, one.seen.leaves) == (1, "12", 1, 5)
    now = faces(plan)
    assert now["DA-P show"] == ["R1", "R2", "R3", "R4"]
    assert sorted(now["DA-P back"]) == ["P1", "P2", "P3", "P4"]
    before = faces(derive(told(2)))
    assert {place for place in now if now[place] != before.get(place)} == {"DA-P show", "DA-P back"}
    assert plan.veneer.missing == ()


def test_the_panel_too_thick_says_what_its_leaves_were_and_changes_no_door() -> None:
    plan = derive(told(4))
    made = plan.veneer.panels["DA-P"]
    assert (in_64ths(made.pressed), in_64ths(made.leaves_were), in_64ths(made.correction)) == (
        "31",
        "21/2",
        "5/2",
    )
    assert (in_64ths(made.to_plane), in_64ths(made.show_left), in_64ths(made.back_left)) == (
        "9",
        "19/2",
        "19/2",
    )
    assert chain(plan, "DA") == chain(plan, "DB") == ("22", "26")
    assert plan.veneer.panels["DB-P"].pressed is None
    assert faces(plan) == faces(derive(told(3)))


def test_planed_too_far_the_rabbet_follows_and_the_second_door_stays_to_plan() -> None:
    plan = derive(told(5))
    made = plan.veneer.panels["DA-P"]
    assert (in_64ths(made.now), in_64ths(made.to_plane), made.passes, made.next_face) == ("21", "0", 4, "show")
    assert (in_64ths(made.show_left), in_64ths(made.back_left)) == ("9/2", "9/2")
    assert chain(plan, "DA") == ("21", "27")
    assert chain(plan, "DB") == ("22", "26")
    assert open_ones(plan) == [("resaw-yield", "P", "lost", "warn")]
    panels = {
        front: next(p.thickness for p in made.parts if p.kind == "panel") for front, made in plan.making.fronts.items()
    }
    assert {front: (in_64ths(f), f.source) for front, f in panels.items()} == {
        "DA": ("21", "as-built"),
        "DB": ("22", "derived"),
    }


@pytest.mark.parametrize(
    ("step", "sheets"),
    [
        pytest.param(1, {"15-saw:P"}, id="three slices heavy"),
        pytest.param(
            2,
            {"15-saw:P", "15-saw:M", "16-leaves:DA-P", "16-leaves:DB-P", "17-glue-up:2", "24-labels:"},
            id="blade changed, M6 for P6",
        ),
        pytest.param(
            3,
            {"15-saw:P", "15-saw:R", "16-leaves:DA-P", "17-glue-up:1", "24-labels:"},
            id="scorched, R1 to R4 for P1 to P4",
        ),
        pytest.param(4, set(), id="pressed too thick: nothing on paper is wrong"),
        pytest.param(
            5,
            {"10-door:DA", "11-section:DA", "11-section:DB", "19-boring:DA", "24-labels:parts"},
            id="planed too far: door DA and its borings, a section of its own, the label of its panel",
        ),
    ],
)
def test_the_sheets_that_are_wrong_now_are_named(step: int, sheets: set[str]) -> None:
    assert stale(step) == sheets


def test_taken_back_step_by_step_every_plan_and_sheet_is_as_it_was() -> None:
    job = told(5)
    back = job.drop(PlanePass, *(f"DA-P {n}" for n in range(1, 5))).drop(PressedPanel, "DA-P")
    back = back.drop(Leaf, "P1", "P2", "P3", "P4")
    assert faces(derive(back)) == AS_PLANNED
    first, last = ([digest(info) for info in sheets_of(derive(one))] for one in (planned(), back))
    assert first == last

"""What was found stands in the figures: surfaces, drawers, old holes, hazards, what nobody asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from frontwright.core.job import Asked, Drawer, Job, OldHinge
from frontwright.core.lengths import typed
from frontwright.core.plan import derive
from frontwright.exchange.figures_condition import condition_sections
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource


@pytest.fixture(scope="module")
def kitchen() -> Job:
    return job_from_json(resource("samples", "kitchen-run.json").read_text("utf-8"))


def sections(job: Job) -> Any:
    return condition_sections(derive(job))


def test_surfaces_tell_what_the_glue_meets_and_whether_it_may_be_glued_to(kitchen: Job) -> None:
    job = kitchen.put(replace(kitchen.surfaces["K faces"], finish="paint", state="lifting", keyed=None))
    faces, end, hutch = sections(job)["surfaces"]
    assert (faces["id"], faces["meets"], faces["may_be_glued"], faces["may_hold_lead"]) == (
        "K faces",
        "lifting",
        False,
        True,
    )
    assert (end["meets"], end["may_be_glued"], end["may_hold_lead"]) == ("sound finish", True, False)
    assert (hutch["glued"], hutch["finish"]) == (False, "oil or wax")
    assert {"hazard": "lead not ruled out", "run": "K", "at": ["K faces"]} in sections(job)["hazards"]


def test_drawers_tell_packing_and_screws_and_old_plates_their_holes(kitchen: Job) -> None:
    hinge = OldHinge("5", plate_1=typed("100", "mm"), screws_apart=typed("32", "mm"), use="replace")
    job = kitchen.put(Drawer("1", "applied", "against a stop", typed("12", "mm"), typed("0", "mm")), hinge)
    told = sections(job)
    drawer = next(one for one in told["drawers"] if one["opening"] == "1")
    assert (drawer["packing"], drawer["box_front"], drawer["screw"]) == ("3.5", "12", "30")  # 2 of facing, 1.5 bumper
    (holes,) = told["old_holes"]
    assert (holes["front"], holes["heights"], holes["plugs"]) == ("F5", ["84", "116"], 2)


def test_what_nobody_asked_is_named(kitchen: Job) -> None:
    assert "empties" in sections(kitchen)["not_asked"]
    assert "empties" not in sections(kitchen.put(Asked("empties", "the client")))["not_asked"]

"""Mistake 18: a strip glued on film, wax or grease; old paint sanded dry. Shown to fire and to fall silent."""

from __future__ import annotations

import pytest
from frontwright.core.condition.result import SurfacePlan
from frontwright.core.condition.ways import taken
from frontwright.core.findings import Check
from frontwright.core.job import Brief, End, Facing, Surface
from job_builder import Made, job


def frame(**surface: object) -> Made:
    """A run whose frame faces are covered, and what was found on them."""
    made = job().run("K", S0="40", A="400", S1="40").rails().opening("A", "A", widths="400", heights="600")
    made = made.read("K", "height", "700", "middle").put(Facing, "K", faces=True)
    return made.put(Surface, "K faces", run="K", where="faces", **surface) if surface else made


def faces(made: Made) -> SurfacePlan:
    found = made.plan.condition.surface("K", "faces")
    assert found is not None
    return found


def verdict(made: Made) -> tuple[str, str]:
    """Level and case of what is open on the faces, else of the rule that holds."""
    checks = made.checks("surface", "K faces")
    worst = next((one for one in checks if one.is_open), checks[0])
    return worst.level, worst.case


def after(made: Made, check: Check, at: int) -> Made:
    return Made(taken(made.job, check.ways[at]))


def offered(check: Check) -> list[tuple[str, object]]:
    return [(way.field, way.value) for way in check.ways if way.kind == "change"]


def test_a_strip_is_not_glued_onto_film_that_lifts() -> None:
    made = frame(finish="vinyl film", state="lifting")
    check = made.found("surface")
    assert (check.level, check.value, check.limit) == ("stop", "vinyl film, lifting", "sound")
    assert not faces(made).may_be_glued
    assert offered(check) == [
        ("made_good", "peel and key"),
        ("made_good", "cut away at edges"),
        ("made_good", "mechanical and adhesive"),
    ]


@pytest.mark.parametrize("at", range(3))
def test_each_way_out_of_lifting_film_clears_it(at: int) -> None:
    made = frame(finish="vinyl film", state="lifting")
    changed = after(made, made.found("surface"), at)
    assert verdict(changed) == ("ok", "")
    assert faces(changed).may_be_glued


def test_what_is_peeled_off_leaves_bare_wood_and_what_is_fastened_leaves_the_film() -> None:
    made = frame(finish="vinyl film", state="lifting")
    grounds = [faces(after(made, made.found("surface"), at)).ground for at in range(3)]
    assert grounds == ["bare wood", "bare wood", "sound film"]


def test_loose_paint_is_not_cut_away_at_the_edges() -> None:
    check = frame(finish="paint", state="lifting", painted=2015).found("surface")
    assert offered(check) == [("made_good", "peel and key"), ("made_good", "mechanical and adhesive")]


def test_a_sound_finish_and_bare_wood_may_be_glued_to() -> None:
    assert verdict(frame(finish="varnish or lacquer", state="sound")) == ("ok", "")
    assert faces(frame(finish="varnish or lacquer", state="sound")).ground == "sound finish"
    assert faces(frame(finish="bare")).ground == "bare wood"
    assert faces(frame(finish="plastic laminate", state="sound")).may_be_glued


@pytest.mark.parametrize(
    "found", [{"finish": "varnish or lacquer", "state": "waxed or greasy"}, {"finish": "oil or wax", "state": "sound"}]
)
def test_a_strip_is_not_glued_onto_wax_or_grease_until_water_spreads(found: dict[str, object]) -> None:
    made = frame(**found)
    assert verdict(made) == ("stop", "greasy")
    assert verdict(after(made, made.found("surface"), 0)) == ("ok", "")


def test_a_trial_that_let_go_stops_the_gluing_until_another_one_is_made() -> None:
    made = frame(finish="varnish or lacquer", state="sound", trial="let go", made_good="peel and key")
    assert verdict(made) == ("stop", "let go")
    assert offered(made.found("surface")) == [("made_good", "mechanical and adhesive")]
    changed = after(made, made.found("surface"), 0)
    assert verdict(changed) == ("ok", "")
    assert faces(changed).row.trial is None


def test_sound_film_wants_a_trial_of_a_day_first() -> None:
    assert verdict(frame(finish="vinyl film", state="sound")) == ("warn", "film")
    assert verdict(frame(finish="vinyl film", state="sound", trial="held")) == ("ok", "")


def test_faces_that_are_covered_unseen_are_noted_and_may_not_be_glued_to_yet() -> None:
    made = frame()
    assert verdict(made) == ("note", "not looked at")
    assert (faces(made).ground, faces(made).may_be_glued) == ("not said", False)


def test_what_stays_as_it_is_is_no_concern_of_the_glue() -> None:
    made = frame(finish="vinyl film", state="lifting").put(Facing, "K", faces=False)
    assert made.checks("surface") == []
    assert verdict(made.put(Surface, "K faces", treated="cover")) == ("stop", "lifting")


def test_an_end_with_a_skin_is_a_surface_that_is_glued_onto() -> None:
    made = frame(finish="bare").put(End, "K right", run="K", side="right", skin="sawn")
    assert made.found("surface").where == ("K right end",)
    letters = [(one.letter, one.id) for one in made.plan.condition.of_run("K")]
    assert letters == [("A", "K faces"), ("B", "K right end")]


# -- lead


def test_old_paint_without_a_swab_is_warned_of_until_it_is_swabbed_or_worked_as_lead() -> None:
    made = frame(finish="paint", state="sound", painted=1950)
    check = made.found("surface")
    assert (check.level, check.case) == ("warn", "no swab")
    assert verdict(made.put(Surface, "K faces", swab="no lead")) == ("ok", "")
    assert [value for _, value in offered(check)] == ["wet", "chemical", "certified people"]
    assert verdict(after(made, check, 0)) == ("ok", "")


def test_lead_is_never_sanded_dry() -> None:
    made = frame(finish="paint", state="sound", swab="lead")
    assert verdict(made) == ("stop", "lead")
    assert verdict(made.put(Surface, "K faces", keyed="dry")) == ("stop", "lead dry")
    for at in range(3):
        assert verdict(after(made, made.found("surface"), at)) == ("ok", "")


def test_old_paint_that_nobody_swabbed_is_not_sanded_dry_either() -> None:
    assert verdict(frame(finish="paint", state="sound", keyed="dry")) == ("stop", "old paint dry")
    assert verdict(frame(finish="paint", state="sound", keyed="dry", painted=2010)) == ("ok", "")


def test_paint_is_no_older_than_the_house_and_the_ban_is_that_of_the_country() -> None:
    made = frame(finish="paint", state="sound")
    assert verdict(made) == ("warn", "no swab")
    assert verdict(made.put(Brief, "brief", house_year=2003)) == ("ok", "")
    assert verdict(made.put(Brief, "brief", house_year=1970, lead_ban=1960)) == ("ok", "")
    assert verdict(made.put(Brief, "brief", house_year=1970)) == ("warn", "no swab")


def test_lead_that_is_left_alone_is_no_finding_and_refinishing_it_is() -> None:
    made = frame(finish="paint", swab="lead").put(Facing, "K", faces=False)
    assert made.checks("surface") == []
    refinished = made.put(Surface, "K faces", treated="refinish")
    assert verdict(refinished) == ("stop", "lead")
    assert ("treated", "keep") in offered(refinished.found("surface"))


def test_a_way_out_says_what_must_be_seen_to_besides() -> None:
    made = frame(finish="paint", state="lifting", swab="lead")
    (peel, *_) = [w for c in made.checks("surface") if c.case == "lifting" for w in c.ways]
    assert peel.gives == "a new trial for a day; then say how it is keyed"


# -- hazards


def hazards(made: Made) -> list[str]:
    return [one.hazard for one in made.plan.condition.hazards_of("K")]


def test_the_hazards_of_a_run_follow_from_what_is_done_there() -> None:
    assert hazards(frame(finish="bare").put(Facing, "K", faces=False)) == []
    assert hazards(frame(finish="bare")) == ["dust", "lines not located"]
    assert hazards(frame(finish="paint", swab="lead"))[:3] == ["lead found", "dust", "solvents"]
    assert "lead not ruled out" in hazards(frame(finish="paint"))
    assert "oily rags" in hazards(frame(finish="oil or wax"))


def test_an_old_toe_kick_that_is_disturbed_may_hold_asbestos() -> None:
    made = frame(finish="bare").put(Surface, "K toe kick", run="K", where="toe kick", finish="bare", treated="replace")
    assert "asbestos" in hazards(made)
    assert "asbestos" not in hazards(made.put(Brief, "brief", house_year=2005))


# -- what the glue meets


@pytest.mark.parametrize(
    ("found", "meets"),
    [
        ({"finish": "bare"}, "bare wood"),
        ({"finish": "paint", "state": "sound"}, "sound finish"),
        ({"finish": "paint", "state": "lifting"}, "lifting"),
        ({"finish": "paint", "state": "lifting", "made_good": "peel and key"}, "bare wood"),
        ({"finish": "paint", "state": "lifting", "made_good": "mechanical and adhesive"}, "sound finish"),
        ({"finish": "edge tape", "state": "sound"}, "sound film"),
        ({"finish": "plastic laminate", "state": "waxed or greasy"}, "greasy"),
        ({"finish": "plastic laminate", "state": "waxed or greasy", "clean": True}, "laminate"),
        ({"finish": "oil or wax"}, "greasy"),
        ({"finish": "oil or wax", "clean": True}, "sound finish"),
    ],
)
def test_what_the_glue_meets_follows_from_what_was_found_and_how_it_is_made_good(
    found: dict[str, object], meets: str
) -> None:
    assert faces(frame(**found)).ground == meets

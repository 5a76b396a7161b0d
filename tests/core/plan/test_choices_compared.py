"""Spreads of reveal and cover, and schemes, held side by side; taking one is one change of the run's look (F19)."""

from __future__ import annotations

from frontwright.core.choices import Compared, look_of, schemes, spreads, taken
from frontwright.core.plan import derive
from job_builder import Made, hinged, job, near


def run(**look: object) -> Made:
    """Three doors over stiles that are 40, 48, 60 and 40 wide."""
    made = job().run("K", S0="40", C1="400", S1="48", C2="400", S2="60", C3="400", S3="40").rails()
    made = made.read("K", "height", "720", "middle")
    for at in (1, 2, 3):
        made = made.opening(f"O{at}", f"C{at}", heights="640").fronts(f"F{at}", opening=f"O{at}", hinge_side="left")
    return hinged(made.look(**{"scheme": "partial cover", "cover": "12", **look}), cover="12")


def by_kind(made: Made) -> dict[str, Compared]:
    plan = made.plan
    return {one.kind: one for one in (*spreads(plan, "K"), *schemes(plan, "K"))}


def test_the_same_cover_on_uneven_stiles_shows_the_difference_of_the_stiles() -> None:
    """48 less 24 is 24, 60 less 24 is 36"""
    one = by_kind(run())["as it is"]
    assert [near(reveal) for reveal in one.reveals] == ["24.00", "36.00"]
    assert one.differ is not None
    assert (near(one.differ), one.seen) == ("12.00", True)


def test_the_same_reveals_on_uneven_stiles_take_different_covers() -> None:
    one = by_kind(run())["same reveals"]
    assert {near(reveal) for reveal in one.reveals} == {"30.00"}
    assert not one.seen
    assert one.covers is not None
    assert near(one.covers[0]) == "9.00"
    assert near(one.covers[1]) == "15.00"


def test_a_hinge_that_does_not_reach_speaks_against_a_spread() -> None:
    """12 ± 1.5 does not give 15"""
    one = by_kind(run())["same reveals"]
    assert "F3" in one.beyond
    assert one.stops
    assert not by_kind(run())["as it is"].beyond


def test_equal_fronts_are_one_as_wide_as_the_other() -> None:
    one = by_kind(run())["equal fronts"]
    widths = {near(one.plan.fronts.fronts[f"F{at}"].width, 0) for at in (1, 2, 3)}
    assert len(widths) <= 2  # on the step, a line may fall half a step off


def test_what_gives_the_same_fronts_is_told_once() -> None:
    told = [tuple(f.left.units for f in one.plan.fronts.fronts.values()) for one in spreads(run().plan, "K")]
    assert len(told) == len(set(told))


def test_taking_a_choice_gives_the_plan_that_was_shown_and_leaves_the_rest_of_the_look() -> None:
    made = run(least_cover="5")
    for one in (*spreads(made.plan, "K"), *schemes(made.plan, "K")):
        after = derive(taken(made.job, one.look))
        assert [f.left.units for f in after.fronts.fronts.values()] == [
            f.left.units for f in one.plan.fronts.fronts.values()
        ]
        assert {near(f.look.least_cover) for f in after.fronts.fronts.values()} == {"5.00"}


def test_the_scheme_that_is_chosen_is_marked_as_taken() -> None:
    found = by_kind(run())
    assert found["partial cover"].taken
    assert not found["full cover"].taken
    assert not found["inset"].taken


def test_a_scheme_that_is_taken_holds_for_every_front_of_the_run() -> None:
    plan = run().plan
    after = derive(taken(plan.job, look_of(plan, "K", "inset")))
    assert {front.look.scheme for front in after.fronts.fronts.values()} == {"inset"}


def test_plates_are_counted_for_every_choice() -> None:
    assert all(sum(count for _, count in one.plates) >= 6 for one in by_kind(run()).values())

"""Area, amount, loads of the rack and calendar of a finish (F70, F71)."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from frontwright.core.finish.calendar import Rack, loads_of, visits_of, waiting_of
from frontwright.core.finish.result import FinishBatch
from frontwright.core.job import Column, DoorBuild, Facing, Finish, FinishRoom, FrontRow, Run
from frontwright.core.plan import billed_whole
from job_builder import Made, job, near

F = Fraction


def doors(count: int, unit: str = "mm") -> Made:
    """So many openings by themselves, each with a slab door of 448 × 716 × 20."""
    made = job().put(Run, "R", room="room", by_itself=True).put(DoorBuild, "build", kind="slab", thickness="20")
    made = made.look(scheme="partial cover", cover="10", door_build="build")
    for at in range(1, count + 1):
        made = made.put(Column, f"C{at}", run="R", place=at)
        made = made.opening(f"A{at}", f"C{at}", widths="428", heights="696").fronts(f"F{at}", opening=f"A{at}")
    return made


def batch(made: Made) -> FinishBatch:
    (found,) = made.plan.finish.batches
    return found


def test_nine_doors_have_both_faces_and_their_edges_to_be_coated() -> None:
    """F70: 0.688 each, 6.19 m2"""
    found = batch(doors(9))
    assert {round(float(one.area), 3) for one in found.areas} == {0.688}
    assert round(float(found.area), 2) == 6.19


def test_three_coats_at_ten_square_metres_a_litre_and_15_per_cent_are_2_1_litres_in_one_batch() -> None:
    """F70"""
    found = batch(doors(9).put(Finish, "varnish", coats=3, cover="10", extra="15"))
    assert round(float(found.volume), 1) == 2.1
    (bought,) = [one for one in billed_whole(doors(9).plan).purchases if one.what == "finish"]
    assert bought.amount == found.volume


def test_twelve_fronts_on_six_places_wait_24_hours_over_three_days_of_evenings() -> None:
    """F71: 2 loads × 3 coats × 4 h, both sides at once on points"""
    made = doors(12).put(Finish, "varnish", coats=3, dry_hours="4", side_minutes="0")
    found = batch(made.put(FinishRoom, "finish room", places=6, coat_hours="5"))
    assert (int(found.waiting), len(found.loads), found.last_day) == (24, 2, 3)
    assert (found.hang_day, found.bumper_day) == (6, 10)


def test_sides_coated_one_after_the_other_keep_the_rack_for_as_long_as_turning_takes_too() -> None:
    made = doors(6).put(Finish, "varnish", coats=2, dry_hours="4", both_sides=False, turn_hours="2")
    assert batch(made).waiting == 12


def test_a_coat_begun_later_than_the_recipe_allows_after_the_last_is_marked() -> None:
    """One coat a day, and the next is due within 20 hours"""
    rack = Rack(turn=F(0), window=F(1), recoat_most=F(20))
    found = visits_of([F(1)], [F(4), F(4)], rack)
    assert [(one.day, one.late) for one in found] == [(1, False), (2, True)]


def test_a_coat_is_still_begun_at_the_last_moment_of_the_hours_of_a_day() -> None:
    assert [one.begins for one in visits_of([F(1)], [F(4), F(1)], Rack(F(0), F(5), F(48)))] == [0, 5]


def test_a_coat_just_as_late_as_the_recipe_allows_is_not_marked() -> None:
    found = visits_of([F(1)], [F(4), F(4)], Rack(turn=F(0), window=F(1), recoat_most=F(24)))
    assert [(one.begins, one.late) for one in found] == [(F(0), False), (F(24), False)]


def test_a_coat_is_never_begun_outside_the_hours_of_a_day() -> None:
    found = visits_of([F(1, 2)] * 3, [F(4)] * 3, Rack(F(0), F(5), F(48)))
    assert all(one.begins % 24 <= 5 for one in found)
    assert all(b.begins >= a.ends for a, b in pairwise(found))


def test_a_pair_dries_in_one_load_where_one_load_holds_it() -> None:
    loads = loads_of([("A",), ("B",), ("C", "D")], (), 3, 4)
    assert [load.of for load in loads] == [("A", "B"), ("C", "D")]


def test_more_that_belong_together_than_a_load_holds_follow_each_other() -> None:
    loads = loads_of([("A", "B", "C", "D", "E")], (), 2, 4)
    assert [load.of for load in loads] == [("A", "B"), ("C", "D"), ("E",)]


def test_strips_stand_several_to_a_place_after_the_fronts() -> None:
    loads = loads_of([("A",)], [f"S{n}" for n in range(1, 7)], 2, 4)
    assert [load.places for load in loads] == [(("A",), ("S1", "S2", "S3", "S4")), (("S5", "S6"),)]


def test_waiting_counts_every_step_of_every_load() -> None:
    assert waiting_of(2, [F(12), F(4), F(4)], F(1)) == 2 * (13 + 5 + 5)


def test_stain_and_sealer_are_steps_of_their_own_and_are_bought() -> None:
    made = doors(1).put(Finish, "old oak", stain="dark stain", sealer="thin shellac", coats=2)
    assert [step.name for step in batch(made).steps] == ["dark stain", "thin shellac", "coat 1", "coat 2"]
    bought = [one.what for one in billed_whole(made.plan).purchases]
    assert bought.count("finish") == bought.count("stain") == bought.count("sealer") == 1


def test_two_recipes_are_two_batches_and_take_the_rack_in_turn() -> None:
    made = doors(2).put(Finish, "one", coats=1).put(Finish, "two", coats=1).look(finish="one")
    made = made.look("opening:A2", finish="two")
    first, second = made.plan.finish.batches
    assert [[a.of for a in one.areas] for one in (first, second)] == [["F1"], ["F2"]]
    assert second.visits[0].begins >= first.visits[-1].ends


@pytest.mark.parametrize("fields", [{"coats": 0}, {"cover": "0"}, {"cover": "-4"}, {"dry_hours": "many"}])
def test_a_recipe_that_cannot_be_goes_by_the_usual_figure(fields: dict[str, object]) -> None:
    assert batch(doors(9).put(Finish, "odd", **fields)).volume == batch(doors(9)).volume


def test_a_strip_is_finished_on_its_show_face_alone() -> None:
    made = job().run("K", S0="40", C1="400", S1="40").rails().read("K", "height", "720", "middle")
    made = made.opening("A", "C1").put(Facing, "K", faces=True, thickness="2")
    strips = {strip.id: strip for strip in made.plan.facing.strips}
    assert len(strips) == 4
    for one in batch(made).areas:
        strip = strips[one.of]
        assert one.area == F(strip.length.length.units * strip.width.length.units, (80_000 * 1000) ** 2)


def test_a_row_of_one_grain_dries_in_one_load() -> None:
    made = doors(4).put(FinishRoom, "finish room", places=3)
    made = made.put(FrontRow, "row", fronts=("F3", "F4"), grain_through=True)
    assert [load.of for load in batch(made).loads][-1] == ("F3", "F4")


def test_three_coats_take_three_tenths_of_a_millimetre_off_an_inset_gap() -> None:
    """Two edges of 0.15 each; fronts that cover have no such gap"""
    inset = batch(doors(1).look(scheme="inset").put(Finish, "varnish", coats=3))
    assert inset.film is not None
    assert near(inset.film) == "0.30"
    assert batch(doors(1)).film is None

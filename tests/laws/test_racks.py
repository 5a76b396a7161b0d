"""Laws of the finish room: everything is coated once a step, and never two loads at a time."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from frontwright.core.finish.calendar import Rack, loads_of, visits_of
from hypothesis import given, settings
from hypothesis import strategies as st

groups = st.lists(st.integers(1, 5), max_size=12)
hours = st.integers(0, 30).map(Fraction)


@settings(max_examples=60)
@given(groups, st.integers(0, 20), st.integers(1, 8), st.integers(1, 5))
def test_every_front_and_strip_stands_on_one_place_of_one_load(
    sizes: list[int], strips: int, places: int, a_place: int
) -> None:
    together = [tuple(f"{at}.{n}" for n in range(size)) for at, size in enumerate(sizes)]
    flat = [f"s{n}" for n in range(strips)]
    loads = loads_of(together, flat, places, a_place)
    assert sorted(one for load in loads for one in load.of) == sorted([*(o for g in together for o in g), *flat])
    assert all(0 < len(load.places) <= places for load in loads)
    assert all(len(place) <= a_place for load in loads for place in load.places if place[0].startswith("s"))


@settings(max_examples=60)
@given(st.lists(hours, min_size=1, max_size=4), st.lists(hours, min_size=1, max_size=4), hours, hours, hours)
def test_the_rack_holds_one_load_at_a_time_and_coats_begin_in_their_hours(
    work: list[Fraction], dry: list[Fraction], turn: Fraction, window: Fraction, free: Fraction
) -> None:
    found = visits_of(work, dry, Rack(turn, window, Fraction(24), free))
    assert len(found) == len(work) * len(dry)
    assert all(b.begins >= a.ends for a, b in pairwise(found))
    assert all(one.begins % 24 <= window and one.begins >= free for one in found)
    assert all(one.ends - one.begins >= dry[one.step] + turn for one in found)

"""Shapes drawn in, hatched, and crowded things moved apart."""

import itertools

import pytest
from frontwright.core.drawing.shapes import hatching, inset, inside, spread
from hypothesis import given
from hypothesis import strategies as st

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
ANGLE = ((0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (20.0, 30.0), (20.0, 10.0), (0.0, 10.0))


@pytest.mark.parametrize("corners", [SQUARE, SQUARE[::-1]])
def test_a_shape_is_drawn_in_whichever_way_its_corners_run(corners: tuple[tuple[float, float], ...]) -> None:
    assert sorted(inset(corners, 1)) == [(1, 1), (1, 9), (9, 1), (9, 9)]


def test_an_angle_is_drawn_in_at_its_inner_corner_too() -> None:
    assert (21, 9) in [(round(x), round(y)) for x, y in inset(ANGLE, 1)]


def test_a_shape_too_thin_to_be_drawn_in_stays_as_it_is() -> None:
    assert inset(SQUARE, 6) == SQUARE


def test_hatching_stays_inside_its_shape() -> None:
    lines = list(hatching(ANGLE, 45, 3))
    assert len(lines) > 5
    for (ax, ay), (bx, by) in lines:
        assert inside(ANGLE, (ax + bx) / 2, (ay + by) / 2)


def test_hatching_of_the_next_part_runs_the_other_way() -> None:
    rising, falling = next(hatching(SQUARE, 45, 3)), next(hatching(SQUARE, -45, 3))
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in (rising, falling)]
    assert slopes == pytest.approx([1, -1])


@given(
    st.lists(st.tuples(st.floats(0, 500), st.floats(1, 40)), min_size=1, max_size=12),
    st.floats(0, 8),
)
def test_crowded_figures_are_moved_apart_in_their_order(things: list[tuple[float, float]], gap: float) -> None:
    wanted, sizes = [w for w, _ in things], [s for _, s in things]
    places = spread(wanted, sizes, gap)
    order = sorted(range(len(things)), key=lambda i: wanted[i])
    for i, j in itertools.pairwise(order):
        assert places[j] - places[i] >= (sizes[i] + sizes[j]) / 2 + gap - 1e-6


def test_figures_with_room_stay_where_they_belong() -> None:
    assert spread([10, 100, 50], [8, 8, 8], 2) == [10, 100, 50]


def test_two_figures_that_crowd_give_way_alike() -> None:
    assert spread([50, 50], [10, 10], 2) == [44, 56]

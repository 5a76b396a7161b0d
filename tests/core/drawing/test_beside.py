"""What stands on and beside a drawing keeps clear of what is already there, and gives way before it is left out."""

from collections.abc import Sequence

import pytest
from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import elevation
from frontwright.core.drawing.ink import Area, Glyphs, Ink, Stroke, extent
from frontwright.core.drawing.inking import Layer
from frontwright.core.drawing.lay import lay, points_per_unit, scale_of
from frontwright.core.drawing.marks import Badge, Label, Outline
from frontwright.core.drawing.medium import Medium, wall
from frontwright.core.drawing.survey_opening import opening_as_read
from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.drawing.view import plain_view
from frontwright.core.job import Job, Reading
from frontwright.core.lengths import MM, Length, typed
from frontwright.core.plan import Plan, derive

type Room = tuple[float, float, float, float]


def rooms(inks: Sequence[Ink]) -> Room:
    found = extent([ink for ink in inks if not isinstance(ink, Area) or ink.tone != "clear"])
    assert found is not None
    return found


def meet(a: Room, b: Room) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def test_the_mark_of_a_finding_stands_beside_the_name_of_a_low_opening(kitchen_job: Job, on_screen: Medium) -> None:
    askew = kitchen_job.put(Reading("1 height left", "1", "height", "left", typed("126", "mm")))
    drawing = survey_run(derive(askew), "K")
    badges = [m for m in drawing.marks if isinstance(m, Badge) and m.subject == "1"]
    (name,) = (m for m in drawing.marks if isinstance(m, Label) and m.subject == "1")
    layer = Layer(plain_view(drawing, 0.24 / MM.units), on_screen, drawing.display, "")
    assert badges
    assert not meet(rooms(layer.beside([name])), rooms(layer.beside(badges[:1])))


def test_words_of_the_cup_centre_keep_clear_of_the_width_of_a_narrow_door(kitchen: Plan, on_bench: Medium) -> None:
    laying = lay(door(kitchen, "F12", "bench"), on_bench, points_per_unit(10), 40, 40)
    words = next(rooms([ink]) for ink in laying.inks if isinstance(ink, Glyphs) and "to the centre" in ink.text)
    width = laying.view.length(kitchen.fronts.fronts["F12"].width.length)
    level = [
        ink
        for ink in laying.inks
        if isinstance(ink, Stroke) and ink.spots[0][1] == ink.spots[-1][1] < laying.view.bottom
    ]
    (line,) = (ink for ink in level if abs(abs(ink.spots[1][0] - ink.spots[0][0]) - width) < 0.01)
    assert not meet(words, rooms([line]))


def test_a_door_stands_closer_to_its_back_where_it_must(laundry: Plan, on_bench: Medium) -> None:
    apart, close = (door(laundry, "DA", "bench", close=close) for close in (False, True))
    room = 175 * 72 / 25.4, 300.0
    assert (scale_of(apart, on_bench, *room), scale_of(close, on_bench, *room)) == (20, 10)


def test_cover_of_two_neighbours_is_told_on_either_side_of_one_line(kitchen: Plan, on_screen: Medium) -> None:
    drawing = elevation(kitchen, "K")
    laying = lay(drawing, on_screen, 0.33 / MM.units, 60, 60)
    below = [ink for ink in laying.inks if isinstance(ink, Stroke) and ink.spots[0][1] == 59.0 and len(ink.spots) == 2]
    places = [ink.spots[0][0] for ink in below]
    assert places.count(laying.view.x(Length.mm(1781))) == 2
    assert places.count(laying.view.x(Length.mm(2380))) == 2


def test_on_paper_letters_give_way_before_a_size_is_left_out(kitchen: Plan) -> None:
    letters = wall(lambda text, em, _bold: len(text) * em * 0.7)
    laying = lay(elevation(kitchen, "K", "wall"), letters, points_per_unit(20), 60, 60)
    told = {ink.text.strip("× ") for ink in laying.inks if isinstance(ink, Glyphs)}
    for front in kitchen.fronts.fronts.values():
        if front.run == "K" and front.id not in ("F9L", "F9R"):
            assert any(str(float(front.width.length.units) / MM.units).removesuffix(".0") in text for text in told)


@pytest.mark.parametrize("scale", [5, 8, 12])
def test_readings_of_an_opening_do_not_cover_each_other(laundry: Plan, on_screen: Medium, scale: int) -> None:
    drawing = opening_as_read(laundry, "OB")
    layer = Layer(plain_view(drawing, scale / Length.inch(1).units), on_screen, drawing.display, "")
    labels = [rooms(layer.beside([mark])) for mark in drawing.marks if isinstance(mark, Label)]
    assert len(labels) == 8
    pairs = [(i, j) for i in range(8) for j in range(i) if meet(labels[i], labels[j])]
    assert not pairs


def test_parts_of_a_door_are_parted_by_one_thin_line(laundry: Plan, on_bench: Medium) -> None:
    marks = door(laundry, "DA", "bench").marks
    parts = [m for m in marks if isinstance(m, Outline) and m.subject in ("DA-S", "DA-RT", "DA-RB", "DA-P")]
    assert {m.pen for m in parts if m.fill == "wood"} <= {"none", "joint"}
    assert all(m.pen == "none" for m in parts if m.subject != "DA-P")

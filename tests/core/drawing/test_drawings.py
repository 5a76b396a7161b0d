"""What the drawings of the two samples say: figures where they belong, seen from where, and what is named."""

from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.drawing.door import door
from frontwright.core.drawing.dressing import grain_lines
from frontwright.core.drawing.elevation import breaks, elevation, in_two, key_elevation
from frontwright.core.drawing.icons import build_icon, fronts_icon, scheme_icon
from frontwright.core.drawing.ink import Glyphs
from frontwright.core.drawing.lay import fit
from frontwright.core.drawing.marks import (
    Badge,
    Break,
    Caption,
    Dimension,
    Drawing,
    GrainLines,
    Hatch,
    HingeLines,
    Label,
    Outline,
    Ring,
    Ringed,
    RunningDimension,
    Wall,
)
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.new_job import first_front
from frontwright.core.drawing.section import section
from frontwright.core.drawing.survey_opening import opening_as_read
from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.drawing.view import Frame
from frontwright.core.figures import Figure
from frontwright.core.job import Column as RunColumn
from frontwright.core.job import DoorKind, Front, Heading, Job, Member, Opening, Reading, Room, Run, Scheme, Table
from frontwright.core.lengths import Length, in_units, typed
from frontwright.core.plan import Plan, derive


def of_kind[M](drawing: Drawing, kind: type[M]) -> list[M]:
    return [mark for mark in drawing.marks if isinstance(mark, kind)]


def sizes(drawing: Drawing) -> dict[str, list[Length]]:
    """Figures of the dimensions by the side they stand on."""
    found: dict[str, list[Length]] = {}
    for mark in of_kind(drawing, Dimension):
        found.setdefault(mark.side, []).append(mark.figure.length)
    return found


def inch(text: str) -> Length:
    value = typed(text, "in").value
    assert value is not None
    return value


def mm(*values: str) -> list[Length]:
    return [Length.mm(value) for value in values]


# ------------------------------------------------------------------------------------------------------------ survey


def test_a_run_as_read_has_every_edge_from_the_datum_on(kitchen: Plan) -> None:
    (running,) = of_kind(survey_run(kitchen, "K"), RunningDimension)
    edges = ["40", "581", "620", "960", "1000", "1760", "1802", "2360", "2400", "2801", "2842", "3090", "3132"]
    assert [stop.figure.length for stop in running.stops] == mm(*edges)


def test_the_overall_in_one_stretch_stands_above_a_run_as_read(laundry: Plan) -> None:
    drawing = survey_run(laundry, "R1")
    assert sizes(drawing)["above"] == [inch("48 3/16")]
    assert {mark.ends for mark in of_kind(drawing, Dimension)} == {"arrow"}


def test_a_wall_is_drawn_where_a_run_ends_at_one(laundry: Plan) -> None:
    (wall,) = of_kind(survey_run(laundry, "R1"), Wall)
    assert wall.side == "left"


def test_a_closure_that_is_out_has_its_mark_and_figure_at_the_end_of_the_run(laundry_job: Job) -> None:
    without = laundry_job.drop(Member, "seam").drop(Reading, "seam across mid")
    (badge,) = of_kind(survey_run(derive(without), "R1"), Badge)
    assert (badge.level, badge.side, badge.subject) == ("stop", "right", "R1")
    figure = badge.text.parts[0] if badge.text else None
    assert isinstance(figure, Figure)
    assert abs(figure.length) == inch("1/8")


def test_openings_by_themselves_stand_beside_each_other_without_touching(kitchen: Plan) -> None:
    boxes = [mark.box for mark in of_kind(survey_run(kitchen, "H"), Outline)]
    assert len(boxes) == 2
    assert in_units(boxes[0].right) < in_units(boxes[1].left)


def test_an_opening_as_read_numbers_its_readings_in_the_order_they_are_taken(laundry: Plan) -> None:
    labels = of_kind(opening_as_read(laundry, "OB", ("diagonal", "/")), Label)
    parts = [label.choices[0].lines[0].parts for label in labels]
    rings = [part[0] for part in parts]
    assert [ring.text for ring in rings if isinstance(ring, Ringed)] == list("12345678")
    assert [ring.text for ring in rings if isinstance(ring, Ringed) and ring.filled] == ["8"]
    read = [part[1].length for part in parts if isinstance(part[1], Figure)]
    assert read == [
        inch(t) for t in ["21 1/8", "21 1/16", "21 1/16", "26 1/2", "26 1/2", "26 9/16", "33 7/8", "33 15/16"]
    ]


def test_what_is_out_of_true_is_drawn_ten_times_and_said(laundry: Plan) -> None:
    drawing = opening_as_read(laundry, "OB")
    corners = of_kind(drawing, Outline)[0].corners
    left_low, right_low, right_high, left_high = (in_units(x) for x, _ in corners)
    assert (right_high - left_high) - (right_low - left_low) == in_units(inch("1/16")) * 10
    assert drawing.exaggerated == "what is out of true drawn ten times"


# --------------------------------------------------------------------------------------------------------- elevation


def test_stile_lines_are_named_above_the_fronts_with_their_places(kitchen: Plan) -> None:
    above = [c for c in of_kind(elevation(kitchen, "K"), Caption) if c.side == "above"]
    figures = [f.length for c in above for text in c.text.parts[1:] for f in getattr(text, "parts", ())]
    assert figures == mm("600.5", "980", "1781", "2380", "2821.5")


def test_heights_of_the_first_column_and_of_all_together_stand_at_the_left(kitchen: Plan) -> None:
    assert sorted(sizes(elevation(kitchen, "K"))["left"]) == mm("167", "256", "279", "710")


def test_the_cover_stands_under_each_hinge_edge_with_its_finding(kitchen: Plan) -> None:
    below = [c for c in of_kind(elevation(kitchen, "K"), Caption) if c.side == "below"]
    covers = {c.subject: [p.length for p in c.text.parts if isinstance(p, Figure)] for c in below}
    assert covers["F5"] == mm("17.5")
    assert covers["F7R"] == covers["F9L"] == mm("19")
    assert [c.subject for c in below if c.text.bold] == ["F7R", "F9L"]


def test_hinge_lines_lead_to_the_hinge_edge_and_drawers_have_none(kitchen: Plan) -> None:
    sides = {mark.subject: mark.side for mark in of_kind(elevation(kitchen, "K"), HingeLines)}
    assert sides["F7L"] == "left"
    assert sides["F7R"] == "right"
    assert "F1" not in sides


def test_grain_runs_on_through_the_fronts_of_one_board(kitchen: Plan) -> None:
    boards = {mark.subject: mark.board for mark in of_kind(elevation(kitchen, "K"), GrainLines)}
    assert {boards[f] for f in ("F1", "F4", "F6", "F8", "F10")} == {"top row"}


def test_grain_lines_of_one_board_lie_alike_wherever_they_are_cut() -> None:
    whole = [s.spots for s in grain_lines(Frame(0, 0, 400, 60), "board", 1, vertical=False)]
    again = [s.spots for s in grain_lines(Frame(0, 0, 400, 60), "board", 1, vertical=False)]
    other = [s.spots for s in grain_lines(Frame(0, 0, 400, 60), "other", 1, vertical=False)]
    assert whole == again != other
    assert all(2 <= y <= 58 for line in whole for _, y in line)


@pytest.mark.parametrize(
    ("width", "lines"), [(3132, ["F7R", "396.5", "× 539"]), (750, ["F7R", "396.5"]), (420, ["F7R"]), (150, [])]
)
def test_labels_say_less_where_a_front_is_narrow(
    kitchen: Plan, on_screen: Medium, width: int, lines: list[str]
) -> None:
    laying = fit(elevation(kitchen, "K"), on_screen, width, 900)
    left, right = (kitchen.fronts.fronts["F7R"].left.length, kitchen.fronts.fronts["F7R"].right.length)
    place = laying.view.x(left), laying.view.x(right)
    inside = [ink for ink in laying.inks if isinstance(ink, Glyphs) and place[0] < ink.x < place[1]]
    words = " ".join(ink.text.strip() for ink in inside)
    assert ("F7R" in words, "396.5" in words or "396" in words, "539" in words) == (
        "F7R" in lines,
        "396.5" in lines,
        "× 539" in lines,
    )


def test_the_selected_front_is_labelled_however_narrow(kitchen: Plan, on_screen: Medium) -> None:
    laying = fit(elevation(kitchen, "K"), on_screen, 150, 900, "F7R")
    assert "F7R" in [ink.text for ink in laying.inks if isinstance(ink, Glyphs)]


def test_a_run_breaks_only_at_lines_that_no_front_crosses(kitchen: Plan) -> None:
    assert breaks(kitchen, "K") == tuple(mm("600.5", "980", "1781", "2380", "2821.5"))
    first, second = in_two(kitchen, "K", Length.mm(1781))
    assert not set(first.subjects) & set(second.subjects)
    assert {"F1", "F7R"} <= set(first.subjects)
    assert {"F8", "F12"} <= set(second.subjects)
    assert [mark.letter for row in (first, second) for mark in of_kind(row, Break)] == ["A", "A"]


def test_the_key_hatches_the_fronts_that_are_meant(kitchen: Plan) -> None:
    key = key_elevation(kitchen, "K", ("F1", "F4"))
    assert [mark.subject for mark in of_kind(key, Hatch)] == ["F1", "F4"]


def test_an_unknown_run_has_no_drawing(kitchen: Plan) -> None:
    for drawing in (elevation, survey_run, key_elevation):
        with pytest.raises(KeyError):
            drawing(kitchen, "Z")


# -------------------------------------------------------------------------------------------------------------- door


@pytest.mark.parametrize(("name", "hinge", "right_of_back"), [("DA", "left", True), ("DB", "right", False)])
def test_the_back_of_a_door_is_turned_over(laundry: Plan, name: str, hinge: str, right_of_back: bool) -> None:
    drawing = door(laundry, name)
    front, back = (mark.side for mark in of_kind(drawing, HingeLines))
    assert front == hinge
    assert back == ("right" if right_of_back else "left")
    wide = laundry.fronts.fronts[name].width.length
    start = in_units(drawing.bounds.right) - wide.units
    cups = {in_units(ring.at[0]) - start for ring in of_kind(drawing, Ring)}
    centre = laundry.hardware.cups[name].centre.length
    assert cups == {(wide - centre if right_of_back else centre).units}


def test_cups_are_measured_from_the_bottom_edge(laundry: Plan) -> None:
    (running,) = of_kind(door(laundry, "DA", "bench"), RunningDimension)
    assert [stop.figure.length for stop in running.stops] == [inch("3 1/2"), inch("24 1/2")]
    assert (running.side, running.words) == ("right", "from the bottom")


def test_a_door_shows_its_width_height_and_sight(laundry: Plan) -> None:
    found = sizes(door(laundry, "DA"))
    assert found["left"] == [inch("28")]
    assert found["below"][:2] == [inch("22 19/32"), inch("18 3/32")]


def test_each_part_of_a_door_can_be_selected(laundry: Plan) -> None:
    parts = {part.id for part in laundry.making.fronts["DA"].parts}
    assert parts <= set(door(laundry, "DA").subjects)


def test_dowels_are_hidden_lines_at_their_distance_from_the_rails_outer_edge(laundry: Plan) -> None:
    drawing = door(laundry, "DA")
    hidden = [mark.box for mark in of_kind(drawing, Outline) if mark.pen == "hidden"]
    height = laundry.fronts.fronts["DA"].height.length
    middles = {Fraction(in_units(box.bottom) + in_units(box.top)) / 2 for box in hidden}
    for dowels in laundry.making.fronts["DA"].dowels:
        for at in dowels.from_outer_edge:
            place = at.length if dowels.rail == "bottom rail" else height - at.length
            assert place.units in middles


def test_a_section_at_a_cup_adds_up_to_the_thickness(laundry: Plan) -> None:
    drawing = section(laundry, "DA")
    assert drawing is not None
    cup = laundry.hardware.cups["DA"]
    figures = sizes(drawing)
    assert cup.floor_left.length + cup.depth.length == inch("3/4")
    assert cup.floor_left.length in figures["left"]
    assert figures["right"] == [inch("3/4")]
    assert figures["above"] == [cup.diameter.length, cup.far_edge.length - cup.diameter.length]


def test_core_is_hatched_across_and_leaves_turned_the_other_way_than_the_stile(laundry: Plan) -> None:
    drawing = section(laundry, "DA")
    assert drawing is not None
    assert sorted(mark.angle for mark in of_kind(drawing, Hatch)) == [-45, -45, 0, 45]


def test_thicknesses_in_a_section_are_shown_finer_than_fronts(kitchen: Plan, on_screen: Medium) -> None:
    drawing = section(kitchen, "F7R")
    assert drawing is not None
    told = [ink.text for ink in fit(drawing, on_screen, 450, 200).inks if isinstance(ink, Glyphs)]
    assert "6.2" in told
    assert drawing.display.step < kitchen.display.step


def test_a_slab_without_hinges_has_no_section(kitchen: Plan) -> None:
    assert section(kitchen, "F1") is None


# ----------------------------------------------------------------------------------------------------------- new job


def begun(*fronts: Front) -> Plan:
    readings = [
        Reading("w", "1", "width", "middle", typed("21", "in")),
        Reading("h", "1", "height", "middle", typed("26 1/2", "in")),
    ]
    job = Job(
        headings=Table([Heading(unit="in")]),
        rooms=Table([Room("r")]),
        runs=Table([Run("R1", "r")]),
        columns=Table([RunColumn("c", "R1", 1)]),
        openings=Table([Opening("1", "c")]),
        readings=Table(readings),
        fronts=Table(fronts),
    )
    return derive(job)


def test_a_new_job_shows_what_was_read_with_arrowheads_and_what_follows_with_strokes() -> None:
    drawing = first_front(begun(Front("F1", "1")))
    assert drawing is not None
    ends = {(mark.side, mark.ends) for mark in of_kind(drawing, Dimension)}
    assert ends == {("left", "arrow"), ("below", "arrow"), ("above", "stroke"), ("right", "stroke")}
    assert sizes(drawing)["left"] == [inch("26 1/2")]
    assert of_kind(drawing, Outline)[0].pen == "assumed"


def test_a_pair_shows_each_door_and_both_together() -> None:
    drawing = first_front(begun(Front("F1L", "1", place=1), Front("F1R", "1", place=2)))
    assert drawing is not None
    assert drawing.subject == "a pair"
    assert len(sizes(drawing)["above"]) == 3


def test_a_job_without_an_opening_has_no_first_drawing() -> None:
    assert first_front(derive(Job())) is None


def test_every_choice_of_a_new_job_has_its_own_small_drawing() -> None:
    schemes: tuple[Scheme, ...] = ("inset", "partial cover", "full cover")
    builds: tuple[DoorKind, ...] = ("dowelled", "stub tenon", "cope and stick", "mitred", "slab")
    drawings = [fronts_icon(1), fronts_icon(2), *map(scheme_icon, schemes), *map(build_icon, builds)]
    assert len({replace(drawing, title="").marks for drawing in drawings}) == 10

"""The drawings of the veneer: a billet's end, which leaf lies where, a pressing taken apart."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from frontwright.core.drawing.billet import billet, one_slice
from frontwright.core.drawing.billet_end import end_views, plan_of
from frontwright.core.drawing.ink import Glyphs
from frontwright.core.drawing.lay import fit, scale_of_thin
from frontwright.core.drawing.leaf_map import face_map, half_across, leaf_map, panel_of
from frontwright.core.drawing.marks import (
    Badge,
    Caption,
    Drawing,
    GrainLines,
    Hatch,
    Label,
    Line,
    Outline,
    RunningDimension,
    Text,
)
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.pressing import (
    clamp_places,
    clamps_apart,
    layers,
    pressing,
    pressing_of,
)
from frontwright.core.drawing.section import section
from frontwright.core.job import (
    Billet,
    CoreGrain,
    Job,
    Leaf,
    LeafState,
    Lie,
    Machine,
    PressedPanel,
    Pressing,
    PressKind,
)
from frontwright.core.lengths import Length, in_units, typed
from frontwright.core.plan import Plan, derive

SAWN = (("1/8", "1 31/64"), ("9/64", "1 13/64"), ("7/64", "61/64"))
mm = Length.mm


def inch(text: str) -> Length:
    """A length as it is written at the bench: "1 33/64"."""
    return Length.inch(sum((Fraction(part) for part in text.split()), start=Fraction(0)))


def with_billet(job: Job, thick: str = "1 3/4", **fields: object) -> Job:
    """The laundry job with a billet P of this thickness and three more like it."""
    rows = [
        Billet(letter, place=at, length=typed("25 1/2", "in"), width=typed("5 1/4", "in"), thickness=typed(thick, "in"))
        for at, letter in enumerate("PQR")
    ]
    return job.put(*rows, Billet("M", place=4, length=typed("31 1/2", "in"), width=typed("5 1/4", "in")))


def sawn(job: Job, *slices: tuple[str, str], state: LeafState = "good", machine: str | None = None) -> Job:
    """With these leaves of P: thickness of each, and what then stood of the billet."""
    rows = (
        Leaf(f"P{n}", "P", n, thick_1=typed(t, "in"), left=typed(left, "in"), state=state, machine=machine)
        for n, (t, left) in enumerate(slices, 1)
    )
    return job.put(*rows)


def texts(drawing: Drawing) -> list[str]:
    """What captions say, and labels by their first choice, figures left out."""
    lines = [m.text for m in drawing.marks if isinstance(m, Caption)]
    lines += [line for m in drawing.marks if isinstance(m, Label) for line in m.choices[0].lines]
    return ["".join(_strings(line)) for line in lines]


def _strings(line: Text) -> list[str]:
    return [p if isinstance(p, str) else "".join(_strings(p)) for p in line.parts if isinstance(p, str | Text)]


# ------------------------------------------------------------------------------------------------------------ billet


def test_leaves_kerfs_losses_and_rest_of_the_planned_end_add_up_to_the_billet(laundry: Plan, kitchen: Plan) -> None:
    for plan in (laundry, kitchen):
        for of in plan.veneer.plans:
            (view,) = end_views(of)
            assert view.slots[0].left == Length(0)
            assert all(a.end == b.left for a, b in pairwise(view.slots))
            assert view.slots[-1].end + view.rest.length == of.thickness.length


def test_a_billet_of_which_nothing_is_sawn_shows_its_plan_alone(laundry: Plan) -> None:
    drawing = billet(laundry, "A")
    assert "As planned: 6 leaves" in texts(drawing)
    assert not any(text.startswith("As it is") for text in texts(drawing))
    assert list(drawing.subjects) == ["A1", "A2", "A3", "A4", "A5", "A6"]


def test_what_is_left_runs_from_the_far_face_and_is_the_figure_of_the_plan(laundry: Plan) -> None:
    (running,) = [m for m in billet(laundry, "A").marks if isinstance(m, RunningDimension)]
    assert running.datum[0] == inch("1 3/4")
    assert [stop.figure.value for stop in running.stops][:3] == [inch("1 33/64"), inch("1 9/32"), inch("1 3/64")]
    assert all(stop.at == inch("1 3/4") - stop.figure.length for stop in running.stops)


def test_after_heavy_slices_the_end_as_it_is_stands_under_the_plan_and_a_way_out_under_that(laundry_job: Job) -> None:
    plan = derive(sawn(with_billet(laundry_job), *SAWN))
    planned, now, way = end_views(plan_of(plan, "P"))
    assert len(planned.slots) == 6
    assert [s.id for s in now.slots] == ["P1", "P2", "P3", "P4", "P5"]
    assert [s.exists for s in now.slots] == [True, True, True, False, False]
    assert [s.id for s in now.lost] == ["P6"]
    assert now.saw == inch("1 3/4") - inch("61/64")
    assert now.rest.value == inch("27/64")
    assert way.title[0] == "Thinner leaves, "
    assert len(way.slots) == 6


def test_what_is_seen_of_the_loss_is_not_told_apart_and_what_is_planned_is(laundry_job: Job) -> None:
    plan = derive(sawn(with_billet(laundry_job), *SAWN))
    planned, now, _ = end_views(plan_of(plan, "P"))
    assert all(s.apart for s in planned.slots)
    assert not any(s.apart for s in now.slots)
    assert now.slots[0].loss == inch("1 3/4") - inch("1 31/64") - inch("1/8")
    assert now.slots[0].kerf == inch("3/64")


def test_the_kerf_of_a_leaf_is_that_of_the_machine_which_sawed_it(laundry_job: Job) -> None:
    job = with_billet(laundry_job).put(Machine("old saw", "table saw", kerf=typed("3/32", "in")))
    plan = derive(sawn(job, *SAWN, machine="old saw"))
    now = end_views(plan_of(plan, "P"))[1]
    assert now.slots[0].kerf == inch("3/32")


def test_what_is_kept_back_of_this_billet_alone_is_drawn_as_it_is_and_the_saw_s_as_planned(laundry_job: Job) -> None:
    job = sawn(with_billet(laundry_job), *SAWN)
    plan = derive(job.put(replace(job.billets["P"], keep_now=typed("5/32", "in"))))
    planned, now = end_views(plan_of(plan, "P"))[:2]
    assert planned.keep_back.value == inch("1/4")
    assert now.keep_back.value == inch("5/32")
    assert [s.id for s in now.slots] == ["P1", "P2", "P3", "P4", "P5", "P6"]
    assert now.lost == ()


def test_what_is_left_after_slices_to_come_is_the_figure_of_the_plan_in_every_place(kitchen: Plan) -> None:
    row = Billet("A", length=typed("844.5", "mm"), width=typed("180", "mm"), thickness=typed("44", "mm"))
    slices = (("3.1", "37.7"), ("3.1", "31.4"), ("3.1", "25.1"))
    leaves = (
        Leaf(f"A{n}", "A", n, thick_1=typed(t, "mm"), left=typed(left, "mm")) for n, (t, left) in enumerate(slices, 1)
    )
    of = plan_of(derive(kitchen.job.put(row, *leaves)), "A")
    now = end_views(of)[1]
    assert [s.after.value for s in now.slots[3:]] == [mm("18.8"), mm("12.5"), mm("6.2")]
    assert now.rest.value == of.rest.value
    assert [s.end for s in now.slots] == [of.thickness.length - s.after.length for s in now.slots]


def test_a_leaf_of_which_only_the_blade_to_come_is_told_is_not_drawn_as_sawn(laundry_job: Job) -> None:
    plan = derive(sawn(with_billet(laundry_job), *SAWN[:1]).put(Leaf("P2", "P", 2, machine="table saw")))
    now = end_views(plan_of(plan, "P"))[1]
    assert [s.id for s in now.slots if s.exists] == ["P1"]
    assert now.slots[1].kerf == inch("1/8")
    assert now.slots[1].apart


def test_a_lost_leaf_is_drawn_in_the_tone_of_its_finding_with_its_mark(laundry_job: Job) -> None:
    drawing = billet(derive(sawn(with_billet(laundry_job), *SAWN)), "P")
    (lost,) = [m for m in drawing.marks if isinstance(m, Outline) and m.pen == "assumed"]
    assert lost.subject == "P6"
    assert lost.tone in ("warn", "stop")
    assert [m.level for m in drawing.marks if isinstance(m, Badge)] == [lost.tone]


def test_a_measured_rest_stands_as_built_under_the_end_as_it_is(laundry_job: Job) -> None:
    drawing = billet(derive(sawn(with_billet(laundry_job), *SAWN)), "P")
    now = [m for m in drawing.marks if isinstance(m, RunningDimension)][1]
    assert [stop.figure.source for stop in now.stops] == ["as-built"] * 3 + ["derived"] * 2


def test_a_scorched_leaf_has_a_crossed_ring_and_says_so(laundry_job: Job) -> None:
    drawing = billet(derive(sawn(with_billet(laundry_job), SAWN[0], state="scorched")), "P")
    assert "scorched" in texts(drawing)


def test_on_the_bench_the_saw_stops_after_the_third_slice(laundry: Plan, kitchen: Plan) -> None:
    for plan in (laundry, kitchen):
        drawing = billet(plan, "A", "bench")
        (line,) = [m for m in drawing.marks if isinstance(m, Line) and m.pen == "wall"]
        assert line.a[0] == end_views(plan_of(plan, "A"))[0].slots[2].end
        assert "STOP" in texts(drawing)


def test_once_three_slices_are_sawn_the_bench_has_no_stop_line_any_more(laundry_job: Job) -> None:
    drawing = billet(derive(sawn(with_billet(laundry_job), *SAWN)), "P", "bench")
    assert "STOP" not in texts(drawing)
    assert "▼" in texts(drawing)


def test_with_nothing_kept_back_the_last_leaf_needs_no_cut(laundry_job: Job) -> None:
    job = laundry_job.put(
        Machine("band saw", "band saw", kerf=typed("3/64", "in"), keep_back=typed("0", "in"), chosen=True)
    )
    plan = derive(with_billet(job))
    (view,) = end_views(plan_of(plan, "P"))
    assert view.slots[-1].loss == Length(0)
    assert view.slots[-1].end + view.rest.length == inch("1 3/4")


def test_one_slice_is_leaf_kerf_wander_and_rejoint_with_their_sum(laundry: Plan) -> None:
    drawing = one_slice(laundry, "A")
    assert [text.strip() for text in texts(drawing) if text != "slice"] == ["slice", "kerf", "wander", "re-joint"]


def test_a_billet_that_is_not_there_is_a_key_error(laundry: Plan) -> None:
    for draw in (billet, one_slice):
        with pytest.raises(KeyError):
            draw(laundry, "Z")


@pytest.mark.parametrize("thick", ["0", "1/64", "1/8", "20"])
@pytest.mark.parametrize("slices", [(), (("1/8", "2"),), (("3", "1/4"),), (("1/8", "0"),)])
def test_a_billet_is_drawn_however_odd_its_sizes_and_readings(
    laundry_job: Job, thick: str, slices: tuple[tuple[str, str], ...], on_screen: Medium, on_bench: Medium
) -> None:
    plan = derive(sawn(with_billet(laundry_job, thick), *slices))
    for drawing, ground in ((billet(plan, "P"), on_screen), (billet(plan, "P", "bench"), on_bench)):
        assert fit(drawing, ground, 440, 500).inks


def test_a_thin_thing_stands_larger_than_life_where_it_goes_in(laundry: Plan, on_bench: Medium) -> None:
    drawing = billet(laundry, "A", "bench")
    assert scale_of_thin(drawing, on_bench, 330, 240) == Fraction(1, 2)
    assert scale_of_thin(drawing, on_bench, 190, 240) == 1


# ---------------------------------------------------------------------------------------------------------- leaf map


def test_the_show_face_has_its_leaves_from_the_left_open_and_shut_in_turn(laundry: Plan) -> None:
    _, panel = panel_of(laundry, "DA-P")
    face = face_map(laundry, panel, "show")
    assert [p.seat.leaf for p in face.places if p.seat] == ["A1", "A2", "A3", "A4"]
    assert [p.lies for p in face.places] == ["open", "shut", "open", "shut"]
    assert face.booked


def test_joints_lie_alike_on_both_sides_of_the_centre_line(laundry: Plan) -> None:
    _, panel = panel_of(laundry, "DA-P")
    edges = [p.left for p in face_map(laundry, panel, "show").places]
    assert [edge.units for edge in edges[1:]] == [-inch("5 1/8").units, 0, inch("5 1/8").units]
    assert half_across(panel).value == inch("9 25/64")


def test_both_faces_measure_from_a_circle_on_the_centre_line_to_the_edges(laundry: Plan) -> None:
    found = [m for m in leaf_map(laundry, "DA-P").marks if isinstance(m, RunningDimension)]
    assert len(found) == 2
    for running in found:
        assert [stop.figure.value for stop in running.stops] == [
            inch("9 25/64"), inch("5 1/8"), inch("5 1/8"), inch("9 25/64"),
        ]  # fmt: skip
        centre = running.datum[0]
        assert isinstance(centre, Length)
        assert running.stops[0].at == centre - inch("9 25/64")


def test_the_core_shows_through_the_back_only_with_its_grain_across_the_leaves(laundry: Plan) -> None:
    both, show = leaf_map(laundry, "DA-P"), leaf_map(laundry, "DA-P", "bench", ("show",))
    assert [m.angle for m in both.marks if isinstance(m, Hatch)] == [0]
    assert not [m for m in show.marks if isinstance(m, Hatch)]


def test_a_turned_leaf_shows_the_figure_of_its_neighbour_mirrored(laundry: Plan, on_screen: Medium) -> None:
    drawing = leaf_map(laundry, "DA-P")
    assert [m.leaf for m in drawing.marks if isinstance(m, GrainLines)][:4] == ["open", "turned", "open", "turned"]
    assert any(getattr(ink, "tone", "") == "wood_grain" for ink in fit(drawing, on_screen, 430, 420).inks)


def test_slip_matched_leaves_are_not_said_to_be_open_or_shut(laundry_job: Job) -> None:
    job = with_billet(laundry_job)
    for letter in "PQRM":
        row = job.billets[letter]
        job = job.put(Billet(letter, place=row.place, length=row.length, width=row.width, match="slip"))
    assert not {"open", "shut"} & set(texts(leaf_map(derive(job), "DA-P")))


def test_a_place_without_a_leaf_is_drawn_as_missing(laundry_job: Job) -> None:
    lone = Billet("P", length=typed("25 1/2", "in"), width=typed("5 1/4", "in"), thickness=typed("1 3/4", "in"))
    drawing = leaf_map(derive(laundry_job.put(lone)), "DB-P")
    assert "no leaf" in texts(drawing)


def test_a_part_that_is_no_pressed_panel_has_no_leaf_map(laundry: Plan) -> None:
    with pytest.raises(KeyError):
        leaf_map(laundry, "DA-S")


# ---------------------------------------------------------------------------------------------------------- pressing


def test_layers_lie_caul_film_show_core_back_film_caul(laundry: Plan) -> None:
    stack = layers(laundry, pressing_of(laundry, "1"))
    assert [layer.kind for layer in stack] == ["caul", "film", "leaves", "core", "leaves", "film", "caul"]
    faces = [layer.face.side for layer in stack if layer.face is not None]
    assert faces == ["show", "back"]


def test_panels_pressed_together_have_a_film_between_them(laundry_job: Job) -> None:
    job = laundry_job.drop(Pressing, "1", "2").put(Pressing("both", ("DA-P", "DB-P")))
    plan = derive(job)
    kinds = [layer.kind for layer in layers(plan, pressing_of(plan, "both"))]
    assert kinds.count("film") == 3
    assert kinds[5] == "film"


def both(job: Job, lie: Lie, kind: PressKind = "clamps") -> Plan:
    presses = [replace(press, kind=kind) for press in job.presses.values()]
    return derive(job.drop(Pressing, "1", "2").put(Pressing("both", ("DA-P", "DB-P"), lie=lie), *presses))


def test_panels_in_a_row_share_their_layers_and_have_no_film_between(laundry_job: Job) -> None:
    plan = both(laundry_job, "side by side")
    stack = layers(plan, pressing_of(plan, "both"))
    assert [layer.level for layer in stack] == [0, 1, 2, 2, 3, 3, 4, 4, 5, 6]
    assert [layer.kind for layer in stack].count("film") == 2
    said = texts(pressing(plan, "both"))
    assert "A1–A4, B1–B4 show, face down" in said


def test_cores_in_a_row_are_drawn_beside_each_other_and_in_a_stack_over_each_other(laundry_job: Job) -> None:
    def cores(lie: Lie) -> list[Outline]:
        marks = pressing(both(laundry_job, lie), "both").marks
        return [m for m in marks if isinstance(m, Outline) and m.subject in ("DA-P", "DB-P")]

    one, other = cores("side by side")
    assert one.corners[1] == other.corners[0]
    one, other = cores("stacked")
    assert one.corners[0][0] == other.corners[0][0]
    assert in_units(one.corners[0][1]) < in_units(other.corners[0][1])


def test_in_a_bag_there_are_no_clamps_and_the_bag_is_over_all(laundry_job: Job) -> None:
    plan = both(laundry_job, "stacked", "vacuum bag")
    said = texts(pressing(plan, "both"))
    assert "mesh and the bag" in said
    assert "caul, in the bag" in said
    assert "1" not in said


@pytest.mark.parametrize(
    ("grain", "says", "hatch"), [("across", "core, grain across", 0), ("along", "core, grain along", 90)]
)
def test_the_grain_of_the_core_is_drawn_as_it_runs(laundry_job: Job, grain: CoreGrain, says: str, hatch: int) -> None:
    builds = [replace(build, core_grain=grain) for build in laundry_job.panel_builds.values()]
    plan = derive(laundry_job.put(*builds))
    assert says in texts(pressing(plan, "1"))
    assert [m.angle for m in leaf_map(plan, "DA-P").marks if isinstance(m, Hatch)] == [hatch]


@pytest.mark.parametrize("count", range(1, 25))
def test_clamps_are_numbered_once_each_and_the_middle_ones_first(count: int) -> None:
    places = clamp_places(count)
    assert [p.number for p in places] == list(range(1, count + 1))
    away = [abs(p.along - Fraction(1, 2)) for p in places]
    assert away == sorted(away)
    assert len({(p.along, p.across) for p in places}) == count


def test_pairs_of_clamps_stand_the_length_of_the_core_shared_by_their_stations_apart(laundry: Plan) -> None:
    apart = clamps_apart(pressing_of(laundry, "1"))
    core = panel_of(laundry, "DA-P")[1].core_along
    assert apart is not None
    assert core is not None
    assert Fraction(apart.units) * 4 == core.units


def test_the_pressing_names_the_leaves_of_each_face(laundry: Plan) -> None:
    found = texts(pressing(laundry, "1"))
    assert "A1–A4 show, face down" in found
    assert "core, grain across" in found


@pytest.mark.parametrize("clamps", [0, 1, 2, 41, 100_000])
def test_a_pressing_is_drawn_with_any_number_of_clamps(laundry_job: Job, clamps: int, on_screen: Medium) -> None:
    plan = derive(laundry_job.put(Pressing("1", ("DA-P",), clamps=clamps), PressedPanel("DA-P")))
    assert fit(pressing(plan, "1"), on_screen, 430, 500).inks


def test_a_pressing_that_is_not_there_is_a_key_error(laundry: Plan) -> None:
    with pytest.raises(KeyError):
        pressing(laundry, "9")


def test_a_length_on_no_drawing_of_the_veneer_is_cut_to_the_coarser_step_of_the_job(kitchen: Plan) -> None:
    assert kitchen.display.step == mm("0.5")
    assert billet(kitchen, "A").display.step == mm("0.1")


# ------------------------------------------------------------------------------------------------------- on the board


@pytest.mark.parametrize("width", [300, 432, 940])
def test_the_words_of_the_legend_keep_clear_of_each_other_on_any_board(
    laundry_job: Job, width: int, on_screen: Medium
) -> None:
    drawing = billet(derive(sawn(with_billet(laundry_job), *SAWN)), "P")
    said = ("■", "kerf  ", "▨", "wander  ", "▧", "re-joint")
    laid = [ink for ink in fit(drawing, on_screen, width, 460).inks if isinstance(ink, Glyphs) and ink.text in said]
    assert [ink.text for ink in laid] == list(said)
    assert all(a.x + a.width <= b.x for a, b in pairwise(laid))


def test_the_titles_of_the_later_views_end_before_the_size_of_what_is_kept_back(
    laundry_job: Job, on_screen: Medium
) -> None:
    drawing = billet(derive(sawn(with_billet(laundry_job), *SAWN)), "P")
    laying = fit(drawing, on_screen, 432, 460)
    begins = laying.view.x(inch("1 3/4") - inch("1/4"))
    titles = [ink for ink in laying.inks if isinstance(ink, Glyphs) and ink.text.startswith(("As it is", ", from P4"))]
    assert len(titles) == 2
    assert all(ink.x + ink.width < begins for ink in titles)


def test_the_names_of_the_faces_stand_over_them_in_one_row(laundry: Plan) -> None:
    assert {"SHOW face, from the front", "BACK, from the back"} <= set(texts(leaf_map(laundry, "DA-P")))


# ------------------------------------------------------------------------------------------------------------ section


def test_the_tongue_of_a_rabbeted_panel_lies_in_the_groove_and_its_rabbet_behind(kitchen: Plan) -> None:
    drawing = section(kitchen, "H1")
    assert drawing is not None
    (panel,) = [m for m in drawing.marks if isinstance(m, Outline) and m.fill == "core"]
    xs, ys = sorted({x for x, _ in panel.corners}, key=in_units), sorted({y for _, y in panel.corners}, key=in_units)
    bottom, tongue, top = (Fraction(in_units(y)) for y in ys)
    assert (tongue - bottom, top - bottom) == (in_units(mm("6")), in_units(mm("8")))
    assert Fraction(in_units(xs[2])) - Fraction(in_units(xs[1])) == in_units(mm("11"))
    stile = next(m for m in drawing.marks if isinstance(m, Outline) and m.fill == "cut")
    assert in_units(stile.box.top) > top
    assert in_units(stile.box.left) > in_units(xs[1])


def test_a_panel_in_a_rabbet_of_the_frame_is_flush_with_its_back(laundry: Plan) -> None:
    drawing = section(laundry, "DA")
    assert drawing is not None
    panel, stile = (next(m for m in drawing.marks if isinstance(m, Outline) and m.fill == f) for f in ("core", "cut"))
    assert panel.box.top == stile.box.top
    assert len(panel.corners) == 4

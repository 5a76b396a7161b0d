"""The drawing of a laid piece: rings clear of each other, defects, what is kept and what burns, cuts that are made."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

import pytest
from frontwright.core.drawing.layout import layout
from frontwright.core.drawing.marks import Drawing, Hatch, Label, Line, Outline, Ring, Ringed
from frontwright.core.drawing.strips import strips
from frontwright.core.job import CutDone, Defect, Job, Laid, LaidPart, Piece
from frontwright.core.lengths import Length, in_units, typed
from frontwright.core.plan import Plan, derive
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

PLACES = [("F7L-P", "10", "10"), ("F7R-P", "10", "287.5"), ("F5-P", "10", "565"), ("K right skin", "420", "10")]


def laid_kitchen() -> Job:
    """Four panels on a sheet of the shop with a dent in its far half."""
    job = job_from_json(resource("samples", "kitchen-run.json").read_text("utf-8"))
    sizes = {"length": typed("2440", "mm"), "width": typed("1220", "mm"), "thickness": typed("6.2", "mm")}
    trims = {"end_trim": typed("20", "mm"), "edge_trim": typed("20", "mm")}
    piece = Piece("K-06", "sheet", "oak", "lot 2", shelf="A3", **sizes, **trims)  # type: ignore[arg-type]  # lengths
    dent = Defect("dent", "K-06", "dent", *(typed(one, "mm") for one in ("2000", "600", "100", "40")))
    rows = [LaidPart(part, "K-06", part, 1, typed(along, "mm"), typed(across, "mm")) for part, along, across in PLACES]
    return job.put(piece, dent, Laid("K-06", piece="K-06", group="sheet oak 6.2"), *rows)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return derive(laid_kitchen())


@pytest.fixture(scope="module")
def drawing(plan: Plan) -> Drawing:
    return layout(plan, "K-06")


def rings(drawing: Drawing) -> list[tuple[str, float, float]]:
    return [
        (part.text, float(in_units(mark.at[0])), float(in_units(mark.at[1])))
        for mark in drawing.marks
        if isinstance(mark, Label)
        for part in mark.choices[0].lines[0].parts
        if isinstance(part, Ringed)
    ]


def outlines(drawing: Drawing, subjects: Sequence[str]) -> list[Outline]:
    return [mark for mark in drawing.marks if isinstance(mark, Outline) and mark.subject in subjects]


def test_rings_that_stand_outside_the_piece_are_clear_of_each_other(drawing: Drawing) -> None:
    room = 2440 * 80_000 / 34  # of a ring on the screen
    outside = [(x, y) for _, x, y in rings(drawing) if x < 0 or y > 1220 * 80_000]
    assert len(outside) >= 4
    for at, (x, y) in enumerate(outside):
        for a, b in outside[:at]:
            assert hypot(x - a, y - b) >= room * 0.99


def test_a_defect_is_a_crossed_ring_in_a_hidden_line(drawing: Drawing) -> None:
    (ring,) = [mark for mark in drawing.marks if isinstance(mark, Ring)]
    assert ring.cross
    assert ring.at == (Length.mm(2050), Length.mm(620))
    hidden = [m.box for m in drawing.marks if isinstance(m, Outline) and m.pen == "hidden"]
    assert [(box.left, box.top) for box in hidden] == [(Length.mm(2000), Length.mm(640))]


def test_what_is_kept_has_no_tone_and_a_diagonal_and_what_burns_stays_hatched(plan: Plan, drawing: Drawing) -> None:
    rests = plan.stock.layouts[0].remainders
    kept = [f"K-06 {one.letter}" for one in rests if one.keep]
    burned = [f"K-06 {one.letter}" for one in rests if not one.keep]
    assert kept
    assert {mark.fill for mark in outlines(drawing, kept)} == {"paper"}
    assert {mark.fill for mark in outlines(drawing, burned)} <= {"none"}
    diagonals = [m for m in drawing.marks if isinstance(m, Line) and m.a[0] != m.b[0] and m.a[1] != m.b[1]]
    assert len(diagonals) == len(kept)
    assert any(isinstance(mark, Hatch) for mark in drawing.marks)


def test_a_cut_that_is_made_has_its_mark_in_the_ring(plan: Plan) -> None:
    done = derive(plan.job.put(CutDone("K-06 1", "K-06", 1), CutDone("K-06 2", "K-06", 2)))
    texts = [text for text, _, _ in rings(layout(done, "K-06"))]
    assert texts.count("✓") == 2
    assert "1" not in texts
    assert "3" in texts


def test_a_board_drawn_wider_keeps_the_sizes_that_are_told(plan: Plan) -> None:
    wider = layout(plan, "K-06", stretch=3)
    assert wider.bounds.top == Length.mm(1220 * 3)
    assert wider.exaggerated == "width drawn 3 times"
    told = [
        line.parts
        for mark in wider.marks
        if isinstance(mark, Label) and mark.subject == "K right skin"
        for choice in mark.choices
        for line in choice.lines
    ]
    assert any(Length.mm(595) in parts for parts in told)


def test_a_layout_that_is_not_there_is_no_drawing(plan: Plan) -> None:
    with pytest.raises(KeyError):
        layout(plan, "K-07")


def test_a_job_with_one_layout_has_no_strips_beside_it(plan: Plan) -> None:
    assert strips(plan, "K-06") is None
    another = derive(plan.job.put(Laid("sheet 1", size="6.2 x 1220 x 2440", group="sheet oak 6.2", place=1)))
    beside = strips(another, "sheet 1")
    assert beside is not None
    assert beside.subjects == ("K-06",)

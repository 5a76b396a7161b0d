"""The drawing of the bare frame: every piece where it lies, its number in a ring, sections of the ends."""

from __future__ import annotations

import pytest
from frontwright.core.drawing.facing_map import edge_section, facing_map
from frontwright.core.drawing.marks import Hatch, Label, Outline, Ringed
from frontwright.core.job import End, Facing
from frontwright.core.lengths import in_units
from job_builder import Made, job


def frame() -> Made:
    made = job().run("K", S0="40", C1="500", S1="40").rails("40", "40").read("K", "height", "720", "middle")
    made = made.opening("A", "C1").put(Facing, "K", faces=True, thickness="2")
    return made.put(End, "r", run="K", side="right", kind="open", skin="bought", skin_thickness="6")


def test_every_piece_that_is_seen_lies_in_the_drawing_and_can_be_chosen() -> None:
    plan = frame().plan
    drawing = facing_map(plan, "K")
    seen = {one.id for one in plan.facing.pieces if one.place is not None}
    assert seen <= {mark.subject for mark in drawing.marks if isinstance(mark, Outline)}
    for mark in drawing.marks:
        if isinstance(mark, Outline) and mark.subject in seen:
            assert in_units(mark.box.left) < in_units(mark.box.right)
            assert in_units(mark.box.right) <= in_units(drawing.bounds.right)


def test_the_ring_of_the_selected_piece_is_filled() -> None:
    plan = frame().plan
    labels = [mark for mark in facing_map(plan, "K", "K S0").marks if isinstance(mark, Label)]
    rings = {
        mark.subject: part for mark in labels for part in mark.choices[0].lines[0].parts if isinstance(part, Ringed)
    }
    assert [name for name, ring in rings.items() if ring.filled] == ["K S0"]
    assert rings["K S0"].text == "2"


def test_the_section_cuts_stile_skin_and_strip_each_hatched() -> None:
    plan = frame().plan
    cut = edge_section(plan, "K", "right")
    assert cut is not None
    assert {mark.subject for mark in cut.marks if isinstance(mark, Hatch)} == {"S1", "K right skin", "K S1"}
    assert edge_section(frame().put(Facing, "K", faces=False).plan, "K", "left") is None


def test_a_run_that_is_not_there_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        facing_map(frame().plan, "none")

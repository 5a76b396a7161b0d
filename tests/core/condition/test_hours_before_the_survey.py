"""F1: hours by what was counted at the first visit, told as a bracket until the survey is done."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.brief import bracket
from frontwright.core.job import Brief, Pricing
from frontwright.core.lengths import Length
from job_builder import job


def test_nine_doors_six_drawers_and_fourteen_metres_are_37_hours_quoted_as_31_to_43() -> None:
    made = job().put(Pricing, "pricing", hours_door="2.6", hours_drawer="1.1", hours_frame="0.5")
    made = made.put(Brief, "brief", doors=9, drawers=6, frame_length="14000")
    found = bracket(made.job, None)
    assert found is not None
    assert (str(found.hours), found.low, found.high) == ("37", 31, 43)
    assert not found.wide


def test_what_was_not_counted_by_eye_is_counted_in_the_job_and_what_has_no_hours_is_named() -> None:
    made = job("in").run("K", S0="1 1/2", A="20", S1="1 1/2").opening("A", "A", widths="20", heights="26")
    made = made.fronts("F1", "F2", opening="A").put(Pricing, "pricing", hours_frame="0.25")
    assert bracket(made.put(Pricing, "pricing", hours_frame="").job, None) is None
    found = bracket(made.job, Length.inch(48), ["an end not seen"])
    assert found is not None
    assert found.hours == Fraction(1, 4) * 4
    assert found.wide == ("no hours of a door", "an end not seen")

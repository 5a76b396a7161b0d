"""A way out to save a leaf, carried out as it is told, saves it (F60)."""

from __future__ import annotations

import pytest
from frontwright.core.job import Billet, Leaf, Machine
from frontwright.core.lengths import Length, Typed
from frontwright.core.veneer.result import BilletPlan
from job_builder import Made, door, paneled

FIELDS = {"thinner leaves": "slice_now", "less kept back": "keep_now"}


def sawn(slice_: str, kerf: str, billet: str, *slices: tuple[str, str], **fields: object) -> Made:
    """A billet on a saw that keeps back 6, with slices: how thick each came out and what then stood."""
    made = paneled(door(), slice=slice_).put(Machine, "saw", kerf=kerf, wander="0.6", rejoint="0.7", keep_back="6")
    made = made.put(Billet, "P", length="700", width="150", thickness=billet, **fields)
    for number, (thick, left) in enumerate(slices, 1):
        made = made.put(Leaf, f"P{number}", billet="P", number=number, thick_1=thick, left=left)
    return made


def plan_of(made: Made) -> BilletPlan:
    return next(plan for plan in made.plan.veneer.plans if plan.id == "P")


def to_come(made: Made) -> int:
    return sum(one.state == "to come" for one in plan_of(made).slices)


@pytest.mark.parametrize(
    "made",
    [
        sawn("3.6", "2.3", "35.2", ("4.0", "27.1"), slice_now="3.3"),
        sawn("4.5", "2.3", "47.3", ("5.2", "39.0"), ("4.8", "30.9"), ("5.1", "21.4")),
    ],
    ids=["thirds of a slice", "thirds of a keep-back"],
)
def test_a_way_out_that_does_not_come_out_whole_still_saves_its_leaf(made: Made) -> None:
    ways = [way for way in plan_of(made).ways if way.to is not None]
    assert {way.kind for way in ways} == set(FIELDS)
    for way in ways:
        assert way.to is not None
        value = way.to.value
        assert isinstance(value, Length)
        done = made.put(Billet, "P", **{FIELDS[way.kind]: Typed("so", value)})
        assert to_come(done) == to_come(made) + 1, way.kind

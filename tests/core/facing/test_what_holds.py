"""Adhesive by surface, strips to a mix (F72), pins by thickness (F73)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.facing.bonds import per_mix
from frontwright.core.facing.result import Bond
from frontwright.core.job import Adhesive, Facing, Member, Surface
from frontwright.core.lengths import Length
from job_builder import Made, job, near


def faced(**facing: object) -> Made:
    made = job().run("K", S0="43", C="400", S1="43").rails("40", "40").read("K", "height", "740", "middle")
    return made.opening("A", "C").put(Facing, "K", **{"faces": True, "thickness": "2.4"} | facing)


def bond(made: Made, where: str = "faces") -> Bond:
    return next(one for one in made.plan.facing.runs["K"].bonds if one.where == where)


def test_adhesive_is_area_times_film() -> None:
    """F72: strip 43 x 740 at 0.25 is 8 ml; here two of them and two rails of 400 x 40"""
    found = bond(faced())
    assert found.millilitres == (2 * 43 * 740 + 2 * 400 * 40) * Fraction(25, 100) / 1000


def test_strips_to_a_mix_by_its_pot_life() -> None:
    """F72: 0.6 of 5 minutes, 1.5 each: 2"""
    assert per_mix(Fraction(5), Fraction(6, 10), Fraction(3, 2)) == 2
    found = bond(faced())
    assert (found.strips, found.per_mix, found.mixes) == (4, 2, 2)


@pytest.mark.parametrize(
    ("finish", "state", "kind"),
    [
        ("bare", "sound", "wood glue"),
        ("paint", "sound", "epoxy"),
        ("varnish or lacquer", "sound", "epoxy"),
        ("vinyl film", "sound", "epoxy"),
        ("plastic laminate", "sound", "epoxy"),
        ("paint", "lifting", None),
        ("vinyl film", "lifting", None),
    ],
)
def test_the_adhesive_follows_the_surface(finish: str, state: str, kind: str | None) -> None:
    """the table of stage 13"""
    made = faced().put(Surface, "s", run="K", where="faces", finish=finish, state=state)
    assert bond(made).kind == kind


def test_mistake_18_an_adhesive_that_does_not_hold_on_the_surface_is_a_stop_and_another_one_clears_it() -> None:
    made = faced(adhesive="white").put(Adhesive, "white", kind="wood glue").put(Adhesive, "slow", kind="epoxy")
    made = made.put(Surface, "s", run="K", where="faces", finish="paint", state="sound")
    stop = made.found("adhesive", "K")
    assert stop.level == "stop"
    assert [way.value for way in stop.ways] == ["slow", ""]
    assert made.put(Facing, "K", adhesive="slow").quiet("adhesive")
    assert made.put(Surface, "s", finish="bare").quiet("adhesive")


def test_mistake_17_a_mix_that_sets_before_one_strip_is_on_is_found() -> None:
    """F72: 0.6 of 2 minutes is less than 1.5"""
    made = faced(adhesive="quick").put(Adhesive, "quick", kind="epoxy", pot_minutes="2")
    found = made.found("press-time", "K")
    assert (found.value, found.limit) == (Fraction(3, 2), Fraction(6, 5))
    assert made.put(Adhesive, "quick", pot_minutes="10").quiet("press-time")


def test_the_pin_is_the_shortest_that_holds_and_does_not_come_through() -> None:
    """F73: strip 2.4 on 19: 12.4 to 19.4, so 15; no more than 150 apart, on two of 740 six each, on two of 400 four"""
    (pins,) = faced().plan.facing.runs["K"].pins
    assert (near(pins.least), near(pins.most), pins.pin) == ("12.40", "19.40", Length.mm(15))
    assert pins.count == 2 * 6 + 2 * 4


def test_where_no_pin_fits_none_is_taken() -> None:
    made = faced().put(Member, "S0", thickness="9").put(Member, "S1", thickness="9")
    assert [pins.pin for pins in made.plan.facing.runs["K"].pins] == [None]


def test_adhesive_is_bought() -> None:
    from frontwright.core.plan import billed_whole

    bought = [one for one in billed_whole(faced().plan).purchases if one.what == "adhesive"]
    assert [(one.name, one.measure) for one in bought] == [("epoxy", "litres")]

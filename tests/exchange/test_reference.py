"""The table of woods, held against published figures."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.job import Amount, Job, Species
from frontwright.core.lengths import Unit
from frontwright.exchange.json_form import job_from_json, job_to_json
from frontwright.exchange.reference import species


def wood(name: str, unit: Unit = "in") -> Species:
    return next(one for one in species(unit) if one.name == name)


def text(value: Amount | None) -> str | None:
    return value.text if value else None


@pytest.mark.parametrize(
    ("name", "flat", "quarter"),
    [
        ("black cherry", "0.00248", "0.00126"),
        ("sugar maple (hard)", "0.00353", "0.00165"),
        ("red oak (commercial group)", "0.00369", "0.00158"),
        ("American beech", "0.00431", "0.00190"),
    ],
)
def test_movement_is_that_of_table_13_5_of_the_wood_handbook(name: str, flat: str, quarter: str) -> None:
    found = wood(name)
    assert (text(found.flat), text(found.quarter)) == (flat, quarter)
    assert "Wood Handbook, FPL-GTR-190, Table 13-5" in found.source


def test_a_wood_without_a_row_in_table_13_5_moves_as_its_shrinkage_says_and_says_so() -> None:
    found = wood("white oak")
    assert found.flat is not None
    assert found.flat.value is not None
    assert abs(found.flat.value - 1 / (3000 / Fraction("10.5") - 20)) < Fraction(1, 10**5)
    assert "Table 4-3, worked out from shrinkage" in found.source


def test_density_of_solid_cherry_at_12_percent_is_34_9_pounds_a_cubic_foot() -> None:
    """Gravity 0.50 by the rule of chapter 4 of the Wood Handbook."""
    assert text(wood("black cherry").density) == "34.9"
    assert text(wood("black cherry", "mm").density) == "560"


def test_a_wood_whose_gravity_is_not_of_12_percent_has_no_density() -> None:
    assert wood("red oak (commercial group)").density is None
    assert wood("true mahogany").density is None
    assert "density" not in wood("true mahogany").source


def test_both_units_give_one_density_within_what_is_shown() -> None:
    for inch, metric in zip(species("in"), species("mm"), strict=True):
        assert inch.name == metric.name
        if inch.density and inch.density.value and metric.density and metric.density.value:
            pound_a_cubic_foot = Fraction("16.018463")
            assert abs(inch.density.value * pound_a_cubic_foot - metric.density.value) < Fraction(3, 2)


def test_every_wood_is_named_once_and_has_its_movement_and_source() -> None:
    woods = species("in")
    assert len({one.id for one in woods}) == len(woods) == 29
    for one in woods:
        assert one.flat is not None
        assert one.quarter is not None
        assert one.flat.value is not None
        assert one.quarter.value is not None
        assert 0 < one.quarter.value < one.flat.value < Fraction("0.006")
        assert one.source


def test_woods_of_the_table_go_into_a_job_and_through_its_json_form() -> None:
    job = Job().put(*species("mm"))
    assert job_from_json(job_to_json(job)) == job

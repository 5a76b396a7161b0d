"""Cautions against the published limits and dates they go by (resources/reference/safety.csv, S14 to S19)."""

from __future__ import annotations

import csv

import pytest
from frontwright.core.assumed import ASBESTOS_UNTIL, LEAD_BAN
from frontwright.core.cautions import CAUTIONS, DEFERS, Hazard
from frontwright.resources import resource

with resource("reference", "safety.csv").open(encoding="utf-8", newline="") as file:
    TABLE = {row["quantity"]: row for row in csv.DictReader(file)}


def said(hazard: Hazard) -> str:
    return " ".join(CAUTIONS[hazard].says)


def test_paint_is_suspect_in_houses_from_before_the_year_of_the_rule() -> None:
    """S14, 40 CFR 745 Subpart E."""
    assert str(LEAD_BAN["in"]) == TABLE["lead paint: homes built before"]["value"]
    assert "dry-sand or scrape" in TABLE["lead paint: homes built before"]["note"]
    assert {"no dry sanding", "no dry scraping"} <= set(said("lead found").split(", "))
    assert "certified" in said("lead found")


def test_old_floors_are_suspect_up_to_the_end_of_the_years_that_are_named() -> None:
    """EPA and CPSC guidance, from memory."""
    row = TABLE["asbestos: old flooring, mastics and backings"]
    assert row["condition"] == f"materials up to the {ASBESTOS_UNTIL // 10 * 10}s"
    assert "sample tested" in said("asbestos")
    assert "licensed people" in said("asbestos")


@pytest.mark.parametrize(
    ("hazard", "row", "words"),
    [
        ("dust", "hardwood dust: IARC", "cancer"),
        ("dust", "wood dust: OSHA limit, total", "respirator"),
        ("oily rags", "oily rags", "within hours"),
        ("oily rags", "oily rags", "lidded"),
        ("solvents", "solvent vapour", "pilot lights"),
        ("solvents", "epoxy: skin sensitiser", "rash"),
        ("lifting", "wall cabinet hold", "weaken"),
        ("lead not ruled out", "lead paint: homes built before", "swab"),
    ],
)
def test_each_caution_says_what_its_row_says(hazard: Hazard, row: str, words: str) -> None:
    assert row in TABLE
    assert words in said(hazard)


def test_every_row_and_every_sheet_defers_to_local_code_and_licensed_practice() -> None:
    assert all("local code and licensed practice decide" in row["note"] for row in TABLE.values())
    assert "Local codes and licensed people decide" in DEFERS
    for line in ("gas", "water", "electric"):
        assert "licensed people" in said(line)

"""Where a usual figure comes from is said in words and stands in the list of sources; formulas by their number too."""

from __future__ import annotations

import re
from pathlib import Path

import frontwright.core
import pytest
from frontwright.core.assumed import COMMON, SOURCES, assumed, assumed_moisture
from frontwright.resources import resource

LISTED = [
    line.split("|")[1].strip()
    for line in resource("reference", "SOURCES.md").read_text("utf-8").splitlines()
    if line.startswith("| ")
]


@pytest.mark.parametrize("tag", SOURCES)
def test_every_source_of_a_usual_figure_stands_in_the_list(tag: str) -> None:
    assert tag in LISTED


def test_a_source_is_said_in_words() -> None:
    assert assumed("in", "frame member").how == (
        "usual figure: Builder training manual, NAVEDTRA 14045, Architectural Woodwork Standards, 2009"
    )
    assert assumed("in", "sheet").how == "usual figure: from memory"


def test_a_millimetre_figure_does_not_borrow_the_source_of_the_inch_figure() -> None:
    assert assumed("mm", "frame member").how == COMMON
    assert assumed("mm", "cup").how == assumed("in", "cup").how != COMMON


def test_the_range_of_moisture_names_its_table_and_the_moisture_when_made_none() -> None:
    assert "Wood Handbook, FPL-GTR-190, Table 4-2" in assumed_moisture("moisture low").how
    assert assumed_moisture("moisture made").how == COMMON


def test_every_formula_that_the_trades_rules_name_stands_in_the_list() -> None:
    known = set(re.findall(r"^- \*\*F(\d+)\*\*", resource("reference", "formulas.md").read_text("utf-8"), re.MULTILINE))
    modules = [path.read_text("utf-8") for path in Path(frontwright.core.__path__[0]).rglob("*.py")]
    named = {number for text in modules for number in re.findall(r"\bF(\d+)\b", text)}
    assert len(named) > 30
    assert named <= known

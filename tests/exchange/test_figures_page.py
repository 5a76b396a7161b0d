"""The figures of a job as a page of text: every section is there, figures to the step, assumed ones in brackets."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import Job
from frontwright.core.plan import derive
from frontwright.exchange.figures_page import figures_page, findings_page
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource


def job(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))


def code(check: Check) -> str:
    return check.code


def page(name: str) -> str:
    return figures_page(derive(job(name)), code)


def block(text: str, title: str) -> list[list[str]]:
    """The lines below a title, each as its columns (two spaces or more lie between)."""
    lines = next(part for part in text.split("\n\n") if part.startswith(f"{title}\n")).splitlines()[1:]
    return [[column.strip() for column in line.split("  ") if column.strip()] for line in lines]


SECTIONS = {
    "laundry-pair": (
        "Members",
        "Openings",
        "Closures",
        "Fronts",
        "Sums",
        "Parts",
        "Proofs",
        "Dowels",
        "Hinges",
        "Cups",
    ),
    "kitchen-run": (
        *("Rows with the grain through", "Parts", "Panels", "Chains of thickness"),
        *("Set-ups", "Leaves", "Billets", "Finish", "Hanging", "Stock"),
    ),
}


@pytest.mark.parametrize(("name", "title"), [(name, title) for name, titles in SECTIONS.items() for title in titles])
def test_a_section_has_a_head_and_no_line_of_more_columns(name: str, title: str) -> None:
    head, *lines = block(page(name), title)
    assert lines
    assert max(len(line) for line in lines) <= len(head) + (title == "Proofs")  # what a proof says has no head


@pytest.mark.parametrize("name", SECTIONS)
def test_the_sections_stand_in_the_order_of_the_trade(name: str) -> None:
    text = page(name)
    places = [text.index(f"\n\n{title}\n") for title in SECTIONS[name]]
    assert places == sorted(places)


def test_a_section_with_nothing_in_it_is_left_out() -> None:
    assert "Rows with the grain through" not in page("laundry-pair")


def test_a_closure_tells_sum_overall_error_and_how_many_readings() -> None:
    assert block(page("laundry-pair"), "Closures")[1] == ["R1, mid", "48 3/16", "48 3/16", "0", "8"]


def test_a_proof_is_told_as_it_is_worked() -> None:
    proofs = [line for line in block(page("laundry-pair"), "Proofs") if line[:2] == ["DA", "width"]]
    assert [line[3] for line in proofs] == ["agrees"]
    assert proofs[0][2].startswith("2 x 2 1/4 + ")


def test_a_thin_figure_is_told_whole_and_not_to_the_step() -> None:
    chain = block(page("laundry-pair"), "Chains of thickness")[1]
    assert chain == ["DA", "1/8", "7/64", "13/32", "5/64", "11/32", "11/32"]


def test_what_rests_on_an_assumption_stands_in_brackets() -> None:
    laundry = job("laundry-pair")
    bare = figures_page(derive(replace(laundry, door_builds=laundry.door_builds.drop(*laundry.door_builds))), code)
    assert all(line[3].startswith("(") for line in block(bare, "Parts")[1:] if line[1] != "stile")


def test_findings_are_told_the_strongest_first_with_their_level_and_answer() -> None:
    laundry = job("laundry-pair")
    lines = findings_page(derive(replace(laundry, members=laundry.members.drop("seam"))).checks, code).splitlines()
    assert lines[0] == "Findings"
    assert [line.split()[0] for line in lines[1:]] == sorted(
        (line.split()[0] for line in lines[1:]), key=("STOP", "WARN", "NOTE").index
    )


def test_no_open_check_is_said_too() -> None:
    assert findings_page([], code) == "No findings."

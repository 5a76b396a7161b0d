"""Any job, however incomplete or wrong, gives a plan that can be told: no exception, nothing unreadable."""

from __future__ import annotations

import json
import re
from typing import Any

from frontwright.core.job import Job, Table, amount
from frontwright.core.job.declared import Declared, declared
from frontwright.core.job.references import REFERENCES
from frontwright.core.lengths import typed
from frontwright.core.plan import derive
from frontwright.exchange.figures_json import figures_json
from frontwright.exchange.figures_page import figures_page
from hypothesis import given, settings
from hypothesis import strategies as st

LENGTHS = [
    "",
    "0",
    "-3",
    "23 5/",
    "x",
    "nan",
    "1/64",
    "1/32",
    "1/8",
    "3/4",
    "1 1/2",
    "2 1/4",
    "16",
    "22.6",
    "30",
    "5000",
]
LENGTHS += ["0.5mm", "3mm", "20mm", "1000mm", "29999mm", "40m", "1e400"]
AMOUNTS = ["", "0", "-1", "0.0027", "4", "12", "42", "700", "100000", "many"]
PLACES = {
    "width": ["top", "middle", "bottom"],
    "height": ["left", "middle", "right"],
    "diagonal": ["\\", "/"],
    "wind gap": [""],
}
LOST = "lost"  # a row that is named but not there


def ids(table: str) -> list[str]:
    """The few ids that rows of a table have, so that rows name each other often."""
    if table == "looks":
        levels = {"room": "rooms", "run": "runs", "cabinet": "cabinets", "opening": "openings"}
        return [f"{level}:{one}" for level, of in levels.items() for one in ids(of)[:2]]
    singles = {
        "headings": ["job"],
        "allowances": ["allowances"],
        "limits": ["limits"],
        "facings": ids("runs") if table != "runs" else [],
    }
    return singles.get(table) or [f"{table} {n}" for n in range(1, 5)]


def values(table: str, field: Declared) -> st.SearchStrategy[Any]:
    named = [one for home in REFERENCES.get(table, {}).get(field.name, ()) for one in ids(home)]
    of_kind: dict[str, st.SearchStrategy[Any]] = {
        "text": st.sampled_from(
            [*field.choices] or [*named, LOST] if named or field.choices else ["", "oak", "A & B <b>"]
        ),
        "count": st.integers(-1, 6),
        "yes or no": st.booleans(),
        "length": st.sampled_from(LENGTHS).map(lambda text: typed(text, "in")),
        "amount": st.sampled_from(AMOUNTS).map(amount),
        "texts": st.lists(st.sampled_from([*named, LOST]), max_size=4).map(tuple),
    }
    return st.none() | of_kind[field.kind] if field.optional else of_kind[field.kind]


@st.composite
def rows(draw: st.DrawFn, table: str, kind: type[Any], name: str) -> Any:
    fields = {field.name: draw(values(table, field)) for field in declared(kind) if field.name != "id"}
    if table == "readings":
        fields["at"] = draw(st.sampled_from(PLACES.get(fields["what"], ["", "top", "mid", "bottom"])))
    return kind(id=name, **fields)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    tables = {}
    for name, kind in Job.kinds().items():
        some = draw(st.lists(st.sampled_from(ids(name)), unique=True, max_size=8))
        tables[name] = Table([draw(rows(name, kind, one)) for one in some])
    return Job(**tables)


@settings(max_examples=300)
@given(jobs())
def test_any_job_derives_and_can_be_told(job: Job) -> None:
    plan = derive(job)
    told = json.loads(figures_json(plan, lambda check: check.code))
    assert told["format"] == "frontwright-figures"
    assert figures_page(plan, lambda check: check.code).endswith("\n")


@settings(max_examples=100)
@given(jobs())
def test_the_same_job_gives_the_same_figures(job: Job) -> None:
    assert figures_json(derive(job)) == figures_json(derive(job))


@settings(max_examples=100)
@given(jobs())
def test_every_length_that_is_told_is_a_decimal_or_a_fraction(job: Job) -> None:
    told = json.loads(figures_json(derive(job)))
    for section in (
        "members",
        "openings",
        "closures",
        "fronts",
        "sights",
        "parts",
        "panels",
        "rows",
        "chains",
        "strips",
    ):
        for row in told[section]:
            for key, value in row.items():
                if key in NOT_LENGTHS or value is None:
                    continue
                for text in (
                    value.values() if isinstance(value, dict) else value if isinstance(value, list) else [value]
                ):
                    assert text is None or re.fullmatch(r"-?\d+(\.\d+|/\d+)?", text), (section, key, text)


NOT_LENGTHS = {"id", "kind", "run", "at", "readings", "opening", "hinge_side", "grain", "assumed", "front", "qty"}
NOT_LENGTHS |= {"species", "part", "leaves_across", "fronts", "of", "on", "order"}


def test_a_job_with_nothing_in_it_derives() -> None:
    assert json.loads(figures_json(derive(Job())))["fronts"] == []

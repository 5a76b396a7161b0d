"""Any job, however incomplete or wrong, gives a plan that can be told: no exception, nothing unreadable."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from random import Random
from typing import cast

from frontwright.core.job import Job, Row, amount
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


def value(luck: Random, table: str, field: Declared) -> object:
    if field.optional and luck.random() < 0.4:
        return None
    named = [one for home in REFERENCES.get(table, {}).get(field.name, ()) for one in ids(home)] + [LOST]
    match field.kind:
        case "text":
            free = ["", "oak", "A & B <b>"]
            return luck.choice(field.choices or (named if len(named) > 1 else free))
        case "count":
            return luck.randint(-1, 6)
        case "yes or no":
            return luck.random() < 0.5
        case "length":
            return typed(luck.choice(LENGTHS), "in")
        case "amount":
            return amount(luck.choice(AMOUNTS))
        case "texts":
            return tuple(luck.choices(named, k=luck.randint(0, 4)))


def row(luck: Random, table: str, kind: type[Row], name: str) -> Row:
    fields = {field.name: value(luck, table, field) for field in declared(kind) if field.name != "id"}
    if table == "readings":
        fields["at"] = luck.choice(PLACES.get(str(fields["what"]), ["", "top", "mid", "bottom"]))
    return cast(Callable[..., Row], kind)(id=name, **fields)


def job_by(luck: Random, tables: set[str]) -> Job:
    job = Job()
    for name, kind in Job.kinds().items():
        some = ids(name) * (6 if name == "readings" else 1)
        for n, one in enumerate(some):
            if luck.random() < 0.8:
                key = f"{one} {n}" if name == "readings" else one
                job = job.put(row(luck, name, kind, key)) if name in tables else job
    return job


TABLES = sorted(Job.kinds())
LUCK = st.integers(0, 2**32).map(Random)
jobs = st.builds(job_by, LUCK, st.just(set(TABLES)) | st.sets(st.sampled_from(TABLES)))


@settings(max_examples=200)
@given(jobs)
def test_any_job_derives_and_can_be_told(job: Job) -> None:
    plan = derive(job)
    told = json.loads(figures_json(plan, lambda check: check.code))
    assert told["format"] == "frontwright-figures"
    assert figures_page(plan, lambda check: check.code).endswith("\n")


@settings(max_examples=50)
@given(jobs)
def test_the_same_job_gives_the_same_figures(job: Job) -> None:
    assert figures_json(derive(job)) == figures_json(derive(job))


@settings(max_examples=50)
@given(jobs)
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

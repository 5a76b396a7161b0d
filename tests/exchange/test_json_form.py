"""A job and a shop go through their JSON form without loss, and the form is that of the schema."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any, get_type_hints

import jsonschema
import pytest
from frontwright.core.job import Amount, Heading, Job, Learned, Machine, Reading, Row, Shop, Species, Table, amount
from frontwright.core.job.declared import MOST_COUNT
from frontwright.core.job.references import REFERENCES
from frontwright.core.lengths import Length, Typed, Unit, typed
from frontwright.core.plan import derive
from frontwright.exchange.figures_json import figures_json
from frontwright.exchange.json_form import job_from_json, job_to_json, shop_from_json, shop_to_json
from frontwright.exchange.schema import schemas
from frontwright.resources import resource
from hypothesis import given, settings
from hypothesis import strategies as st

SAMPLES = ["laundry-pair", "kitchen-run"]
BOUND = 30_000 * 80_000
WORDS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
LENGTHS = st.builds(Length, st.integers(-BOUND, BOUND))
JOB_SCHEMA, SHOP_SCHEMA, FIGURES_SCHEMA = (
    jsonschema.Draft202012Validator(json.loads(schemas()[f"frontwright-{noun}.schema.json"]))
    for noun in ("job", "shop", "figures")
)
UNITS: list[Unit] = ["in", "mm"]
TYPED = st.one_of(
    st.builds(
        typed, st.sampled_from(["23 5/8", "600mm", "1,5", "5'", "574", "23 5/", "x", ""]), st.sampled_from(UNITS)
    ),
    st.builds(Typed, WORDS, st.none() | LENGTHS),
)
AMOUNTS = st.one_of(
    st.builds(amount, st.sampled_from(["0.5", ",5", "42", "many", ""])),
    st.builds(Amount, WORDS, st.none() | st.fractions(-10_000, 10_000, max_denominator=10**9)),
)
st.register_type_strategy(Typed, TYPED)
st.register_type_strategy(Amount, AMOUNTS)


def field(name: str, hint: object, references: dict[str, tuple[str, ...]]) -> st.SearchStrategy[Any]:
    """Any value of a field; a field that names another row is left as it is."""
    if name in references and name != "id":
        return {"fronts": st.just(())}.get(name, st.none())
    if hint in (int, int | None):
        counts = st.integers(1 if name == "number" else -MOST_COUNT, MOST_COUNT)
        return counts if hint is int else st.none() | counts
    if hint is str:
        return WORDS.filter(bool) if name == "id" else WORDS
    return st.from_type(hint)  # type: ignore[arg-type]  # hints are types


def free_tables() -> list[str]:
    """The tables whose rows need no other row."""
    needy = {"looks", "facings"}
    for name, homes in REFERENCES.items():
        hints = get_type_hints(Job.kinds()[name])
        needy |= {name for one in homes if hints[one] is str}
    return [name for name in Job.kinds() if name not in needy]


@pytest.mark.parametrize("name", free_tables())
@settings(max_examples=25)
@given(data=st.data(), unit=st.sampled_from(UNITS))
def test_any_row_comes_back_from_the_json_form_as_it_was(name: str, data: st.DataObject, unit: Unit) -> None:
    kind = Job.kinds()[name]
    fields = {key: field(key, hint, REFERENCES.get(name, {})) for key, hint in get_type_hints(kind).items()}
    rows = data.draw(st.lists(st.builds(kind, **fields), max_size=3, unique_by=lambda row: row.id))
    tables: dict[str, Any] = {"headings": Table([Heading(unit=unit)]), name: Table(rows)}
    job = Job(**tables)
    text = job_to_json(job)
    back = job_from_json(text)
    assert back == job
    assert list(getattr(back, name)) == [row.id for row in rows]
    JOB_SCHEMA.validate(json.loads(text))


def test_the_tables_with_rows_that_name_others_are_known() -> None:
    assert set(Job.kinds()) - set(free_tables()) == {
        *("runs", "ends", "cabinets", "members", "columns", "openings", "readings", "old_fronts", "fronts"),
        *("obstacles", "corners", "insides", "trims"),
        *("photos", "surfaces", "repairs", "old_hinges", "drawers", "service_lines"),
        *("looks", "facings", "leaves", "blades", "defects", "laid_parts", "cuts_done", "leftovers"),
    }


def test_the_schemas_are_themselves_json_schema() -> None:
    for schema in (JOB_SCHEMA.schema, SHOP_SCHEMA.schema, FIGURES_SCHEMA.schema):
        jsonschema.Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_comes_back_as_it_was(name: str) -> None:
    job = job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))
    text = job_to_json(job)
    assert job_from_json(text) == job
    assert job_to_json(job_from_json(text)) == text
    assert len(job.openings) == {"laundry-pair": 2, "kitchen-run": 14}[name]


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_is_as_the_schema_says(name: str) -> None:
    JOB_SCHEMA.validate(json.loads(resource("samples", f"{name}.json").read_text(encoding="utf-8")))


@pytest.mark.parametrize("name", SAMPLES)
def test_the_figures_of_a_sample_are_as_their_schema_says(name: str) -> None:
    job = job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))
    FIGURES_SCHEMA.validate(json.loads(figures_json(derive(job))))


@pytest.mark.parametrize("name", schemas())
def test_the_schema_that_comes_with_the_program_is_that_of_the_classes(name: str) -> None:
    """If it is not: `python -m frontwright.exchange.schema resources/schema`."""
    assert resource("schema", name).read_text(encoding="utf-8") == schemas()[name]


@pytest.mark.parametrize(
    "change",
    [
        {"unit": "cm"},
        {"version": 2},
        {"doors": []},
        {"rooms": [{"id": ""}]},
        {"rooms": [{"name": "no id"}]},
        {"rooms": [{"id": "a", "colour": "red"}]},
        {"rooms": [{"id": "a", "place": "1"}]},
        {"machines": [{"id": "a", "kind": "chisel"}]},
        {"machines": [{"id": "a", "kerf": 3}]},
        {"machines": [{"id": "a", "kerf": {"text": "3"}}]},
        {"machines": [{"id": "a", "kerf": {"text": "3", "is": "3"}}]},
        {"species": [{"id": "a", "flat": {"text": "3", "is": "3 in"}}]},
    ],
)
def test_what_the_program_refuses_the_schema_refuses(change: dict[str, Any]) -> None:
    form: dict[str, Any] = {"format": "frontwright-job", "version": 1, "unit": "in"}
    JOB_SCHEMA.validate(form)
    with pytest.raises(jsonschema.ValidationError):
        JOB_SCHEMA.validate(form | change)


def job_with(value: Typed, unit: Unit) -> Job:
    heading: Table[Heading] = Table([Heading(unit=unit)])
    return Job(headings=heading).put(Machine("saw", kerf=value))


def kerf(job: Job) -> object:
    return json.loads(job_to_json(job))["machines"][0]["kerf"]


@pytest.mark.parametrize(
    ("value", "unit", "form"),
    [
        (typed("23 5/8", "in"), "in", "23 5/8"),
        (typed("600mm", "in"), "in", "600mm"),
        (typed("23 5/", "in"), "in", "23 5/"),
        (typed("600", "mm"), "mm", "600"),
        (typed("600", "mm"), "in", {"text": "600", "is": "3000/127 in"}),
        (typed("23 5/8", "in"), "mm", {"text": "23 5/8", "is": "600.075 mm"}),
        (Typed("not read then", Length.inch("1.5")), "in", {"text": "not read then", "is": "1.5 in"}),
        (Typed("23", None), "in", {"text": "23", "is": None}),
    ],
)
def test_a_length_carries_its_value_where_its_text_does_not_give_it(value: Typed, unit: Unit, form: object) -> None:
    job = job_with(value, unit)
    assert kerf(job) == form
    assert job_from_json(job_to_json(job)) == job


@pytest.mark.parametrize(
    ("value", "form"),
    [
        (amount("0,5"), "0,5"),
        (amount("many"), "many"),
        (Amount("a third", Fraction(1, 3)), {"text": "a third", "is": "1/3"}),
        (Amount("3", None), {"text": "3", "is": None}),
    ],
)
def test_an_amount_carries_its_value_where_its_text_does_not_give_it(value: Amount, form: object) -> None:
    job = Job().put(Species("ash", density=value))
    assert json.loads(job_to_json(job))["species"][0]["density"] == form
    assert job_from_json(job_to_json(job)) == job


def test_a_new_job_is_only_its_head() -> None:
    assert json.loads(job_to_json(Job())) == {"format": "frontwright-job", "version": 1, "unit": "in"}
    assert job_from_json(job_to_json(Job())) == Job()


def test_fields_that_say_nothing_new_are_left_out() -> None:
    job = Job().put(Reading("r", of="R", what="width", struck=True))
    text = job_to_json(job)
    assert json.loads(text)["readings"] == [{"id": "r", "of": "R", "what": "width", "struck": True}]


def test_the_unit_of_the_form_is_that_of_the_heading() -> None:
    job = job_from_json('{"format": "frontwright-job", "version": 1, "unit": "mm"}')
    assert job.heading == Heading(unit="mm")
    named = job_from_json('{"format": "frontwright-job", "version": 1, "unit": "mm", "headings": [{"name": "Run"}]}')
    assert named.heading == Heading(name="Run", unit="mm")


def test_a_job_without_heading_stays_without() -> None:
    job = Job(headings=Table())
    assert job_from_json(job_to_json(job)) == job


def test_a_row_stands_on_a_line_of_its_own_in_the_order_of_entry() -> None:
    job = Job().put(Species("b"), Species("a"))
    assert job_to_json(job).splitlines()[4:7] == [' "species": [', '  {"id": "b"},', '  {"id": "a"}']


@pytest.mark.parametrize("unit", UNITS)
def test_a_shop_comes_back_as_it_was(unit: Unit) -> None:
    job = job_from_json(resource("samples", "kitchen-run.json").read_text(encoding="utf-8"))
    tables: dict[str, Table[Row]] = {name: getattr(job, name) for name in Shop.kinds() if name != "learned"}
    tables["learned"] = Table([Learned("loss, band saw, oak", "loss", "band saw", "oak", count=2)])
    shop = Shop(**tables)  # type: ignore[arg-type]  # each table is of the class of its name
    text = shop_to_json(shop, unit)
    assert shop_from_json(text) == shop
    assert json.loads(text)["unit"] == unit
    SHOP_SCHEMA.validate(json.loads(text))

"""Every row of every table comes back from SQLite as it was put there."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, get_type_hints

import pytest
from frontwright.core.job import Amount, Job, Reading, Shop, Table
from frontwright.core.job.declared import MOST_COUNT
from frontwright.core.lengths import Length, Typed
from frontwright.store import rows
from frontwright.store.columns import cells_of, folded, row_of, sealed
from frontwright.store.moves import Move, Numbers
from frontwright.store.schema import Noun, schema
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine, StaticPool, create_engine

WORDS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
BOUND = 30_000 * 80_000
st.register_type_strategy(Typed, st.builds(Typed, WORDS, st.none() | st.builds(Length, st.integers(-BOUND, BOUND))))
st.register_type_strategy(
    Amount, st.builds(Amount, WORDS, st.none() | st.fractions(-10_000, 10_000, max_denominator=10**9))
)
ROW_KINDS: list[tuple[Noun, str]] = [("job", name) for name in Job.kinds()]
ROW_KINDS += [("shop", name) for name in Shop.kinds()]


def field(name: str, hint: object) -> st.SearchStrategy[Any]:
    if hint is int:
        return st.integers(1 if name == "number" else -MOST_COUNT, MOST_COUNT)
    if hint == int | None:
        return st.none() | st.integers(-MOST_COUNT, MOST_COUNT)
    return WORDS if hint is str else st.from_type(hint)  # type: ignore[arg-type]  # hints are types


def any_row(kind: type[Any]) -> st.SearchStrategy[Any]:
    return st.builds(kind, **{name: field(name, hint) for name, hint in get_type_hints(kind).items()})


@pytest.fixture(scope="module")
def empty() -> Iterator[dict[Noun, Engine]]:
    """A database in memory for each kind of file, its tables made and empty."""
    nouns: tuple[Noun, ...] = ("job", "shop")
    engines = {noun: create_engine("sqlite://", poolclass=StaticPool) for noun in nouns}
    for noun, engine in engines.items():
        schema(noun).metadata.create_all(engine)
    yield engines
    for engine in engines.values():
        engine.dispose()


@pytest.mark.parametrize(("noun", "name"), ROW_KINDS)
@settings(max_examples=15)
@given(data=st.data())
def test_a_row_comes_back_from_its_table_as_it_was_put_there(
    empty: dict[Noun, Engine], noun: Noun, name: str, data: st.DataObject
) -> None:
    tables = schema(noun)
    put = data.draw(st.lists(any_row(tables.kinds[name]), max_size=4, unique_by=lambda row: row.id))
    moves = [Move(name, row.id, None, cells_of(row, number)) for number, row in enumerate(put, 1)]
    with empty[noun].connect() as connection:  # given up without commit, so that the next finds it empty again
        rows.write_state(connection, tables, rows.State(0, rows.write(connection, tables, moves, rows.NO_ROWS)))
        found = rows.load(connection, tables)
    assert found.rows[name] == put
    assert list(found.entered[name]) == [row.id for row in put]


def test_a_length_is_kept_in_units_beside_the_text_as_typed() -> None:
    row = Reading("a", of="O", what="width", value=Typed("600mm", Length.mm(600)))
    cells = cells_of(row, 7)
    assert (cells["value"], cells["value_text"], cells["entered"]) == (48_000_000, "600mm", 7)


def test_text_that_cannot_be_read_is_kept_without_a_value() -> None:
    cells = cells_of(Reading("a", of="O", what="width", value=Typed("23 5/", None)), 1)
    assert (cells["value"], cells["value_text"]) == (None, "23 5/")
    assert row_of(Reading, cells) == Reading("a", of="O", what="width", value=Typed("23 5/", None))


def test_an_amount_is_kept_exactly() -> None:
    kind = Job.kinds()["species"]
    cells = cells_of(kind("ash", density=Amount("a third", Fraction(1, 3))), 1)
    assert (cells["density"], cells["density_text"]) == ("1/3", "a third")


def test_a_value_that_its_field_does_not_take_is_never_written() -> None:
    with pytest.raises(TypeError, match="what cannot be 'girth'"):
        cells_of(Reading("a", of="O", what="girth"), 1)  # type: ignore[arg-type]


def test_a_choice_that_is_none_is_no_row() -> None:
    cells = cells_of(Reading("a", of="O", what="width"), 1) | {"what": "girth"}
    with pytest.raises(ValueError, match="girth"):
        row_of(Reading, cells)


def test_every_cell_counts_for_the_seal() -> None:
    cells = cells_of(Reading("a", of="O", what="width", value=Typed("1", Length(1))), 1)
    seals = {sealed("readings", cells | {name: "other"}) for name in cells} | {sealed("members", cells)}
    assert len(seals) == len(cells) + 1
    assert sealed("readings", cells) not in seals


def test_folding_a_seal_twice_takes_it_out_again() -> None:
    one, other = "0" * 31 + "5", "f" * 32
    assert folded(folded(one, other), other) == one
    assert folded(rows.NO_ROWS, one, other) == folded(rows.NO_ROWS, other, one)


def test_tables_that_are_the_same_object_are_not_compared() -> None:
    class Watched(Table[Reading]):
        def items(self) -> Any:
            raise AssertionError("compared")

    job = Job(readings=Watched())
    assert Numbers({}).moves(job, job.put(Job.kinds()["rooms"]("K")))[0].table == "rooms"

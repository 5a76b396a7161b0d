"""Whatever is entered of wood, however wrong: the question of enough, layouts and the bill come out, and add up."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from frontwright.core.job import (
    Amount,
    CutDone,
    Defect,
    Job,
    KeepRule,
    Laid,
    LaidPart,
    Leftover,
    Piece,
    Pricing,
    Row,
    SupplierSize,
)
from frontwright.core.lengths import Length, Typed
from frontwright.core.plan import asked, billed_whole, derive, quoted
from frontwright.desk.lists import list_bytes, tables
from frontwright.exchange.figures_json import figures_json
from frontwright.exchange.json_form import job_from_json
from frontwright.exchange.parts_list import sizes_from
from frontwright.exchange.rack_list import pieces_from
from frontwright.resources import resource
from frontwright.sheets.catalogue import Stamp, make, sheets_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

SAMPLES = [
    job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))
    for name in ("laundry-pair", "kitchen-run")
]
MILLIMETRES = st.sampled_from((-5, 0, 1, 3, 6, 20, 27, 44, 50, 150, 195, 340, 600, 860, 1220, 2440, 3000, 29_999))
LENGTHS = st.none() | st.builds(lambda mm: Typed(f"{mm}mm", Length.mm(mm)), MILLIMETRES) | st.just(Typed("x", None))
AMOUNTS = st.none() | st.builds(lambda n: Amount(str(n), Fraction(n)), st.integers(0, 40)) | st.just(Amount("y", None))
PARTS = st.sampled_from(("DA-S", "DA-RT", "F2-P", "F5-P", "K right skin", "top row", "nothing", "H1-P"))
FORMS = st.sampled_from(("board", "billet", "leaf", "strip", "panel", "sheet", "core", "solid panel"))
WOODS = st.sampled_from(("", "oak", "white ash", "Oak", "elm"))


def pieces() -> st.SearchStrategy[Piece]:
    return st.builds(
        Piece,
        id=st.sampled_from(("p1", "p2", "p3", "p4")),
        form=FORMS,
        species=WOODS,
        batch=st.sampled_from(("", "a", "b")),
        length=LENGTHS,
        width=LENGTHS,
        thickness=LENGTHS,
        count=st.integers(-1, 3),
        end_trim=LENGTHS,
        edge_trim=LENGTHS,
        planed=st.booleans(),
        grade=st.sampled_from(("", "show", "plain", "hidden")),
        moisture=AMOUNTS,
        price=AMOUNTS,
        state=st.sampled_from(("free", "in work", "used up", "burned")),
    )


def sizes() -> st.SearchStrategy[SupplierSize]:
    return st.builds(
        SupplierSize,
        id=st.sampled_from(("s1", "s2")),
        form=st.sampled_from(("board", "billet", "sheet", "core", "hardware", "supplies")),
        what=st.sampled_from(("", "pull", "finish", "glue", "half cover")),
        species=WOODS,
        length=LENGTHS,
        width=LENGTHS,
        thickness=LENGTHS,
        end_trim=LENGTHS,
        price=AMOUNTS,
        per=st.sampled_from(("piece", "content")),
        pack=st.integers(-1, 10),
        holds=AMOUNTS,
    )


def laid() -> st.SearchStrategy[list[Row]]:
    places = st.builds(
        LaidPart,
        id=st.sampled_from(("x1", "x2", "x3", "x4", "x5")),
        laid=st.just("1"),
        part=PARTS,
        number=st.integers(-1, 3),
        along=LENGTHS,
        across=LENGTHS,
        length=LENGTHS,
        width=LENGTHS,
        turned=st.booleans(),
    )
    of = st.builds(
        Laid,
        id=st.just("1"),
        piece=st.none() | st.just("p1"),
        size=st.none() | st.just("s1"),
        group=st.sampled_from(("", "sheet oak 6.2", "board oak 20", "gone")),
        kerf=LENGTHS,
    )
    return st.builds(lambda row, parts: [row, *parts], of, st.lists(places, max_size=5))


def others() -> st.SearchStrategy[list[Any]]:
    return st.tuples(
        st.builds(Defect, id=st.just("d"), piece=st.just("p1"), along=LENGTHS, length=LENGTHS, width=LENGTHS),
        st.builds(KeepRule, id=st.just("k"), form=FORMS, batch=st.sampled_from(("", "a")), length=LENGTHS),
        st.builds(Pricing, rate=AMOUNTS, own_share=AMOUNTS, waste=AMOUNTS, reserve=AMOUNTS, burn_below=AMOUNTS),
        st.builds(Leftover, id=st.just("1 A"), laid=st.just("1"), keep=st.booleans()),
    ).map(list)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.sampled_from(SAMPLES),
    st.lists(pieces(), min_size=1, max_size=4),
    st.lists(sizes(), min_size=1, max_size=2),
    laid(),
    others(),
)
def test_any_wood_comes_out_and_adds_up(
    job: Job, there: list[Piece], sold: list[SupplierSize], rows: list[Row], more: list[Row]
) -> None:
    job = job.put(*there, *sold, *rows, *more)
    parts = tuple(row.id for row in rows if isinstance(row, LaidPart))
    plan = derive(job.put(CutDone("1 1", "1", 1, parts[:1])))
    for layout in plan.stock.layouts:
        content = layout.content
        assert content.all == content.parts + content.kerf + content.trims + content.remainders + content.waste
    for one in asked(plan).groups:
        assert 0 <= one.have <= one.need
        assert one.need - one.have == sum(one.short.values())
        assert (one.answer == "yes") is not bool(one.short)
    bill = billed_whole(plan)
    assert bill.costs.total >= 0
    assert quoted(plan, bill).total == bill.costs.total
    assert figures_json(plan).startswith("{")


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.sampled_from(SAMPLES),
    st.lists(pieces(), min_size=1, max_size=4),
    st.lists(sizes(), min_size=1, max_size=2),
    laid(),
)
def test_any_wood_comes_on_paper_and_goes_out_and_in_as_lists(
    job: Job, there: list[Piece], sold: list[SupplierSize], rows: list[Row]
) -> None:
    plan = derive(job.put(*there, *sold, *rows))
    kinds = ("stock", "cutting", "quote")
    infos = [replace(info, held_by=()) for info in sheets_of(plan) if info.kind in kinds]
    assert make(plan, infos, "a4", Stamp()).startswith(b"%PDF")
    lists = tables(plan, billed_whole(plan), plan.job.pieces.values())
    assert list_bytes("all.xlsx", lists).startswith(b"PK")
    for name in ("list.xlsx", "list.csv"):
        assert sizes_from(plan, name, list_bytes(name, lists, "parts")) == ()
        brought = pieces_from(name, list_bytes(name, lists, "rack"), plan.job.heading.unit, plan.job.pieces)
        assert (brought.new, brought.changed) == ((), ())

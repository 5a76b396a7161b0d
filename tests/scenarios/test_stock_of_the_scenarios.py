"""Wood of the two worked jobs: what comes from the rack, what is refused and why, what is bought, laid and kept."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import cast

import pytest
from frontwright.core.job import Job, Laid, LaidPart, Piece, SupplierSize
from frontwright.core.lengths import UNITS_IN, Typed, typed
from frontwright.core.plan import Plan, asked, billed_whole, derive
from frontwright.core.stock.result import LayoutPlan, StockPlan
from frontwright.exchange.figures_site import site_sections
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

type Row = dict[str, object]
type Load = Callable[[str], Row]

JOBS = {"a": "laundry-pair", "b": "kitchen-run"}


def sample(letter: str) -> Job:
    return job_from_json(resource("samples", f"{JOBS[letter]}.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module", params=JOBS)
def letter(request: pytest.FixtureRequest) -> str:
    return str(request.param)


PLANS = {letter: derive(sample(letter)) for letter in JOBS}


def expected(worked: Load, letter: str) -> Mapping[str, Row]:
    return cast(Mapping[str, Row], worked(f"inputs-{letter}.json")["expected"])


def number(length: Typed | None, plan: Plan) -> Fraction:
    assert length is not None
    assert length.value is not None
    return Fraction(length.value.units, UNITS_IN[plan.job.heading.unit])


def near(told: object) -> Fraction:
    return Fraction(str(told))


def test_the_rack_and_what_can_be_bought_are_those_of_the_inputs(letter: str, worked: Load) -> None:
    plan, inputs = PLANS[letter], cast(Mapping[str, list[Row]], worked(f"inputs-{letter}.json")["inputs"])
    for told in inputs["stock"]:
        piece = plan.job.pieces[str(told["id"])]
        assert [number(getattr(piece, name), plan) for name in ("length", "width", "thickness")] == [
            near(told[name]) for name in ("length", "width", "thickness")
        ]
        assert (number(piece.end_trim, plan) if piece.end_trim else 0) == near(told.get("end_trim", 0))
        assert piece.batch == told.get("batch", "")
    sizes = [row for row in plan.job.supplier_sizes.values() if row.form in ("board", "sheet")]
    for told, row in zip(inputs["buy_sizes"], sizes, strict=True):
        assert [number(row.length, plan), number(row.width, plan)] == [near(told["length"]), near(told["width"])]
        both = near(told.get("end_trim", 0)) + 2 * near(told.get("end_trim_each", told.get("edge_trim_each", 0)))
        assert number(row.end_trim, plan) == both
        price = row.price.value if row.price is not None else None
        assert price == (near(told["price_per_bf"]) if "price_per_bf" in told else None)


def test_what_comes_from_the_rack_is_pulled(letter: str, worked: Load) -> None:
    bill = billed_whole(PLANS[letter])
    assert sorted(one.piece for one in bill.pull) == sorted(
        cast(list[str], expected(worked, letter)["stock_bill"]["from_rack"])
    )


def test_the_sheet_of_another_lot_is_left_with_its_reason(worked: Load) -> None:
    refused = {
        candidate.piece.id: [refusal.kind for refusal in candidate.refusals]
        for one in asked(PLANS["b"]).groups
        if one.group.form == "sheet"
        for candidate in one.refused
    }
    told = cast(list[Row], expected(worked, "b")["stock_bill"]["not_used"])
    assert refused == {str(row["id"]): ["batch"] for row in told}


def test_what_is_bought_is_what_was_worked_out_by_hand(worked: Load) -> None:
    counts = {one.size or one.name: one.count for one in billed_whole(PLANS["a"]).purchases}
    bought = cast(Mapping[str, int], expected(worked, "a")["stock_bill"]["buy"])
    assert counts["4/4 x 6 x 96"] == bought["boards_4_4_6x96"]
    assert (counts["hinge, 1/2 cover"], counts["pull"], counts["bumper"]) == (
        bought["hinges"],
        bought["pulls"],
        bought["bumpers"],
    )
    other = {one.size or one.name: one.count for one in billed_whole(PLANS["b"]).purchases}
    told = cast(Mapping[str, int], expected(worked, "b")["stock_bill"]["buy"])
    assert other["27 x 195 x 2500"] <= told["boards_27x195x2500"]
    assert other["27 x 180 x 3000"] <= told["board_27x180x3000"]
    assert other["6.2 x 1220 x 2440"] <= told["sheets_6_2"]
    assert other["Cup hinge, 18 cover"] == told["hinges_overlay_18"]
    assert other["Cup hinge, inset"] == told["hinges_inset"]


def test_board_content_is_what_was_worked_out_by_hand(worked: Load) -> None:
    boards = {
        letter: sum((one.amount for one in billed_whole(PLANS[letter]).purchases if one.what == "board"), Fraction(0))
        for letter in JOBS
    }
    bought = cast(Row, expected(worked, "a")["stock_bill"]["buy"])
    assert boards["a"] == near(bought["board_feet"])
    assert boards["b"] == near(expected(worked, "b")["stock_bill"]["board_volume_m3"])


def test_the_material_that_is_bought_costs_what_was_worked_out_by_hand(worked: Load) -> None:
    cost = sum((one.cost for one in billed_whole(PLANS["a"]).purchases if one.cost is not None), Fraction(0))
    assert cost / 100 == near(expected(worked, "a")["stock_bill"]["material_cost"])


def test_the_area_of_a_coat_is_what_was_worked_out_by_hand(worked: Load) -> None:
    area = billed_whole(PLANS["a"]).finish_area
    assert abs(area - near(expected(worked, "a")["finish"]["total_ft2_per_coat"])) < Fraction("0.006")


def test_the_finish_of_the_figures_is_what_was_worked_out_by_hand(worked: Load) -> None:
    """The same area as the bill's, a recipe at a time, and one batch of tins for all of it"""
    (told,) = cast("list[dict[str, str]]", site_sections(PLANS["a"])["finish"])
    area = near(expected(worked, "a")["finish"]["total_ft2_per_coat"])
    assert abs(Fraction(told["area"]) - area) < Fraction("0.006")
    assert abs(Fraction(told["volume"]) - area * 3 / 400 * Fraction("1.15")) < Fraction("0.002")


def test_strips_lie_on_no_more_leaves_than_the_witness(worked: Load) -> None:
    witness = expected(worked, "b")["strip_layout_witness"]
    leaves = [leaf for _, leaf in PLANS["b"].veneer.nests]
    assert len(leaves) <= cast(int, witness["count"])
    assert sorted(strip.id for leaf in leaves for row in leaf.rows for strip in row.strips) == sorted(
        strip.id for strip in PLANS["b"].facing.strips if strip.order > 1
    )


# -- the witnesses, laid


def _laid(job: Job, name: str, of: Piece | SupplierSize, parts: Sequence[tuple[str, int, str, str]]) -> Job:
    unit = job.heading.unit
    job = job.put(Laid(name, of.id if isinstance(of, Piece) else None, None if isinstance(of, Piece) else of.id))
    for part, copy, along, across in parts:
        row = LaidPart(f"{name} {part} {copy}", name, part, copy, typed(along, unit), typed(across, unit))
        job = job.put(row)
    return job


def _layouts(job: Job) -> tuple[LayoutPlan, ...]:
    stock: StockPlan = derive(job).stock
    assert [fault for one in stock.layouts for fault in one.faults] == []
    return stock.layouts


def test_the_sheet_of_the_witness_holds_and_leaves_what_the_witness_keeps(worked: Load) -> None:
    """The skin is left as long as the run is high and as wide as is seen: at its rough length it is 20 longer."""
    job = sample("b")
    witness = cast(list[Row], expected(worked, "b")["sheet_layout_witness"]["placements"])
    names = {"K-skin": "K right skin"}
    parts = [
        (names.get(str(row["id"]), f"{row['id']}-P"), 1, f"{row['x']} + 10", f"{row['y']} + 10") for row in witness
    ]
    job = _laid(job, "1", job.supplier_sizes["6.2 x 1220 x 2440"], parts)
    skin = next(row for row in job.laid_parts.values() if row.part == "K right skin")
    allowances = replace(job.allowances["allowances"], strip_length=typed("0", "mm"))
    (layout,) = _layouts(job.put(replace(skin, length=typed("720", "mm"), width=typed("595", "mm")), allowances))
    kept = [(one.length, one.width) for one in layout.remainders if one.keep]
    told = cast(list[Row], expected(worked, "b")["stock_bill"]["keep"])
    sizes = [(near(row["along"]), near(row["across"])) for row in told if "along" in row]
    assert [tuple(Fraction(side.units, UNITS_IN["mm"]) for side in one) for one in kept][:2] == sizes


def test_the_bought_board_of_the_witness_holds_and_keeps_what_the_witness_keeps(worked: Load) -> None:
    """Strip 1: three stiles; strip 2: a stile and two top rails; 27 5/16 × 2 1/2 is kept, 7 1/2 × 2 1/2 is not."""
    job = sample("a")
    at = ["1 1/8", "1 1/8 + 29 + 1/8", "1 1/8 + 58 + 1/4", "1 1/8 + 48 3/32 + 1/4"]
    parts = [
        *(("DA-S", 1, at[0], "0"), ("DA-S", 2, at[1], "0"), ("DB-S", 1, at[2], "0")),
        *(("DB-S", 2, at[0], "2 5/8"), ("DA-RT", 1, at[1], "2 5/8"), ("DB-RT", 1, at[3], "2 5/8")),
    ]
    board = replace(job.supplier_sizes["4/4 x 6 x 96"], end_trim=None)
    (layout,) = _layouts(_laid(job.put(board), "1", board, parts))
    told = cast(list[Row], expected(worked, "a")["stock_bill"]["leftovers"])
    solid = {near(row["length"]): row for row in told if row["what"] == "solid"}
    found = {Fraction(one.length.units, UNITS_IN["in"]): one for one in layout.remainders}
    for length, row in solid.items():
        assert found[length].keep is row["keep"]
        assert Fraction(found[length].width.units, UNITS_IN["in"]) >= near(row["width"])


def test_the_rest_of_a_leaf_beside_a_strip_is_kept_as_the_witness_keeps_it(worked: Load) -> None:
    """The left stile strip lies on leaf M5, 5 1/8 wide after jointing: 3 3/8 is left"""
    job = sample("a")
    leaf = Piece("M5", "leaf", "white ash", "AS1", typed("31", "in"), typed("5 1/8", "in"), typed("1/8", "in"))
    (layout,) = _layouts(_laid(job.put(leaf), "1", leaf, [("R1 A1", 1, "0", "0")]))
    assert layout.group == "strips"
    told = next(row for row in cast(list[Row], expected(worked, "a")["stock_bill"]["leftovers"]) if "M5" in str(row))
    (rest,) = layout.remainders
    assert Fraction(rest.length.units, UNITS_IN["in"]) == near(told["length"])
    assert Fraction(rest.width.units, UNITS_IN["in"]) == near(told["width"])
    assert rest.keep is told["keep"]


def test_content_of_the_witness_adds_up_exactly(worked: Load) -> None:
    job = sample("b")
    witness = cast(list[Row], expected(worked, "b")["sheet_layout_witness"]["placements"])
    parts = [(f"{row['id']}-P", 1, f"{row['x']} + 10", f"{row['y']} + 10") for row in witness if row["id"] != "K-skin"]
    (layout,) = _layouts(_laid(job, "1", job.supplier_sizes["6.2 x 1220 x 2440"], parts))
    content = layout.content
    assert content.all == content.parts + content.kerf + content.trims + content.remainders + content.waste
    assert layout.content.trims == Fraction(2440 * 1220 - 2420 * 1200) * UNITS_IN["mm"] ** 2

"""Sheet 18, trim map and strip list: pieces in gluing order, who covers whom, rows per leaf, what holds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.job import Adhesive, Facing, Trim
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import HeldBack, SheetInfo, Stamp, digest, make, sheets_of

type Texts = Callable[[bytes], list[str]]
STAMP = Stamp(1, "2026-11-25")


def _of(plan: Plan) -> list[SheetInfo]:
    return [info for info in sheets_of(plan) if info.kind == "trim-map"]


def _squared(plan: Plan) -> Plan:
    row = Facing("K", True, inside_edges="all round", squared=True, inside_thickness=typed("1", "mm"))
    return derive(plan.job.put(row, Trim("kick", "K", width=typed("100", "mm"))))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_sheet_lists_every_piece_in_gluing_order_with_its_size(
    kitchen: Plan, page_texts: Texts, paper: str
) -> None:
    (info,) = _of(kitchen)
    assert info.key == "18-trim-map:K"
    pages = page_texts(make(kitchen, [info], "a4" if paper == "a4" else "letter", STAMP))
    text = " ".join(pages)
    for part in ("26 pieces", "A right end", "B left end", "720 × 48.2 × 2", "740 × 51.2", "edge of 1", "leaf 6"):
        assert part in text, part
    listed = text[text.index("rough") :]
    order = [listed.index(name) for name in ("right skin", "S0", "S6", "top rail O1", "bottom rail O6")]
    assert order == sorted(order)


def test_it_says_what_the_pieces_are_stuck_on_with_and_what_can_hurt(kitchen: Plan, page_texts: Texts) -> None:
    text = " ".join(page_texts(make(kitchen, _of(kitchen), "a4", STAMP)))
    for part in ("epoxy", "to a mix", "key with 80 grit", "Pins, not where a hinge screw comes", "safety data sheets"):
        assert part in text, part


def test_returns_packing_and_trim_are_told(kitchen: Plan, page_texts: Texts) -> None:
    plan = _squared(kitchen)
    text = " ".join(page_texts(make(plan, _of(plan), "a4", STAMP)))
    for part in ("1 left return", "behind F1", "kick", "long point", "mitred right"):
        assert part in text, part


def test_a_job_that_stays_bare_has_no_such_sheet(kitchen: Plan) -> None:
    ends = [replace(end, skin="none") for end in kitchen.job.ends.values()]
    assert _of(derive(kitchen.job.put(Facing("K"), *ends))) == []


def test_a_thicker_strip_makes_it_stale(kitchen: Plan) -> None:
    (before,) = _of(kitchen)
    (after,) = _of(derive(kitchen.job.put(Facing("K", True, typed("2.5", "mm")))))
    assert digest(before) != digest(after)


def test_it_is_held_back_while_an_adhesive_is_chosen_that_does_not_hold(kitchen: Plan) -> None:
    plan = derive(kitchen.job.put(Adhesive("white", kind="wood glue"), Facing("K", True, adhesive="white")))
    with pytest.raises(HeldBack):
        make(plan, _of(plan), "a4", STAMP)

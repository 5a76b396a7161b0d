"""The sheets of the wood: cutting diagram, pull list, purchase lists, labels for parts and leftovers, and the quote."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.bill.result import Proviso
from frontwright.core.job import (
    CutDone,
    Defect,
    LabelSheet,
    Laid,
    LaidPart,
    Operation,
    Piece,
    Pricing,
    SupplierSize,
    amount,
)
from frontwright.core.lengths import Typed, typed
from frontwright.core.plan import Plan, billed_whole, derive
from frontwright.core.stock.born import born
from frontwright.sheets.bill_words import conditions, money
from frontwright.sheets.catalogue import SheetInfo, Stamp, digest, make, sheets_of
from frontwright.sheets.cutting import numbers_of

type Piece_ = tuple[str, float, float, float]
type Pages = list[list[Piece_]]
type Texts = Callable[[bytes], list[str]]
STAMP = Stamp(3, "2026-11-25")
GROUP = "sheet oak 6.2"


def mm(text: str) -> Typed:
    return typed(text, "mm")


def of(plan: Plan, kind: str, subject: str = "") -> SheetInfo:
    return next(info for info in sheets_of(plan) if info.kind == kind and info.subject == subject)


def subjects(plan: Plan, kind: str) -> list[str]:
    return [info.subject for info in sheets_of(plan) if info.kind == kind]


def pdf(plan: Plan, kind: str, subject: str = "", paper: str = "a4") -> bytes:
    return make(plan, [of(plan, kind, subject)], "letter" if paper == "letter" else "a4", STAMP)


SHEET = SupplierSize(
    "6.2 x 1220 x 2440", "sheet dealer", "sheet", species="oak", length=mm("2440"), width=mm("1220"),
    thickness=mm("6.2"), end_trim=mm("20"), edge_trim=mm("20"), price=amount("48.50"), days=5,
)  # fmt: skip


def flat(text: str) -> str:
    """Text without the room that pieces of a line leave before a mark."""
    return text.replace(" ,", ",").replace(" ;", ";")


def lying(laid: str, part: str, along: str, across: str, number: int = 1) -> LaidPart:
    return LaidPart(f"{laid} {part} {number}", laid, part, number, mm(along), mm(across))


@pytest.fixture
def laid(kitchen: Plan) -> Plan:
    """The kitchen with three panels on one bought sheet: F7L-P and F7R-P side by side, F5-P over the first."""
    rows = (
        Laid("1", size=SHEET.id, group=GROUP, kerf=mm("3")),
        lying("1", "F7L-P", "10", "10"),
        lying("1", "F7R-P", "420", "10"),
        lying("1", "F5-P", "10", "287.5"),
    )
    return derive(kitchen.job.put(SHEET, *rows))


# ---------------------------------------------------------------------------------------------------- cutting diagram


def test_every_laid_piece_has_a_cutting_diagram(kitchen: Plan, laid: Plan) -> None:
    assert subjects(kitchen, "cutting") == []
    assert subjects(laid, "cutting") == ["1"]
    assert of(laid, "cutting", "1").held_by == ()


def test_the_head_of_a_cutting_diagram_names_wood_size_kerf_and_trims(laid: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(pdf(laid, "cutting", "1"))
    assert "Oak sheet, 6.2 thick, 2440 × 1220" in flat(text)
    assert "kerf 3, trim 10 on each edge" in flat(text)
    assert "to buy" in text
    assert "good face up" in text


def test_every_part_stands_on_it_with_its_size(laid: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(pdf(laid, "cutting", "1"))
    for name, size in (("F7L-P", "407 × 274.5"), ("F7R-P", "407 × 274.5"), ("F5-P", "407 × 253.5")):
        assert name in text
        assert size in text


def test_cuts_of_one_setting_share_a_row_with_fence_or_stop(laid: Plan, pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(pdf(laid, "cutting", "1"))
    settings = {text for text, _, _, size in page if size == 14}
    assert {"10", "407", "274.5", "253.5"} <= settings
    words = [text for text, *_ in page]
    assert "1, 2" in words or "1 to 4" in words
    assert "across" in words
    assert "along" in words


def test_a_trim_is_told_whole_the_saws_part_with_it(laid: Plan, pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(pdf(laid, "cutting", "1"))
    trims = [(x, y) for text, x, y, _ in page if text == "trim"]
    beside = [
        text for text, x, y, size in page if size == 14 and any(abs(y - b) < 1 and 0 < x - a < 30 for a, b in trims)
    ]
    assert beside
    assert set(beside) == {"10"}


def test_what_is_left_is_named_with_its_size_and_both_boxes(laid: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(pdf(laid, "cutting", "1"))
    rest = laid.stock.layouts[0].remainders[0]
    assert rest.keep
    assert f"remainder {rest.letter}" in text
    assert "keep" in text
    assert "burn" in text


def test_pieces_laid_alike_share_one_sheet_with_their_count(laid: Plan, page_texts: Texts) -> None:
    size, group = "27 x 195 x 2500", "board oak 20"
    boards = [Laid(name, size=size, place=int(name), group=group, kerf=mm("3")) for name in ("2", "3")]
    plan = derive(laid.job.put(*boards, lying("2", "F5-S", "20", "0"), lying("3", "F5-S", "20", "0", 2)))
    assert subjects(plan, "cutting") == ["1", "2"]
    assert of(plan, "cutting", "2").title == "cutting diagram, 2, 3"
    assert "2 to buy, of one lot" in flat(page_texts(pdf(plan, "cutting", "2"))[0])
    other = derive(plan.job.put(lying("3", "F5-S", "30", "0", 2)))
    assert subjects(other, "cutting") == ["1", "2", "3"]


def test_a_cut_that_is_made_is_ticked_and_makes_the_sheet_stale(laid: Plan, page_texts: Texts) -> None:
    done = derive(laid.job.put(CutDone("1 1", "1", 1), CutDone("1 2", "1", 2)))
    assert "✓" in page_texts(pdf(done, "cutting", "1"))[0]
    assert "✓" not in page_texts(pdf(laid, "cutting", "1"))[0]


def test_a_layout_that_holds_no_longer_is_held_back(laid: Plan) -> None:
    wrong = derive(laid.job.put(replace(laid.job.laid_parts["1 F5-P 1"], across=mm("200"))))
    assert [check.code for check in of(wrong, "cutting", "1").held_by] == ["layout"]


def test_a_part_moved_on_its_piece_makes_the_diagram_stale(laid: Plan) -> None:
    moved = derive(laid.job.put(replace(laid.job.laid_parts["1 F5-P 1"], across=mm("290"))))
    assert digest(of(moved, "cutting", "1")) != digest(of(laid, "cutting", "1"))


def test_a_board_is_drawn_wider_than_it_is_and_says_so(kitchen: Plan, page_texts: Texts) -> None:
    board = Piece("K-09", "board", "oak", "OK3", mm("2400"), mm("160"), mm("27"), shelf="A1")
    rows = (Laid("1", piece="K-09", group="board oak 20", kerf=mm("3")), lying("1", "F5-S", "0", "0"))
    bad = Defect("d", "K-09", "knot", mm("1310"), mm("0"), mm("30"), mm("20"))
    plan = derive(kitchen.job.put(board, bad, *rows))
    (text,) = page_texts(pdf(plan, "cutting", "1"))
    assert "piece K-09, shelf A1, batch OK3" in text
    assert "Width drawn" in text
    assert "width ×" in text
    assert "559 × 74" in text


@pytest.mark.parametrize(
    ("cuts", "said"),
    [((1,), "1"), ((6, 7), "6, 7"), ((1, 2, 3, 4), "1 to 4"), ((2, 4, 5, 6), "2, 4 to 6"), ((9, 3), "3, 9")],
)
def test_numbers_of_cuts_are_told_short(cuts: tuple[int, ...], said: str) -> None:
    assert numbers_of(cuts) == said


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_many_cuts_go_on_on_a_second_page(kitchen: Plan, page_texts: Texts, paper: str) -> None:
    """Sixty panels, each narrower by 5 mm than the one before: every one has a setting of its own."""
    rows = [replace(SHEET, id="big", length=mm("9000"), width=mm("1000"))]
    parts = [
        LaidPart(f"p{n}", "1", "F5-P", n + 1, mm(str(10 + 120 * n)), mm("10"), mm(str(110 - n)), mm("50"))
        for n in range(60)
    ]
    plan = derive(kitchen.job.put(*rows, Laid("1", size="big", group=GROUP, kerf=mm("3")), *parts))
    info = replace(of(plan, "cutting", "1"), held_by=())
    texts = page_texts(make(plan, [info], "letter" if paper == "letter" else "a4", STAMP))
    assert len(texts) > 1
    assert all("Oak sheet" in text for text in texts)


# ----------------------------------------------------------------------------------------------- pull and purchase


def test_the_pull_list_goes_shelf_by_shelf(kitchen: Plan, page_texts: Texts) -> None:
    shelved = [replace(kitchen.job.pieces["K-05"], shelf="B2"), replace(kitchen.job.pieces["K-01"], shelf="A10")]
    plan = derive(kitchen.job.put(*shelved))
    (text,) = page_texts(pdf(plan, "stock", "pull"))
    assert text.index("Shelf A10") < text.index("K-01") < text.index("Shelf B2") < text.index("K-05")
    assert "900 × 150 × 27" in text
    assert "batch OK3" in text


def test_every_supplier_has_a_purchase_list_of_his_own(kitchen: Plan, page_texts: Texts) -> None:
    plan = derive(kitchen.job.put(SHEET))
    assert [s for s in subjects(plan, "stock") if s.startswith("buy")] == ["buy", "buy sheet dealer", "buy timber yard"]
    (text,) = page_texts(pdf(plan, "stock", "buy sheet dealer"))
    assert "sheet dealer" in text
    assert "1 ×" in text
    assert "2440 × 1220 × 6.2" in text
    assert "Together 48.50; all here after 5 days" in flat(text)
    assert "board" not in text.replace("Whole boards", "")


def test_the_sheets_of_the_bill_tell_the_bill_that_they_are_given(kitchen: Plan) -> None:
    bill = replace(billed_whole(kitchen), purchases=())
    kinds = [info.subject for info in sheets_of(kitchen, lambda: bill) if info.kind == "stock"]
    assert kinds == ["", "pull"]


# ----------------------------------------------------------------------------------------------------------- quote

PRICES = (
    Pricing("pricing", "€", amount("55"), amount("15"), amount("8"), amount("50"), amount("25")),
    Operation("o", "parts", 1, amount("30"), amount("6"), "part"),
)


def test_without_any_price_there_is_no_quote(kitchen: Plan) -> None:
    assert subjects(kitchen, "quote") == []


def test_a_quote_tells_price_currency_and_conditions(kitchen: Plan, page_texts: Texts) -> None:
    plan = derive(kitchen.job.put(*PRICES, replace(kitchen.job.heading, client="The Miller family")))
    bill = billed_whole(plan)
    (text,) = page_texts(pdf(plan, "quote"))
    assert "The Miller family" in text
    assert f"Price {money(bill.costs.total, '€')}" in text
    assert "No price is known of" in text
    assert "Not measured yet:" in text
    assert "holds until" in text


def test_another_price_of_an_hour_makes_the_quote_stale(kitchen: Plan) -> None:
    plan = derive(kitchen.job.put(*PRICES))
    dearer = derive(plan.job.put(replace(plan.job.pricings["pricing"], rate=amount("60"))))
    assert digest(of(plan, "quote")) != digest(of(dearer, "quote"))


def test_what_a_price_rests_on_is_one_sentence_a_kind() -> None:
    provisos = [
        Proviso("no price", "K-05"),
        Proviso("waste", value=Fraction(1, 8)),
        Proviso("no price", "glue"),
        Proviso("finding", "press-load: DA, DB"),
    ]
    assert conditions(provisos) == [
        "No price is known of K-05; glue: that is not in this sum.",
        "Waste of the wood that is not laid out yet is reckoned at 12.5 % of its parts.",
        "Still open: press load of DA, DB.",
    ]


# ---------------------------------------------------------------------------------------------------------- labels


def test_every_piece_of_every_part_has_its_label(kitchen: Plan, page_texts: Texts) -> None:
    texts = page_texts(pdf(kitchen, "labels", "parts"))
    count = sum(part.qty for part in kitchen.making.parts)
    assert len(texts) == -(-count // 20)
    text = " ".join(texts)
    assert "F5-S 539 × 70 × 20 stile of F5, 1 of 2 show ▲ up" in text
    assert "F5-S 539 × 70 × 20 stile of F5, 2 of 2 show ▲ up" in text


def test_what_is_left_of_a_piece_has_a_label_with_all_that_must_be_known_of_it(
    kitchen: Plan, page_texts: Texts
) -> None:
    parent = replace(
        kitchen.job.pieces["K-05"], moisture=amount("8"), moisture_on="2026-11-20", cut="flat", shelf="B2", grade="show"
    )
    left = born(parent, "K-06", (mm("700"), mm("64"), None), job="Kitchen run", when="2026-11-25")
    plan = derive(kitchen.job.put(parent, left, Defect("d", "K-06", "knot", mm("120"))))
    assert "leftovers" not in subjects(kitchen, "labels")
    (text,) = page_texts(pdf(plan, "labels", "leftovers"))
    assert text == (
        "K-06 Oak, batch OK3, flat board 700 × 64 × 27 MC 8 % (2026-11-20), shelf B2 "
        "from Kitchen run / K-05, show face defect: knot 120 from the left end"
    )
    gone = derive(plan.job.put(replace(left, state="burned")))
    assert "leftovers" not in subjects(gone, "labels")


def test_a_square_code_stands_on_the_labels_where_it_is_wanted(kitchen: Plan) -> None:
    coded = derive(kitchen.job.put(LabelSheet(code=True)))
    plain, with_code = pdf(kitchen, "labels", "parts"), pdf(coded, "labels", "parts")
    assert len(with_code) > 2 * len(plain)
    assert digest(of(kitchen, "labels", "parts")) != digest(of(coded, "labels", "parts"))


def test_alike_pieces_of_the_rack_are_counted_on_their_diagram(kitchen: Plan, page_texts: Texts) -> None:
    boards = Piece("K-09", "board", "oak", "OK3", mm("2400"), mm("160"), mm("27"), 3, shelf="A1")
    rows = [Laid(name, piece="K-09", place=at, group="board oak 20") for at, name in enumerate(("1", "2"))]
    plan = derive(kitchen.job.put(boards, *rows, lying("1", "F5-S", "0", "0"), lying("2", "F5-S", "0", "0", 2)))
    assert subjects(plan, "cutting") == ["1"]
    assert "2 of piece K-09, shelf A1" in flat(page_texts(pdf(plan, "cutting", "1"))[0])


@pytest.mark.parametrize(
    ("length", "width"),
    [("1", "1"), ("30000", "20"), ("200", "20000"), ("2500", "0.1"), (None, "195")],
)
def test_a_piece_of_any_size_comes_on_paper_where_the_stop_is_answered(
    kitchen: Plan, page_texts: Texts, length: str | None, width: str
) -> None:
    piece = Piece("K-09", "board", "oak", length=mm(length) if length else None, width=mm(width), thickness=mm("27"))
    row = Laid("L" * 90, piece="K-09", group="board oak 20")
    part = LaidPart("p", row.id, "F5-S", 1, mm("0"), mm("0"))
    plan = derive(kitchen.job.put(piece, row, part))
    info = next(one for one in sheets_of(plan) if one.kind == "cutting")
    assert info.held
    for paper in ("a4", "letter"):
        (text,) = page_texts(make(plan, [replace(info, held_by=())], "letter" if paper == "letter" else "a4", STAMP))
        assert "Oak board" in text

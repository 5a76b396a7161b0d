"""The sheets of the veneer: saw sheet, leaf map, glue-up card, labels; their figures, and what makes them stale."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import (
    Billet,
    Blade,
    Glue,
    LabelSheet,
    Leaf,
    Lie,
    Machine,
    Piece,
    Press,
    PressedPanel,
    Pressing,
    amount,
)
from frontwright.core.lengths import Typed, Unit, typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import HeldBack, SheetInfo, Stamp, digest, make, sheets_of
from frontwright.sheets.info import Paper
from frontwright.sheets.labels import grid_of
from frontwright.sheets.pen import Pen

type Piece_ = tuple[str, float, float, float]
type Pages = list[list[Piece_]]
type Texts = Callable[[bytes], list[str]]
STAMP = Stamp(3, "2026-11-25")
VENEER = ("saw", "leaves", "glue-up", "labels")
SAWN = (("1/8", "1 31/64"), ("9/64", "1 13/64"), ("7/64", "61/64"))


def _in(text: str, unit: Unit = "in") -> Typed:
    return typed(text, unit)


def _of(plan: Plan, kind: str, subject: str = "") -> SheetInfo:
    return next(info for info in sheets_of(plan) if info.kind == kind and info.subject == subject)


def _pdf(plan: Plan, kind: str, subject: str = "", paper: Paper = "letter") -> bytes:
    return make(plan, [_of(plan, kind, subject)], paper, STAMP)


@pytest.fixture
def billets(laundry: Plan) -> Plan:
    """The laundry job with its four billets from two boards; nothing is sawn."""
    board = Piece("L-01", "board", "white ash", "AS1", _in("84"), _in("5 1/4"), _in("1 3/4"))
    rows = [
        Billet(letter, "L-01", at, length=_in(long), width=_in("5 1/4"), thickness=_in("1 3/4"))
        for at, (letter, long) in enumerate({"M": "31 1/2", "P": "25 1/2", "Q": "25 1/2", "R": "25 1/2"}.items())
    ]
    return derive(laundry.job.put(board, *rows))


def _sawn(plan: Plan, billet: str, *slices: tuple[str, str]) -> Plan:
    rows = (Leaf(f"{billet}{n}", billet, n, thick_1=_in(t), left=_in(left)) for n, (t, left) in enumerate(slices, 1))
    return derive(plan.job.put(*rows))


# ---------------------------------------------------------------------------------------------------------- saw sheet


def test_every_billet_has_a_saw_sheet_planned_or_entered(laundry: Plan, billets: Plan) -> None:
    assert [i.subject for i in sheets_of(laundry) if i.kind == "saw"] == ["A", "B", "C", "D"]
    assert [i.subject for i in sheets_of(billets) if i.kind == "saw"] == ["M", "P", "Q", "R"]


def test_the_head_of_a_saw_sheet_finds_the_billet(billets: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(_pdf(billets, "saw", "P"))
    assert text.startswith("P 6 leaves each 1 8 billet, white ash, batch AS1, from board L-01 long 25 1 2 high 5 1 4")
    assert "not measured:" in text
    assert "ring angle shell core on (date)" in text


def test_what_was_measured_of_a_billet_is_told_instead_of_asked(billets: Plan, page_texts: Texts) -> None:
    told = replace(
        billets.job.billets["P"], ring_angle=amount("80"), moisture_shell=amount("8"), moisture_core=amount("9")
    )
    (text,) = page_texts(_pdf(derive(billets.job.put(told)), "saw", "P"))
    assert "ring angle 80°, shell 8 %, core 9 %" in text
    assert "not measured" not in text


def test_each_slice_has_its_line_with_what_should_be_left(kitchen: Plan, pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(_pdf(kitchen, "saw", "A", "a4"))
    lines = {text: y for text, x, y, size in page if x < 40 and size == 14}
    should = {text: y for text, _, y, size in page if size == 18}
    assert list(lines) == [f"A{n}" for n in range(1, 9)]
    assert list(should) == ["44.5", "39", "33.5", "28", "22.5", "17", "11.5", "6"]
    assert all(abs(a - b) < 2 for a, b in zip(lines.values(), should.values(), strict=True))


def test_after_the_third_slice_the_sheet_says_stop_and_enter(kitchen: Plan, pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(_pdf(kitchen, "saw", "A", "a4"))
    ((stop, low),) = [(text, y) for text, _, y, _ in page if text.startswith("STOP.")]
    assert stop == "STOP. Enter these three lines and look at the new plan before A4."
    lines = {text: y for text, x, y, size in page if x < 40 and size == 14}
    assert lines["A3"] < low < lines["A4"]


def test_a_short_billet_of_three_leaves_has_no_stop(billets: Plan, page_texts: Texts) -> None:
    thin = replace(billets.job.billets["P"], thickness=_in("1"))
    (text,) = page_texts(_pdf(derive(billets.job.put(thin)), "saw", "P"))
    assert text.startswith("P 3 leaves")
    assert "STOP" not in text


def test_cautions_stand_at_the_head_and_the_manual_comes_first(laundry: Plan, pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(_pdf(laundry, "saw", "A"))
    heads = {text: y for text, _, y, size in page if size == 9}
    assert {"guard", "hands", "stance", "heat, load", "each slice"} <= set(heads)
    drawn = next(y for text, _, y, _ in page if text.startswith("End view"))
    assert max(heads[name] for name in ("guard", "hands", "stance", "heat, load", "each slice")) < drawn
    manual = [y for text, _, y, size in page if text == "manual" and size == 8.5]
    assert manual
    assert max(manual) < drawn


def test_a_table_saw_is_warned_of_its_splitter_and_of_two_passes(billets: Plan, page_texts: Texts) -> None:
    saw = Machine("table saw", "table saw", "Table saw", blade_height=_in("3 1/8"), overlap=_in("1/8"))
    plan = derive(billets.job.put(saw, replace(billets.job.billets["P"], machine="table saw")))
    (text,) = page_texts(_pdf(plan, "saw", "P"))
    assert "the splitter or riving knife follows the kerf of the blade that is mounted" in text
    assert "same face to the fence for both" in text
    assert "at most 6 1 8 in two passes, one from each edge" in text
    assert "goes to table saw" in text


def test_a_leaf_there_is_no_room_for_has_nothing_to_tick_and_no_box(
    billets: Plan, page_texts: Texts, monkeypatch: pytest.MonkeyPatch
) -> None:
    ticks: list[float] = []
    monkeypatch.setattr(Pen, "tick", lambda _pen, _x, y, *_: ticks.append(y))
    (text,) = page_texts(_pdf(_sawn(billets, "P", *SAWN), "saw", "P"))
    assert "P6 1 8 no room for it" in text
    assert len(ticks) == 5


def test_what_became_of_a_leaf_stands_behind_its_readings(billets: Plan, pieces: Callable[[bytes], Pages]) -> None:
    plan = derive(billets.job.put(Leaf("P1", "P", 1, _in("1/8"), left=_in("1 33/64"), state="scorched")))
    (page,) = pieces(_pdf(plan, "saw", "P"))
    at = {text: x for text, x, _, _ in page if text in ("1 33/64", "scorched")}
    assert at["1 33/64"] < at["scorched"]


def test_every_line_of_the_saw_sheet_ends_within_the_frame(
    billets: Plan, kitchen: Plan, pieces: Callable[[bytes], Pages]
) -> None:
    for plan, subject in ((billets, "M"), (_sawn(billets, "P", *SAWN), "P"), (kitchen, "A")):
        for paper in ("a4", "letter"):
            (page,) = pieces(_pdf(plan, "saw", subject, paper))
            assert not [text for text, *_ in page if "…" in text]


def test_another_blade_has_its_own_line_where_it_comes_on_and_its_own_losses(billets: Plan, page_texts: Texts) -> None:
    plan = _sawn(billets, "P", *SAWN)
    wide = Blade("b2", "band saw", "wide blade", kerf=_in("1/16"))
    plan = derive(plan.job.put(wide, Leaf("P4", "P", 4, blade="b2")))
    for paper in ("a4", "letter"):
        (text,) = page_texts(_pdf(plan, "saw", "P", paper))
        assert "From P4 on with Band saw, wide blade P4" in text.replace("☐", "")
        assert "From P4 on by what this blade takes: loss 1 8 a slice, planned 7 64" in text
        assert "One slice takes 5:1, wide blade" in text
        assert "STOP" not in text
    assert "15-saw:P" in _changed(_sawn(billets, "P", *SAWN), plan)


def test_what_was_seen_stands_before_the_slice_that_comes_next_against_its_own_blade(
    billets: Plan, page_texts: Texts
) -> None:
    plan = _sawn(billets, "P", *SAWN)
    wide = Blade("b2", "band saw", "wide blade", kerf=_in("1/16"))
    made = Leaf("P4", "P", 4, _in("1/8"), left=_in("11/16"), blade="b2", state="good")
    plan = derive(plan.job.put(wide, made))
    (text,) = page_texts(_pdf(plan, "saw", "P"))
    assert "From P5 on by what was seen: loss" in text
    assert "a slice, planned 1 8" in text
    assert text.index("From P4 on with Band saw, wide blade") < text.index("From P5 on by what was seen")


def test_wood_is_asked_of_a_billet_that_came_from_no_piece(laundry: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(_pdf(laundry, "saw", "A"))
    assert "not measured: wood, batch ring angle shell core on (date)" in text


def test_readings_that_exist_stand_in_their_boxes_and_the_rest_goes_by_what_was_seen(
    billets: Plan, page_texts: Texts
) -> None:
    (text,) = page_texts(_pdf(_sawn(billets, "P", *SAWN), "saw", "P"))
    assert "1 31/64" in text
    assert "From P4 on by what was seen: loss 9 64 a slice, planned 7 64" in text
    assert "no room for it : look at the plan first" in text
    assert "STOP" not in text


def test_thin_things_stand_at_two_to_one_on_both_papers(laundry: Plan, kitchen: Plan, page_texts: Texts) -> None:
    for plan in (laundry, kitchen):
        for paper in ("a4", "letter"):
            (text,) = page_texts(_pdf(plan, "saw", "A", paper))
            assert "End view, fence at the left 2:1, height broken off" in text
            assert "One slice takes 5:1" in text
            assert "scale 2:1" in text


def test_a_billet_of_many_leaves_goes_on_on_a_second_page_with_every_line_once(
    billets: Plan, pieces: Callable[[bytes], Pages]
) -> None:
    thick = replace(billets.job.billets["P"], thickness=_in("5"))
    pages = pieces(_pdf(derive(billets.job.put(thick)), "saw", "P"))
    assert len(pages) == 2
    names = [text for page in pages for text, x, _, size in page if x < 40 and size == 14]
    assert names == [f"P{n}" for n in range(1, 21)]


def test_a_stop_on_an_opening_of_the_same_letter_does_not_hold_the_saw_sheet(laundry: Plan) -> None:
    stops = (
        Check("closure", ("A",), None, None, "stop", "open"),
        Check("resaw-yield", ("B",), None, None, "stop", "open"),
    )
    held = {info.key for info in sheets_of(replace(laundry, checks=stops)) if info.held and info.kind == "saw"}
    assert held == {"15-saw:B"}


def test_a_billet_that_cannot_be_sawn_holds_its_saw_sheet_back(billets: Plan) -> None:
    plan = derive(billets.job.put(replace(billets.job.billets["P"], thickness=_in("1/16"))))
    assert _of(plan, "saw", "P").held
    with pytest.raises(HeldBack, match=r"saw sheet, billet P is held back by .*resaw-yield of P"):
        _pdf(plan, "saw", "P")


# ---------------------------------------------------------------------------------------------------------- stale


def _changed(before: Plan, after: Plan) -> set[str]:
    was = {info.key: digest(info) for info in sheets_of(before)}
    return {info.key for info in sheets_of(after) if was.get(info.key) != digest(info)}


def test_a_reading_that_is_as_planned_makes_no_sheet_stale(billets: Plan) -> None:
    assert not _changed(billets, _sawn(billets, "P", ("1/8", "1 33/64")))


def test_a_heavy_slice_makes_the_saw_sheet_of_that_billet_stale_and_no_label(billets: Plan) -> None:
    changed = _changed(billets, _sawn(billets, "P", ("1/8", "1 1/2")))
    assert {key for key in changed if key[:2] in ("15", "24")} == {"15-saw:P"}


def test_a_spoiled_leaf_makes_the_maps_stale_on_which_leaves_moved(billets: Plan) -> None:
    spoiled = derive(billets.job.put(Leaf("P2", "P", 2, state="spoiled")))
    changed = _changed(billets, spoiled)
    assert {"16-leaves:DA-P", "15-saw:P", "24-labels:"} <= changed
    back = derive(spoiled.job.drop(Leaf, "P2"))
    assert not _changed(billets, back)


def test_a_helper_makes_only_the_card_of_that_pressing_stale(laundry: Plan) -> None:
    alone = derive(laundry.job.put(replace(laundry.job.pressings["1"], helper=False)))
    assert {key for key in _changed(laundry, alone) if key[:2] in ("15", "16", "17")} == {"17-glue-up:1"}


def test_a_label_grid_makes_the_labels_stale_and_nothing_else(laundry: Plan) -> None:
    after = derive(laundry.job.put(LabelSheet("labels", 3, 8)))
    assert _changed(laundry, after) == {"24-labels:", "24-labels:parts"}


# ---------------------------------------------------------------------------------------------------------- leaf map


def test_the_leaf_map_has_a_line_for_every_leaf_with_its_place_and_how_it_lies(
    laundry: Plan, page_texts: Texts
) -> None:
    text = " ".join(page_texts(_pdf(laundry, "leaves", "DA-P", "a4")))
    for at, (leaf, lies) in enumerate((("A1", "open"), ("A2", "shut"), ("A3", "open"), ("A4", "shut")), 1):
        assert f"{leaf} ↑ show, {at} of 4 {lies} 1 8" in text
    assert "C1 ↑ back, 1 of 4 open" in text
    assert "Trim both outer leaves alike: 3 59 64 of each will show" in text.replace("(", "").replace(")", "")
    assert "Spare, first to last: D6, rest of A, rest of B, rest of C, rest of D" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_both_faces_lie_beside_each_other_on_one_page(laundry: Plan, page_texts: Texts, paper: Paper) -> None:
    (text,) = page_texts(_pdf(laundry, "leaves", "DA-P", paper))
    assert "SHOW face , from the front" in text
    assert "BACK , from the back" in text
    assert "scale 1:10" in text


def test_a_map_that_does_not_go_on_one_page_has_a_page_for_each_face(laundry: Plan, page_texts: Texts) -> None:
    narrow = Billet("A", length=_in("25 1/2"), width=_in("1 7/8"), thickness=_in("1 3/4"))
    plan = replace(derive(laundry.job.put(narrow)), checks=())
    show, back = page_texts(_pdf(plan, "leaves", "DA-P", "letter"))
    assert "SHOW face" in show
    assert "BACK" not in show
    assert "BACK" in back
    assert "A1 ↑" not in back


def test_a_leaf_that_is_missing_is_said_in_its_line(laundry: Plan, page_texts: Texts) -> None:
    lone = Billet("P", length=_in("25 1/2"), width=_in("5 1/4"), thickness=_in("1 3/4"))
    plan = derive(laundry.job.put(lone))
    freed = replace(plan, checks=())
    text = " ".join(page_texts(make(freed, [_of(freed, "leaves", "DB-P")], "a4", STAMP)))
    assert "short of a leaf" in text


# ----------------------------------------------------------------------------------------------------- glue-up card


def test_the_card_rehearses_alone_and_with_a_helper_against_the_limit(laundry: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(_pdf(laundry, "glue-up", "1"))
    assert "6.83 of 8 min with a helper" in text
    assert "Alone 8.98, too slow ; with a helper 6.83, in time" in text
    assert "8 give 17.2 psi, over the floor" in text


def test_a_pressing_that_is_too_slow_holds_its_card_back_until_somebody_helps(laundry: Plan) -> None:
    alone = derive(laundry.job.put(replace(laundry.job.pressings["1"], helper=False)))
    assert {check.code for check in _of(alone, "glue-up", "1").held_by} == {"press-time"}
    assert not _of(laundry, "glue-up", "1").held


def test_everything_is_laid_out_before_the_bottle_is_opened(laundry: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(_pdf(laundry, "glue-up", "1"))
    for item in (
        "A1–A4 show, DA-P, taped",
        "C1–C4 back, DA-P, taped",
        "108 g of glue, 54 g a face",
        "4 crowned cross cauls",
    ):
        assert item in text
    assert "open, in order" in text.split("8 clamps")[1]


def test_once_the_bottle_was_opened_the_card_says_by_when(laundry: Plan, page_texts: Texts) -> None:
    begun = derive(laundry.job.put(replace(laundry.job.pressings["1"], started="9:40")))
    (text,) = page_texts(_pdf(begun, "glue-up", "1"))
    for time in ("9:40", "by 9:45", "by 9:48", "10:47", "9:47 next day"):
        assert time in text
    assert _changed(laundry, begun) == {"17-glue-up:1"}


def test_a_card_of_a_stack_and_of_a_row_say_how_the_panels_lie(laundry: Plan, page_texts: Texts) -> None:
    glue = replace(laundry.job.glues["wood glue"], clamp_minutes=amount("40"), open_minutes=amount("40"))
    press = replace(laundry.job.presses["clamps"], clamps=16)
    both = replace(laundry.job.pressings["1"], panels=("DA-P", "DB-P"))
    job = laundry.job.drop(Pressing, "2").put(glue, press, both)
    stacked = " ".join(page_texts(_pdf(derive(job), "glue-up", "1")))
    assert "2 panels stacked" in stacked
    assert "16 give 34.3 psi" in stacked
    assert "Film between the panels" in stacked
    row = " ".join(page_texts(_pdf(derive(job.put(replace(both, lie="side by side"))), "glue-up", "1")))
    assert "2 panels in a row" in row
    assert "16 give 17.2 psi" in row
    assert "beside it under the same caul" in row


def test_a_card_of_a_bag_has_no_clamps_and_says_what_the_bag_gives(laundry: Plan, page_texts: Texts) -> None:
    bag = Press("bag", name="Bag", kind="vacuum bag", bag_pressure=amount("12.5"))
    job = laundry.job.put(bag, replace(laundry.job.pressings["1"], press="bag"))
    (text,) = page_texts(_pdf(derive(job), "glue-up", "1"))
    assert "Bag: 12.5 psi all over" in text
    assert "bag drawn down" in text
    assert "clamp" not in text


def test_the_card_tells_the_moisture_of_the_shop_and_of_the_glue(laundry: Plan, page_texts: Texts) -> None:
    air = replace(laundry.job.heading, shop_temperature=amount("70"), shop_humidity=amount("50"))
    (text,) = page_texts(_pdf(derive(laundry.job.put(air)), "glue-up", "1"))
    assert "wood comes to 9.2 % in this shop" in text
    assert "% wetter" in text


def test_the_card_has_boxes_for_the_clock_and_for_what_came_out(laundry: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(_pdf(laundry, "glue-up", "1"))
    assert "bottle opened last leaf laid last clamp tight out of the press, not before planed, not before" in text
    assert "corner 1 corner 2 corner 3 corner 4 flat after 24 h voids, remarks" in text


def test_corners_that_were_measured_stand_in_their_boxes(laundry: Plan, page_texts: Texts) -> None:
    made = PressedPanel("DA-P", _in("27/64"), _in("13/32"), note="one void")
    (text,) = page_texts(_pdf(derive(laundry.job.put(made)), "glue-up", "1"))
    assert "corner 1 27/64 corner 2 13/32 corner 3" in text
    assert "one void" in text


def test_a_card_without_a_glue_says_what_it_assumes(kitchen: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(_pdf(kitchen, "glue-up", "H1-P", "a4"))
    assert "Assumed, in brackets: glue's open and clamp time, spread and pressure" in text
    assert "force of a clamp" in text
    assert "glue not chosen" in text


def test_several_panels_in_one_pressing_have_a_line_for_their_corners_each(laundry: Plan, page_texts: Texts) -> None:
    job = laundry.job.drop(Pressing, "1", "2").put(Pressing("both", ("DA-P", "DB-P"), helper=True))
    slow = Glue("slow", open_minutes=amount("60"), clamp_minutes=amount("60"), pressure_floor=amount("5"))
    plan = derive(job.drop(Glue, "wood glue").put(slow))
    (text,) = page_texts(_pdf(plan, "glue-up", "both"))
    assert text.count("corner 1") == 2
    assert "DA-P planned" in text
    assert "DB-P planned" in text
    assert "out of the press, not before" in text
    assert "Film between the panels" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("lie", ["stacked", "side by side"])
def test_what_is_laid_out_and_done_of_four_panels_stands_on_one_page(
    kitchen: Plan, pieces: Callable[[bytes], Pages], page_texts: Texts, lie: Lie, paper: Paper
) -> None:
    builds = [replace(row, panel="veneered") if row.panel else row for row in kitchen.job.door_builds.values()]
    all_veneered = derive(kitchen.job.put(*builds))
    four = tuple(part for one in all_veneered.veneer.pressings[:4] for part in one.panels)
    strong = Press("strong", clamps=60, force=amount("9"))
    slow = Glue("slow", open_minutes=amount("90"), clamp_minutes=amount("90"))
    plan = derive(all_veneered.job.put(strong, slow, Pressing("1", four, lie=lie)))
    pdf = _pdf(plan, "glue-up", "1", paper)
    first, second = page_texts(pdf)
    assert first.count("out of the press, not before") == 1
    assert second.count("corner 1") == 4
    places = {text: y for text, _, y, _ in pieces(pdf)[0]}
    last = next(y for text, y in places.items() if text.startswith("spreader"))
    assert last < next(y for text, y in places.items() if "Rehearse" in text) - 4


# ---------------------------------------------------------------------------------------------------------- labels


def test_every_leaf_and_every_pressed_panel_has_its_label(laundry: Plan, pieces: Callable[[bytes], Pages]) -> None:
    names = [text for page in pieces(_pdf(laundry, "labels")) for text, _, _, size in page if size > 18]
    leaves = [f"{letter}{n} ↑" for letter in "ABCD" for n in range(1, 7)]
    assert names == [*leaves, "DA-P", "DB-P"]


def test_a_leaf_label_says_place_thickness_and_the_face(billets: Plan, page_texts: Texts) -> None:
    text = " ".join(page_texts(_pdf(_sawn(billets, "P", *SAWN), "labels")))
    assert "P2 ↑ DA-P show, 2 of 4 face ○ 1 8 billet P Laundry pair is 9/64" in text
    assert "P4 ↑ DA-P show, 4 of 4 face ○ 1 8 billet P Laundry pair is P5 ↑" in text
    assert "P6" not in text  # the saw as it goes gives no sixth


def test_labels_lie_on_the_grid_that_was_told(laundry: Plan, pieces: Callable[[bytes], Pages]) -> None:
    grid = LabelSheet("labels", 3, 10, _in("3/16"), _in("1/2"), gap_across=_in("1/8"))
    (page,) = pieces(_pdf(derive(laundry.job.put(grid)), "labels"))
    found = grid_of(grid, "letter")
    assert found.width == pytest.approx((215.9 - 2 * 25.4 * 3 / 16 - 2 * 25.4 / 8) / 3)
    assert found.height == pytest.approx(25.4)
    names = [(x, y) for _, x, y, size in page if size > 18]
    for at, (x, y) in enumerate(names):
        left, top = found.place(at)
        assert left < x < left + 5
        assert top < y < top + found.height
    assert not any(text.startswith("printed") for text, *_ in page)  # labels to stick have no foot


@pytest.mark.parametrize(
    "grid",
    [
        LabelSheet("labels"),
        LabelSheet("labels", 0, 8),
        LabelSheet("labels", 40, 8),
        LabelSheet("labels", 3, -1),
        LabelSheet("labels", 3, 8, typed("300", "mm")),
        LabelSheet("labels", 3, 8, typed("-5", "mm")),
    ],
)
def test_a_grid_that_leaves_no_label_to_read_is_plain_paper(grid: LabelSheet) -> None:
    assert grid_of(grid, "a4").plain


def test_no_word_of_a_label_leaves_its_label(laundry: Plan, pieces: Callable[[bytes], Pages]) -> None:
    for row in (None, LabelSheet("labels", 4, 12, _in("1/4"), _in("1/4"))):
        plan = derive(laundry.job.put(row)) if row is not None else laundry
        grid = grid_of(row, "letter")
        for page in pieces(_pdf(plan, "labels")):
            for _, x, y, _ in page:
                inside = [
                    at for at in range(grid.count)
                    if grid.place(at)[0] <= x <= grid.place(at)[0] + grid.width
                    and grid.place(at)[1] <= y <= grid.place(at)[1] + grid.height
                ]  # fmt: skip
                assert inside


def test_no_stop_holds_the_labels_back(billets: Plan) -> None:
    lost = _sawn(billets, "P", ("1/8", "1 1/4"), ("1/8", "3/4"), ("1/8", "3/8"))
    assert _of(lost, "saw", "P").held
    assert not _of(lost, "labels").held


# ---------------------------------------------------------------------------------------------------------- all of them


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_same_veneer_sheets_give_the_same_bytes(laundry: Plan, paper: Paper) -> None:
    infos = [info for info in sheets_of(laundry) if info.kind in VENEER]
    assert make(laundry, infos, paper, STAMP) == make(derive(laundry.job), infos, paper, STAMP)


def test_a_job_without_veneer_has_none_of_these_sheets() -> None:
    from frontwright.core.job import Job

    assert not [info for info in sheets_of(derive(Job())) if info.kind in VENEER]

"""A layout as cuts: each part is freed, no cut goes through one, cuts of one setting share a row."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest
from frontwright.core.job import Allowances, Laid, LaidPart, Piece, PieceForm
from frontwright.core.lengths import Length, typed, typed_length
from frontwright.core.plan import Plan, derive
from frontwright.core.stock.candidates import Judge, wood_of
from frontwright.core.stock.cuts import LayoutCut, LayoutCuts, cuts_of
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.result import Clear, LayoutPlan
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

# (part, along, across) on a sheet of 2440 x 1220 with 10 off each edge and a kerf of 3:
# a column of three panels 407 long, then the skin 740 long; everything right of 10 + 407 + 3 + 740 is left
PLACES = [("F7L-P", "10", "10"), ("F7R-P", "10", "287.5"), ("F5-P", "10", "565"), ("K right skin", "420", "10")]


@pytest.fixture(scope="module")
def plan() -> Plan:
    job = job_from_json(resource("samples", "kitchen-run.json").read_text("utf-8"))
    rows = [
        LaidPart(part, "sheet 1", part, 1, typed(along, "mm"), typed(across, "mm")) for part, along, across in PLACES
    ]
    return derive(job.put(Laid("sheet 1", size="6.2 x 1220 x 2440", group="sheet oak 6.2"), *rows))


@pytest.fixture(scope="module")
def layout(plan: Plan) -> LayoutPlan:
    found = plan.stock.layouts[0]
    assert found.faults == ()
    return found


@pytest.fixture(scope="module")
def cuts(layout: LayoutPlan) -> LayoutCuts:
    return cuts_of(layout)


def apart(one: Clear, other: Clear) -> bool:
    beside = one.along + one.length <= other.along or other.along + other.length <= one.along
    return beside or one.across + one.width <= other.across or other.across + other.width <= one.across


def test_trims_come_first_and_are_told_with_their_kerf(cuts: LayoutCuts) -> None:
    first = cuts.cuts[:4]
    assert [cut.turn for cut in first] == [0, 0, 0, 0]
    assert [cut.direction for cut in first] == ["across", "across", "along", "along"]
    assert {cut.setting + min(cut.band.length, cut.band.width) for cut in first} == {Length.mm(10)}
    assert [cut.number for cut in cuts.cuts] == list(range(1, len(cuts.cuts) + 1))


def test_what_is_kept_comes_off_first_then_columns_across_then_they_are_ripped(cuts: LayoutCuts) -> None:
    by_turn = {cut.turn: {one.direction for one in cuts.cuts if one.turn == cut.turn} for cut in cuts.cuts if cut.turn}
    assert by_turn == {1: {"across"}, 2: {"along"}, 3: {"across"}, 4: {"along"}}
    assert [cut.setting for cut in cuts.cuts if cut.turn == 1] == [Length.mm(407 + 3 + 740)]  # A is off
    assert [cut.setting for cut in cuts.cuts if cut.turn == 3] == [Length.mm(407)]  # the skin is what stays
    widths = [cut.setting for cut in cuts.cuts if cut.turn == 4]
    assert widths == sorted(widths, key=lambda one: -one.units)


def test_equal_widths_share_a_row(cuts: LayoutCuts) -> None:
    row = next(row for row in cuts.rows if row.setting == Length.mm("274.5"))
    freed = {name for name, needs in cuts.frees.items() if max(needs) in row.cuts}
    assert len(row.cuts) == 2
    assert freed >= {"F7L-P", "F7R-P"}


def test_no_cut_goes_through_a_part_or_a_remainder(layout: LayoutPlan, cuts: LayoutCuts) -> None:
    places = [Clear(p.along, p.across, p.length, p.width) for p in layout.parts]
    places += [Clear(r.along, r.across, r.length, r.width) for r in layout.remainders]
    assert len(places) > len(layout.parts)
    for cut in cuts.cuts:
        assert all(apart(cut.band, place) for place in places), cut


def test_every_part_is_free_after_all_cuts_and_none_before_its_last(layout: LayoutPlan, cuts: LayoutCuts) -> None:
    every = frozenset(cut.number for cut in cuts.cuts)
    assert set(cuts.free_after(every)) == {p.row for p in layout.parts} | {r.letter for r in layout.remainders}
    for name, needs in cuts.frees.items():
        assert name not in cuts.free_after(needs - {max(needs)})
        assert name in cuts.free_after(needs)


def test_a_cut_never_takes_more_than_it_cuts(cuts: LayoutCuts) -> None:
    for cut in cuts.cuts:
        long = cut.direction == "across"
        whole = cut.of.length if long else cut.of.width
        used = (cut.takes.length + cut.band.length) if long else (cut.takes.width + cut.band.width)
        assert used <= whole, cut


# -- a law of any layout


WIDTHS = {"boards": (150, 300), "sheets": (850, 1250)}


@cache
def kitchen() -> Plan:
    return derive(job_from_json(resource("samples", "kitchen-run.json").read_text("utf-8")))


def any_layout(seed: int) -> LayoutPlan:
    """A board or a sheet of some size with trims, laid with those of the kitchen's parts that fit; some kerf."""
    luck = Random(seed)
    group = luck.choice([one for one in kitchen().stock.groups if one.cut != "billets" and not one.on_leaves])
    thick = group.thickness.length + (Length.mm(5) if group.cut == "boards" else Length.mm(0))
    sizes = [Length.mm(luck.randint(900, 2600)), Length.mm(luck.randint(*WIDTHS[group.cut])), thick]
    ends = [Length.mm(luck.choice((0, 1, 20, 45))) for _ in range(2)]
    length, width, thickness, end, edge = (typed_length(one, "mm") for one in (*sizes, *ends))
    form: PieceForm = "sheet" if group.form == "core" else group.form
    piece = Piece("W", form, length=length, width=width, thickness=thickness, end_trim=end, edge_trim=edge)
    kerf = typed(luck.choice(("0", "1", "3", "12")), "mm")
    job = kitchen().job.put(Allowances(rip_kerf=kerf), piece, Laid("W", "W", group=group.id, kerf=kerf))
    plan = derive(job)
    mine = next(one for one in plan.stock.groups if one.id == group.id)
    fitted = first_fit(mine, mine.wants, [Judge(plan.index, wood_of(plan.index)).offer_of(piece)])
    rows = []
    for at, one in enumerate(fitted.places):
        along, across = typed_length(one.along, "mm"), typed_length(one.across, "mm")
        rows.append(LaidPart(str(at), "W", one.want, one.number, along, across, turned=one.turned))
    return derive(job.put(*rows)).stock.layouts[0]


def area(place: Clear) -> int:
    return place.length.units * place.width.units


def split(cut: LayoutCut) -> tuple[Clear, Clear]:
    """The two pieces that the saw makes of the one in hand."""
    of, band = cut.of, cut.band
    if cut.direction == "across":
        at = band.along + band.length
        before = Clear(of.along, of.across, band.along - of.along, of.width)
        return before, Clear(at, of.across, of.along + of.length - at, of.width)
    at = band.across + band.width
    before = Clear(of.along, of.across, of.length, band.across - of.across)
    return before, Clear(of.along, at, of.length, of.across + of.width - at)


@pytest.mark.parametrize("seed", range(25))
def test_each_cut_parts_a_piece_in_hand_and_all_wood_is_accounted_for(seed: int) -> None:
    found = any_layout(seed)
    assert found.parts
    made = cuts_of(found)
    assert (found.faults, made.whole) == ((), True)
    whole: Clear = Clear(Length(0), Length(0), found.offer.length, found.offer.width)
    hand, sawn = [whole], 0
    for cut in made.cuts:
        hand.remove(cut.of)
        sawn += area(cut.band)
        pieces = [one for one in split(cut) if area(one)]
        assert cut.takes in pieces or not area(cut.takes), cut
        hand += pieces
    assert sum(area(one) for one in hand) + sawn == area(whole)
    ends = [Clear(p.along, p.across, p.length, p.width) for p in found.parts]
    ends += [Clear(r.along, r.across, r.length, r.width) for r in found.remainders]
    assert [one for one in ends if one not in hand] == []

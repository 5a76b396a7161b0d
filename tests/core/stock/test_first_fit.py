"""The quick fit: never dishonest, never worse with more, parts clear of defects, a plan for thousands of parts."""

from __future__ import annotations

import pytest
from frontwright.core.figures import Figure
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.result import Clear, Fitted, Group, Offer, Want
from hypothesis import given, settings
from hypothesis import strategies as st
from job_builder import mm


def group(*wants: Want, kerf: int = 3, sheets: bool = False) -> Group:
    thick = Figure("thickness", mm(6), "chosen")
    return Group("g", "sheet" if sheets else "board", "", thick, "sheets" if sheets else "boards", mm(kerf), wants)


def fit(wants: list[Want], offers: list[Offer], kerf: int = 3, *, sheets: bool = False) -> Fitted:
    return first_fit(group(*wants, kerf=kerf, sheets=sheets), wants, offers)


def want(long: int, wide: int, copies: int = 1, name: str = "P", **fields: object) -> Want:
    return Want(name, copies, mm(long), mm(wide), **fields)  # type: ignore[arg-type]


def test_the_bound_by_length_is_only_a_floor() -> None:
    """F48: 14 parts of 620 from strips of 2460, kerf 3: three go into one, so five strips and not four"""
    fitted = fit([want(620, 68, 14)], [Offer("S", mm(2460), mm(68), None)])
    assert fitted.used == {"S": 5}


@pytest.mark.parametrize(("long", "wide", "fits"), [(2500, 195, True), (2501, 195, False), (2500, 196, False)])
def test_a_part_as_large_as_the_piece_fits_one_larger_does_not(long: int, wide: int, fits: bool) -> None:
    assert (fit([want(long, wide)], [Offer("B", mm(2500), mm(195))]).lacking == 0) is fits


def test_no_kerf_is_needed_at_the_end_of_a_piece() -> None:
    """Four of 622.75 and three cuts of 3 are 2500"""
    parts = [Want("P", 4, mm("622.75"), mm(195))]
    assert fit(parts, [Offer("B", mm(2500), mm(195))]).lacking == 0
    assert fit(parts, [Offer("B", mm("2499.99"), mm(195))]).lacking == 1


def test_a_kerf_wider_than_the_parts_still_gives_a_plan() -> None:
    fitted = fit([want(10, 10, 5)], [Offer("B", mm(100), mm(10))], kerf=30)
    assert (len(fitted.places), fitted.lacking) == (3, 2)


def test_parts_lie_clear_of_a_defect() -> None:
    knot = Clear(mm(900), mm(20), mm(100), mm(40))
    fitted = fit([want(700, 195, 3)], [Offer("B", mm(2500), mm(195), defects=(knot,))])
    assert sorted((place.along, place.along + place.length) for place in fitted.places) == [
        (mm(0), mm(700)),
        (mm(1000), mm(1700)),
        (mm(1703), mm(2403)),
    ]


def test_trims_come_off_on_their_own_sides() -> None:
    offer = Offer("B", mm(1000), mm(100), trims=(mm(10), mm(30), mm(5), mm(7)))
    (place,) = fit([want(960, 88)], [offer]).places
    assert (place.along, place.across) == (mm(10), mm(5))
    assert fit([want(961, 88)], [offer]).lacking == 1


def test_pieces_are_used_in_the_order_in_which_they_are_given() -> None:
    offers = [Offer("old", mm(800), mm(200)), Offer("new", mm(800), mm(200))]
    assert fit([want(700, 190)], offers).used == {"old": 1}
    assert fit([want(700, 190)], offers[::-1]).used == {"new": 1}


def test_what_will_be_seen_is_not_laid_on_wood_for_hidden_parts() -> None:
    offers = [Offer("plain", mm(800), mm(200), shows=False)]
    assert fit([want(700, 190)], offers).lacking == 1
    assert fit([want(700, 190, seen="hidden")], offers).lacking == 0


def test_copies_that_are_made_want_no_place() -> None:
    fitted = fit([want(700, 190, 3, made=2)], [Offer("B", mm(800), mm(200))])
    assert [(place.number, fitted.lacking) for place in fitted.places] == [(3, 0)]


_SIZES = st.tuples(st.integers(50, 900), st.integers(40, 500))
_PARTS = st.lists(_SIZES, min_size=1, max_size=9)
_SHEETS = st.lists(st.tuples(st.integers(300, 1300), st.integers(200, 900)), min_size=1, max_size=4)


def _wants(parts: list[tuple[int, int]], *, turns: bool = False) -> list[Want]:
    return [want(long, wide, name=f"P{at}", turns=turns) for at, (long, wide) in enumerate(parts)]


def _offers(sheets: list[tuple[int, int]]) -> list[Offer]:
    return [Offer(f"S{at}", mm(long), mm(wide)) for at, (long, wide) in enumerate(sheets)]


@settings(max_examples=120, deadline=None)
@given(_PARTS, _SHEETS)
def test_allowing_turning_never_makes_it_worse(parts: list[tuple[int, int]], sheets: list[tuple[int, int]]) -> None:
    fixed = fit(_wants(parts), _offers(sheets), sheets=True)
    free = fit(_wants(parts, turns=True), _offers(sheets), sheets=True)
    assert free.lacking <= fixed.lacking


@settings(max_examples=120, deadline=None)
@given(_PARTS, _SHEETS)
def test_one_sheet_more_never_makes_it_worse(parts: list[tuple[int, int]], sheets: list[tuple[int, int]]) -> None:
    offers = _offers(sheets)
    lacking = [fit(_wants(parts, turns=True), offers[:count], sheets=True).lacking for count in range(len(offers) + 1)]
    assert lacking == sorted(lacking, reverse=True)


@settings(max_examples=120, deadline=None)
@given(_PARTS, _SHEETS, st.integers(0, 8), st.booleans())
def test_parts_lie_inside_at_their_size_and_apart_by_the_kerf(
    parts: list[tuple[int, int]], sheets: list[tuple[int, int]], kerf: int, turns: bool
) -> None:
    offers = {offer.id: offer for offer in _offers(sheets)}
    wants = {one.id: one for one in _wants(parts, turns=turns)}
    fitted = fit(list(wants.values()), list(offers.values()), kerf, sheets=True)
    assert len(fitted.places) + fitted.lacking == len(parts)
    for at, place in enumerate(fitted.places):
        size, wanted = (place.length, place.width), wants[place.want]
        assert size == ((wanted.width, wanted.length) if place.turned else (wanted.length, wanted.width))
        assert place.along + place.length <= offers[place.offer].length
        assert place.across + place.width <= offers[place.offer].width
        for other in fitted.places[:at]:
            along = max(other.along - place.along - place.length, place.along - other.along - other.length)
            across = max(other.across - place.across - place.width, place.across - other.across - other.width)
            assert other.offer != place.offer or max(along, across) >= mm(kerf)


def test_a_thousand_parts_come_out_whole() -> None:
    parts = [want(200 + 37 * at % 700, 40 + 53 * at % 360, 4, f"P{at}") for at in range(250)]
    fitted = fit(parts, [Offer("S", mm(2440), mm(1220), None)], sheets=True)
    area = sum(4 * one.length.units * one.width.units for one in parts)
    assert fitted.lacking == 0
    assert (
        area / (mm(2440).units * mm(1220).units) <= fitted.used["S"] <= 1.25 * area / (mm(2440).units * mm(1220).units)
    )


def test_a_cut_at_a_bad_place_narrower_than_the_kerf_takes_good_wood_too() -> None:
    crack = Clear(mm(300), mm(0), mm(1), mm(100))
    parts = [want(300, 90, name="A"), want(299, 90, name="B")]
    assert fit(parts, [Offer("B", mm(600), mm(100), defects=(crack,))]).lacking == 1
    assert fit(parts, [Offer("B", mm(602), mm(100), defects=(crack,))]).lacking == 0


def test_wane_along_an_edge_is_ripped_off() -> None:
    wane = Clear(mm(0), mm(0), mm(2500), mm(30))
    fitted = fit([want(2400, 70, 2)], [Offer("B", mm(2500), mm(173), defects=(wane,))])
    assert sorted(place.across for place in fitted.places) == [mm(30), mm(103)]


def test_beside_a_knot_at_an_edge_a_long_part_is_ripped() -> None:
    knot = Clear(mm(1300), mm(0), mm(40), mm(30))
    fitted = fit([want(2400, 100), want(1200, 25, 1, "Q")], [Offer("B", mm(2500), mm(195), defects=(knot,))])
    assert fitted.lacking == 0

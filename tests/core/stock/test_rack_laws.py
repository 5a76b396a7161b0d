"""Laws of the rack, whatever moves are asked for in whatever order."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from frontwright.core.job import Move, MoveKind, Reservation, amount
from frontwright.core.lengths import typed
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.born import born
from frontwright.core.stock.moves import after
from frontwright.core.stock.rack import Rack, RackMove, recount
from hypothesis import given
from hypothesis import strategies as st
from stock.racks import board

NAMES = ["L-01", "L-02", "L-03", "L-04", "L-05", "L-06"]
KINDS: list[MoveKind] = ["come", "reserve", "release", "take", "cut", "use up", "burn", "count", "look", "rename"]

Asked = tuple[MoveKind, str, str, str, int, bool, int]
asked_moves = st.lists(
    st.tuples(
        st.sampled_from([*KINDS, "take back"]),
        st.sampled_from(NAMES),
        st.sampled_from(NAMES),
        st.sampled_from(["J", "K"]),
        st.integers(0, 4),
        st.booleans(),
        st.integers(0, 30),
    ),
    min_size=1,
    max_size=30,
)


def as_move(rack: Rack, number: int, asked: Asked) -> RackMove:
    kind, piece, other, job, count, flag, which = asked
    line = Move(f"m{number}", kind, piece, count=count, job=job, name=job, when="2026-11-25", why="so" if flag else "")
    if kind == "come":
        return RackMove(line, (board(piece, count=max(count, 1)),))
    if kind == "take back":
        made = list(rack.moves.values())
        chosen = made[which % len(made)] if made else None
        return RackMove(
            replace(line, undoes=chosen.id if chosen else "none", piece=chosen.line.piece if chosen else piece)
        )
    if kind == "cut" and piece in rack.pieces:
        left = born(rack.pieces[piece], other, (typed(str(which * 3 + 1), "in"), typed("6", "in"), None))
        return RackMove(replace(line, ends=flag, born=(other,)), (left,))
    rows = (Reservation(piece, job, much=typed(str(which * 3), "in") if flag else None),) if kind == "reserve" else ()
    return RackMove(replace(line, born=(other,)), rows)


def racks(asked: list[Asked]) -> list[tuple[Rack, RackMove, Rack]]:
    """Each move that was made, with the rack before and after it."""
    rack, steps = Rack(), []
    for number, one in enumerate(asked):
        move = as_move(rack, number, one)
        try:
            after_it = after(rack, move)
        except MoveRefused:
            continue
        steps.append((rack, move, after_it))
        rack = after_it
    return steps


def wood(rack: Rack) -> tuple[object, ...]:
    return rack.pieces, rack.defects, rack.reservations, rack.lots


@given(asked_moves)
def test_the_recount_of_the_ledger_is_the_state(asked: list[Asked]) -> None:
    for _, _, after_it in racks(asked)[-1:]:
        assert recount(after_it.moves.values()) == after_it


@given(asked_moves)
def test_a_reservation_never_exceeds_its_piece_and_is_never_of_one_that_is_gone(asked: list[Asked]) -> None:
    for _, _, rack in racks(asked):
        for held in rack.reservations.values():
            piece = rack.pieces[held.id]
            assert piece.state in ("free", "in work")
            assert held.job
            if held.much is not None and held.much.value is not None and piece.length and piece.length.value:
                assert held.much.value <= piece.length.value


@given(asked_moves)
def test_every_piece_that_is_there_is_one_at_least(asked: list[Asked]) -> None:
    for _, _, rack in racks(asked):
        assert all(piece.count >= 1 for piece in rack.pieces.values())


@given(asked_moves)
def test_repeating_any_move_changes_nothing(asked: list[Asked]) -> None:
    steps = racks(asked)
    for _, move, _ in steps:
        last = steps[-1][2]
        assert after(last, move) is last


@given(asked_moves)
def test_the_counter_move_restores_the_rack_and_its_own_counter_makes_the_move_again(asked: list[Asked]) -> None:
    for before, move, after_it in racks(asked):
        counter = RackMove(Move("counter", "take back", move.line.piece, undoes=move.id))
        taken_back = after(after_it, counter)
        assert wood(taken_back) == wood(before)
        again = after(taken_back, RackMove(Move("again", "take back", move.line.piece, undoes="counter")))
        assert wood(again) == wood(after_it)


@given(asked_moves)
def test_what_two_jobs_have_in_work_is_never_the_same_piece(asked: list[Asked]) -> None:
    for _, _, rack in racks(asked):
        for piece in rack.pieces.values():
            if piece.state == "in work":
                assert piece.id in rack.reservations


@given(st.lists(st.integers(1, 59), min_size=1, max_size=6, unique=True), st.integers(1, 100_000))
def test_the_shares_of_a_price_add_up_to_it_but_for_half_a_cent_each(ends: list[int], cents: int) -> None:
    parent = replace(board("L-01"), price=amount(f"{cents // 100}.{cents % 100:02}"))
    edges = [0, *sorted(ends), 60]
    lengths = [end - start for start, end in pairwise(edges)]
    parts = [born(parent, "L-02", (typed(str(length), "in"), typed("6", "in"), None)) for length in lengths]
    total = sum((part.price.value for part in parts if part.price and part.price.value is not None), Fraction(0))
    assert abs(total - Fraction(cents, 100)) <= Fraction(len(parts), 200)

"""Have I got enough: yes from these, yes if one thing is allowed, no and the least purchase (F49, F50)."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.job import (
    Allowances,
    AsBuilt,
    Billet,
    Front,
    Leaf,
    Limits,
    Machine,
    PanelBuild,
    Piece,
    Reservation,
    Species,
    SupplierSize,
)
from frontwright.core.lengths import Length, typed
from frontwright.core.plan import asked
from frontwright.core.stock.candidates import wood
from frontwright.core.stock.enough import NOT_CUT, THIS_JOB
from frontwright.core.stock.result import Enough, GroupAnswer
from hypothesis import given, settings
from hypothesis import strategies as st
from job_builder import Made, door, mm, near, paneled, row

PLAIN = door(stile="64", top_rail="64", bottom_rail="76", thickness="20", groove="10", clearance="1")
BOARD = {"form": "board", "length": "2500", "width": "195", "thickness": "27"}
MACHINE = {"kerf": "1.2", "wander": "0.6", "rejoint": "0.7", "keep_back": "6"}


def of(answer: Enough, form: str) -> GroupAnswer:
    (one,) = [one for one in answer.groups if one.group.form == form]
    return one


def boards(made: Made) -> GroupAnswer:
    return of(asked(made.plan), "board")


def conditions(one: GroupAnswer) -> list[tuple[str, str, int]]:
    return [(each.kind, each.of, each.still) for each in one.conditions]


def test_yes_from_these() -> None:
    one = boards(PLAIN.put(Piece, "B", **BOARD))
    assert (one.answer, one.need, one.have) == ("yes", 4, 4)
    assert [(use.piece, use.count, use.parts) for use in one.uses] == [("B", 1, ("F-S", "F-RT", "F-RB"))]
    assert not one.buy


def test_no_and_the_least_purchase_of_what_is_sold() -> None:
    """Stiles 736 × 68 and rails 360 × 68 and 80: one board of 195 at 30, or two of 100 at 14 each"""
    made = PLAIN.put(SupplierSize, "wide", length="1500", width="195", thickness="27", price="30")
    made = made.put(SupplierSize, "narrow", length="1500", width="100", thickness="27", price="14")
    one = boards(made)
    assert (one.answer, one.have) == ("no", 0)
    assert [(buy.size, buy.count, buy.cost) for buy in one.buy] == [("narrow", 2, Fraction(2800))]


def test_the_last_parts_are_bought_on_a_smaller_size() -> None:
    """Stiles 736 x 68 twice and two rails: two boards of 80 by 800 hold the stiles, a short one at 9 the rails"""
    made = PLAIN.put(SupplierSize, "long", length="800", width="80", thickness="27", price="20")
    made = made.put(SupplierSize, "short", length="400", width="80", thickness="27", price="9")
    assert {(buy.size, buy.count) for buy in boards(made).buy} == {("long", 2), ("short", 2)}
    made = made.put(SupplierSize, "short", length="730", width="80", thickness="27", price="9")
    assert {(buy.size, buy.count) for buy in boards(made).buy} == {("long", 2), ("short", 1)}


def test_without_prices_the_least_content_is_bought() -> None:
    made = PLAIN.put(SupplierSize, "long", length="3000", width="195", thickness="27")
    made = made.put(SupplierSize, "short", length="1500", width="195", thickness="27")
    assert [buy.size for buy in boards(made).buy] == ["short"]


def test_what_fits_on_no_size_that_is_sold_stays_short() -> None:
    made = PLAIN.put(SupplierSize, "stick", length="500", width="100", thickness="27")
    one = boards(made)
    assert [(buy.size, buy.parts) for buy in one.buy] == [("stick", ("F-RT", "F-RB"))]
    assert one.short == {"F-S": 2, "F-RT": 1, "F-RB": 1}


def test_where_no_size_is_entered_the_usual_board_is_reckoned_with() -> None:
    (buy,) = boards(PLAIN).buy
    assert (buy.size, near(buy.length, 0), near(buy.width, 0), buy.cost) == ("", "2500", "195", None)


def test_yes_if_a_reservation_is_released() -> None:
    made = PLAIN.put(Piece, "B", **BOARD)
    reserved = [Reservation("B", job="7", name="Hall", by="Ann")]
    answer = asked(made.plan, THIS_JOB, wood(made.job.pieces.values(), (), reserved, "8"))
    one = of(answer, "board")
    assert (one.answer, conditions(one)) == ("yes, if", [("release", "B", 0)])
    assert one.conditions[0].facts["job"] == "Hall"


def test_a_large_piece_stays_for_what_needs_it() -> None:
    """760 x 195 holds two stiles of 736, or one and the rails; what is 730 long holds the rails only"""
    large, least = {**BOARD, "length": "760"}, {**BOARD, "length": "730", "width": "80"}
    one = boards(PLAIN.put(Piece, "A", **large).put(Piece, "B", **least))
    assert (one.answer, [use.piece for use in one.uses]) == ("yes", ["B", "A"])


def test_a_released_piece_may_take_what_lay_on_a_free_one() -> None:
    made = PLAIN.put(Piece, "A", **{**BOARD, "length": "760"})
    made = made.put(Piece, "B", **{**BOARD, "length": "730", "width": "80"})
    answer = asked(made.plan, THIS_JOB, wood(made.job.pieces.values(), (), [Reservation("B", job="7")], "8"))
    one = of(answer, "board")
    assert (one.answer, conditions(one)) == ("yes, if", [("release", "B", 0)])


def test_yes_if_a_slab_is_glued_up() -> None:
    made = door(kind="slab", thickness="20").put(Piece, "B", **{**BOARD, "width": "240"}, count=2)
    one = boards(made)
    assert (one.answer, conditions(one)) == ("yes, if", [("glue up", "F", 0)])


def test_yes_if_the_rails_are_a_little_narrower() -> None:
    """A rest of 78 against a bottom rail of 80 rough; the rest of 68 takes everything else"""
    made = PLAIN.put(Piece, "B", **{**BOARD, "width": "68"}).put(
        Piece, "C", **{**BOARD, "width": "78", "length": "400"}
    )
    one = boards(made)
    narrower = [each for each in one.conditions if each.kind == "narrower"]
    assert one.short == {"F-RB": 1}
    assert (one.answer, near(narrower[0].by, 0)) == ("yes, if", "2")


def test_yes_if_keep_backs_count_and_another_machine_is_compared() -> None:
    """F53: six leaves are wanted; 44 gives 6 on the band saw, 38.2 gives 5 and a rest, 44 gives 4 on the table saw"""
    made = paneled(PLAIN).put(Machine, "band saw", **MACHINE, chosen=True)
    made = made.put(Machine, "table saw", kind="table saw", kerf="3.2", wander="0.8", rejoint="0.7", keep_back="6")
    whole = made.put(Piece, "L", form="billet", length="700", width="150", thickness="44")
    assert of(asked(whole.plan), "leaf").answer == "yes"
    thin = made.put(Piece, "L", form="billet", length="700", width="150", thickness="38.2")
    one = of(asked(thin.plan), "leaf")
    assert (one.answer, one.have) == ("yes, if", 5)
    assert ("keep-backs", "", 0) in conditions(one)
    slow = made.put(Machine, "band saw", chosen=False).put(Machine, "table saw", chosen=True)
    slow = slow.put(Piece, "L", form="billet", length="700", width="150", thickness="44")
    assert ("machine", "band saw", 0) in conditions(of(asked(slow.plan), "leaf"))
    low = slow.put(Machine, "band saw", most_height="140")
    assert not [one for one in conditions(of(asked(low.plan), "leaf")) if one[0] == "machine"]  # F54: billets of 150


def test_show_faces_of_two_batches_are_a_condition_backs_of_two_are_not() -> None:
    """Three leaves a face: of each batch two and four"""
    made = paneled(PLAIN)
    leaf = {"form": "leaf", "length": "700", "width": "150"}
    backs = made.put(Piece, "A", **leaf, batch="a", count=4).put(Piece, "B", **leaf, batch="b", count=2)
    assert of(asked(backs.plan), "leaf").answer == "yes"
    mixed = made.put(Piece, "A", **leaf, batch="a", count=2).put(Piece, "B", **leaf, batch="b", count=2)
    mixed = mixed.put(Piece, "C", **leaf, batch="c", count=2)
    one = of(asked(mixed.plan), "leaf")
    assert (one.answer, conditions(one)) == ("yes, if", [("other batch", one.group.id, 0)])


def test_sheet_of_another_lot_is_left_and_what_it_would_do_is_told() -> None:
    made = PLAIN.put(Limits, "limits", one_lot="job").opening("B", "C", 2, widths="400", heights="600")
    made = made.fronts("G", opening="B").put(
        Piece, "S", form="sheet", batch="old lot", length="700", width="400", thickness="6.2"
    )
    one = of(asked(made.plan), "sheet")
    assert (one.answer, one.have) == ("no", 0)
    assert [(c.piece.id, c.refusals[0].kind) for c in one.refused] == [("S", "batch")]
    assert conditions(one) == [("other batch", one.group.id, 1)]
    loose = made.put(Limits, "limits", one_lot="no")
    assert of(asked(loose.plan), "sheet").have == 1


def test_what_is_cut_is_not_asked_again_and_one_more_door_is_asked_beside_it() -> None:
    made = PLAIN.put(Piece, "B", **BOARD).put(AsBuilt, "F-RT length", of="F-RT", what="length", value="340")
    plan = made.plan
    assert [of(asked(plan, q), "board").need for q in (THIS_JOB, NOT_CUT, "F")] == [4, 3, 7]


def test_hidden_parts_look_among_the_plain_pieces_first() -> None:
    made = paneled(PLAIN)
    core = {"form": "core", "length": "1000", "width": "700", "thickness": "4"}
    made = made.put(Piece, "fine", **core, grade="show").put(Piece, "plain", **core, grade="plain")
    assert [use.piece for use in of(asked(made.plan), "core").uses] == ["plain"]


def test_a_leftover_leaf_is_taken_before_anything_is_bought() -> None:
    made = paneled(PLAIN).put(Species, "ash").put(PanelBuild, "panel", species="ash")
    made = made.put(Piece, "rest", form="leaf", species="ash", length="640", width="150", count=6)
    one = of(asked(made.plan), "leaf")
    assert (one.answer, [use.piece for use in one.uses], one.buy) == ("yes", ["rest"], ())


def test_part_of_a_reserved_board_is_free() -> None:
    made = PLAIN.put(Piece, "B", **BOARD)
    reserved = [row("mm", Reservation, "B", job="7", much="1000")]
    one = of(asked(made.plan, lying=wood(made.job.pieces.values(), (), reserved)), "board")  # type: ignore[arg-type]
    assert one.answer == "yes"
    assert all(place.along + place.length <= mm(1500) for place in one.places)
    most = [row("mm", Reservation, "B", job="7", much="2200")]
    short = of(asked(made.plan, lying=wood(made.job.pieces.values(), (), most)), "board")  # type: ignore[arg-type]
    assert [r.kind for c in short.refused for r in c.refusals] == ["short"]


def test_billets_to_buy_are_boards_thick_enough_crosscut() -> None:
    """F53, F57: six leaves of 624 from one billet of 644; one of 27 gives three, two to a board"""
    made = paneled(PLAIN).put(Machine, "band saw", **MACHINE, chosen=True)
    made = made.put(SupplierSize, "thick", form="billet", length="1400", width="150", thickness="44", price="50")
    (buy,) = of(asked(made.plan), "leaf").buy
    assert (buy.size, buy.count, buy.cost) == ("thick", 1, Fraction(5000))
    thin = made.put(SupplierSize, "thin", form="board", length="1400", width="150", thickness="27", price="20")
    (buy,) = of(asked(thin.plan), "leaf").buy
    assert (buy.size, buy.count) == ("thin", 1)


def test_leaves_that_are_sawn_are_not_sawn_again() -> None:
    made = (
        paneled(PLAIN).put(Machine, "band saw", **MACHINE, chosen=True).put(Billet, "A", length="650", thickness="44")
    )
    made = made.put(Leaf, "A1", billet="A", number=1, thick_1="3").put(Leaf, "A2", billet="A", number=2, thick_1="3")
    plan = made.plan
    assert [of(asked(plan, q), "leaf").need for q in (THIS_JOB, NOT_CUT)] == [6, 4]


# -- laws

_WIDTHS = st.integers(60, 220)
_PIECES = st.lists(
    st.tuples(st.integers(300, 2600), _WIDTHS, st.sampled_from(("", "hidden", "plain", "show"))), min_size=1, max_size=6
)


def _with(pieces: list[tuple[int, int, str]]) -> list[Piece]:
    return [
        row("mm", Piece, f"B{at}", form="board", length=str(long), width=str(wide), thickness="27", grade=grade)  # type: ignore[misc]
        for at, (long, wide, grade) in enumerate(pieces)
    ]


TWO = (
    PLAIN.opening("B", "C", 2, widths="300", heights="900")
    .put(Front, "G", opening="B")
    .put(Allowances, "allowances", rip_kerf="3")
)
TWO_PLAN = TWO.plan


@settings(max_examples=60, deadline=None)
@given(_PIECES)
def test_a_free_piece_more_never_makes_the_answer_worse(pieces: list[tuple[int, int, str]]) -> None:
    rows = _with(pieces)
    lacking = [
        sum(of(asked(TWO_PLAN, lying=wood(rows[:count])), "board").short.values()) for count in range(len(rows) + 1)
    ]
    assert lacking == sorted(lacking, reverse=True)


@settings(max_examples=40, deadline=None)
@given(_PIECES)
def test_what_is_used_lies_inside_its_piece_apart_by_the_kerf(pieces: list[tuple[int, int, str]]) -> None:
    rows = {piece.id: piece for piece in _with(pieces)}
    one = of(asked(TWO_PLAN, lying=wood(rows.values())), "board")
    for place in one.places:
        piece = rows[place.offer]
        assert piece.length is not None
        assert piece.length.value is not None
        assert place.along + place.length <= piece.length.value
        for other in one.places:
            if other is not place and other.offer == place.offer:
                kerf = one.group.kerf
                apart = (
                    other.along >= place.along + place.length + kerf
                    or place.along >= other.along + other.length + kerf
                    or other.across >= place.across + place.width + kerf
                    or place.across >= other.across + other.width + kerf
                )
                assert apart


def test_one_thick_piece_does_not_serve_two_groups_at_once() -> None:
    """Its stiles and rails from it, or its leaves: not both; with two such pieces there is enough for both"""
    made = paneled(PLAIN, core="4", slice="3").put(Machine, "saw", chosen=True, **MACHINE)
    thick = {"form": "board", "length": "4000", "width": "400", "thickness": "50"}
    one, two = (asked(made.put(Piece, "T", count=n, **thick).plan) for n in (1, 2))
    both = [group for group in one.groups if group.group.form in ("board", "leaf")]
    assert sum(use.count for group in both for use in group.uses if use.piece == "T") == 1
    assert sorted(group.answer for group in both) == ["no", "yes"]
    assert [group.answer for group in two.groups if group.group.form in ("board", "leaf")] == ["yes", "yes"]


def test_a_board_reserved_in_part_is_to_be_released_where_its_whole_length_would_do() -> None:
    """1500 of 2500 are another job's: the 1000 left hold one stile; of the whole board there come three parts more"""
    made = PLAIN.put(Piece, "B", **{**BOARD, "width": "90"})
    held = Reservation("B", "other", "Maple Street", much=typed("1500", "mm"))
    one = of(asked(made.plan, lying=wood(made.job.pieces.values(), reservations=[held], job="mine")), "board")
    (release,) = [each for each in one.conditions if each.kind == "release"]
    assert (release.of, release.facts["job"]) == ("B", "Maple Street")
    again = of(asked(made.plan, lying=wood(made.job.pieces.values(), job="mine")), "board")
    assert sum(again.short.values()) == release.still < sum(one.short.values())


def test_stiles_and_rails_wider_than_the_boards_are_glued_up_only_where_that_is_allowed() -> None:
    made = PLAIN.put(Piece, "B", **{**BOARD, "width": "50", "count": 4})
    assert boards(made).have == 0
    allowed = boards(made.put(Limits, "limits", glue_up="all"))
    assert {want.staves for want in allowed.group.wants} == {2}
    assert all(want.width < Length.mm(50) for want in allowed.group.wants)
    assert allowed.answer == "yes"

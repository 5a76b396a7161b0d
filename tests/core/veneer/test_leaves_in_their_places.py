"""Which leaf goes where: neighbours to the faces that show, and what moves when one is lost (F58)."""

from __future__ import annotations

from frontwright.core.job import Billet, Front, Leaf, Machine, Match, Opening, Piece
from frontwright.core.lengths import Length
from frontwright.core.veneer.result import Seat
from job_builder import Made, door, paneled, size

FACE = "F-P"


def doors(
    across: int = 2, match: Match = "book", thickness: str = "44", letters: str = "PQRS", mid_rails: int = 0
) -> Made:
    """A pair of doors with shop-made panels so many leaves wide, and billets of 6 leaves each unless told."""
    width = {1: "370", 2: "190", 3: "150", 4: "110"}[across]
    made = paneled(door(stile="64", mid_rails=mid_rails), core_is="4.8", slice="3")
    made = made.put(Machine, "saw", chosen=True, kerf="1.2", wander="0.6", rejoint="0.7", keep_back="6")
    made = made.put(Piece, "W", form="billet", length="3000", width=width, thickness=thickness)
    for place, letter in enumerate(letters):
        made = made.put(Billet, letter, piece="W", place=place, length="700", match=match)
    made = made.put(Opening, "B", column="C", place=2)
    for what, value in (("width", "428"), ("height", "696")):
        made = made.read("B", what, value, "middle")
    return made.put(Front, "G", opening="B", kind="door", place=1, hinge_side="left")


def lies(made: Made, of: str = FACE, side: str = "show") -> list[str]:
    """The leaves of a face from the left."""
    seats = [seat for seat in made.plan.veneer.seats if (seat.of, seat.side) == (of, side)]
    return [seat.leaf for seat in sorted(seats, key=lambda seat: seat.seat)]


def seat(made: Made, leaf: str) -> Seat:
    (found,) = [one for one in made.plan.veneer.seats if one.leaf == leaf]
    return found


def leaf(made: Made, name: str, **fields: object) -> Made:
    return made.put(Leaf, name, billet=name[0], number=int(name[1:].rstrip("ab")), **fields)


def test_show_faces_take_neighbours_and_backs_what_is_left_of_the_billets() -> None:
    made = doors(across=2, letters="PQ")
    assert (lies(made), lies(made, "G-P")) == (["P1", "P2"], ["P3", "P4"])
    assert (lies(made, side="back"), lies(made, "G-P", "back")) == (["P5", "P6"], ["Q1", "Q2"])
    assert {one.leaf for one in made.plan.veneer.seats if one.side == "spare"} == {"Q3", "Q4", "Q5", "Q6"}


def test_every_second_leaf_of_a_book_matched_face_is_turned() -> None:
    turned = {one.leaf: one.turned for one in doors(across=4, letters="PQR").plan.veneer.seats}
    assert [turned[name] for name in ("P1", "P2", "P3", "P4")] == [False, True, False, True]
    assert not any(one.turned for one in doors(across=4, match="slip").plan.veneer.seats)


def test_an_odd_number_across_begins_with_the_first_of_a_pair() -> None:
    made = doors(across=3, letters="PQRS")
    assert (lies(made), lies(made, "G-P")) == (["P1", "P2", "P3"], ["Q1", "Q2", "Q3"])
    slip = doors(across=3, match="slip", letters="PQRS")
    assert (lies(slip), lies(slip, "G-P")) == (["P1", "P2", "P3"], ["P4", "P5", "P6"])


def test_a_spoiled_leaf_sends_its_mate_to_the_back_and_the_next_pair_steps_up() -> None:
    made = doors(across=4, letters="PQR")
    before = (lies(made), lies(made, "G-P"))
    spoiled = leaf(made, "P3", state="spoiled")
    assert before == (["P1", "P2", "P3", "P4"], ["Q1", "Q2", "Q3", "Q4"])
    assert (lies(spoiled), lies(spoiled, "G-P")) == (["P1", "P2", "P5", "P6"], before[1])
    assert seat(spoiled, "P4").side == "back"
    assert "P3" not in {one.leaf for one in spoiled.plan.veneer.seats}


def test_nothing_else_moves_than_what_has_to() -> None:
    made = doors(across=4, letters="PQRS")
    spoiled = leaf(made, "R2", state="spoiled")
    was, now = ({one.leaf: (one.of, one.side, one.seat) for one in m.plan.veneer.seats} for m in (made, spoiled))
    moved = {name for name in now if now[name] != was[name]}
    assert was["R2"][:2] == ("F-P", "back")
    assert len(moved) == 1
    assert now[moved.pop()] == was["R2"]


def test_a_face_that_its_billet_cannot_fill_any_more_is_taken_whole_from_one_other_billet() -> None:
    made = leaf(leaf(doors(across=4, letters="PQR"), "P3", state="spoiled"), "P5", state="spoiled")
    assert lies(made) == ["R1", "R2", "R3", "R4"]
    assert lies(made, "G-P") == ["Q1", "Q2", "Q3", "Q4"]


def test_of_slip_match_the_next_leaves_step_up() -> None:
    made = leaf(doors(across=4, match="slip"), "P3", state="spoiled")
    assert lies(made) == ["P1", "P2", "P4", "P5"]
    assert lies(leaf(doors(across=4, match="slip"), "P2", state="spoiled")) == ["P3", "P4", "P5", "P6"]


def test_of_random_match_any_good_leaves_of_a_billet_do() -> None:
    made = leaf(doors(across=4, match="random"), "P1", state="spoiled")
    assert lies(made) == ["P2", "P3", "P4", "P5"]


def test_a_scorched_leaf_goes_to_a_back_before_good_ones() -> None:
    made = leaf(doors(across=2, letters="PQ"), "P2", state="scorched")
    assert "P2" not in [*lies(made), *lies(made, "G-P")]
    assert "P2" in lies(made, side="back")


def test_a_face_wider_than_a_billet_gives_takes_leaves_of_two_billets() -> None:
    made = doors(across=4, thickness="20", letters="PQRSTUVW")  # 2 leaves a billet
    assert lies(made) == ["P1", "P2", "Q1", "Q2"]
    assert made.plan.veneer.missing == ()


def test_what_no_leaf_is_left_for_is_told_by_face() -> None:
    made = doors(across=4, letters="PQ")
    missing = [(one.of, one.side, one.has, one.wanted) for one in made.plan.veneer.missing]
    assert missing == [("G-P", "back", 0, 4)]


def test_a_leaf_that_is_lost_afterwards_leaves_a_face_short_and_that_is_a_stop() -> None:
    made = doors(across=3, letters="PQ")
    assert made.quiet("resaw-yield")
    short = leaf(made, "P1", state="spoiled")
    check = short.found("resaw-yield")
    assert (check.case, check.level, check.value, check.limit) == ("leaf missing", "stop", 2, 3)


def test_spoiling_a_leaf_and_taking_it_back_gives_the_same_map() -> None:
    made = doors(across=4)
    spoiled = leaf(made, "P3", state="spoiled")
    assert spoiled.plan.veneer.seats != made.plan.veneer.seats
    assert leaf(spoiled, "P3", state="good").plan.veneer.seats == made.plan.veneer.seats


# places that a person gave


def test_a_leaf_put_by_hand_stays_and_the_rest_of_the_face_follows_its_billet() -> None:
    made = leaf(doors(across=2, letters="PQ"), "Q3", front="F", side="show", seat=1)
    assert lies(made)[0] == "Q3"
    assert seat(made, "Q3").by_hand
    assert lies(made)[1][0] == "Q"


def test_two_leaves_put_on_one_seat_lie_side_by_side() -> None:
    made = leaf(
        leaf(doors(across=2, letters="PQ"), "Q1", front="F", side="show", seat=1), "Q2", front="F", side="show", seat=1
    )
    assert lies(made) == ["Q1", "Q2"]


def test_a_third_leaf_on_a_face_of_two_has_no_seat_and_that_is_said() -> None:
    made = doors(across=2, letters="PQ")
    for name in ("Q1", "Q2", "Q3"):
        made = leaf(made, name, front="F", side="show")
    assert not seat(made, "Q3").fits
    assert made.found("resaw-yield", "Q3").case == "misplaced"


def test_a_leaf_put_where_it_is_too_short_is_said_and_stays() -> None:
    made = leaf(doors(across=2, letters="PQ"), "P2", good_length="400", front="F", side="show")
    assert "P2" in lies(made)
    assert made.found("resaw-yield", "P2").level == "warn"


def test_a_leaf_set_aside_by_hand_is_spare() -> None:
    made = leaf(doors(across=2, letters="PQ"), "P1", side="spare")
    assert seat(made, "P1").side == "spare"
    assert seat(made, "P1").fits
    assert "P1" not in lies(made)


# leaves with a bad end, several panels a front, grain across


def test_a_leaf_with_one_bad_end_goes_nowhere_that_is_longer_than_what_is_good_of_it() -> None:
    made = leaf(doors(across=2, letters="PQ"), "P1", good_length="400")
    assert seat(made, "P1").side == "spare"


def test_a_stopped_cut_gives_two_leaves_of_one_number() -> None:
    made = doors(across=2, letters="PQ", mid_rails=1)
    made = leaf(leaf(made, "P6a", good_length="340"), "P6b", good_length="330")
    plan = next(one for one in made.plan.veneer.plans if one.id == "P")
    assert [one.id for one in plan.slices][-2:] == ["P6a", "P6b"]
    assert {seat(made, "P6a").side, seat(made, "P6b").side} <= {"show", "back", "spare"}
    assert plan.planned == 6


def test_each_panel_of_a_front_with_a_mid_rail_has_its_own_faces() -> None:
    made = doors(across=2, letters="PQRS", mid_rails=1)
    faces = {(one.of, one.side) for one in made.plan.veneer.seats if one.side in ("show", "back")}
    assert faces == {(f"{front}-P{at}", side) for front in "FG" for at in (1, 2) for side in ("show", "back")}
    assert made.plan.veneer.missing == ()


def test_seats_run_on_through_the_panels_of_a_front() -> None:
    made = leaf(doors(across=2, letters="PQRS", mid_rails=1), "S1", front="F", side="show", seat=3)
    assert (seat(made, "S1").of, seat(made, "S1").seat) == ("F-P2", 1)


def test_with_the_grain_across_leaves_are_as_long_as_the_panel_is_wide() -> None:
    made = doors(across=2).put(Front, "F", grain="horizontal")
    panel = made.making("F").panels[0]
    assert size(panel.along) < size(panel.across)
    assert panel.leaf_length is not None
    assert size(panel.leaf_length) == size(panel.along) + 30
    assert panel.leaves_across == 4  # 606 of 186
    assert len(lies(made)) == 4


def test_a_leaf_narrower_than_its_seat_goes_elsewhere() -> None:
    made = doors(across=2, letters="PQ")
    share = size(made.making().panels[0].core_across) / 2
    wide, narrow = (leaf(made, "P1", thick_1="3", width=str(share + 4 + more)) for more in (0, -1))  # 2 off each edge
    assert lies(wide) == lies(made) == ["P1", "P2"]
    assert "P1" not in [seat.leaf for seat in narrow.plan.veneer.seats if seat.side in ("show", "back")]
    by_hand = leaf(narrow, "P1", front="F", side="show", seat=1)
    assert not seat(by_hand, "P1").fits


def test_the_outer_leaves_of_three_are_trimmed_and_may_be_narrower_than_the_middle_one() -> None:
    made = doors(across=3, letters="PQRS")
    narrow = leaf(made, "P1", thick_1="3", width="146", front="F", side="show", seat=1)
    assert seat(narrow, "P1").fits
    assert not seat(leaf(narrow, "P1", seat=2), "P1").fits


def test_a_short_leaf_of_which_nobody_read_the_length_is_counted_on_nowhere() -> None:
    made = doors(across=2, letters="PQ")
    short = leaf(made, "P6", state="short")
    assert seat(short, "P6").side == "spare"


def test_a_scorched_leaf_put_by_hand_where_it_shows_is_told() -> None:
    made = leaf(doors(across=2, letters="PQ"), "P1", front="F", side="show", seat=1)
    assert seat(made, "P1").fits
    scorched = leaf(made, "P1", state="scorched")
    assert not seat(scorched, "P1").fits
    assert [c.case for c in scorched.checks("resaw-yield", "P1")] == ["misplaced"]
    assert seat(leaf(scorched, "P1", side="back"), "P1").fits


def test_a_spoiled_leaf_that_was_put_by_hand_lies_nowhere_and_only_its_seat_is_filled_anew() -> None:
    made = leaf(doors(across=2, letters="PQR", match="random"), "P5", front="F", side="show", seat=2)
    spoiled = leaf(made, "P5", state="spoiled")
    assert lies(made) == ["P1", "P5"]
    assert "P5" not in {one.leaf for one in spoiled.plan.veneer.seats}
    was, now = ({(s.of, s.side, s.seat): s.leaf for s in m.plan.veneer.seats if s.of} for m in (made, spoiled))
    assert now["F-P", "show", 1] == "P1"
    assert {place for place in was if place[1] == "back" and was[place] != now.get(place)} <= {
        place for place, name in was.items() if name in lies(spoiled)
    }


def test_a_leaf_too_thin_to_be_planed_goes_on_no_panel() -> None:
    made = doors(across=2, letters="PQ")
    thin = leaf(made, "P1", thick_1="1.2")
    assert "P1" not in [seat.leaf for seat in thin.plan.veneer.seats if seat.side in ("show", "back")]
    assert lies(leaf(made, "P1", thick_1="2.8")) == ["P1", "P2"]


def test_leaves_as_thick_as_planned_are_taken_before_thicker_ones() -> None:
    made = doors(across=2, letters="PQ").put(Billet, "P", slice="4")
    assert (lies(made), lies(made, "G-P")) == (["Q1", "Q2"], ["Q3", "Q4"])


def test_a_leaf_too_narrow_for_half_a_panel_is_saved_by_moving_the_joint_by_so_much() -> None:
    made = doors(across=2, letters="PQ")
    half = size(made.making().panels[0].core_across) / 2
    narrow = leaf(made, "P1", thick_1="3", width=str(half + 4 - 5))
    check = next(c for c in narrow.plan.checks if c.case == "joint moved")
    assert (check.where, check.level) == (("P1",), "note")
    assert check.facts["by"] == 5 * Length.mm(1).units
    usable = size(made.plan.veneer.usable_width)
    too_narrow = leaf(made, "P1", thick_1="3", width=str(2 * half - usable + 4 - 1))
    assert not [c for c in too_narrow.plan.checks if c.case == "joint moved"]

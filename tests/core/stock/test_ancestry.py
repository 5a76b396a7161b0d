"""Which board did that door come from, and is any left."""

from __future__ import annotations

from frontwright.core.job import Billet, CutDone, Front, Job, Laid, LaidPart, Leaf
from frontwright.core.lengths import typed
from frontwright.core.stock.ancestry import descent, made_by, made_into, not_yet_told, pieces_of
from frontwright.core.stock.born import born
from frontwright.core.stock.moves import after, after_all
from frontwright.core.stock.rack import Rack
from stock.racks import back, board, come, move


def sawn() -> Rack:
    """L-01 is cut into billet stock L-02 and a rest L-03; of L-02 the rest L-04 is kept."""
    first = board("L-01")
    second = born(first, "L-02", (typed("25", "in"), typed("6", "in"), None))
    third = born(first, "L-03", (typed("30", "in"), typed("6", "in"), None))
    fourth = born(second, "L-04", (typed("25", "in"), typed("2", "in"), None))
    return after_all(
        Rack(),
        [
            come(first),
            move("cut", "L-01", second, third),
            move("cut", "L-02", fourth),
            move("made into", "L-02", parts=("billet P", "leaf P1 for DA", "leaf P2 for DB"), name="Laundry"),
        ],
    )


def test_a_door_is_led_back_to_its_board_and_what_is_left_of_it_is_named() -> None:
    rack = sawn()
    (piece,) = pieces_of(rack, "DA")
    assert piece.id == "L-02"
    found = descent(rack, piece.id)
    assert found is not None
    assert [one.id for one in found.came_of] == ["L-01"]
    assert [one.id for one in found.left] == ["L-04"]
    assert found.uses[0].name == "Laundry"


def test_from_a_board_all_that_came_of_it_is_found() -> None:
    found = descent(sawn(), "L-01")
    assert found is not None
    assert [one.id for one in found.born] == ["L-02", "L-04", "L-03"]
    assert [one.id for one in found.left] == ["L-04", "L-03"]
    assert [use.piece for use in found.uses] == ["L-02"]


def test_a_piece_that_was_never_there_has_no_descent() -> None:
    assert descent(sawn(), "L-09") is None


def test_another_jobs_door_of_the_same_name_is_not_meant() -> None:
    rack = sawn()
    assert pieces_of(rack, "DA", "K") == ()
    assert [piece.id for piece in pieces_of(rack, "DA", "J")] == ["L-02"]
    assert pieces_of(rack, "D") == ()


def test_what_was_told_last_holds_and_taking_it_back_brings_what_was_told_before() -> None:
    rack = sawn()
    spoiled = move("made into", "L-02", parts=("billet P",))
    rack = after(rack, spoiled)
    assert made_into(rack)["L-02", "J"].parts == ("billet P",)
    assert "leaf P1 for DA" in made_into(after(rack, back(spoiled)))["L-02", "J"].parts


def test_a_job_tells_of_billets_leaves_and_parts_whose_cuts_are_done() -> None:
    job = Job().put(
        board("L-01"), board("L-02"), Billet("P", "L-01"), Leaf("P1", "P", 1, front="DA"), Leaf("P2", "P", 2)
    )
    job = job.put(Front("DA", "OA"), Laid("B1", "L-02"), LaidPart("B1-1", "B1", "DA-TR"))
    assert made_by(job) == {"L-01": ("billet P", "leaf P1 for DA", "leaf P2")}
    job = job.put(CutDone("B1 1", "B1", 1))
    assert made_by(job)["L-02"] == ("part DA-TR",)


def test_only_what_the_ledger_does_not_say_yet_is_told() -> None:
    rack = after_all(Rack(), [come(board("L-01"))])
    job = Job().put(board("L-01"), Billet("P", "L-01"))
    assert list(not_yet_told(rack, job, "J", "Laundry")) == []  # the rack's L-01 is not that of this job
    rack = after(rack, move("reserve", "L-01"))
    (line,) = not_yet_told(rack, job, "J", "Laundry")
    assert (line.piece, line.parts) == ("L-01", ("billet P",))
    rack = after(rack, move("made into", "L-01", parts=line.parts))
    assert list(not_yet_told(rack, job, "J", "Laundry")) == []
    (gone,) = not_yet_told(rack, job.drop(Billet, "P"), "J", "Laundry")
    assert gone.parts == ()

"""The rack when two want the same wood, when a process dies, and when the shop file cannot be had."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from contextlib import ExitStack, closing
from pathlib import Path

import frontwright
import pytest
from frontwright.core.job import Job, Move, Piece
from frontwright.core.stock.rack import RackMove, recount
from frontwright.desk.keys import key
from frontwright.desk.session import Session
from frontwright.store import StoreError, open_shop
from frontwright.store.files import JobFile, ShopFile

Folder = Callable[[], dict[str, bytes]]
APP = Path(frontwright.__file__).parents[1]
KILLS = int(os.environ.get("FRONTWRIGHT_KILLS", "14"))  # 300 when the rack's rules or files change
PIECES = 1_000

# Two that write without a pause leave each other no moment, and one may get nothing: so each rests for a moment after
# what it got, as people do, and who is told all the same that the file is in use does it again.
WANTS_ALL = """
import sys
import time
from pathlib import Path
from frontwright.core.job import Move
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.rack import RackMove
from frontwright.store import StoreError, open_shop, opening

shop, job, names = Path(sys.argv[1]), sys.argv[2], [f"L-{number}" for number in range(int(sys.argv[3]))]
with open_shop(shop) as file:
    opening.driver(file._connection).execute("PRAGMA synchronous=OFF")  # who gets what, not how fast the disk is
    print("ready", flush=True)
    sys.stdin.readline()
    wanted = names if job == "J" else names[::-1]
    while wanted:
        try:
            file.make(RackMove(Move(f"{job} {wanted[0]}", "reserve", wanted[0], job=job)))
            print(wanted[0], flush=True)
            time.sleep(0.005)
        except MoveRefused:
            pass
        except StoreError as error:
            if "is in use" in str(error):
                continue
            raise
        wanted = wanted[1:]
"""


def stocked(shop: Path, pieces: int) -> None:
    names = [f"L-{number}" for number in range(pieces)]
    with open_shop(shop) as file:
        file.make(*(RackMove(Move(f"come {name}", "come", name), (Piece(name),)) for name in names))


def test_of_a_thousand_pieces_that_two_processes_want_none_is_given_twice_and_none_is_left(tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    stocked(shop, PIECES)
    with ExitStack() as stack:
        users = {
            job: stack.enter_context(
                subprocess.Popen(
                    [sys.executable, "-c", WANTS_ALL, str(shop), job, str(PIECES)],
                    env={"PYTHONPATH": str(APP)},
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    text=True,
                )
            )
            for job in ("J", "K")
        }
        for user in users.values():
            assert user.stdout is not None
            assert user.stdout.readline() == "ready\n"
        for user in users.values():
            assert user.stdin is not None
            user.stdin.write("\n")
            user.stdin.flush()
        got = {job: set(user.communicate()[0].split()) for job, user in users.items()}
        assert [user.returncode for user in users.values()] == [0, 0]
    assert got["J"] & got["K"] == set()
    assert len(got["J"] | got["K"]) == PIECES
    assert min(len(got["J"]), len(got["K"])) > 0
    with open_shop(shop) as file:
        rack = file.rack
        assert {one.id: one.job for one in rack.reservations.values()} == {n: job for job in got for n in got[job]}
        assert recount(rack.moves.values()) == rack


@pytest.mark.skipif(sys.platform == "win32", reason="it forks")
def test_after_kills_at_every_point_of_a_step_job_and_rack_agree_and_no_told_step_is_lost(tmp_path: Path) -> None:
    worked = subprocess.run(
        [sys.executable, str(Path(__file__).with_name("killing.py")), str(KILLS)],
        env={"PYTHONPATH": str(APP), "TMPDIR": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert worked.returncode == 0, worked.stderr[-2000:]
    assert sum(int(line.split()[0]) for line in worked.stdout.splitlines()[:-1]) == KILLS


def limited(file: ShopFile) -> None:
    with file._transaction():
        pages = file._connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        file._connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")


def test_on_a_full_disk_no_move_is_made_and_the_rack_is_as_it_was(tmp_path: Path) -> None:
    stocked(tmp_path / "shop", 3)
    with open_shop(tmp_path / "shop") as file:
        before = file.rack
        limited(file)
        long = Piece("L-9", note="x" * 300_000)
        with pytest.raises(StoreError, match=r"The disk of .* is full; the last change was not kept"):
            file.make(RackMove(Move("m", "come", "L-9"), (long,)))
        assert file.rack == before
    with open_shop(tmp_path / "shop") as file:
        assert file.rack == before


def test_a_job_on_a_full_shop_disk_is_as_it_was_and_says_so(tmp_path: Path) -> None:
    session = Session.create(tmp_path / "job", Job(), tmp_path / "shop")
    session.rack.come(Piece("L-1", note="x" * 200_000))
    shop = session.rack._file
    assert shop is not None
    limited(shop)
    before = session.job
    assert "is full; the last change was not kept" in session.act(key("rack-reserve", "L-1")).problem
    assert session.job == before
    assert session.undo_name == ""
    assert session._book.intents() == ()
    session.close()


def test_a_step_that_neither_file_has_room_to_finish_is_kept_and_finished_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> bool:
        raise StoreError("The disk is full.")

    with closing(Session.create(tmp_path / "job", Job(), tmp_path / "shop")) as session:
        with monkeypatch.context() as patched:
            patched.setattr(ShopFile, "make", full)
            patched.setattr(JobFile, "take_back", full)
            assert "the job keeps it, and the rack follows" in session.act(key("add-piece", "board")).problem
        (piece,) = session.job.pieces
        assert not session.rack.rack.pieces
    with closing(Session.open(tmp_path / "job", tmp_path / "shop")) as again:
        assert list(again.rack.rack.reservations) == [piece]
        assert again.rack.disagreements() == ()


def test_a_step_that_both_sides_have_is_no_failure_when_the_job_cannot_note_that_it_is_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is full just for the job's last word: it is said with the next step, and nothing is made twice."""

    def full(self: JobFile, *moves: str) -> None:
        raise StoreError("The disk is full.")

    with closing(Session.create(tmp_path / "job", Job(), tmp_path / "shop")) as session:
        with monkeypatch.context() as patched:
            patched.setattr(JobFile, "confirm", full)
            assert session.act(key("add-piece", "board")).problem == ""
        assert len(session._book.intents()) == 1
        (piece,) = session.job.pieces
        assert list(session.rack.rack.pieces) == [piece]
        assert session.undo().problem == ""
        assert session._book.intents() == ()
        assert not session.job.pieces
        assert session.redo().problem == ""
        assert list(session.rack.rack.reservations) == [piece]
        assert session.rack.disagreements() == ()


def test_a_shop_file_that_went_missing_is_made_anew_and_the_jobs_wood_is_offered_to_it(tmp_path: Path) -> None:
    job, shop = tmp_path / "job", tmp_path / "shop"
    session = Session.create(job, Job(), shop)
    session.act(key("add-piece", "board"))
    (piece,) = session.job.pieces
    session.close()
    shop.unlink()
    with closing(Session.open(job, shop)) as again:
        assert again.rack_problem == ""
        assert [one.id for one in again.rack.to_be_taken_in()] == [piece]
        assert again.undo().problem == ""  # the new rack has nothing of it that could be taken back
        assert not again.job.pieces
        assert again.redo().problem == ""
        assert list(again.job.pieces) == [piece]
        assert again.act(key("rack-take-in")).problem == ""
        assert list(again.rack.rack.reservations) == [piece]


@pytest.mark.parametrize("content", [b"", b"a letter to the client", b"SQLite format 3\0"])
def test_a_foreign_shop_file_stays_as_it_is_and_the_job_opens_without_a_rack(
    tmp_path: Path, folder_as_it_is: Folder, content: bytes
) -> None:
    shop = tmp_path / "foreign"
    shop.write_bytes(content)
    session = Session.create(tmp_path / "job", Job(), shop)
    assert "is not a shop file of Frontwright; it was left as it is." in session.shop_problem
    assert "is not a shop file" in session.act(key("rack-reserve", "L-1")).problem
    assert not session.rack.rack.pieces
    session.close()
    assert shop.read_bytes() == content


def test_a_read_only_shop_file_is_said_and_stays_as_it_is(tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    stocked(shop, 2)
    before = shop.read_bytes()
    shop.chmod(0o444)
    session = Session.create(tmp_path / "job", Job(), shop)
    assert "is read-only" in session.shop_problem
    assert "is read-only" in session.act(key("rack-reserve", "L-1")).problem
    session.close()
    assert shop.read_bytes() == before


def test_a_rack_held_by_another_program_is_said_and_the_step_is_not_half_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import sqlite3

    from frontwright.store import opening

    monkeypatch.setitem(opening._PATIENCE, "shop", 0.1)
    shop = tmp_path / "shop"
    stocked(shop, 2)
    session = Session.create(tmp_path / "job", Job(), shop)
    holder = sqlite3.connect(shop, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    assert "is in use by another window or program" in session.act(key("rack-reserve", "L-1")).problem
    holder.execute("ROLLBACK")
    holder.close()
    assert not session.job.pieces
    assert session.act(key("rack-reserve", "L-1")).problem == ""
    assert session.rack.disagreements() == ()
    session.close()

"""A job and the shop's rack worked on by a process that is killed again and again: `python killing.py KILLS [SEED]`.

Each round a forked process opens both files and works: it reserves, takes, cuts, releases, burns, enters and changes
pieces, undoes and redoes, and tells each step that is done. It is killed at a random moment, or at a chosen point of
the way that a step goes. Then both files are opened again, and job and rack must agree; every step told is there.
"""

from __future__ import annotations

import os
import random
import signal
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

from frontwright.core.job import CutDone, Job, Laid, Move, Piece
from frontwright.core.lengths import typed
from frontwright.core.stock.born import born
from frontwright.core.stock.rack import RackMove, recount
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.rack_desk import RackDesk
from frontwright.store import create, open_job, open_shop, opening, outbox
from frontwright.store.files import JobFile, ShopFile
from frontwright.store.rack import RackBook

BOARDS = 12
MOMENTS: dict[str, tuple[Any, str]] = {  # the points of the way: right after which call the process dies
    "intent written, not committed": (outbox, "write"),
    "step kept, rack not asked": (JobFile, "_apply"),
    "step undone, rack not asked": (JobFile, "_swap"),
    "rack written, not committed": (RackBook, "_write"),
    "rack done, job not told": (ShopFile, "make"),
    "confirmation written, not committed": (outbox, "drop"),
    "all done, nobody told": (JobFile, "confirm"),
}
ANY_TIME = "any time"


class Worker:
    """Does one thing after the other to a job and the rack, by chance."""

    def __init__(self, job: Path, shop: Path, chance: random.Random) -> None:
        self.book, self.file, self.chance = open_job(job), open_shop(shop), chance
        for one in (self.book, self.file):  # what a killed process wrote the system has: the disk is not asked here
            opening.driver(one._connection).execute("PRAGMA synchronous=OFF")
        self.desk = RackDesk(self.book, self.file, "", lambda: "2026-11-25 10:00")
        self.desk.settle()
        self.acts = [self.reserve] * 3 + [self.cut] * 2
        self.acts += [self.release, self.take, self.burn, self.enter, self.change, self.undo, self.redo]

    def close(self) -> None:
        self.book.close()
        self.file.close()

    def works(self) -> None:
        with suppress(Refused, IndexError):
            self.chance.choice(self.acts)()

    def own(self) -> str:
        return self.chance.choice([piece.id for piece in self.book.job.pieces.values() if piece.state == "free"])

    def reserve(self) -> None:
        rack = self.desk.rack
        free = [piece for piece in rack.pieces.values() if piece.state == "free" and piece.id not in rack.reservations]
        chosen = self.chance.choice(free)
        self.desk.reserve([chosen.id], count=self.chance.randint(1, chosen.count))

    def cut(self) -> None:
        piece, number = self.own(), len(self.book.job.laid)
        row = self.book.job.pieces[piece]
        left = born(row, self.desk.next_name(piece), (typed("5", "in"), row.width, None), job="killed")
        laid = Laid(f"B{number}", piece)
        tick = Edit(f"cut {piece}", lambda job: job.put(laid, CutDone(f"{laid.id} 1", laid.id, 1)))
        self.desk.cut(tick, piece, [left], parts=["DA-TR"], ends=self.chance.random() < 0.7, count=row.count)

    def release(self) -> None:
        self.desk.release(self.own())

    def take(self) -> None:
        self.desk.take(self.own())

    def burn(self) -> None:
        self.desk.burn(self.own())

    def enter(self) -> None:
        new = board(self.desk.next_name("N-01"))
        self.desk.apply(Edit(f"add {new.id}", lambda job: job.put(new)))

    def change(self) -> None:
        row = replace(self.book.job.pieces[self.own()], shelf=f"S{self.chance.randint(1, 99)}")
        self.desk.apply(Edit(f"shelf of {row.id}", lambda job: job.put(row)))

    def undo(self) -> None:
        self.desk.swap(back=True)

    def redo(self) -> None:
        self.desk.swap(back=False)


def board(name: str, count: int = 1) -> Piece:
    sizes = typed("60", "in"), typed("6", "in"), typed("1", "in")
    return Piece(name, "board", "white ash", "AS1", *sizes, count)


def begun(folder: Path) -> tuple[Path, Path]:
    """A job that has nothing yet, and a rack with some boards, in new files."""
    job, shop = folder / "job.frontwright", folder / "shop.frontwright-shop"
    create(job, Job()).close()
    with open_shop(shop) as file:
        stocked(file)
    return job, shop


def stocked(file: ShopFile) -> None:
    """So many boards more that there are enough to go on with."""
    rack = file.rack
    missing = BOARDS - sum(
        piece.state == "free" and piece.id not in rack.reservations for piece in rack.pieces.values()
    )
    names = [f"L-{len(rack.moves)}-{number}" for number in range(missing)]
    file.make(*(RackMove(Move(f"come {name}", "come", name), (board(name, 1 + len(name) % 3),)) for name in names))


def killed_round(job: Path, shop: Path, chance: random.Random, moment: str) -> tuple[list[str], int]:
    """Work until killed: the steps that were told last, and how long the ledger was said to be."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        os.close(reading)
        try:
            _work(job, shop, chance, moment, writing)
        finally:
            os._exit(1)
    os.close(writing)
    told = _listen(reading, child, chance, moment)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), f"the worker ended by itself ({moment})"
    assert os.WTERMSIG(status) == signal.SIGKILL
    return told


def _work(job: Path, shop: Path, chance: random.Random, moment: str, writing: int) -> None:
    worker = Worker(job, shop, chance)
    if moment != ANY_TIME:
        _die_after(*MOMENTS[moment], chance.randint(1, 4))
    while True:
        line = "\t".join([str(len(worker.desk.rack.moves)), *worker.book.steps])
        os.write(writing, f"{line}\n".encode())
        worker.works()


def _die_after(home: Any, name: str, calls: int) -> None:
    real: Callable[..., Any] = getattr(home, name)
    left = [calls]

    def then_die(*given: Any, **named: Any) -> Any:
        done = real(*given, **named)
        left[0] -= 1
        if not left[0]:
            os.kill(os.getpid(), signal.SIGKILL)
        return done

    setattr(home, name, then_die)


def _listen(reading: int, child: int, chance: random.Random, moment: str) -> tuple[list[str], int]:
    """What was told last; at any time, the process is killed after some milliseconds of its work."""
    heard = os.read(reading, 65536)
    if moment == ANY_TIME:
        time.sleep(chance.uniform(0, 0.12))
        os.kill(child, signal.SIGKILL)
    while more := os.read(reading, 65536):
        heard += more
    os.close(reading)
    length, *steps = heard.decode().split("\n")[-2].split("\t")
    return steps, int(length)


def check(job: Path, shop: Path, told: tuple[list[str], int], moment: str) -> None:
    """After opening again job and rack agree, the ledger recounts to the rack, and every step told is there."""
    with open_job(job) as book, open_shop(shop) as file:
        desk = RackDesk(book, file, "", lambda: "2026-11-25 11:00")
        said = desk.settle()
        assert said == "", f"{moment}: {said}"
        assert book.intents() == (), moment
        assert desk.disagreements() == (), f"{moment}: {desk.disagreements()}"
        rack, steps = desk.rack, list(book.steps)
        assert recount(rack.moves.values()) == rack, moment
        before, length = told
        assert len(rack.moves) >= length, moment
        in_flight = (steps == before, steps[:-1] == before, steps == before[:-1], steps[:-1] == before[:-1])
        assert any(in_flight), f"{moment}: {before[-3:]} was told, {steps[-3:]} is there"
        stocked(file)


def kills(rounds: int, seed: int, folder: Path) -> dict[str, int]:
    """So many kills one after the other on one job and rack; how many there were at each point."""
    chance = random.Random(seed)
    job, shop = begun(folder)
    counted: dict[str, int] = {}
    for number in range(rounds):
        moment = list(MOMENTS)[number // 2 % len(MOMENTS)] if number % 2 else ANY_TIME
        check(job, shop, killed_round(job, shop, random.Random(chance.random()), moment), moment)
        counted[moment] = counted.get(moment, 0) + 1
    return counted


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
        began = time.monotonic()
        for point, number in kills(int(sys.argv[1]), seed, Path(place)).items():
            print(f"{number:4}  {point}")  # noqa: T201
        print(f"job and rack agreed after each; {time.monotonic() - began:.0f} s")  # noqa: T201

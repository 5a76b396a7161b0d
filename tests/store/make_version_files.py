"""Makes the files of the present version that later versions must still open: `python make_version_files.py`.

Run once for each version, when it is released; until then whenever a table has changed. Never for an earlier version.
The same tables give the same bytes, so that a file that differs says that something in it has changed.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import count
from pathlib import Path
from unittest.mock import patch
from uuid import UUID

from frontwright.core.job import (
    Billet,
    Defect,
    Job,
    Leaf,
    Learned,
    Move,
    Opening,
    Piece,
    PlanePass,
    PressedPanel,
    Reservation,
    Shop,
    Table,
    amount,
)
from frontwright.core.lengths import typed
from frontwright.core.stock.rack import RackMove
from frontwright.exchange.json_form import job_from_json, job_to_json, shop_to_json
from frontwright.resources import resource
from frontwright.store import create, open_shop
from frontwright.store.schema import VERSION

FILES = Path(__file__).parent / "files"
LEARNED = Learned(
    "loss, band saw, white ash",
    "loss",
    "band saw",
    species="white ash",
    value=typed("7/64", "in"),
    count=4,
    spread=typed("1/64", "in"),
)
STEPS = ("Note of opening OA", "Width of OB", "Opening OC")  # the last stands undone

BOARD = Piece("L-05", "board", "white ash", "AS1", typed("60", "in"), typed("5 1/4", "in"), typed("1 3/4", "in"), 3)
RACK = (
    RackMove(
        Move("1", "come", "L-05", when="2026-11-25"), (BOARD, Defect("knot", "L-05", "knot", typed("12 1/", "in")))
    ),
    RackMove(
        Move("2", "reserve", "L-05", ("L-06",), count=1, job="J", when="2026-11-25"),
        (Reservation("L-05", name="Laundry"),),
    ),
)


def wider(job: Job) -> Job:
    return job.put(replace(job.readings["OB width top"], value=typed("21 3/16", "in")))


def sawn(job: Job) -> Job:
    """The job with a billet, two leaves of it, and a panel that was pressed and planed once."""
    billet = Billet("P", "L-01", machine="band saw", length=typed("25 1/2", "in"), ring_angle=amount("40"))
    leaves = (
        Leaf("P1", "P", 1, thick_1=typed("1/8", "in"), left=typed("1 31/64", "in"), counted=True),
        Leaf("P2", "P", 2, state="scorched", front="DA", side="back", seat=2),
    )
    panel = PressedPanel("DA-P", typed("13/32", "in"), typed("13/32", "in"))
    return (
        job.put(billet).put(*leaves).put(panel).put(PlanePass("DA-P pass 1", "DA-P", 1, "show", typed("25/64", "in")))
    )


def make() -> None:
    """A job and a shop, and beside each what is in it in the JSON form; ids that chance would give are counted."""
    ids = count(1)
    with patch("frontwright.store.outbox.uuid4", lambda: UUID(int=next(ids))):
        _make()


def _make() -> None:
    name = f"version-{VERSION['job']}"
    job = sawn(job_from_json(resource("samples", "laundry-pair.json").read_text(encoding="utf-8")))
    shop = Shop(**{table: getattr(job, table) for table in Shop.kinds() if table in Job.kinds()})
    shop = replace(shop, learned=Table([LEARNED]))
    paths = [FILES / f"{name}.frontwright", FILES / f"{name}.frontwright-shop"]
    for path in paths:
        path.unlink(missing_ok=True)
    with create(paths[0], job) as file:
        file.apply(STEPS[0], lambda job: job.put(replace(job.openings["OA"], note="behind the dryer’s hose")))
        file.apply(STEPS[1], wider)
        file.apply(STEPS[2], lambda job: job.put(Opening("OC", column="OB", place=2)))
        file.keep_draft("OC width", "21 1/")
        (FILES / f"{name}.json").write_text(job_to_json(file.undo()), encoding="utf-8")
    with open_shop(paths[1], shop) as made:
        made.make(*RACK)
        (FILES / f"{name}.shop.json").write_text(shop_to_json(made.shop, "in"), encoding="utf-8")


if __name__ == "__main__":
    make()

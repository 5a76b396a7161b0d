"""How fast things are on this machine, side by side with what they may take; printed, never asserted."""

from __future__ import annotations

import json
import os
import platform
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any

from frontwright.core.job import Job, Table
from frontwright.core.job.references import REFERENCES
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

_PLACES = ("runs", "ends", "cabinets", "members", "columns", "openings", "readings", "fronts", "front_rows", "facings")
_TEXT = "23 5/8 - 2*3/4"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the table: what is measured, the figure to hold, and what it took here."""

    what: str
    hold: str
    took: str

    def __str__(self) -> str:
        return f"{self.what:<52}{self.hold:>10}{self.took:>14}"


def table(repeats: int = 20) -> Iterator[str]:
    """The table, line by line as each is measured. `repeats`: how often a short thing is done."""
    yield f"Python {platform.python_version()}, {platform.system()} {platform.machine()}, {os.cpu_count()} processors"
    yield str(Line("", "to hold", "here"))
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        for line in _lines(Path(folder), repeats):
            yield str(line)
    yield str(Line("layout of a usual job, to its last sheet saved", "2 s", _s(_laying())))
    yield str(Line("the whole test command, 2 processors", "10 min", "start.py test"))


def _lines(folder: Path, repeats: int) -> Iterator[Line]:
    kitchen = _sample("kitchen-run")
    small, large = openings(kitchen, 20), openings(kitchen, 100)
    yield from _window_lines(folder, kitchen, large, repeats)
    yield Line(
        "field accepted to committed, kitchen, 99th of 100", "100 ms", _ms(_committing(folder, kitchen, repeats))
    )
    yield Line("derive, 20 openings", "16 ms", _ms(_deriving(small, repeats)))
    yield Line("derive, 100 openings", "100 ms", _ms(_deriving(large, max(1, repeats // 4))))
    yield Line("all sheets of a 12-opening kitchen", "3 s", _s(_printing(kitchen)))


def openings(job: Job, count: int) -> Job:
    """A job of so many openings: the runs of this one over and over, cut off after the last opening wanted."""
    copies = -(-count // len(job.openings))
    many = replace(job, **{name: _copied(job, name, copies) for name in (*_PLACES, "looks")})
    over = list(many.openings)[count:]
    gone = {front.id for front in many.fronts.values() if front.opening in over}
    kept = Table(reading for reading in many.readings.values() if reading.of not in over)
    return replace(
        many,
        openings=many.openings.drop(*over),
        fronts=many.fronts.drop(*gone),
        readings=kept,
        front_rows=Table(
            replace(r, fronts=tuple(f for f in r.fronts if f not in gone)) for r in many.front_rows.values()
        ),
    )


def _copied(job: Job, table: str, copies: int) -> Table[Any]:
    rows = list(getattr(job, table).values())
    return Table(rows + [_renamed(row, table, f" {n}") for n in range(2, copies + 1) for row in rows])


def _renamed(row: Any, table: str, end: str) -> Any:
    """A row with its own id and the places that it names ending otherwise; looks of a room stay as they are."""
    if table == "looks" and row.id.startswith("room:"):
        return row
    named = [
        field.name
        for field in fields(row)
        if field.name == "id" or set(REFERENCES.get(table, {}).get(field.name, ())) & set(_PLACES)
    ]
    changed = {name: _with_end(getattr(row, name), end) for name in named}
    return replace(row, **changed)


def _with_end(value: str | tuple[str, ...] | None, end: str) -> str | tuple[str, ...] | None:
    if value is None:
        return None
    return value + end if isinstance(value, str) else tuple(one + end for one in value)


def _sample(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))


# What is measured here


def _deriving(job: Job, repeats: int) -> float:
    from frontwright.core.plan import derive

    return _middle(lambda: derive(job), repeats)


def _committing(folder: Path, job: Job, repeats: int) -> float:
    from frontwright.desk.keys import key
    from frontwright.desk.session import Session

    waits = []
    session = Session.create(folder / "commit.frontwright", job, folder / "shop.frontwright-shop")
    try:
        for n in range(5 * repeats):
            began = perf_counter()
            session.enter(key("readings", "1", "width", "top"), f"54{n % 9}.5")
            waits.append(perf_counter() - began)
    finally:
        session.close()
    return sorted(waits)[len(waits) * 99 // 100 - 1 if len(waits) > 1 else 0]


def _laying() -> float:
    """Seconds until a search of two has brought a hundred parts of a kitchen onto as few sheets as it will."""
    from frontwright.cutting import Running
    from frontwright.cutting.values import Order, Saw, Stock, Wanted

    wanted = tuple(Wanted(str(n), 200 + 37 * n % 701, 80 + 61 * n % 521, 1, turns=n % 3 == 0) for n in range(100))
    order = Order(wanted, (Stock("sheet", 2440, 1220, None, trims=(10, 10, 10, 10)),), Saw(3))
    began, fewest, took = perf_counter(), len(wanted) + 1, 0.0
    with Running(order, 2.0) as running:
        for plan in running.plans():
            if plan.whole and plan.cost < fewest:
                fewest, took = plan.cost, perf_counter() - began
    return took


def _printing(job: Job) -> float:
    from frontwright.core.plan import derive
    from frontwright.sheets.catalogue import make, sheets_of
    from frontwright.sheets.info import Stamp

    began = perf_counter()
    plan = derive(job)
    make(plan, [info for info in sheets_of(plan) if not info.held], "a4", Stamp())
    return perf_counter() - began


# What is measured in a window of its own


def _window_lines(folder: Path, kitchen: Job, large: Job, repeats: int) -> Iterator[Line]:
    from frontwright.store import create, open_shop

    shop = folder / "shop.frontwright-shop"
    open_shop(shop).close()
    for name, job in (("kitchen", kitchen), ("large", large)):
        create(folder / f"{name}.frontwright", job).close()
    paths = str(folder / "kitchen.frontwright"), str(shop)
    _in_window(folder, "stand", *paths)
    stands = _in_window(folder, "stand", *paths)
    yield Line("start to usable window, second start", "1.5 s", _s(stands["waited"]))
    memory = stands.get("memory")
    yield Line("memory of a kitchen job, window open", "250 MB", f"{memory:.0f} MB" if memory else "not told")
    yield Line(
        "reading of an entry while it is typed, slowest", "50 ms", _ms(_in_window(folder, "typing", _TEXT)["slowest"])
    )
    texts = ",".join(f"54{n % 9}.5" for n in range(max(2, repeats // 2)))
    drawn = _in_window(folder, "redraw", str(folder / "large.frontwright"), str(shop), "1", texts)
    yield Line("redraw after an edit, 100 openings", "100 ms", _ms(drawn["middle"]))


def _in_window(folder: Path, *words: str) -> dict[str, float]:
    """What a window says that is not seen, in a process and a home of its own; `waited`: seconds until it said so."""
    places = dict.fromkeys(
        ("HOME", "USERPROFILE", "APPDATA", "LOCALAPPDATA", "XDG_DATA_HOME", "XDG_CONFIG_HOME"), str(folder)
    )
    here = {**os.environ, **places, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": os.pathsep.join(sys.path)}
    command = [sys.executable, "-m", "frontwright.window.timing", *words]
    began = perf_counter()
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=here) as started:
        told = started.stdout.readline() if started.stdout else ""
        waited = perf_counter() - began
    if started.returncode:
        raise RuntimeError(f"the window did not stand: {' '.join(words)}")
    return {"waited": waited, **json.loads(told)}


def _middle(do: Callable[[], object], repeats: int) -> float:
    waits = []
    for _ in range(repeats):
        began = perf_counter()
        do()
        waits.append(perf_counter() - began)
    return sorted(waits)[len(waits) // 2]


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:.1f} ms"


def _s(seconds: float) -> str:
    return f"{seconds:.2f} s"


if __name__ == "__main__":
    from frontwright.bench_lay import main

    sys.exit(main())

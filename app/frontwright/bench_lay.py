"""Layouts measured on a folder of published instances: a table by families, ours and the library's plain call.

The scorer knows nothing of the search: it reads the instance file and the result file, and counts for itself.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from threading import Lock
from time import monotonic
from typing import Any

_CORES = 2
Box = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Score:
    """What a result file comes to: `value` in what the problem counts; `fault`: why it does not count."""

    value: float
    whole: bool
    layouts: int
    use: float = 0.0
    fault: str = ""


@dataclass(frozen=True, slots=True)
class Run:
    """One instance run: the mark it is held against (the best known, or a bound), and what came of it."""

    family: str
    name: str
    mark: float
    is_bound: bool
    more_is_better: bool
    published_use: float
    ours: Score
    plain: Score
    seconds: float
    late: bool

    def gap(self, score: Score) -> float:
        """Per cent that a score lies behind the mark; below 0 where it is better."""
        behind = self.mark - score.value if self.more_is_better else score.value - self.mark
        return 100 * behind / self.mark if self.mark else 0.0


# The scorer


def score(instance: dict[str, Any], result: dict[str, Any]) -> Score:
    """Hold a result file against its instance file, by the rules of the benchmark."""
    kerf, items, stock = instance["kerf"], instance["items"], instance["stock"]
    laid, used = [0] * len(items), [0] * len(stock)
    for one in result["bins"]:
        copies = one.get("copies", 1)
        used[one["stock"]] += copies
        boxes = []
        for part in one["placed"]:
            laid[part["item"]] += copies
            box = (part["x"], part.get("y", 0), part["w"], part.get("h", 1))
            fault = _misplaced(instance, stock[one["stock"]], items[part["item"]], box)
            if fault:
                return _refused(fault)
            boxes.append(box)
        if not _cuttable(boxes, kerf):
            return _refused("not cuttable from edge to edge")
    if any(n > item["copies"] for n, item in zip(laid, items, strict=True)):
        return _refused("a part too often")
    if any(s["copies"] is not None and n > s["copies"] for n, s in zip(used, stock, strict=True)):
        return _refused("more stock than there is")
    whole = all(n == item["copies"] for n, item in zip(laid, items, strict=True))
    area = sum(n * s["w"] * s["h"] for n, s in zip(used, stock, strict=True))
    parts = sum(n * item["w"] * item["h"] for n, item in zip(laid, items, strict=True))
    value = _value(instance, result["bins"], laid, used)
    return Score(value, whole or instance["problem"] == "2KP", len(result["bins"]), 100 * parts / area if area else 0.0)


def _refused(fault: str) -> Score:
    return Score(0.0, whole=False, layouts=0, fault=fault)


def _misplaced(instance: dict[str, Any], sheet: dict[str, Any], item: dict[str, Any], box: Box) -> str:
    x, y, w, h = box
    sizes = [(item["w"], item["h"])]
    if item.get("rotation", instance["rotation"]):
        sizes.append((item["h"], item["w"]))
    if (w, h) not in sizes:
        return "a part of a wrong size"
    return "" if x >= 0 and y >= 0 and x + w <= sheet["w"] and y + h <= sheet["h"] else "a part off its sheet"


def _cuttable(boxes: list[Box], kerf: int) -> bool:
    """Whether cuts from edge to edge, each taking a kerf, leave one part everywhere."""
    stack = [(boxes, 0, False)]
    while stack:
        group, side, stuck = stack.pop()
        if len(group) < 2:
            continue
        group = sorted(group, key=lambda box: box[side])
        starts, end = [0], group[0][side] + group[0][side + 2]
        for n, box in enumerate(group[1:], 1):
            if box[side] - end >= kerf:
                starts.append(n)
            end = max(end, box[side] + box[side + 2])
        if len(starts) == 1:
            if stuck:
                return False
            stack.append((group, 1 - side, True))
        else:
            ends = [*starts[1:], len(group)]
            stack += [(group[a:b], 1 - side, True) for a, b in zip(starts, ends, strict=True)]
    return True


def _value(instance: dict[str, Any], bins: list[dict[str, Any]], laid: list[int], used: list[int]) -> float:
    problem, stock = instance["problem"], instance["stock"]
    if problem == "2VSBP":
        return float(sum(n * s["cost"] for n, s in zip(used, stock, strict=True)))
    if problem == "2KP":
        return float(sum(n * item["profit"] for n, item in zip(laid, instance["items"], strict=True)))
    if problem == "2SP":
        return float(max((p["y"] + p["h"] for one in bins for p in one["placed"]), default=0))
    if problem == "2BPL":
        return sum(used) - max((_offcut(stock[one["stock"]], one["placed"]) for one in bins), default=0.0)
    return sum(used)


def _offcut(sheet: dict[str, Any], placed: list[dict[str, Any]]) -> float:
    """The largest full-width or full-height offcut, as a share of its sheet."""
    shares = list[float]()
    for at, size in (("x", "w"), ("y", "h")):
        low = min((p[at] for p in placed), default=0)
        high = max((p[at] + p[size] for p in placed), default=0)
        shares += [low / sheet[size], (sheet[size] - high) / sheet[size]]
    return max(shares)


# The runs


def runs(folder: Path, seconds: float, names: Sequence[str]) -> Iterator[Run]:
    """Each instance of a bench folder run, ours and plain; `names`: families, or FAMILY/NAME of single files."""
    from frontwright.cutting.preparing import prepare_now

    prepare_now()
    files = [path for path in sorted(folder.glob("*/*.json")) if _asked(path, names)]
    cores, lock = list(range(_CORES)), Lock()

    def run(path: Path) -> Run:
        with lock:
            core = cores.pop()
        try:
            _keep_to(core)
            return _run(path, seconds)
        finally:
            with lock:
                cores.append(core)

    with ThreadPoolExecutor(_CORES) as pool:
        yield from pool.map(run, files)


def _asked(path: Path, names: Sequence[str]) -> bool:
    return not names or path.parent.name in names or f"{path.parent.name}/{path.stem}" in names


def _keep_to(core: int) -> None:
    """Keep this thread, and what it starts, to one core, where the system can."""
    if sys.platform.startswith("linux"):
        able = sorted(os.sched_getaffinity(os.getpid()))
        os.sched_setaffinity(0, {able[core % len(able)]})


def _run(path: Path, seconds: float) -> Run:
    from frontwright.cutting import Running
    from frontwright.cutting.bench_file import read, result

    told, instance = read(path), json.loads(path.read_text(encoding="utf-8"))
    scores, waits = [], []
    for plain in (False, True):
        began = monotonic()
        with Running(told.order, seconds, plain=plain) as running:
            for _ in running.plans():
                pass
        waits.append(monotonic() - began)
        best = running.best
        text = result(told.name, best, waits[-1]) if best is not None else '{"bins": []}'
        scores.append(score(instance, json.loads(text)))
    mark = told.best if told.best is not None else told.bound or 0
    use = float(instance["best_known"].get("group_utilisation_pct") or 0)
    return Run(
        told.family or path.parent.name,
        told.name,
        float(mark),
        told.best is None,
        told.problem == "2KP",
        use,
        scores[0],
        scores[1],
        waits[0],
        waits[0] > 1.1 * seconds,
    )


# The table

_HEAD = (
    f"{'family':<20}{'n':>4} | {'ours':>12}{'best':>12}{'gap %':>8}{'at best':>8}{'not whole':>10}{'late':>5}"
    f" | {'plain':>12}{'gap %':>8}{'at best':>8}{'not whole':>10} | {'use %':>6}{'publ.':>6}{'layouts':>8}"
)


def table(done: Iterable[Run]) -> Iterator[str]:
    """A line a family; sums over instances that both laid whole; a gap is the mean over all that are whole."""
    yield _HEAD
    for family, group in groupby(done, key=lambda run: run.family):
        ones = list(group)
        yield _line(family, ones)
        yield from (f"    {run.name}: {run.ours.fault}" for run in ones if run.ours.fault)
    yield "best: the best known value, * where it is a bound for want of one; sums over what both laid whole"


def _line(family: str, ones: list[Run]) -> str:
    both = [run for run in ones if run.ours.whole and run.plain.whole] or [run for run in ones if run.ours.whole]
    star = "*" if any(run.is_bound for run in ones) else ""
    best = f"{sum(run.mark for run in both):.10g}{star}"
    ours, plain = sum(run.ours.value for run in both), sum(run.plain.value for run in both if run.plain.whole)
    use = _mean([run.ours.use for run in ones if run.ours.whole])
    published = _mean([run.published_use for run in ones])
    return (
        f"{family:<20}{len(ones):>4} | {ours:>12.10g}{best:>12}{_told(ones, ours=True)}{sum(r.late for r in ones):>5}"
        f" | {plain:>12.10g}{_told(ones, ours=False)} | {use:>6.1f}{published or '':>6.4}"
        f"{sum(run.ours.layouts for run in ones):>8}"
    )


def _told(ones: list[Run], ours: bool) -> str:
    scores = [(run, run.ours if ours else run.plain) for run in ones]
    gaps = [run.gap(one) for run, one in scores if one.whole]
    return f"{_mean(gaps):>8.2f}{sum(gap <= 1e-9 for gap in gaps):>8}{len(ones) - len(gaps):>10}"


def _mean(values: list[float]) -> float:
    return sum(values) / len(values) if values else 0.0


def main(words: Sequence[str] | None = None) -> int:
    """`lay BENCHFOLDER [--seconds S] [--family F ...]`: print the table as families are done."""
    parser = argparse.ArgumentParser("python -m frontwright.bench", description=__doc__)
    lay = parser.add_subparsers(required=True, metavar="COMMAND").add_parser(
        "lay", help="layouts of published instances"
    )
    lay.add_argument("folder", type=Path, metavar="BENCHFOLDER", help="a folder of families of instance files")
    lay.add_argument("--seconds", type=float, default=10.0, help="for each instance (10)")
    lay.add_argument("--family", nargs="*", default=[], help="these families alone, or FAMILY/NAME of single files")
    lay.add_argument("--each", action="store_true", help="a line for every instance too")
    asked = parser.parse_args(words)
    if not any(asked.folder.glob("*/*.json")):
        parser.error(f"{asked.folder} holds no folder with instance files.")
    for line in table(_heard(runs(asked.folder, asked.seconds, asked.family), asked.each)):
        print(line, flush=True)  # noqa: T201 - a command
    return 0


def _heard(done: Iterable[Run], each: bool) -> Iterator[Run]:
    for run in done:
        if each:
            told = f"{run.name}: {run.ours.value:.10g} of {run.mark:.10g}, plain {run.plain.value:.10g}"
            print(f"    {told}, {run.seconds:.1f} s", flush=True)  # noqa: T201
        yield run

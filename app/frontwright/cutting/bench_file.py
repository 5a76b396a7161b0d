"""Published instances of layout problems in their JSON form, and plans as result files beside them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from frontwright.cutting.values import Order, Plan, Saw, Stock, Wanted, Wish

WISHES: dict[str, Wish] = {
    "1D": "fewest",
    "2BP": "fewest",
    "2VSBP": "cheapest",
    "2KP": "most value",
    "2SP": "shortest",
    "2BPL": "best leftover",
}
MOST = 10**9  # no size, count or cost is larger
_REQUIRED = object()


class BadInstance(ValueError):
    """A file is no instance; the sentence names the field."""


@dataclass(frozen=True, slots=True)
class Instance:
    """A published instance: its order and, where one is known, the best value and a bound for it."""

    name: str
    family: str
    problem: str
    order: Order
    best: int | None
    bound: float | None
    patterns: int | None = None


def read(path: Path) -> Instance:
    """The instance in a file. Raises `BadInstance` with a sentence, `OSError` where it cannot be read."""
    try:
        told = json.loads(path.read_text(encoding="utf-8"))
    except (UnicodeDecodeError, ValueError) as error:
        raise BadInstance(f"{path} is no JSON: {error}.") from error
    if not isinstance(told, dict):
        raise BadInstance(f"{path} is no instance: it does not hold one object.")
    try:
        return _instance(told)
    except BadInstance as error:
        raise BadInstance(f"{path}: {error}") from error


def result(name: str, plan: Plan, seconds: float) -> str:
    """The text of a result file."""
    bins = [
        {
            "stock": layout.stock,
            "copies": layout.copies,
            "placed": [{"item": p.item, "x": p.x, "y": p.y, "w": p.width, "h": p.height} for p in layout.placed],
        }
        for layout in plan.layouts
    ]
    return json.dumps({"name": name, "seconds": round(seconds, 3), "bins": bins}) + "\n"


def _instance(told: dict[str, object]) -> Instance:
    problem = told.get("problem")
    if not isinstance(problem, str) or problem not in WISHES:
        raise BadInstance(f"the problem {problem!r} is none of {', '.join(WISHES)}.")
    turns = told.get("rotation") is True
    order = Order(
        tuple(_wanted(row, n, turns) for n, row in enumerate(_rows(told, "items"))),
        tuple(_stock(row, n) for n, row in enumerate(_rows(told, "stock"))),
        Saw(_whole(told, "kerf", 0, 0)),
        WISHES[problem],
        told.get("guillotine") is not False,
    )
    best = told.get("best_known")
    known = best if isinstance(best, dict) else {}
    value = next((known[key] for key in ("bins", "cost", "profit", "length") if known.get(key) is not None), None)
    bound = next(
        (known[k] for k in ("sheets_lower_bound", "lower_bound", "upper_bound") if known.get(k) is not None), None
    )
    name, family = str(told.get("name", "")), str(told.get("family", ""))
    if not name or "/" in name or "\\" in name:
        raise BadInstance(f"the name {name!r} names no file.")
    return Instance(name, family, problem, order, value, bound, known.get("patterns"))


def _wanted(row: dict[str, object], number: int, turns: bool) -> Wanted:
    own = row.get("rotation")
    return Wanted(
        str(number),
        _whole(row, "w"),
        _whole(row, "h"),
        _whole(row, "copies", 1),
        turns=turns if own is None else own is True,
        value=_whole(row, "profit", 0, 0),
    )


def _stock(row: dict[str, object], number: int) -> Stock:
    copies = None if row.get("copies") is None else _whole(row, "copies", 1, 0)
    return Stock(str(number), _whole(row, "w"), _whole(row, "h"), copies, _whole(row, "cost", 0, 0))


def _rows(told: dict[str, object], name: str) -> list[dict[str, object]]:
    rows = told.get(name)
    if not isinstance(rows, list) or not rows or not all(isinstance(row, dict) for row in rows):
        raise BadInstance(f"{name} is no list with a row in it.")
    return rows


def _whole(row: dict[str, object], name: str, default: object = _REQUIRED, least: int = 1) -> int:
    value = row.get(name, default)
    if not isinstance(value, int) or isinstance(value, bool) or not least <= value <= MOST:
        shown = "not given" if value is _REQUIRED else repr(value)
        raise BadInstance(f"{name} is {shown}: a whole number from {least} to {MOST} is needed.")
    return value

"""What the bill chapter gives: what the job takes and what is at hand of it, what is pulled and bought, costs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.stock.result import Enough, Remainder


@dataclass(frozen=True, slots=True)
class BillLine:
    """One line of the stock bill: `qty` pieces of one form, thickness and width (rough, of solid wood); none of what is
    poured.

    `finished`, `rough`: content in board feet or m3 for solid wood, square feet or m2 for sheet, None for counts.
    `parts`: wanted part (or leaves of one use) -> what of the rough content, or of the count, all its copies are.
    """

    form: str
    species: str
    thickness: Figure | None
    width: Figure | None
    qty: int
    finished: Fraction | None
    rough: Fraction | None
    measure: str
    length: Figure | None
    parts: Mapping[str, Fraction | int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Covered:
    """A line of the stock bill with what there is of it, in its `measure`: made, or cut from wood and lots at hand.

    `lacks`: what has to be bought for it. Spare leaves are in neither (F58).
    """

    line: BillLine
    at_hand: Fraction | int
    lacks: Fraction | int


@dataclass(frozen=True, slots=True)
class BillPlan:
    lines: tuple[BillLine, ...]


@dataclass(frozen=True, slots=True)
class Pull:
    """A piece to take from its shelf: how many of it, for which groups or layouts."""

    shelf: str
    piece: str
    form: str
    species: str
    batch: str
    count: int
    of: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Purchase:
    """A line of the purchase list: `count` of what is sold (boards, sheets, packs), for an `amount` that is wanted.

    `what`: board, sheet, core, billet, glass, hinge, pull, bumper, small hardware, consumables, finish, stain, sealer,
    glue.
    `amount` in `measure`: board feet or m3 of solid wood, square feet or m2 of sheets and glass, pieces, gallons or
    litres, pounds or kilograms. `size` empty: no supplier's size is entered, the usual one is reckoned with. `cost` in
    the smallest unit of money, None without a price.
    """

    supplier: str
    size: str
    what: str
    name: str
    count: int
    amount: Fraction
    measure: str
    cost: Fraction | None
    days: int | None = None
    length: Figure | None = None
    width: Figure | None = None
    thickness: Figure | None = None


@dataclass(frozen=True, slots=True)
class Hours:
    """An operation of the job: minutes to set up once and for each, how many, and the hours it took where noted."""

    operation: str
    name: str
    count: int
    setup: Fraction
    each: Fraction
    spent: Fraction | None

    @property
    def minutes(self) -> Fraction:
        """Set-up, shared over the job, and so many times each."""
        return self.setup + self.count * self.each if self.count else Fraction(0)


SMALL, CONSUMABLES = "small hardware", "consumables"  # what screws and dowels, tape and abrasives are called
CostWhat = Literal["wood bought", "own wood", "hardware", "finish and glue", "handling", "work", "reserve"]


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line of the costs; money in its smallest unit, exact."""

    what: CostWhat
    of: str
    cost: Fraction


ProvisoKind = Literal[
    "no price", "own share", "waste", "no rate", "no hours", "no handling", "no reserve", "usual size", "not read",
    "assumed", "finding", "not asked", "near match",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Proviso:
    """What a price rests on: `kind` names it, `of` what it is about, `value` the figure that was reckoned with.

    `no price`, `own share`, `waste`, `no rate`, `no hours`, `no handling`, `no reserve`: of the reckoning; `not read`:
    a reading that was not taken; `assumed`: fronts that rest on an assumed figure; `finding`: a check that is open;
    `not asked`: a question of the first visit; `near match`: what is matched without a sample.
    """

    kind: ProvisoKind
    of: str = ""
    value: Fraction | None = None


def to_the_unit(costs: Sequence[Fraction], total: int) -> tuple[int, ...]:
    """Costs in whole smallest units that add up to their rounded sum: what is left over from rounding down goes to
    those with the largest rests, one each."""
    down = [cost.numerator // cost.denominator for cost in costs]
    left = total - sum(down)
    by_rest = sorted(range(len(costs)), key=lambda at: (down[at] - costs[at], at))
    up = set(by_rest[: max(0, left)])
    return tuple(whole + (at in up) for at, whole in enumerate(down))


@dataclass(frozen=True, slots=True)
class Costs:
    """F52 of a job, money in its smallest unit. Shares are plain (0.15). `waste_is`: as laid out, as fitted by the
    quick way, or as the shop reckons (`told`); `total` is rounded once, half up."""

    currency: str
    material: Fraction
    waste: Fraction
    waste_is: Literal["laid", "fitted", "told"]
    hardware: Fraction
    handling: Fraction
    hours: Fraction
    rate: Fraction
    reserve: Fraction
    lines: tuple[CostLine, ...]
    total: int
    provisos: tuple[Proviso, ...]

    @property
    def told(self) -> tuple[int, ...]:
        """The lines' costs in whole smallest units of money, which add up to the total."""
        return to_the_unit([line.cost for line in self.lines], self.total)


@dataclass(frozen=True, slots=True)
class WholeBill:
    """Everything that a job takes: what of it is there, what is pulled and bought for what is not cut, hours, costs.

    `kept` by layout: remainders to be kept. `finish_area`: per coat, square feet or m2 (F70).
    """

    enough: Enough
    pull: tuple[Pull, ...]
    purchases: tuple[Purchase, ...]
    hours: tuple[Hours, ...]
    finish_area: Fraction
    costs: Costs
    kept: tuple[tuple[str, Remainder], ...]
    lines: tuple[Covered, ...]

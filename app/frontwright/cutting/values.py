"""What is asked of the cutting room and what it gives back: plain whole numbers in one unit, the caller's choice.

x runs along a stock piece's length (its grain), y across it; the origin is its lower left corner. A one-dimensional
order has `height` 1 everywhere and no kerf across.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Direction = Literal["along", "across"]  # a cut along the length (a rip), or across it (a crosscut)
Wish = Literal["fewest", "cheapest", "most value", "shortest", "best leftover"]


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle on a stock piece: a defect, a place, a remainder."""

    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Wanted:
    """A part wanted `copies` times: `width` along the grain of the stock, `height` across it.

    `turns`: it may lie turned by 90 degrees. `group`: parts of one group must come from one batch. `grade`: the
    poorest grade that serves (1 is the best; 0 takes any). `value`: what it is worth where not all can be cut.
    """

    id: str
    width: int
    height: int
    copies: int = 1
    turns: bool = False
    group: str = ""
    grade: int = 0
    value: int = 0


@dataclass(frozen=True, slots=True)
class Stock:
    """A stock piece or size, `copies` of it (None: as many as are wanted), `cost` each.

    `trims`: taken off before the first part, in the order left, right, bottom, top. `batch` and `grade` are held
    against the parts'; no batch named is a batch of its own; `have`: it is there, to be used before anything is bought;
    `shared`: it is there for everybody, and used only after what is the order's own.
    """

    id: str
    width: int
    height: int
    copies: int | None = 1
    cost: int = 0
    trims: tuple[int, int, int, int] = (0, 0, 0, 0)
    defects: tuple[Rect, ...] = ()
    batch: str = ""
    grade: int = 1
    have: bool = False
    shared: bool = False

    @property
    def tier(self) -> int:
        """0 the order's own, 1 there for everybody, 2 bought: a lower one is used before a higher one."""
        return 2 if not self.have else int(self.shared)


@dataclass(frozen=True, slots=True)
class Saw:
    """`kerf` between two neighbours; which way the first cut of a piece runs; how many turns of the cut at most."""

    kerf: int = 0
    first: Direction | None = None
    levels: int | None = None


@dataclass(frozen=True, slots=True)
class Pinned:
    """A part laid by hand or cut already: copy number `piece` of stock `stock` has it at this place."""

    stock: str
    piece: int
    wanted: str
    place: Rect


@dataclass(frozen=True, slots=True)
class Order:
    """Everything that is to be laid, and from what. `guillotine`: only cuts from edge to edge of what is left.

    `wish`: the fewest pieces (first of what is bought, then of what is shared, then of all), then the least cost, then
    the most useful leftover as one rectangle, then the fewest set-ups ("fewest"); cost first ("cheapest"); one piece
    filled with the most value; the least of one piece's height; or pieces counted less the largest full offcut of one
    ("best leftover").
    """

    wanted: tuple[Wanted, ...]
    stock: tuple[Stock, ...]
    saw: Saw = field(default_factory=Saw)
    wish: Wish = "fewest"
    guillotine: bool = True
    pinned: tuple[Pinned, ...] = ()


@dataclass(frozen=True, slots=True)
class Placed:
    """A part (position in the order's `wanted`) where it lies; its size is turned where it lies turned."""

    item: int
    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to cut a stock piece (position in the order's `stock`), so many times."""

    stock: int
    placed: tuple[Placed, ...]
    copies: int = 1


@dataclass(frozen=True, slots=True)
class Plan:
    """Layouts for an order; `missing`: copies of each wanted part that found no place; `bound`: none can do with less.

    `cost` and `bound` are in what the wish counts: pieces ("fewest"), cost, value (an upper bound), height from the
    lower edge, or for "best leftover" the area of all pieces used less the largest full offcut of one of them.
    """

    layouts: tuple[Layout, ...]
    missing: tuple[int, ...]
    cost: int
    bound: int | None = None

    @property
    def whole(self) -> bool:
        """Every part found a place."""
        return not any(self.missing)

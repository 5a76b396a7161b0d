"""What is entered of wood and hardware: pieces with their defects, what can be bought, what is laid and cut, prices.

Pieces, defects, reservations, hardware lots and moves make up the rack, which outlives jobs; a job has copies of the
pieces that it counts on.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount
from frontwright.core.lengths import Typed

PieceForm = Literal["board", "billet", "leaf", "strip", "panel", "sheet", "core", "solid panel"]
PieceState = Literal["free", "in work", "used up", "burned"]
SoldForm = Literal["board", "billet", "leaf", "strip", "panel", "sheet", "core", "solid panel", "hardware", "supplies"]
Grade = Literal["", "show", "plain", "hidden"]
Cut = Literal["", "flat", "rift", "quarter"]
MoveKind = Literal[
    "come",
    "change",
    "rename",
    "reserve",
    "release",
    "take",
    "cut",
    "join back",
    "use up",
    "burn",
    "count",
    "look",
    "made into",
    "take back",
]


@dataclass(frozen=True, slots=True)
class Piece:
    """Wood that lies on the rack or at hand for a job; `count` alike pieces. Lengths along the grain first.

    `end_trim` and `edge_trim`: what comes off altogether along and across before the first part (checks in the end,
    wane). `planed`: its thickness is planed, not rough. `grade`: the best use it serves. Moisture in per cent.
    `price`: what was paid for one. `from_job` and `from_piece`: what it was cut from. `looked`: when last seen.
    """

    id: str
    form: PieceForm = "board"
    species: str = ""
    batch: str = ""
    length: Typed | None = None
    width: Typed | None = None
    thickness: Typed | None = None
    count: int = 1
    shelf: str = ""
    note: str = ""
    end_trim: Typed | None = None
    edge_trim: Typed | None = None
    planed: bool = False
    cut: Cut = ""
    figure: str = ""
    grade: Grade = ""
    moisture: Amount | None = None
    moisture_on: str = ""
    price: Amount | None = None
    photo: str = ""
    from_job: str = ""
    from_piece: str | None = None
    state: PieceState = "free"
    came: str = ""
    looked: str = ""


@dataclass(frozen=True, slots=True)
class Defect:
    """A bad place of a piece: from its left end and lower edge, along and across the grain."""

    id: str
    piece: str
    what: str = ""
    along: Typed | None = None
    across: Typed | None = None
    length: Typed | None = None
    width: Typed | None = None


@dataclass(frozen=True, slots=True)
class Reservation:
    """A job counts on a piece (id: the piece's, so that there is one at most), or on so much of its length.

    `job`: the mark of its file, `name` what it is called; `until`: a date, after which it is said to be over.
    `lot`: it counts on so many (`count`) of a lot of hardware instead, beside other jobs; the id is then lot and job.
    """

    id: str
    job: str = ""
    name: str = ""
    much: Typed | None = None
    by: str = ""
    until: str = ""
    why: str = ""
    lot: str = ""
    count: int = 0


@dataclass(frozen=True, slots=True)
class HardwareLot:
    """Hardware on hand: hinges (a hinge type's name), pulls, bumpers, screws, glue, finish."""

    id: str
    what: str = ""
    count: int = 0
    shelf: str = ""
    price: Amount | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class SupplierSize:
    """A size that can be bought, or hardware and supplies by the pack. `price`: of one, or of a unit of content.

    `per`: what the price is for; content is board feet or m3 for boards (rough), square feet or m2 for sheets. `holds`:
    how much a tin of finish or glue holds, in gallons and pounds (an inch job) or litres and kilograms.
    """

    id: str
    supplier: str = ""
    form: SoldForm = "board"
    what: str = ""
    species: str = ""
    length: Typed | None = None
    width: Typed | None = None
    thickness: Typed | None = None
    end_trim: Typed | None = None
    edge_trim: Typed | None = None
    planed: bool = False
    grade: Grade = ""
    price: Amount | None = None
    per: Literal["piece", "content"] = "piece"
    pack: int = 1
    holds: Amount | None = None
    days: int | None = None


@dataclass(frozen=True, slots=True)
class KeepRule:
    """F75: the least leftover of a form (id) that is kept; `batch`: an exception for that batch, to `until`."""

    id: str
    form: PieceForm = "board"
    batch: str = ""
    length: Typed | None = None
    width: Typed | None = None
    until: str = ""


@dataclass(frozen=True, slots=True)
class Operation:
    """F52: minutes to set up and minutes each; `counts`: what the job has so many of; `spent`: hours it took."""

    id: str
    name: str = ""
    place: int = 0
    setup: Amount | None = None
    each: Amount | None = None
    counts: Literal[
        "job", "front", "door", "drawer", "part", "leaf", "panel", "hinge", "strip", "opening", "setting", "coat"
    ] = "front"
    spent: Amount | None = None


@dataclass(frozen=True, slots=True)
class Pricing:
    """F52 (one row): money by the hour, shares as per cent. `own_share`: at what share of price own leftovers count.

    `waste`: what is reckoned on the content of parts that are not laid out yet. `hours_*` (F1): what the shop's own
    record says of a door, a drawer front, a fixed front, and a metre (inch jobs: a foot) of frame that is covered.
    """

    id: str = "pricing"
    currency: str = ""
    rate: Amount | None = None
    handling: Amount | None = None
    reserve: Amount | None = None
    own_share: Amount | None = None
    waste: Amount | None = None
    burn_below: Amount | None = None
    hours_door: Amount | None = None
    hours_drawer: Amount | None = None
    hours_fixed: Amount | None = None
    hours_frame: Amount | None = None


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece or size laid out (id: its name on paper): of `piece` of the job, or of a `size` that is bought; both
    where what was bought for it has come.

    `place`: its order; `group`: the parts it was laid for; `kerf` it was laid with; `pinned`: not to be laid anew.
    `least`: all that was laid in one go with it wants so many pieces at least; None where nobody has shown it.
    """

    id: str
    piece: str | None = None
    size: str | None = None
    place: int = 0
    group: str = ""
    kerf: Typed | None = None
    pinned: bool = False
    note: str = ""
    least: int | None = None


@dataclass(frozen=True, slots=True)
class LaidPart:
    """A part where it lies on a laid piece: which part, which copy of it, its lower left corner; `pinned` by hand.

    `length`, `width`: the size it was laid with, along and across the grain of the part; None is what is wanted now.
    """

    id: str
    laid: str
    part: str
    number: int = 1
    along: Typed | None = None
    across: Typed | None = None
    length: Typed | None = None
    width: Typed | None = None
    turned: bool = False
    pinned: bool = False


@dataclass(frozen=True, slots=True)
class CutDone:
    """A cut of a laid piece that is made (id: laid piece and cut number): a fact that no new layout moves.

    `parts`: the laid parts that it frees; they want no stock any more.
    """

    id: str
    laid: str
    cut: int
    parts: tuple[str, ...] = ()
    when: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class Leftover:
    """What a person decided of a remainder (id: laid piece and letter), against or with the rule; its piece."""

    id: str
    laid: str
    keep: bool = True
    piece: str = ""
    shelf: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class Move:
    """One line of the rack's ledger: never changed, never taken out; a repeated one (same id) changes nothing.

    `piece` is what it is about, `born` the pieces that came of it, `count` how many of alike ones; `parts`: what a job
    made of it, by name. `ends`: nothing of the piece is left after this cut. `job`: the mark of a job file. `undoes`:
    the move that it takes back. Rows before and after it stand beside it in the ledger.
    """

    id: str
    kind: MoveKind = "come"
    piece: str = ""
    born: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    count: int = 1
    ends: bool = True
    job: str = ""
    name: str = ""
    by: str = ""
    when: str = ""
    why: str = ""
    undoes: str = ""

"""What the stock chapter gives: groups of parts to be laid, what fits them, whether it is enough, layouts."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import Laid, Leftover, Piece, PieceForm
from frontwright.core.lengths import ZERO, Length

Seen = Literal["show", "hidden"]
Trims = tuple[Length, Length, Length, Length]  # left, right, lower, upper, from the ends and edges of a piece
Answered = Literal["yes", "yes, if", "no"]


@dataclass(frozen=True, slots=True)
class Want:
    """A part to be laid, `copies` times: rough size along and across the grain of the piece it is cut from.

    `parts`: what is cut from it in its order (a blank of a row gives several parts, a leaf none). `seen`: parts that
    are seen take wood that may be seen. `lot`: parts of one name must come from one batch. `turns`: it may lie across
    the grain. `staves`: so many of this make one part, glued edge to edge. `made`: copies that are cut already.
    `each`: how many one front of an id takes of it.
    """

    id: str
    copies: int
    length: Length
    width: Length
    seen: Seen = "show"
    lot: str = ""
    turns: bool = False
    parts: tuple[str, ...] = ()
    staves: int = 1
    made: int = 0
    rail: bool = False
    each: Mapping[str, int] = field(default_factory=dict)

    @property
    def open(self) -> int:
        """Copies that still want wood."""
        return max(0, self.copies - self.made)


@dataclass(frozen=True, slots=True)
class Group:
    """Parts that are cut from the same kind of wood. `thickness`: finished; `species`: an id or name, empty for any.

    `cut`: boards are ripped into strips and these crosscut; sheets are cut from edge to edge; billets are crosscut and
    sawn into leaves. `on_leaves`: strips that lie on leaves which another group counts. `batch`: what parts of the lot
    lie on already, so that the others must come from it too.
    """

    id: str
    form: PieceForm
    species: str
    thickness: Figure
    cut: Literal["boards", "sheets", "billets"]
    kerf: Length
    wants: tuple[Want, ...]
    on_leaves: bool = False
    batch: str | None = None


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a piece does not serve a group.

    `by`: how much too thin, short or narrow it is. `facts`: who reserved it and until when, its batch, its moisture and
    the limit, as they are said.
    """

    kind: Literal[
        "used up", "species", "size not told", "thin", "thick", "short", "narrow", "wet", "batch", "reserved", "grade",
        "defects",
    ]  # fmt: skip
    by: Length | None = None
    facts: Mapping[str, str | Fraction] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A piece held against a group: usable length and width, leaves that one billet of it gives; why it does not fit.

    `with_rest`: leaves where a keep-back that is thick enough counts.
    """

    piece: Piece
    length: Length
    width: Length
    refusals: tuple[Refusal, ...] = ()
    leaves: int = 0
    with_rest: int = 0

    @property
    def fits(self) -> bool:
        """Whether nothing speaks against it."""
        return not self.refusals

    @property
    def batch(self) -> str:
        """Its batch; no batch named is a batch of its own."""
        return self.piece.batch or f"\0{self.piece.id}"


@dataclass(frozen=True, slots=True)
class Clear:
    """A rectangle of a piece: a defect, a place, what is left."""

    along: Length
    across: Length
    length: Length
    width: Length


@dataclass(frozen=True, slots=True)
class Offer:
    """A piece or a size that can be bought, as something to lay parts on; `copies` None: as many as are wanted.

    Length and width are whole, `trims` come off. `shows`: parts that are seen may be cut from it.
    """

    id: str
    length: Length
    width: Length
    copies: int | None = 1
    trims: Trims = (ZERO, ZERO, ZERO, ZERO)
    defects: tuple[Clear, ...] = ()
    batch: str = ""
    shows: bool = True
    cost: Fraction | None = None

    @property
    def usable(self) -> tuple[Length, Length]:
        """Length and width after its trims."""
        left, right, lower, upper = self.trims
        return self.length - left - right, self.width - lower - upper


@dataclass(frozen=True, slots=True)
class Place:
    """A copy of a wanted part where it lies on a copy of an offer; its size is turned where it lies turned."""

    offer: str
    copy: int
    want: str
    number: int
    along: Length
    across: Length
    length: Length
    width: Length
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Fitted:
    """Where parts find a place, and copies of each that find none."""

    places: tuple[Place, ...]
    missing: Mapping[str, int]

    @property
    def lacking(self) -> int:
        return sum(self.missing.values())

    @property
    def used(self) -> dict[str, int]:
        """Offer -> how many copies of it are cut."""
        copies: dict[str, set[int]] = {}
        for place in self.places:
            copies.setdefault(place.offer, set()).add(place.copy)
        return {offer: len(numbers) for offer, numbers in copies.items()}


Fit = Callable[[Group, Sequence[Want], Sequence[Offer]], Fitted]


@dataclass(frozen=True, slots=True)
class Use:
    """So many of a piece (or of a size to buy) are cut for a group, for these wanted parts."""

    piece: str
    count: int
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Buy:
    """The least purchase of one size; `size` empty: no supplier's size is entered, the usual one is reckoned with.

    `content`: board feet or m3 of boards (rough), square feet or m2 of sheets, of all of them. `cost` None: no price.
    """

    size: str
    supplier: str
    form: str
    species: str
    length: Figure
    width: Figure
    thickness: Figure
    count: int
    content: Fraction
    cost: Fraction | None
    days: int | None = None
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Condition:
    """One thing that would have to be allowed, and then nothing is missing (or `still` copies).

    `of`: the piece, machine or part that it is about; `by`: how much narrower.
    """

    kind: Literal["release", "other batch", "keep-backs", "glue up", "narrower", "machine"]
    of: str = ""
    by: Length | None = None
    still: int = 0
    facts: Mapping[str, str | Fraction] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class GroupAnswer:
    """F49 for one group: what it needs and what of it is there (parts, or leaves), with one condition at most each."""

    group: Group
    answer: Answered
    need: int
    have: int
    uses: tuple[Use, ...]
    refused: tuple[Candidate, ...]
    conditions: tuple[Condition, ...]
    short: Mapping[str, int]
    buy: tuple[Buy, ...]
    places: tuple[Place, ...] = ()


@dataclass(frozen=True, slots=True)
class Enough:
    """The answer to a question: `this job`, `what is not yet cut`, or one more front like that of an id."""

    question: str
    groups: tuple[GroupAnswer, ...]

    @property
    def answer(self) -> Answered:
        answers = {one.answer for one in self.groups}
        return "no" if "no" in answers else "yes, if" if "yes, if" in answers else "yes"


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a layout: the part (and the other one), by how much, what it was laid as."""

    kind: Literal[
        "no piece", "taken", "piece size", "not wanted", "twice", "size", "outside", "overlap", "kerf", "defect",
        "grain", "batch", "grade", "thin", "edge to edge",
    ]  # fmt: skip
    part: str = ""
    other: str = ""
    by: Length | None = None


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A part where it lies; `cut`: it is cut already, a fact."""

    row: str
    part: str
    number: int
    along: Length
    across: Length
    length: Length
    width: Length
    turned: bool
    pinned: bool
    cut: bool


@dataclass(frozen=True, slots=True)
class Remainder:
    """What is left of a laid piece: a rectangle, `letter` by size. `keep` by F75 (or as a person decided), and why.

    `reason`: `sizes` (as a part that is really made), `batch` (kept for repairs, to `until`), `value`, `short`,
    `narrow`, `worth less` (than handling it), `by hand`. `value` None: no price is known.
    """

    letter: str
    along: Length
    across: Length
    length: Length
    width: Length
    form: PieceForm
    keep: bool
    reason: str
    until: str = ""
    value: Fraction | None = None
    decided: Leftover | None = None


@dataclass(frozen=True, slots=True)
class Content:
    """Where the face of a piece goes, in units squared, exact: `all` is the sum of the others."""

    all: int
    parts: int
    kerf: int
    trims: int
    remainders: int
    waste: int


@dataclass(frozen=True, slots=True)
class LayoutPlan:
    """A laid piece checked: where its parts lie, what is left, whether it still holds. `valid`: without faults."""

    laid: Laid
    group: str
    offer: Offer
    thickness: Length | None
    kerf: Length
    parts: tuple[LaidOut, ...]
    remainders: tuple[Remainder, ...]
    content: Content
    faults: tuple[Fault, ...]
    cuts: int

    @property
    def id(self) -> str:
        return self.laid.id

    @property
    def valid(self) -> bool:
        return not self.faults


@dataclass(frozen=True, slots=True)
class StockPlan:
    """Groups of parts to be laid, layouts as accepted, and parts of each group that no layout holds yet."""

    groups: tuple[Group, ...]
    layouts: tuple[LayoutPlan, ...]
    unlaid: Mapping[str, Mapping[str, int]]
    checks: tuple[Check, ...]

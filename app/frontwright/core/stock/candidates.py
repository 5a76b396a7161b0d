"""Which pieces serve a group of parts, and why the others do not (F49, F50); the reasons are values."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from frontwright.core.assumed import assumed, entered, wettest
from frontwright.core.figures import Figure
from frontwright.core.job import Defect, Machine, Piece, PieceForm, Reservation
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Length, Typed
from frontwright.core.making.builds import panel_plan
from frontwright.core.skins import first_veneered
from frontwright.core.stock.clear import has_room, stretches
from frontwright.core.stock.result import Candidate, Clear, Group, Offer, Refusal, Trims, Want
from frontwright.core.veneer.counts import machines_of
from frontwright.core.veneer.sawing import losses_of, spare_from
from frontwright.core.veneer.seen import leaves_in, rest_of

SERVES: dict[PieceForm, tuple[PieceForm, ...]] = {
    "board": ("board", "solid panel"),
    "sheet": ("sheet", "panel"),
    "core": ("core", "sheet"),
    "leaf": ("leaf", "billet", "board"),
}
SHOWS = ("", "show")  # grades of wood that serves parts that are seen
LEAST_LEAVES = 2  # a board is thick enough to be sawn into leaves from two on (F50)
type Reservations = Mapping[str, Reservation]


@dataclass(frozen=True, slots=True)
class Wood:
    """What lies there: pieces with their defects, who counts on them. `today`: the date that reservations end by.

    `own`: pieces that the job holds already; they are its own though they are in work.
    """

    pieces: tuple[Piece, ...]
    defects: Mapping[str, tuple[Defect, ...]] = field(default_factory=dict)
    reserved: Reservations = field(default_factory=dict)
    own: frozenset[str] = frozenset()
    today: str = ""

    def less(self, used: Mapping[str, int]) -> Wood:
        """What is left when so many of these pieces are taken."""
        left = (replace(p, count=p.count - used[p.id]) if p.id in used else p for p in self.pieces)
        return replace(self, pieces=tuple(p for p in left if p.id not in used or p.count > 0))


def wood(
    pieces: Iterable[Piece],
    defects: Iterable[Defect] = (),
    reservations: Iterable[Reservation] = (),
    job: str = "",
    own: Iterable[str] = (),
    today: str = "",
) -> Wood:
    """Pieces to be asked, of a job or of a whole rack; what `job` itself has reserved is free for it.

    `own`: ids of the pieces that the job holds already. `today`: a date as reservations have them (2026-11-25).
    """
    by_piece: dict[str, list[Defect]] = {}
    for defect in defects:
        by_piece.setdefault(defect.piece, []).append(defect)
    others = {one.id: one for one in reservations if one.job != job or not job}
    defective = {key: tuple(rows) for key, rows in by_piece.items()}
    return Wood(tuple(pieces), defective, others, frozenset(own), today)


def wood_of(index: JobIndex) -> Wood:
    """The pieces that the job itself counts on."""
    return wood(index.job.pieces.values(), index.job.defects.values(), own=index.job.pieces)


@dataclass(frozen=True, slots=True)
class Sawn:
    """What a machine loses a slice, keeps back, and from which rest on there is one more leaf."""

    machine: str
    slice: Figure
    loss: Figure
    keep: Figure
    spare: Figure
    tallest: Length | None = None

    def leaves(self, thick: Length) -> tuple[int, int]:
        """Leaves of a billet this thick, without and with a keep-back that is thick enough (F53)."""
        billet = Figure("billet", thick, "taped")
        count = leaves_in(billet, self.slice, self.loss, self.keep)
        rest = rest_of("rest", billet, self.slice, self.loss, self.keep, count)
        return count, count + (1 if count and rest.units >= self.spare.units else 0)


def sawn_by(index: JobIndex, machine: Machine | None = None) -> Sawn:
    """The job's slice on a machine; on the one planned with where none is named."""
    row = machine or machines_of(index)[0]
    slice_ = panel_plan(index, first_veneered(index)).slice
    losses = losses_of(index, row)
    return Sawn(row.id, slice_, losses.together, losses.keep_back, spare_from(index, slice_))


class Judge:
    """Holds pieces against groups of one job: its limits and names are looked up once."""

    def __init__(self, index: JobIndex, lying: Wood, sawn: Sawn | None = None) -> None:
        self.index = index
        self.wood = lying
        self.sawn = sawn or sawn_by(index)
        allowances = index.allowances
        self.rough = entered(index.unit, allowances.plane_rough, "plane rough")
        self._planed = assumed(index.unit, "plane planed").length
        self._wet = wettest(index.limits.moisture_most)
        self._names = {row.id.casefold(): row.name.casefold() for row in index.job.species.values()}
        self._leaves: dict[Length, tuple[int, int]] = {}

    def candidates(self, group: Group) -> list[Candidate]:
        """Every piece of a form that could serve the group, in the order in which they lie there."""
        wants = [want for want in group.wants if want.open]
        serves = SERVES.get(group.form, (group.form,))
        sizes = list(dict.fromkeys(size for want in wants for size in _lying(want)))
        able = (piece for piece in self.wood.pieces if self._may(group, piece, serves))
        return [self._held(group, wants, sizes, piece) for piece in able]

    def _may(self, group: Group, piece: Piece, serves: tuple[PieceForm, ...]) -> bool:
        if piece.form not in serves or piece.state == "burned":
            return False
        if group.form == "core" and piece.form == "sheet":  # plain sheet only: nobody cuts cores from veneered sheet
            return not piece.species
        if group.form == "leaf" and piece.form == "board":
            return self.leaves(piece)[0] >= LEAST_LEAVES
        return True

    def leaves(self, piece: Piece) -> tuple[int, int]:
        """Leaves that one billet of a piece gives; a leaf is one."""
        if piece.form in ("leaf", "strip"):
            return 1, 1
        thick = size(piece.thickness)
        if thick is None:
            return 0, 0
        if thick not in self._leaves:
            self._leaves[thick] = self.sawn.leaves(thick)
        return self._leaves[thick]

    def _held(self, group: Group, wants: Sequence[Want], sizes: Sequence[tuple[int, int]], piece: Piece) -> Candidate:
        length, width = _usable(piece)
        much = self._much(piece)
        length = max(ZERO, length - much) if much is not None else length
        leaves = self.leaves(piece) if group.cut == "billets" else (0, 0)
        refusals = tuple(self._refusals(group, wants, sizes, piece, (length, width)))
        return Candidate(piece, length, width, refusals, *leaves)

    def _refusals(
        self,
        group: Group,
        wants: Sequence[Want],
        sizes: Sequence[tuple[int, int]],
        piece: Piece,
        usable: tuple[Length, Length],
    ) -> Iterator[Refusal]:
        length, width = usable
        taken = piece.state == "in work" and piece.id not in self.wood.own
        if piece.state == "used up" or taken or piece.count < 1:
            yield Refusal("used up")
        if not self.same_wood(group, piece.species):
            yield Refusal("species", facts={"is": piece.species, "wanted": group.species})
        if not length or not width:
            yield Refusal("size not told")
            return
        yield from self._thickness(group, piece)
        if sizes:
            yield from self._face(group.cut, sizes, piece, length, width)
        if piece.moisture is not None and piece.moisture.value is not None and piece.moisture.value > self._wet:
            yield Refusal("wet", facts={"is": piece.moisture.value, "most": self._wet})
        row = self.wood.reserved.get(piece.id)
        if row is not None and self._much(piece) is None:
            yield Refusal("reserved", facts=self._held_by(row))
        if piece.grade not in SHOWS and wants and all(want.seen == "show" for want in wants):
            yield Refusal("grade", facts={"is": piece.grade})

    def _held_by(self, row: Reservation) -> dict[str, str]:
        past = "yes" if row.until and self.wood.today and row.until < self.wood.today else ""
        return {"job": row.name or row.job, "by": row.by, "until": row.until, "past": past, "why": row.why}

    def held_in_part(self) -> Iterator[tuple[str, Mapping[str, str]]]:
        """Pieces of whose length another job counts on a part only, and who that is."""
        for piece in self.wood.pieces:
            if piece.id in self.wood.reserved and self._much(piece) is not None:
                yield piece.id, self._held_by(self.wood.reserved[piece.id])

    def released(self, piece: str) -> Judge:
        """The same with nobody counting on a piece."""
        left = {name: row for name, row in self.wood.reserved.items() if name != piece}
        return Judge(self.index, replace(self.wood, reserved=left), self.sawn)

    def _much(self, piece: Piece) -> Length | None:
        """How much of a piece's length another job counts on, where it counts on a part of it only."""
        row = self.wood.reserved.get(piece.id)
        much, whole = size(row.much) if row is not None else None, size(piece.length)
        return much if much is not None and whole is not None and much < whole else None

    def same_wood(self, group: Group, species: str) -> bool:
        """A piece of no named species, or of the group's (by id or name), serves."""
        if not species or not group.species:
            return True
        named, wanted = species.casefold(), group.species.casefold()
        return named in (wanted, self._names.get(wanted)) or self._names.get(named) == wanted

    def _thickness(self, group: Group, piece: Piece) -> Iterator[Refusal]:
        """Boards lose by planing, sheets and cores are as they are, leaves as sawn or a billet that gives one."""
        thick = size(piece.thickness)
        if thick is None:
            if piece.form != "leaf":
                yield Refusal("size not told")
            return
        if group.form == "leaf" and piece.form != "leaf":
            if not self.leaves(piece)[0]:
                yield Refusal("thin", self.sawn.slice.length + self.sawn.keep.length - thick)
            return
        need = self._needed(group, planed=piece.planed)
        if thick < need:
            yield Refusal("thin", need - thick, {"planed": "yes" if piece.planed else ""})
        elif group.form in ("sheet", "core") and thick > need:
            yield Refusal("thick", thick - need)

    def _needed(self, group: Group, *, planed: bool) -> Length:
        wanted = group.thickness.length
        return wanted + (self._planed if planed else self.rough.length) if group.form == "board" else wanted

    def thick_enough(self, group: Group, thick: Length, *, planed: bool) -> bool:
        """Whether stock of this thickness serves the group; a sheet must be just that thick."""
        if group.form == "leaf":
            return self.sawn.leaves(thick)[0] >= LEAST_LEAVES
        need = self._needed(group, planed=planed)
        return thick >= need if group.form == "board" else thick == need

    def _face(
        self, cut: str, sizes: Sequence[tuple[int, int]], piece: Piece, length: Length, width: Length
    ) -> Iterator[Refusal]:
        """Whether any part of the group fits on it: else by how much it is too short or narrow, or its defects.

        `sizes`: of the parts as they may lie, along and across, in units.
        """
        room_along, room_across = length.units, width.units
        if not any(long <= room_along and wide <= room_across for long, wide in sizes):
            lacks = ((long - room_along, wide - room_across) for long, wide in sizes)
            long, wide = min(lacks, key=lambda one: max(one[0], 0) + max(one[1], 0))
            if long > 0:
                yield Refusal("short", Length(long))
            if wide > 0:
                yield Refusal("narrow", Length(wide))
            return
        if not self.wood.defects.get(piece.id):
            return
        offer = self.offer_of(piece)
        if cut == "billets":  # sawn over their whole width
            clear = [(part.length.units, part.width.units) for part in stretches(offer)]
            room = any(one[0] <= long and one[1] <= wide for long, wide in clear for one in sizes)
        else:
            room = has_room(offer, sizes)
        if not room:
            named = dict.fromkeys(d.what for d in self.wood.defects.get(piece.id, ()) if d.what)
            yield Refusal("defects", facts={"what": ", ".join(named)})

    def offer(self, candidate: Candidate) -> Offer:
        """A candidate as something to lay parts on."""
        return self.offer_of(candidate.piece)

    def offer_of(self, piece: Piece) -> Offer:
        """A piece as something to lay parts on, whatever it is laid for."""
        whole = size(piece.length) or ZERO, size(piece.width) or ZERO
        left, right, low, high = trims_of(piece.end_trim, piece.edge_trim)
        return Offer(
            id=piece.id,
            length=whole[0],
            width=whole[1],
            copies=max(0, piece.count),
            trims=(left, right + (self._much(piece) or ZERO), low, high),
            defects=tuple(_bad(d, whole) for d in self.wood.defects.get(piece.id, ())),
            batch=piece.batch,
            shows=piece.grade in SHOWS,
        )


def size(typed: Typed | None) -> Length | None:
    """A size that can be read and is one; None otherwise."""
    value = typed.value if typed is not None else None
    return value if value is not None and value > ZERO else None


def place(typed: Typed | None) -> Length:
    """Where something lies along or across a piece; at its end or edge where that cannot be read."""
    value = typed.value if typed is not None else None
    return value if value is not None else ZERO


def trims_of(end: Typed | None, edge: Typed | None) -> Trims:
    """What comes off at the left, right, lower and upper side: half of each at either side, whole units."""
    along, across = size(end) or ZERO, size(edge) or ZERO
    left, low = Length(along.units // 2), Length(across.units // 2)
    return left, along - left, low, across - low


def _usable(piece: Piece) -> tuple[Length, Length]:
    length, width = size(piece.length) or ZERO, size(piece.width) or ZERO
    along, across = size(piece.end_trim) or ZERO, size(piece.edge_trim) or ZERO
    return max(ZERO, length - along), max(ZERO, width - across)


def _lying(want: Want) -> Iterator[tuple[int, int]]:
    """A part's size along and across the piece, in units; turned too where the part may lie so."""
    yield want.length.units, want.width.units
    if want.turns:
        yield want.width.units, want.length.units


def _bad(defect: Defect, whole: tuple[Length, Length]) -> Clear:
    """A defect as a rectangle; what nobody told of it is taken to run right across."""
    along, across = max(ZERO, place(defect.along)), max(ZERO, place(defect.across))
    length, width = size(defect.length), size(defect.width)
    return Clear(along, across, length or whole[0] - along, width or whole[1] - across)

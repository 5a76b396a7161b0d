"""Which leaf goes where: neighbours to the show faces, plain ones to the backs, bad ends to strips (stage 9)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from frontwright.core.job import LeafSide, Match
from frontwright.core.lengths import in_units
from frontwright.core.veneer.result import BilletPlan, FaceWanted, Seat, SlicePlan

_SHOWABLE = ("good", "to come")
_USABLE = ("good", "scorched", "to come")


@dataclass(frozen=True, slots=True)
class Face:
    """Leaves that belong together: one face of a panel, a skin, the strips. `units`: the leaf length that it needs.

    `front`: the front whose panel it is.
    """

    of: str
    side: LeafSide
    count: int
    units: int
    pair: str = ""
    front: str = ""


type _Chosen = tuple[BilletPlan, SlicePlan]
type _Way = Callable[[Face, int, _Free, str], list[_Chosen]]


@dataclass(slots=True)
class _Free:
    """Leaves not yet given away, billet by billet in sawing order."""

    billets: list[BilletPlan]
    over: int
    taken: set[str] = field(default_factory=set)

    def usable(self, plan: BilletPlan, face: Face, states: tuple[str, ...]) -> list[SlicePlan]:
        """The free leaves of a billet that are long enough for this face and in one of these states."""
        return [
            leaf
            for leaf in plan.slices
            if leaf.id not in self.taken and leaf.state in states and self.long(plan, leaf) >= face.units
        ]

    def long(self, plan: BilletPlan, leaf: SlicePlan) -> int:
        row = leaf.leaf
        for typed in (row.good_length, row.length) if row is not None else ():
            if typed is not None and typed.value is not None:
                return typed.value.units
        return int(in_units(plan.length.value)) - self.over

    def fitting(self, face: Face) -> list[BilletPlan]:
        """Billets long enough, the shortest first, so that long ones are kept for what needs them."""
        fit = [p for p in self.billets if int(in_units(p.length.value)) - self.over >= face.units or _has_short(p)]
        return sorted(fit, key=lambda p: in_units(p.length.value))


def _has_short(plan: BilletPlan) -> bool:
    return any(leaf.leaf is not None and leaf.leaf.good_length is not None for leaf in plan.slices)


def seats_of(
    plans: Sequence[BilletPlan], faces: Sequence[Face], over: int
) -> tuple[tuple[Seat, ...], tuple[FaceWanted, ...]]:
    """Every leaf in its place, and the faces that are short of leaves.

    Places that a person gave go first; then show faces, the doors of a pair from one billet; skins; backs, scorched
    leaves and the ends of a billet before good neighbours; strips; what is left is spare. `over`: how much a billet is
    longer than its leaves, in units.
    """
    free = _Free(list(plans), over)
    seats = _by_hand(plans, free, faces)
    order = {"show": 0, "skin": 1, "back": 2, "strips": 3}
    mates: dict[str, str] = {}
    for way in (_matched, _mixed):
        for face in sorted(faces, key=lambda f: (order.get(f.side, 4), -f.units)):
            if way is _mixed or face.side in ("show", "skin"):
                seats += _seat(face, way, free, mates, seats)
    missing = tuple(
        FaceWanted(face.of, face.side, face.count, has)
        for face in faces
        if (has := face.count - len(_empty(face, seats))) < face.count
    )
    return (*seats, *_spares(plans, free)), missing


def _by_hand(plans: Sequence[BilletPlan], free: _Free, faces: Sequence[Face]) -> list[Seat]:
    """Leaves where a person put them; of two for one seat the later one goes to the next that is empty."""
    found: list[Seat] = []
    for plan in plans:
        for leaf in plan.slices:
            row = leaf.leaf
            if row is None or row.side is None or row.state == "spoiled":
                continue
            free.taken.add(leaf.id)
            if row.side == "spare":
                found.append(Seat(leaf.id, plan.id, leaf.number, "spare", "", 0, by_hand=True))
                continue
            mine = [face for face in faces if (face.side, face.front) == (row.side, row.front or "")]
            face, at = _place(row.seat, mine, {(s.of, s.side, s.seat) for s in found})
            turned = plan.billet.match == "book" and at > 0 and at % 2 == 0
            of = face.of if face is not None else row.front or ""
            fits = face is not None and free.long(plan, leaf) >= face.units
            found.append(Seat(leaf.id, plan.id, leaf.number, row.side, of, at, turned, by_hand=True, fits=fits))
    return found


def _place(wanted: int | None, faces: list[Face], taken: set[tuple[str, LeafSide, int]]) -> tuple[Face | None, int]:
    """Face and seat of the n-th place over these faces, else of the first empty one; nowhere where all are taken."""
    places = [(face, at) for face in faces for at in range(1, face.count + 1)]
    first = places[wanted - 1 : wanted] if wanted is not None and wanted > 0 else []
    return next(((f, at) for f, at in (*first, *places) if (f.of, f.side, at) not in taken), (None, 0))


def _empty(face: Face, seats: Sequence[Seat]) -> list[int]:
    had = {seat.seat for seat in seats if (seat.of, seat.side) == (face.of, face.side)}
    return [at for at in range(1, face.count + 1) if at not in had]


def _seat(face: Face, way: _Way, free: _Free, mates: dict[str, str], seats: Sequence[Seat]) -> list[Seat]:
    """Leaves for the empty seats of one face."""
    empty = _empty(face, seats)
    if not empty:
        return []
    same = next((s.billet for s in seats if (s.of, s.side) == (face.of, face.side)), "")
    chosen = way(face, len(empty), free, same or mates.get(face.pair, ""))
    free.taken.update(leaf.id for _, leaf in chosen)
    if chosen and face.pair and face.side == "show":
        mates.setdefault(face.pair, chosen[0][0].id)
    return [
        Seat(leaf.id, plan.id, leaf.number, face.side, face.of, at, plan.billet.match == "book" and at % 2 == 0)
        for at, (plan, leaf) in zip(empty, chosen, strict=False)
    ]


def _matched(face: Face, want: int, free: _Free, first: str) -> list[_Chosen]:
    """All leaves of one billet that were neighbours in the tree, those of the mate's billet first; where one between
    them is lost, of book match the next pairs step up, of slip match the next leaves."""
    for plan in sorted(free.fitting(face), key=lambda p: p.id != first if first else False):
        leaves = free.usable(plan, face, _SHOWABLE)
        run = _run(plan.billet.match, leaves, want) or _stepped_up(plan, leaves, want)
        if run:
            return [(plan, leaf) for leaf in run]
    return []


def _run(match: Match, leaves: list[SlicePlan], want: int) -> list[SlicePlan]:
    """The first run of so many consecutive leaves; of book match it begins with a pair's first."""
    if match == "random":
        return leaves[:want] if len(leaves) >= want else []
    for start in range(len(leaves) - want + 1):
        run = leaves[start : start + want]
        follows = run[-1].number - run[0].number == want - 1
        paired = match != "book" or want < 2 or run[0].number % 2 == 1
        if follows and paired:
            return run
    return []


def _stepped_up(plan: BilletPlan, leaves: list[SlicePlan], want: int) -> list[SlicePlan]:
    """So many leaves over one that was lost between them; of book match whole pairs, and one leaf more for an odd
    number."""
    if plan.billet.match == "slip":
        chosen = leaves[:want]
    else:
        numbers = {leaf.number: leaf for leaf in leaves}
        firsts = [n for n in numbers if n % 2 == 1 and n + 1 in numbers][: want // 2]
        pairs = [numbers[at] for n in firsts for at in (n, n + 1)]
        chosen = [*pairs, *([leaf for leaf in leaves if leaf not in pairs][: want % 2])]
    lost = [one.number for one in plan.slices if one.state not in _SHOWABLE]
    around = {one.number for one in chosen}
    stepped = any(min(around) < number < max(around) for number in lost) if around else False
    return chosen if stepped and len(chosen) == want else []


def _mixed(face: Face, want: int, free: _Free, first: str) -> list[_Chosen]:
    """Whatever serves; on a face that shows good leaves only, of as few billets as serve."""
    if face.side != "show":
        return _plain(face, want, free)
    found = [(plan, leaf) for plan in free.fitting(face) for leaf in free.usable(plan, face, _SHOWABLE)]
    counts = Counter(plan.id for plan, _ in found)
    found.sort(key=lambda one: (one[0].id != first, -min(counts[one[0].id], want)))
    return found[:want]


def _plain(face: Face, want: int, free: _Free) -> list[_Chosen]:
    """Of the shortest billets that serve, scorched leaves and those that lost their mate before good ones, and of as
    few billets as serve."""
    states = (*_USABLE, "short") if face.side == "strips" else _USABLE
    found = [(plan, leaf) for plan in free.fitting(face) for leaf in free.usable(plan, face, states)]
    counts = Counter(plan.id for plan, _ in found)
    found.sort(
        key=lambda one: (
            in_units(one[0].length.value),
            one[1].state not in ("scorched", "short") and not _lost_its_mate(*one),
            -min(counts[one[0].id], want),
        )
    )
    return found[:want]


def _lost_its_mate(plan: BilletPlan, leaf: SlicePlan) -> bool:
    """Whether the other leaf of a book-matched pair cannot show."""
    mate = leaf.number + (1 if leaf.number % 2 else -1)
    return plan.billet.match == "book" and any(
        one.number == mate and one.state not in (*_SHOWABLE, "lost") for one in plan.slices
    )


def _spares(plans: Sequence[BilletPlan], free: _Free) -> Iterator[Seat]:
    for plan in plans:
        for leaf in plan.slices:
            if leaf.id not in free.taken and leaf.state in (*_USABLE, "short"):
                yield Seat(leaf.id, plan.id, leaf.number, "spare", "", 0)

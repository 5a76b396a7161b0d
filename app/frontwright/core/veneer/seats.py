"""Which leaf goes where: neighbours to the show faces, plain ones to the backs, bad ends to strips (stage 9)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

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
type _Home = Mapping[tuple[str, LeafSide, int], str]


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
    leaves and the ends of a billet before good neighbours; strips; what is left is spare. Where a leaf was lost,
    everything else stays where it was planned as far as it can. `over`: how much a billet is longer than its leaves,
    in units.
    """
    planned = _filled([_as_planned(plan) for plan in plans], faces, over, {})
    seats = _filled(plans, faces, over, {(s.of, s.side, s.seat): s.leaf for s in planned})
    missing = tuple(
        FaceWanted(face.of, face.side, face.count, has)
        for face in faces
        if (has := face.count - len(_empty(face, seats))) < face.count
    )
    taken = {seat.leaf for seat in seats}
    return (*seats, *_spares(plans, taken)), missing


def _as_planned(plan: BilletPlan) -> BilletPlan:
    """The billet as if nothing had gone wrong with any of its leaves."""
    slices = (
        one if one.leaf is not None and one.leaf.side is not None else replace(one, state="to come", leaf=None)
        for one in plan.slices
        if one.number <= plan.planned
    )
    return replace(plan, slices=tuple(slices))


def _filled(plans: Sequence[BilletPlan], faces: Sequence[Face], over: int, home: _Home) -> list[Seat]:
    """The faces filled: those that show are completed before any back keeps the leaves it was planned with."""
    free = _Free(list(plans), over)
    order = {"show": 0, "skin": 1, "back": 2, "strips": 3}
    ordered = sorted(faces, key=lambda f: (order.get(f.side, 4), -f.units))
    shown = [face for face in ordered if face.side in ("show", "skin")]
    seats = _by_hand(plans, free, faces)
    mates: dict[str, str] = {}
    for face in shown:
        seats += _kept(face, free, home, seats)
    for face in shown:
        seats = _completed(face, free, mates, seats)
    for face in ordered:
        seats += _kept(face, free, home, seats) if face not in shown else []
    for face in ordered:
        seats += _seated(face, free, seats, _mixed(face, len(_empty(face, seats)), free, _billet_of(face, seats)))
    return seats


def _kept(face: Face, free: _Free, home: _Home, seats: Sequence[Seat]) -> list[Seat]:
    """Leaves that stay where they were planned. Of a face that shows only whole pairs stay of book match, and of other
    match the whole face or nothing."""
    empty = _empty(face, seats)
    there = {leaf.id: (plan, leaf) for plan in free.billets for leaf in free.usable(plan, face, _states(face))}
    wanted = {at: home.get((face.of, face.side, at), "") for at in empty}
    stays = {at: there[name] for at, name in wanted.items() if name in there}
    if face.side in ("show", "skin") and len(stays) < len(empty):
        lost = {name for name in wanted.values() if name not in there}
        stays = {at: one for at, one in stays.items() if one[0].billet.match == "book" and not lost & _pair(*one)}
    return _placed(face, free, stays)


def _pair(plan: BilletPlan, leaf: SlicePlan) -> set[str]:
    mate = leaf.number + (1 if leaf.number % 2 else -1)
    return {f"{plan.id}{mate}", *(one.id for one in plan.slices if one.number == mate)}


def _completed(face: Face, free: _Free, mates: dict[str, str], seats: list[Seat]) -> list[Seat]:
    """A face that shows, whole: the next pairs of its own billet step up, else all of it is taken from one billet."""
    same = _billet_of(face, seats)
    want = len(_empty(face, seats))
    own = next((plan for plan in free.billets if plan.id == same), None)
    if want and own is not None:
        run = _run(own.billet.match, free.usable(own, face, _SHOWABLE), want)
        seats = [*seats, *_seated(face, free, seats, [(own, leaf) for leaf in run])]
    if _empty(face, seats):
        kept = [s for s in seats if (s.of, s.side, s.by_hand) == (face.of, face.side, False)]
        others = [s for s in seats if s not in kept]
        free.taken.difference_update(s.leaf for s in kept)
        chosen = _matched(face, len(_empty(face, others)), free, same or mates.get(face.pair, ""))
        free.taken.update(s.leaf for s in kept if not chosen)
        seats = [*others, *_seated(face, free, others, chosen)] if chosen else seats
    if face.pair and face.side == "show" and _billet_of(face, seats):
        mates.setdefault(face.pair, _billet_of(face, seats))
    return seats


def _billet_of(face: Face, seats: Sequence[Seat]) -> str:
    return next((s.billet for s in seats if (s.of, s.side) == (face.of, face.side)), "")


def _by_hand(plans: Sequence[BilletPlan], free: _Free, faces: Sequence[Face]) -> list[Seat]:
    """Leaves where a person put them; of two for one seat the later one goes to the next that is empty."""
    found: list[Seat] = []
    for plan in plans:
        for leaf in plan.slices:
            row = leaf.leaf
            if row is None or row.side is None or leaf.state in ("spoiled", "lost"):
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


def _seated(face: Face, free: _Free, seats: Sequence[Seat], chosen: Sequence[_Chosen]) -> list[Seat]:
    """These leaves on the empty seats of a face, from the left."""
    return _placed(face, free, dict(zip(_empty(face, seats), chosen, strict=False)))


def _placed(face: Face, free: _Free, chosen: Mapping[int, _Chosen]) -> list[Seat]:
    free.taken.update(leaf.id for _, leaf in chosen.values())
    return [
        Seat(leaf.id, plan.id, leaf.number, face.side, face.of, at, plan.billet.match == "book" and at % 2 == 0)
        for at, (plan, leaf) in chosen.items()
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
    found = [(plan, leaf) for plan in free.fitting(face) for leaf in free.usable(plan, face, _states(face))]
    counts = Counter(plan.id for plan, _ in found)
    found.sort(
        key=lambda one: (
            in_units(one[0].length.value),
            one[1].state not in ("scorched", "short") and not _lost_its_mate(*one),
            -min(counts[one[0].id], want),
        )
    )
    return found[:want]


def _states(face: Face) -> tuple[str, ...]:
    """What a leaf may be for this face."""
    return {"show": _SHOWABLE, "strips": (*_USABLE, "short")}.get(face.side, _USABLE)


def _lost_its_mate(plan: BilletPlan, leaf: SlicePlan) -> bool:
    """Whether the other leaf of a book-matched pair cannot show."""
    mate = leaf.number + (1 if leaf.number % 2 else -1)
    return plan.billet.match == "book" and any(
        one.number == mate and one.state not in (*_SHOWABLE, "lost") for one in plan.slices
    )


def _spares(plans: Sequence[BilletPlan], taken: set[str]) -> Iterator[Seat]:
    for plan in plans:
        for leaf in plan.slices:
            if leaf.id not in taken and leaf.state in (*_USABLE, "short"):
                yield Seat(leaf.id, plan.id, leaf.number, "spare", "", 0)

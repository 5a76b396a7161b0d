"""Which leaf goes where: neighbours to the show faces, plain ones to the backs, bad ends to strips (stage 9)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
            if leaf.id not in self.taken and leaf.state in states and self._long(plan, leaf) >= face.units
        ]

    def _long(self, plan: BilletPlan, leaf: SlicePlan) -> int:
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
    had = {(s.of, s.side, s.seat) for s in seats}
    missing: list[FaceWanted] = []
    mates: dict[str, str] = {}
    order = {"show": 0, "skin": 1, "back": 2, "strips": 3}
    for face in sorted(faces, key=lambda f: (order.get(f.side, 4), -f.units)):
        empty = [at for at in range(1, face.count + 1) if (face.of, face.side, at) not in had]
        got = _seat(face, empty, free, mates)
        seats += got
        if len(got) < len(empty):
            missing.append(FaceWanted(face.of, face.side, face.count, face.count - len(empty) + len(got)))
    return (*seats, *_spares(plans, free)), tuple(missing)


def _by_hand(plans: Sequence[BilletPlan], free: _Free, faces: Sequence[Face]) -> list[Seat]:
    """Leaves where a person put them; of two for one seat the later one goes to the next that is empty."""
    found: list[Seat] = []
    for plan in plans:
        for leaf in plan.slices:
            row = leaf.leaf
            if row is None or row.side is None or row.state == "spoiled":
                continue
            free.taken.add(leaf.id)
            mine = [face for face in faces if (face.side, face.front) == (row.side, row.front or "")]
            of, at = _place(row.seat, mine, {(s.of, s.side, s.seat) for s in found})
            turned = plan.billet.match == "book" and at > 0 and at % 2 == 0
            found.append(Seat(leaf.id, plan.id, leaf.number, row.side, of or row.front or "", at, turned, by_hand=True))
    return found


def _place(wanted: int | None, faces: list[Face], taken: set[tuple[str, LeafSide, int]]) -> tuple[str, int]:
    """Panel and seat of the n-th place over these faces, else of the first empty one; nowhere where all are taken."""
    places = [(face, at) for face in faces for at in range(1, face.count + 1)]
    first = places[wanted - 1 : wanted] if wanted else []
    return next(((f.of, at) for f, at in (*first, *places) if (f.of, f.side, at) not in taken), ("", 0))


def _seat(face: Face, empty: list[int], free: _Free, mates: dict[str, str]) -> list[Seat]:
    """Leaves for the empty seats of one face: neighbours of one billet where the face shows, else whatever serves."""
    if not empty:
        return []
    together = face.side in ("show", "skin")
    chosen = _neighbours(face, len(empty), free, mates) if together else _plain(face, len(empty), free)
    free.taken.update(leaf.id for _, leaf in chosen)
    turned = chosen[0][0].billet.match == "book" if chosen else False
    return [
        Seat(leaf.id, plan.id, leaf.number, face.side, face.of, at, turned and at % 2 == 0)
        for at, (plan, leaf) in zip(empty, chosen, strict=False)
    ]


def _neighbours(face: Face, want: int, free: _Free, mates: dict[str, str]) -> list[tuple[BilletPlan, SlicePlan]]:
    """A run of leaves that were neighbours in the tree; of book match only whole pairs; the mate's billet first."""
    billets = free.fitting(face)
    billets.sort(key=lambda p: p.id != mates.get(face.pair, p.id) if face.pair else False)
    for plan in billets:
        run = _run(plan.billet.match, free.usable(plan, face, _SHOWABLE), want)
        if run:
            if face.pair:
                mates.setdefault(face.pair, plan.id)
            return [(plan, leaf) for leaf in run]
    return _plain(face, want, free) if face.side == "skin" else []


def _run(match: Match, leaves: list[SlicePlan], want: int) -> list[SlicePlan]:
    """The first run of so many consecutive leaves; of book match it begins with a pair's first."""
    for start in range(len(leaves) - want + 1):
        run = leaves[start : start + want]
        follows = run[-1].number - run[0].number == want - 1
        paired = match != "book" or want < 2 or run[0].number % 2 == 1
        if follows and paired:
            return run
    return []


def _plain(face: Face, want: int, free: _Free) -> list[tuple[BilletPlan, SlicePlan]]:
    """Of the shortest billets that serve, scorched leaves before good ones, and of as few billets as serve."""
    states = (*_USABLE, "short") if face.side == "strips" else _USABLE
    found = [(plan, leaf) for plan in free.fitting(face) for leaf in free.usable(plan, face, states)]
    counts: dict[str, int] = {}
    for plan, _ in found:
        counts[plan.id] = counts.get(plan.id, 0) + 1
    found.sort(
        key=lambda one: (
            in_units(one[0].length.value),
            one[1].state not in ("scorched", "short"),
            -min(counts[one[0].id], want),
        )
    )
    order = {plan.id: place for place, plan in enumerate(free.billets)}
    return sorted(found[:want], key=lambda one: (order[one[0].id], one[1].number))


def _spares(plans: Sequence[BilletPlan], free: _Free) -> Iterator[Seat]:
    for plan in plans:
        for leaf in plan.slices:
            if leaf.id not in free.taken and leaf.state in (*_USABLE, "short"):
                yield Seat(leaf.id, plan.id, leaf.number, "spare", "", 0)

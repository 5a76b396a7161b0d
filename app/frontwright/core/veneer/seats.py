"""Which leaf goes where: neighbours to the show faces, plain ones to the backs, bad ends to strips (stage 9)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby

from frontwright.core.job import LeafSide, LeafState, Match
from frontwright.core.lengths import in_units
from frontwright.core.veneer.result import BilletPlan, FaceWanted, Seat, SlicePlan

_SHOWABLE = ("good", "to come")
_USABLE = ("good", "scorched", "to come")
_ORDER = {"show": 0, "skin": 1, "back": 2, "strips": 3}
type _Home = Mapping[tuple[str, LeafSide], Mapping[int, str]]


@dataclass(frozen=True, slots=True)
class Face:
    """Leaves that belong together: one face of a panel, a skin, a leaf of strips; sizes in units.

    `units`: the leaf length that it needs; `inner` and `outer`: the jointed width, outer leaves being trimmed; `thin`:
    the least thickness that leaves enough after planing, `slice` that planned. `front`: the front whose panel it is.
    """

    of: str
    side: LeafSide
    count: int
    units: int
    pair: str = ""
    front: str = ""
    inner: int = 0
    outer: int = 0
    thin: int = 0
    slice: int = 0

    @property
    def wide(self) -> int:
        """The width that serves on any seat."""
        return self.inner if self.count > 2 else self.outer

    def wide_at(self, seat: int) -> int:
        return self.outer if seat in (1, self.count) else self.inner


@dataclass(frozen=True, slots=True)
class Room:
    """What comes off before a leaf lies on a face, in units: `over` of a billet's length, `edges` of a leaf's width."""

    over: int = 0
    edges: int = 0


@dataclass(frozen=True, slots=True)
class _Leaf:
    """A leaf with what its place depends on, in units; `wide` is None where nobody measured it."""

    plan: BilletPlan
    slice: SlicePlan
    long: int
    wide: int | None
    thick: int
    lost_its_mate: bool

    @property
    def id(self) -> str:
        return self.slice.id

    @property
    def number(self) -> int:
        return self.slice.number

    @property
    def match(self) -> Match:
        return self.plan.billet.match

    @property
    def first_to_back(self) -> bool:
        """Scorched ones and those that lost their mate go to backs and strips before good ones."""
        return self.slice.state in ("scorched", "short") or self.lost_its_mate

    def fits(self, face: Face, states: Sequence[str]) -> bool:
        sized = self.long >= face.units and self.thick >= face.thin
        return sized and self.slice.state in states and (self.wide is None or self.wide >= face.wide)


@dataclass(slots=True)
class _Stock:
    """A billet with its leaves in sawing order, and those of them that are free."""

    plan: BilletPlan
    leaves: tuple[_Leaf, ...]
    free: list[_Leaf]
    longest: int
    thick: int

    def usable(self, face: Face, states: Sequence[str] = _SHOWABLE) -> list[_Leaf]:
        return [leaf for leaf in self.free if leaf.fits(face, states)]


@dataclass(slots=True)
class _Places:
    """Leaves not yet given away, billet by billet, the shortest first, and what lies where."""

    stocks: list[_Stock]
    by_id: dict[str, _Leaf]
    taken: set[str] = field(default_factory=set)
    faces: dict[tuple[str, LeafSide], dict[int, Seat]] = field(default_factory=dict)
    spare: list[Seat] = field(default_factory=list)

    def on(self, face: Face) -> dict[int, Seat]:
        return self.faces.setdefault((face.of, face.side), {})

    def lacks(self, face: Face) -> int:
        return face.count - len(self.on(face))

    def empty(self, face: Face) -> Iterator[int]:
        had = self.on(face)
        return (at for at in range(1, face.count + 1) if at not in had)

    def billet_of(self, face: Face) -> str:
        return next((seat.billet for seat in self.on(face).values()), "")

    def fitting(self, face: Face) -> list[_Stock]:
        """Billets with leaves as thick as planned first, of these the shortest, so that long ones are kept."""
        fit = [stock for stock in self.stocks if stock.free and stock.longest >= face.units]
        if face.slice and any(stock.thick != face.slice for stock in fit):
            fit.sort(key=lambda stock: abs(stock.thick - face.slice))
        return fit

    def put(self, face: Face, chosen: Mapping[int, _Leaf]) -> None:
        """These leaves on seats of a face; of book match every second one is turned."""
        there = self.on(face)
        for at, leaf in chosen.items():
            turned = leaf.match == "book" and at % 2 == 0
            there[at] = Seat(leaf.id, leaf.plan.id, leaf.number, face.side, face.of, at, turned)
        self.take(leaf.id for leaf in chosen.values())

    def fill(self, face: Face, chosen: Sequence[_Leaf]) -> None:
        """These leaves on the empty seats of a face, from the left."""
        self.put(face, {at: leaf for leaf, at in zip(chosen, self.empty(face), strict=False)})

    def take(self, leaves: Iterator[str]) -> None:
        gone = set(leaves)
        if gone:
            self.taken |= gone
            self._count({self.by_id[name].plan.id for name in gone})

    def give_back(self, leaves: Sequence[str]) -> None:
        self.taken.difference_update(leaves)
        self._count({self.by_id[name].plan.id for name in leaves})

    def _count(self, billets: set[str]) -> None:
        for stock in self.stocks:
            if stock.plan.id in billets:
                stock.free = [leaf for leaf in stock.leaves if leaf.id not in self.taken]


def seats_of(
    plans: Sequence[BilletPlan], faces: Sequence[Face], room: Room
) -> tuple[tuple[Seat, ...], tuple[FaceWanted, ...]]:
    """Every leaf in its place, and the faces that are short of leaves.

    Places that a person gave go first; then show faces, the doors of a pair from one billet; skins; backs, scorched
    leaves and the ends of a billet before good neighbours; strips; what is left is spare. Where a leaf was lost,
    everything else stays where it was planned as far as it can.
    """
    whole = [_as_planned(plan) for plan in plans]
    places = _filled(whole, faces, room, {})
    if any(now.slices != plan.slices for now, plan in zip(plans, whole, strict=True)):
        home = {face: {at: seat.leaf for at, seat in on.items()} for face, on in places.faces.items()}
        places = _filled(plans, faces, room, home)
    lying = [seat for on in places.faces.values() for seat in on.values()]
    missing = tuple(
        FaceWanted(face.of, face.side, face.count, face.count - short)
        for face in faces
        if (short := places.lacks(face)) > 0
    )
    return (*lying, *places.spare, *_spares(plans, places.taken)), missing


def _as_planned(plan: BilletPlan) -> BilletPlan:
    """The billet as if nothing had gone wrong with any of its leaves; what a person placed lies there."""
    if all(one.leaf is None and one.state == "to come" for one in plan.slices):
        return plan
    slices = (
        replace(one, state="to come", thick=None, leaf=one.leaf if _is_placed(one) else None)
        for one in plan.slices
        if one.number <= plan.planned
    )
    return replace(plan, slices=tuple(slices))


def _is_placed(one: SlicePlan) -> bool:
    return one.leaf is not None and one.leaf.side is not None


def _stock(plan: BilletPlan, room: Room) -> _Stock:
    length = int(in_units(plan.length.value)) - room.over
    wanted = int(in_units(plan.slice.value))
    states = {one.number: one.state for one in plan.slices}
    leaves: list[_Leaf] = []
    for one in plan.slices:
        mate = states.get(one.number + (1 if one.number % 2 else -1), "to come")
        alone = plan.billet.match == "book" and mate not in (*_SHOWABLE, "lost")
        thick = int(in_units(one.thick.value)) if one.thick is not None else wanted
        leaves.append(_Leaf(plan, one, _long(one, length), _wide(one, room), thick, alone))
    longest = max((leaf.long for leaf in leaves), default=0)
    return _Stock(plan, tuple(leaves), list(leaves), longest, wanted)


def _long(one: SlicePlan, length: int) -> int:
    """How much of a leaf can be used; of a short one of which nobody said, nothing."""
    row = one.leaf
    for typed in (row.good_length, row.length) if row is not None else ():
        if typed is not None and typed.value is not None:
            return typed.value.units
    return 0 if one.state == "short" else length


def _wide(one: SlicePlan, room: Room) -> int | None:
    typed = one.leaf.width if one.leaf is not None else None
    return typed.value.units - room.edges if typed is not None and typed.value is not None else None


def _filled(plans: Sequence[BilletPlan], faces: Sequence[Face], room: Room, home: _Home) -> _Places:
    """The faces filled: those that show are completed before any back keeps the leaves it was planned with."""
    stocks = sorted((_stock(plan, room) for plan in plans), key=lambda stock: in_units(stock.plan.length.value))
    places = _Places(stocks, {leaf.id: leaf for stock in stocks for leaf in stock.leaves})
    ordered = sorted(faces, key=lambda f: (_ORDER.get(f.side, len(_ORDER)), -f.units))
    shown = [face for face in ordered if face.side in ("show", "skin")]
    hidden = [face for face in ordered if face.side not in ("show", "skin")]
    _by_hand(plans, places, faces)
    mates: dict[str, str] = {}
    for face in shown:
        _keep(face, places, home)
    for face in shown:
        _complete(face, places, mates)
    for face in hidden:
        _keep(face, places, home)
    for face in ordered:
        want = places.lacks(face)
        if want > 0:
            places.fill(face, _mixed(face, want, places, places.billet_of(face)))
    return places


def _keep(face: Face, places: _Places, home: _Home) -> None:
    """Leaves that stay where they were planned. Of a face that shows only whole pairs stay of book match, and of other
    match the whole face or nothing."""
    there = places.on(face)
    wanted = {at: name for at, name in home.get((face.of, face.side), {}).items() if at not in there}
    stays = {at: leaf for at, name in wanted.items() if (leaf := _there(name, face, places)) is not None}
    if face.side in ("show", "skin") and len(stays) < places.lacks(face):
        kept = {leaf.id for leaf in stays.values()}
        lost = {name for name in wanted.values() if name not in kept}
        stays = {at: leaf for at, leaf in stays.items() if leaf.match == "book" and not lost & _pair(leaf)}
    places.put(face, stays)


def _there(name: str, face: Face, places: _Places) -> _Leaf | None:
    leaf = places.by_id.get(name)
    return leaf if leaf is not None and name not in places.taken and leaf.fits(face, _states(face)) else None


def _pair(leaf: _Leaf) -> set[str]:
    """A leaf and its mate."""
    mate = leaf.number + (1 if leaf.number % 2 else -1)
    return {one.id for one in leaf.plan.slices if one.number in (leaf.number, mate)}


def _complete(face: Face, places: _Places, mates: dict[str, str]) -> None:
    """The rest of a face that shows: from the billet that it has already, else whole from another one."""
    same = places.billet_of(face)
    want = places.lacks(face)
    own = next((stock for stock in places.stocks if stock.plan.id == same), None)
    if want > 0 and own is not None:
        places.fill(face, _run(own.plan.billet.match, own.usable(face), want))
    if places.lacks(face) > 0:
        there = places.on(face)
        kept = {at: places.by_id[seat.leaf] for at, seat in there.items() if not seat.by_hand}
        for at in kept:
            del there[at]
        places.give_back([leaf.id for leaf in kept.values()])
        chosen = _matched(face, places.lacks(face), places, same or mates.get(face.pair, ""))
        if chosen:
            places.fill(face, chosen)
        else:
            places.put(face, kept)
    if face.pair and face.side == "show" and places.billet_of(face):
        mates.setdefault(face.pair, places.billet_of(face))


def _by_hand(plans: Sequence[BilletPlan], places: _Places, faces: Sequence[Face]) -> None:
    """Leaves where a person put them; of two for one seat the later one goes to the next that is empty."""
    for plan in plans:
        for one in plan.slices:
            if one.leaf is not None and one.leaf.side is not None and one.state not in ("spoiled", "lost"):
                _put_by_hand(places.by_id[one.id], one.leaf.side, places, faces)


def _put_by_hand(leaf: _Leaf, side: LeafSide, places: _Places, faces: Sequence[Face]) -> None:
    row = leaf.slice.leaf
    front, wanted = (row.front or "", row.seat) if row is not None else ("", None)
    places.take(iter((leaf.id,)))
    if side == "spare":
        places.spare.append(Seat(leaf.id, leaf.plan.id, leaf.number, "spare", "", 0, by_hand=True))
        return
    face, at = _place(wanted, [face for face in faces if (face.side, face.front) == (side, front)], places)
    turned = leaf.match == "book" and at > 0 and at % 2 == 0
    of = face.of if face is not None else front
    fits = face is not None and _serves(leaf, face, at)
    seat = Seat(leaf.id, leaf.plan.id, leaf.number, side, of, at, turned, by_hand=True, fits=fits)
    if face is not None:
        places.on(face)[at] = seat
    else:
        places.spare.append(seat)


def _serves(leaf: _Leaf, face: Face, at: int) -> bool:
    """Whether a leaf is long, wide and thick enough for a seat, and no scorched one where it shows."""
    hidden = face.side != "show" or leaf.slice.state != "scorched"
    wide = leaf.wide is None or leaf.wide >= face.wide_at(at)
    return hidden and wide and leaf.long >= face.units and leaf.thick >= face.thin


def _place(wanted: int | None, faces: list[Face], places: _Places) -> tuple[Face | None, int]:
    """Face and seat of the n-th place over these faces, else of the first empty one; nowhere where all are taken."""
    seats = [(face, at) for face in faces for at in range(1, face.count + 1)]
    first = seats[wanted - 1 : wanted] if wanted is not None and wanted > 0 else []
    return next(((face, at) for face, at in (*first, *seats) if at not in places.on(face)), (None, 0))


def _matched(face: Face, want: int, places: _Places, first: str) -> list[_Leaf]:
    """All leaves of one billet that were neighbours in the tree, those of the mate's billet first; where one between
    them is lost, of book match the next pairs step up, of slip match the next leaves."""
    for stock in sorted(places.fitting(face), key=lambda one: one.plan.id != first if first else False):
        leaves = stock.usable(face)
        if len(leaves) >= want:
            run = _run(stock.plan.billet.match, leaves, want) or _stepped_up(stock.plan, leaves, want)
            if run:
                return run
    return []


def _run(match: Match, leaves: list[_Leaf], want: int) -> list[_Leaf]:
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


def _stepped_up(plan: BilletPlan, leaves: list[_Leaf], want: int) -> list[_Leaf]:
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


def _mixed(face: Face, want: int, places: _Places, first: str) -> list[_Leaf]:
    """Whatever serves; on a face that shows good leaves only, of as few billets as serve."""
    if face.side != "show":
        return _plain(face, want, places)
    found = [leaf for stock in places.fitting(face) for leaf in stock.usable(face)]
    counts = Counter(leaf.plan.id for leaf in found)
    found.sort(key=lambda leaf: (leaf.plan.id != first, -min(counts[leaf.plan.id], want)))
    return found[:want]


def _plain(face: Face, want: int, places: _Places) -> list[_Leaf]:
    """Of the shortest billets that serve, scorched leaves and those that lost their mate before good ones, and of as
    few billets as serve."""
    states = _states(face)
    chosen: list[_Leaf] = []
    for _, alike in groupby(places.fitting(face), key=lambda stock: (stock.thick, stock.plan.length.value)):
        found = [(stock.usable(face, states)) for stock in alike]
        ranked = [(not leaf.first_to_back, -min(len(leaves), want), leaf) for leaves in found for leaf in leaves]
        ranked.sort(key=lambda one: one[:2])
        chosen += [leaf for _, _, leaf in ranked[: want - len(chosen)]]
        if len(chosen) == want:
            break
    return chosen


def _states(face: Face) -> tuple[LeafState | str, ...]:
    """What a leaf may be for this face."""
    return {"show": _SHOWABLE, "strips": (*_USABLE, "short")}.get(face.side, _USABLE)


def _spares(plans: Sequence[BilletPlan], taken: set[str]) -> Iterator[Seat]:
    for plan in plans:
        for leaf in plan.slices:
            if leaf.id not in taken and leaf.state in (*_USABLE, "short"):
                yield Seat(leaf.id, plan.id, leaf.number, "spare", "", 0)

"""Skins on the ends, returns inside the openings, strips on the faces: sizes, butts, who covers whom (F41, F42).

Each next one covers the last one's edge: end skins, inside edges, faces. So every glue line looks sideways.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import entered, measured
from frontwright.core.facing.result import Place, Strip
from frontwright.core.facing.sizes import ENDS, piece, skins_of
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.job import End, Facing
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Length
from frontwright.core.returns import CoveredOpening, EdgeReturn
from frontwright.core.skins import depth_seen, face_strip, rough_skin, skin_part, skin_thickness, strip_thickness
from frontwright.core.survey.result import MemberPlan, RunPlan

UPRIGHT_SIDES = ("left", "right")
RAILS = ("top rail", "mid rail", "bottom rail")


@dataclass(frozen=True, slots=True)
class Covering:
    """A run while its strips are worked out."""

    index: JobIndex
    run: RunPlan
    row: Facing
    skins: Mapping[str, Figure]
    openings: Mapping[str, CoveredOpening]
    butts: Mapping[str, Figure]  # by end: how much of the stile the other leg of a corner takes (F41)

    def returns(self, column: str, side: str) -> list[EdgeReturn]:
        """The returns on one side of a column, of all its openings."""
        own = [o.id for o in self.run.openings if o.column == column]
        return [self.openings[o].returns[side] for o in own if o in self.openings]


def skins(index: JobIndex, run: RunPlan) -> Iterator[Strip]:
    """A skin on each end that has one, as wide as the depth that is seen; its scribe is in the rough width."""
    for side, end in run.ends.items():
        if end.skin != "none" and run.height is not None:
            yield _skin(index, run, side, end, run.height)


def _skin(index: JobIndex, run: RunPlan, side: str, end: End, height: Figure) -> Strip:
    depth = depth_seen(index, run.run, end)
    thick = skin_thickness(index, run.id, side) or strip_thickness(index)
    low = measured(end.depth_bottom, "depth seen, bottom")
    ends = (low, entered(index.unit, end.depth_seen, "end depth base")) if low is not None else None
    return piece(
        index,
        run,
        "skin",
        skin_part(run.id, side).removeprefix(f"{run.id} "),
        f"{side} end",
        (height, depth, thick),
        made_of="sawn" if end.skin == "sawn" else "bought",
        rough=rough_skin(index, side, height, depth),
        ends=ends,
        upright=True,
        place=_beside(run, side, thick),
    )


def _beside(run: RunPlan, side: str, thick: Figure) -> Place | None:
    if run.overall is None or run.height is None:
        return None
    if side == "left":
        return -thick.length, ZERO, ZERO, run.height.length
    return run.overall.length, ZERO, run.overall.length + thick.length, run.height.length


def returns(covering: Covering) -> Iterator[Strip]:
    """Returns of every opening: those at the sides run through, those on the rails stand between them."""
    for opening in covering.run.openings:
        found = covering.openings.get(opening.id)
        if found is not None:
            for side, one in found.returns.items():
                yield _return(covering, found, side, one)


def _return(covering: Covering, opening: CoveredOpening, side: str, one: EdgeReturn) -> Strip:
    own = next(o for o in covering.run.openings if o.id == opening.opening)
    upright = side in UPRIGHT_SIDES
    length = own.height_most if upright else opening.widths[1]
    return piece(
        covering.index,
        covering.run,
        "return",
        f"{own.id} {side} return",
        f"{own.id}, {side} edge",
        (length, _depth(covering), one.strip),
        made_of=covering.row.made_of,
        upright=upright,
    )


def _depth(covering: Covering) -> Figure:
    """A return covers the edge of the frame: as wide as its thickest member is thick."""
    usual = entered(covering.index.unit, None, "frame thickness")
    members = (*covering.run.members, *covering.run.rails)
    read = [t for m in members if (t := measured(m.member.thickness, f"thickness of {m.id}")) is not None]
    return most(f"thickness of the frame of {covering.run.id}", read) if read else usual


# -- faces


def faces(covering: Covering) -> Iterator[Strip]:
    """Strips on the faces of the frame, stiles before rails where the stiles run through."""
    thick = face_strip(covering.index, covering.run.id)
    if thick is None or covering.run.height is None:
        return
    stiles = [_stile(covering, group, thick) for group in side_by_side(covering.run)]
    if covering.row.through == "rails":
        yield from (one for kind in ("top rail", "bottom rail") for one in _through(covering, kind, thick))
        yield from stiles
        yield from _rails(covering, thick, ("mid rail",))
    else:
        yield from stiles
        yield from _rails(covering, thick, RAILS)


def side_by_side(run: RunPlan) -> list[list[MemberPlan]]:
    """Upright members that stand together get one strip over them and their seam."""
    members = {m.id: m for m in run.members}
    groups: list[list[MemberPlan]] = [[]]
    for item in run.order:
        if item in members:
            groups[-1].append(members[item])
        elif groups[-1]:
            groups.append([])
    return [group for group in groups if group]


def _stile(covering: Covering, group: list[MemberPlan], thick: Figure) -> Strip:
    run, name = covering.run, " + ".join(m.id for m in group)
    ends = [side for side, at in zip(ENDS, (0, -1), strict=True) if group[at].id == run.order[at]]
    skinned = [side for side in ends if side in covering.skins]
    butts = [covering.butts[side] for side in ends if side in covering.butts and side not in covering.skins]
    over = {side: covered for side in ENDS if (covered := _over_returns(covering, group, side)) is not None}
    width = total(
        f"strip on {name}, width",
        *(plus(m.widest) for m in group),
        *(plus(covering.skins[side]) for side in skinned),
        *(plus(one) for one, _ in over.values()),
        *(minus(butt) for butt in butts),
    )
    low, high = _upright_span(covering, group)
    length = total(f"strip on {name}, length", plus(high), minus(low)) if low.units else high
    covers = (
        *(skin_part(run.id, side) for side in skinned),
        *(f"{run.id} {of} return" for _, ids in over.values() for of in ids),
    )
    left = group[0].left.length - Length(sum(_out(covering, skinned, over, "left")))
    right = group[-1].right.length + Length(sum(_out(covering, skinned, over, "right")))
    return piece(
        covering.index,
        run,
        "stile strip",
        name,
        ", ".join(m.id for m in group),
        (length, width, thick),
        made_of=covering.row.made_of,
        covers=covers,
        upright=True,
        place=(left, low.value, right, high.value),
    )


type _Over = Mapping[str, tuple[Figure, tuple[str, ...]]]


def _out(covering: Covering, skinned: Sequence[str], over: _Over, side: str) -> list[int]:
    """How far a stile strip reaches beyond its stile on one side, in whole units."""
    skin = covering.skins[side].length.units if side in skinned else 0
    covered = over[side][0].length.units if side in over else 0
    return [skin, covered]


def _over_returns(covering: Covering, group: list[MemberPlan], side: str) -> tuple[Figure, tuple[str, ...]] | None:
    """What a stile strip covers of the returns beside it, the thickest of them, and which they are."""
    order = covering.run.order
    at = order.index(group[0].id) - 1 if side == "left" else order.index(group[-1].id) + 1
    if not 0 <= at < len(order):
        return None
    facing = "right" if side == "left" else "left"
    found = covering.returns(order[at], facing)
    if not found:
        return None
    ids = tuple(
        f"{o.id} {facing}" for o in covering.run.openings if o.column == order[at] and o.id in covering.openings
    )
    return most(f"return beside {group[0].id}", [one.at_middle for one in found], "the thickest governs"), ids


def _upright_span(covering: Covering, group: list[MemberPlan]) -> tuple[Figure, Figure]:
    """From where to where a stile strip reaches: the whole height, or between rail strips that run through."""
    whole = (Figure("bottom edge of the run", ZERO, "chosen"), covering.run.height or group[0].top)
    if covering.row.through == "stiles":
        return whole
    low = [r.top for r in covering.run.rails if r.member.kind == "bottom rail"]
    high = [r.bottom for r in covering.run.rails if r.member.kind == "top rail"]
    return (low[0] if low else whole[0], high[0] if high else whole[1])


def _rails(covering: Covering, thick: Figure, kinds: Sequence[str]) -> Iterator[Strip]:
    for kind in kinds:
        for rail in _in_order([r for r in covering.run.rails if r.member.kind == kind]):
            yield _rail(covering, rail, thick)


def _in_order(rails: list[MemberPlan]) -> list[MemberPlan]:
    """From left to right, those of one column from the top."""
    return sorted(rails, key=lambda rail: (rail.left.units, -Fraction(rail.bottom.units)))


def _rail(covering: Covering, rail: MemberPlan, thick: Figure) -> Strip:
    """Cut to fit between the stile strips: as long as the running edges are apart, less what covers the returns."""
    run = covering.run
    column = next((o.column for o in run.openings if o.left is rail.left), "")
    own = rail_name(rail, column)
    beside = {side: found for side in ENDS if (found := covering.returns(column, side))}
    takes = {side: most(f"{side} returns", [one.at_middle for one in found]) for side, found in beside.items()}
    length = total(f"strip on {own}, length", plus(rail.right), minus(rail.left), *map(minus, takes.values()))
    over = _above_and_below(covering, rail, column)
    width = total(f"strip on {own}, width", plus(rail.widest), *(plus(one) for _, one in over)) if over else rail.widest
    left = rail.left.length + (takes["left"].length if "left" in takes else ZERO)
    right = rail.right.length - (takes["right"].length if "right" in takes else ZERO)
    return piece(
        covering.index,
        run,
        "rail strip",
        own,
        own,
        (length, width, thick),
        made_of=covering.row.made_of,
        covers=tuple(f"{run.id} {of} return" for of, _ in over),
        place=(left, rail.bottom.value, right, rail.top.value),
    )


def _above_and_below(covering: Covering, rail: MemberPlan, column: str) -> list[tuple[str, Figure]]:
    """The returns on a rail's edges: of the opening above its bottom one, of the opening below its top one."""
    found: list[tuple[str, Figure]] = []
    for opening in covering.run.openings:
        of = covering.openings.get(opening.id)
        if opening.column != column or of is None:
            continue
        if "bottom" in of.returns and opening.bottom is not None and opening.bottom.value == rail.top.value:
            found.append((f"{opening.id} bottom", of.returns["bottom"].at_middle))
        if "top" in of.returns and opening.top is not None and opening.top.value == rail.bottom.value:
            found.append((f"{opening.id} top", of.returns["top"].at_middle))
    return found


def rail_name(rail: MemberPlan, column: str) -> str:
    """A rail by its own name; one that runs through all columns, or that nobody named, by its column."""
    named = rail.member.column is not None or not column
    return rail.id if named else f"{rail.member.kind} {column}"


def _through(covering: Covering, kind: str, thick: Figure) -> Iterator[Strip]:
    """A rail strip over the whole run, skins with it: as wide as its widest reading in any column."""
    rails, run = [r for r in covering.run.rails if r.member.kind == kind], covering.run
    if not rails or run.overall is None:
        return
    butts = [butt for side, butt in covering.butts.items() if side not in covering.skins]
    length = total(
        f"strip on the {kind}, length", plus(run.overall), *map(plus, covering.skins.values()), *map(minus, butts)
    )
    width = most(f"widest {kind} of {run.id}", [r.widest for r in rails])
    left = -covering.skins["left"].length if "left" in covering.skins else ZERO
    right = run.overall.length + (covering.skins["right"].length if "right" in covering.skins else ZERO)
    yield piece(
        covering.index,
        run,
        "rail strip",
        kind,
        kind,
        (length, width, thick),
        made_of=covering.row.made_of,
        covers=tuple(skin_part(run.id, side) for side in covering.skins),
        place=(left, rails[0].bottom.value, right, rails[0].top.value),
    )


def corner_butts(index: JobIndex, run: RunPlan) -> dict[str, Figure]:
    """F41: the ends at which a stile strip butts into the other leg of a corner, and by how much less it is wide.

    The leg that runs on behind the other one's face (the left one where nobody said) is covered first, less what of it
    is hidden there; the other leg's strip butts against that strip.
    """
    found: dict[str, Figure] = {}
    for corner in index.job.corners.values():
        for side, own, other in (("right", corner.left, corner.right), ("left", corner.right, corner.left)):
            if own != run.id:
                continue
            first = corner.runs_on or "left"
            goes_first = own == (corner.left if first == "left" else corner.right)
            hidden = measured(corner.hidden, "hidden behind the other leg") if corner.runs_on and goes_first else None
            butt = hidden if goes_first else face_strip(index, other)
            if butt is not None:
                found[side] = butt
    return found


def covering_of(index: JobIndex, run: RunPlan, openings: Mapping[str, CoveredOpening]) -> Covering:
    """What the strips of a run are worked out from."""
    row = index.job.facings.get(run.id) or Facing(run.id)
    return Covering(index, run, row, skins_of(index, run), openings, corner_butts(index, run))

"""What has to be cut from what: parts by form, species and thickness, at their rough sizes (F51, F57)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from frontwright.core.assumed import assumed, entered
from frontwright.core.facing.result import FacingPlan, Strip
from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.job import Piece, PieceForm, SupplierSize
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, exact_text
from frontwright.core.making.result import MakingPlan, PanelPart, Part
from frontwright.core.skins import first_veneered
from frontwright.core.stock.result import Group, Want
from frontwright.core.veneer.counts import WIDE
from frontwright.core.veneer.result import VeneerPlan

type _Key = tuple[PieceForm, str, Length]
type OneLot = Literal["job", "run", "front", "no"]
SHEETS: tuple[PieceForm, ...] = ("sheet", "core", "panel")


@dataclass(slots=True)
class _Groups:
    """Wants collected by form, species and thickness, in the order in which they come."""

    index: JobIndex
    found: dict[_Key, tuple[Figure, list[Want]]] = field(default_factory=dict)

    def add(self, form: PieceForm, species: str, thickness: Figure, want: Want) -> None:
        key = (form, species, thickness.length)
        self.found.setdefault(key, (thickness, []))[1].append(want)

    def groups(self) -> Iterator[Group]:
        kerf = kerf_of(self.index)
        for (form, species, thick), (figure, wants) in self.found.items():
            name = " ".join(word for word in (form, species, exact_text(thick, self.index.unit)) if word)
            cut: Literal["boards", "sheets"] = "sheets" if form in SHEETS else "boards"
            yield Group(name, form, species, figure, cut, kerf, tuple(wants))


def kerf_of(index: JobIndex) -> Length:
    """The kerf of the saw that rips, crosscuts and cuts sheets."""
    return entered(index.unit, index.allowances.rip_kerf, "kerf").length


def one_lot(index: JobIndex) -> OneLot:
    """Over what show panels and show leaves come from one lot; over a run where nobody said."""
    return index.limits.one_lot or "run"


def groups_of(
    index: JobIndex,
    fronts: FrontsPlan,
    making: MakingPlan,
    facing: FacingPlan,
    veneer: VeneerPlan,
) -> tuple[Group, ...]:
    """Every group of a job: solid wood, sheets and cores, leaves, strips on leaves."""
    groups = _Groups(index)
    cut = made_parts(index, making)
    for made in making.fronts.values():
        for part in made.parts:
            panel = next((p for p in made.panels if p.part == part.id), None)
            _part(groups, part, panel, _lot(index, fronts, part.front), cut, made.build.panel.core)
    _blanks(groups, fronts, making, cut)
    _covering(groups, facing, cut)
    return (
        *groups.groups(),
        *_leaf_groups(index, fronts, making, facing, veneer),
        *_strip_group(index, facing, veneer, cut),
    )


def made_parts(index: JobIndex, making: MakingPlan) -> Mapping[str, int]:
    """Part -> copies that are cut: those a cut done freed; a part measured as built is made altogether (-1)."""
    found: dict[str, int] = {}
    for row in index.job.cuts_done.values():
        for one in row.parts:
            if (laid := index.job.laid_parts.get(one)) is not None:
                found[laid.part] = found.get(laid.part, 0) + 1
    parts = {part.id for part in making.parts} if index.job.as_built else ()
    found |= {built.of: -1 for built in index.job.as_built.values() if built.of in parts}
    return found


def _made(cut: Mapping[str, int], part: str, copies: int) -> int:
    count = cut.get(part, 0)
    return copies if count < 0 else min(copies, count)


def _lot(index: JobIndex, fronts: FrontsPlan, front: str) -> str:
    rule = one_lot(index)
    plan = fronts.fronts.get(front)
    return {"job": "the job", "run": plan.run if plan is not None else "", "front": front, "no": ""}[rule]


def _part(groups: _Groups, part: Part, panel: PanelPart | None, lot: str, cut: Mapping[str, int], core: Figure) -> None:
    made, each = _made(cut, part.id, part.qty), {part.front: part.qty}
    if part.material == "veneered" and panel is not None and panel.core_along is not None:
        # the core's grain runs across the leaves: its length along its own grain is the panel's width
        size = (panel.core_across or panel.across).length, panel.core_along.length
        want = Want(part.id, part.qty, *size, seen="hidden", parts=(part.id,), made=made, each=each)
        groups.add("core", "", core, want)
    elif part.material == "sheet":
        size = (part.rough_length or part.length).length, (part.rough_width or part.width).length
        want = Want(part.id, part.qty, *size, lot=lot, parts=(part.id,), made=made, each=each)
        groups.add("sheet", part.species or "", part.thickness, want)
    elif part.material == "solid" and part.rough_length is not None and part.rough_width is not None:
        groups.add("board", part.species or "", part.thickness, _solid(groups.index, part, made))


def _solid(index: JobIndex, part: Part, made: int) -> Want:
    long, wide = part.rough_length or part.length, part.rough_width or part.width
    staves, width = staves_of(index, part, wide.length)
    return Want(
        id=part.id,
        copies=part.qty * staves,
        length=long.length,
        width=width,
        parts=(part.id,),
        staves=staves,
        made=made * staves,
        rail=part.kind in ("top rail", "bottom rail", "mid rail"),
        each={part.front: part.qty * staves},
    )


def staves_of(index: JobIndex, part: Part, width: Length) -> tuple[int, Length]:
    """A solid panel is glued up from staves as wide as the boards there are; other parts where that is allowed."""
    rule = index.limits.glue_up or "panels"
    if rule == "no" or (rule == "panels" and part.kind != "panel"):
        return 1, width
    widest = max(_board_widths(index), default=assumed(index.unit, "buy board width").length)
    joint = assumed(index.unit, "glue joint").length
    if width <= widest or widest <= joint:
        return 1, width
    count = -(-width.units // (widest.units - joint.units))
    return count, Length(-(-width.units // count)) + joint


def _board_widths(index: JobIndex) -> Iterator[Length]:
    rows: list[Piece | SupplierSize] = [*index.job.pieces.values(), *index.job.supplier_sizes.values()]
    for row in rows:
        if row.form == "board" and row.width is not None and row.width.value is not None:
            yield row.width.value


def _blanks(groups: _Groups, fronts: FrontsPlan, making: MakingPlan, cut: Mapping[str, int]) -> None:
    """F22: a row with the grain running through is one blank, its fronts in their order."""
    for row in {id(r): r for r in fronts.row_of.values()}.values():
        slabs = [making.fronts[f] for f in row.fronts if f in making.fronts]
        if not slabs or not slabs[0].slab:
            continue
        parts = tuple(slab.parts[0].id for slab in slabs)
        part = slabs[0].parts[0]
        done = 1 if all(_made(cut, one, 1) for one in parts) else _made(cut, row.row.id, 1)
        size = row.blank_length.length, row.blank_width.length
        want = Want(row.row.id, 1, *size, parts=parts, made=done, each=dict.fromkeys(row.fronts, 1))
        groups.add("board", part.species or "", part.thickness, want)


def _covering(groups: _Groups, facing: FacingPlan, cut: Mapping[str, int]) -> None:
    """Skins, strips and trim that are bought as sheet or milled from boards; sawn ones are cut from leaves."""
    for piece in facing.pieces:
        size, made = (piece.rough_length.length, piece.rough_width.length), _made(cut, piece.id, 1)
        if piece.made_of == "bought":
            lot = {"job": "the job", "run": piece.run}.get(one_lot(groups.index), "")
            want = Want(piece.id, 1, *size, lot=lot, parts=(piece.id,), made=made)
            species = piece.species or _sheet_species(groups, piece.thickness.length)
            groups.add("sheet", species, piece.thickness, want)
        elif piece.made_of == "solid":
            want = Want(piece.id, 1, *size, parts=(piece.id,), made=made)
            groups.add("board", piece.species, piece.thickness, want)


def _sheet_species(groups: _Groups, thick: Length) -> str:
    """A skin is of the wood of the job's sheet panels of its thickness."""
    return next((species for form, species, at in groups.found if form == "sheet" and at == thick), "")


def _leaf_groups(
    index: JobIndex, fronts: FrontsPlan, making: MakingPlan, facing: FacingPlan, veneer: VeneerPlan
) -> Iterator[Group]:
    """Leaves of one wood: those of show faces, skins and strips are seen, those of backs are not."""
    if not veneer.leaves:
        return
    slice_ = veneer.billets[0].slice if veneer.billets else assumed(index.unit, "slice")
    species = _leaf_species(index, making)
    edge = entered(index.unit, index.allowances.leaf_edge, "leaf edge").length
    wide = veneer.usable_width.length + edge * 2
    panels = [p for m in making.fronts.values() for p in m.panels if p.leaf_length is not None]
    lots = {_lot(index, fronts, p.front) for p in panels}
    lot = lots.pop() if len(lots) == 1 else "the job" if lots else ""
    sawn = _sawn(panels, facing, veneer)
    wants: list[Want] = []
    for use, long, count in _by_length(veneer):
        names = leaf_names(index, use, long)
        if use == "panels":
            mine = [p for p in panels if p.leaf_length and p.leaf_length.length == long]
            wants += _panel_leaves(names, mine, wide, lot, sawn)
        else:
            made = min(count, sawn.get((use, long), 0))
            wants.append(Want(names[0], count, long, wide, lot=lot, made=made))
    name = " ".join(word for word in ("leaf", species, exact_text(slice_.length, index.unit)) if word)
    yield Group(name, "leaf", species, slice_, "billets", kerf_of(index), tuple(wants))


def leaf_names(index: JobIndex, use: str, long: Length) -> tuple[str, ...]:
    """What leaves of one use and length are wanted as: those of panels half for show faces and half for backs."""
    name = exact_text(long, index.unit)
    return (f"show faces {name}", f"backs {name}") if use == "panels" else (f"{use} {name}",)


def _by_length(veneer: VeneerPlan) -> Iterator[tuple[str, Length, int]]:
    for leaf in veneer.leaves:
        yield leaf.use, leaf.length.length, leaf.count


def _panel_leaves(
    names: Sequence[str], panels: Sequence[PanelPart], wide: Length, lot: str, sawn: Mapping[tuple[str, Length], int]
) -> Iterator[Want]:
    """Of a panel's two faces one is a back: it may come from another batch."""
    each: dict[str, int] = {}
    for panel in panels:
        each[panel.front] = each.get(panel.front, 0) + (panel.leaves_across or 0)
    long, count = panels[0].leaf_length, sum(each.values())
    if long is None:
        return
    made = [min(count, sawn.get((side, long.length), 0)) for side in ("show", "back")]
    yield Want(names[0], count, long.length, wide, lot=lot, made=made[0], each=each)
    yield Want(names[1], count, long.length, wide, seen="hidden", made=made[1], each=each)


def _sawn(panels: Sequence[PanelPart], facing: FacingPlan, veneer: VeneerPlan) -> dict[tuple[str, Length], int]:
    """Leaves that are sawn and have their place, by side (or use of strips) and length."""
    there = {one.id for plan in veneer.plans for one in plan.slices if one.leaf is not None}
    lengths = {p.part: p.leaf_length.length for p in panels if p.leaf_length is not None}
    lengths |= {strip.id: strip.rough_length.length for strip in facing.strips if strip.kind in WIDE}
    uses = {use: long for use, long, _ in _by_length(veneer)}
    found: dict[tuple[str, Length], int] = {}
    for seat in veneer.seats:
        side = seat.of.rpartition(" ")[0] if seat.side == "strips" else seat.side
        long = uses.get(side) if seat.side == "strips" else lengths.get(seat.of)
        if seat.leaf in there and seat.fits and long is not None:
            found[side, long] = found.get((side, long), 0) + 1
    return found


def _leaf_species(index: JobIndex, making: MakingPlan) -> str:
    parts = (p.species for m in making.fronts.values() for p in m.parts if p.material == "veneered")
    return next((s for s in parts if s), None) or first_veneered(index).species or ""


def _strip_group(index: JobIndex, facing: FacingPlan, veneer: VeneerPlan, cut: Mapping[str, int]) -> Iterator[Group]:
    """Strips as they are laid on leaves (F44); the leaves themselves are counted among the leaves."""
    strips = [s for s in facing.strips if s.kind not in WIDE]
    if strips and veneer.leaves:
        slice_ = veneer.billets[0].slice if veneer.billets else assumed(index.unit, "slice")
        wants = tuple(_strip(s, cut) for s in strips)
        species = first_veneered(index).species or ""
        yield Group("strips", "leaf", species, slice_, "sheets", kerf_of(index), wants, on_leaves=True)


def _strip(strip: Strip, cut: Mapping[str, int]) -> Want:
    made = _made(cut, strip.id, 1)
    return Want(strip.id, 1, strip.rough_length.length, strip.rough_width.length, parts=(strip.id,), made=made)

"""What the job takes by form, species and size (F47)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from frontwright.core.assumed import assumed, entered
from frontwright.core.bill.result import BillLine, BillPlan
from frontwright.core.facing.result import FacingPlan, Strip
from frontwright.core.figures import Figure, plus, total
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.old_hinges import new_hinges
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import INCH, Length, Unit, in_units, up
from frontwright.core.making.result import MakingPlan, Part
from frontwright.core.stock.purchase import area, content_of
from frontwright.core.stock.wants import leaf_names
from frontwright.core.veneer.result import VeneerPlan

Size = tuple[Figure, Figure]
NOT_CHOSEN = "not chosen yet"  # a hinge of no type
_CONTENT: dict[Unit, str] = {"in": "board feet", "mm": "m3"}
_AREA: dict[Unit, str] = {"in": "square feet", "mm": "m2"}


def bill(
    index: JobIndex,
    fronts: FrontsPlan,
    making: MakingPlan,
    hardware: HardwarePlan,
    facing: FacingPlan,
    veneer: VeneerPlan,
) -> BillPlan:
    """Solid wood by thickness and width, cores and sheet by area, leaves, hinges and pulls by count (F47)."""
    lines = (
        *_solid(index, fronts, making),
        *_areas(index, making),
        *_covering(index, facing),
        *_leaves(index, making, veneer),
        *_hardware(index, hardware),
    )
    return BillPlan(lines)


def rough_thickness(index: JobIndex, finished: Figure) -> Figure:
    """The thickness that is bought: planing added, in an inch job counted in quarters from one inch up."""
    bare = total(
        "rough thickness", plus(finished), plus(entered(index.unit, index.allowances.plane_rough, "plane rough"))
    )
    if index.unit == "mm":
        return bare
    value = max(INCH, up(bare.value, Length.inch("1/4")))
    return Figure("rough thickness", value, "derived", "", (plus(bare),), "rounded up to a quarter, one inch at least")


@dataclass(slots=True)
class _Group:
    thickness: Figure
    width: Figure
    rough: Figure
    pieces: list[tuple[str, int, Size, Size]] = field(default_factory=list)


def _solid(index: JobIndex, fronts: FrontsPlan, making: MakingPlan) -> Iterator[BillLine]:
    groups: dict[tuple[object, ...], _Group] = {}
    for part in making.parts:
        if part.material == "solid" and part.rough_length is not None and part.rough_width is not None:
            group = _group(index, groups, part.species, part.thickness, part.rough_width)
            group.pieces.append((part.id, part.qty, (part.length, part.width), (part.rough_length, part.rough_width)))
    for row in {id(r): r for r in fronts.row_of.values()}.values():
        slabs = [making.fronts[f] for f in row.fronts if f in making.fronts]
        if not slabs or not slabs[0].slab:
            continue
        part = slabs[0].parts[0]
        blank = (row.blank_length, row.blank_width)
        group = _group(index, groups, part.species, part.thickness, row.blank_width)
        group.pieces.append((row.row.id, 1, blank, blank))
    for (species, *_), group in sorted(groups.items(), key=_by_size):
        yield _solid_line(index, str(species or ""), group)


def _group(
    index: JobIndex, groups: dict[tuple[object, ...], _Group], species: str | None, thickness: Figure, width: Figure
) -> _Group:
    key = (species or "", thickness.value, width.value)
    if key not in groups:
        groups[key] = _Group(thickness, width, rough_thickness(index, thickness))
    return groups[key]


def _by_size(item: tuple[tuple[object, ...], _Group]) -> tuple[object, ...]:
    (species, *_), group = item
    return str(species), -in_units(group.thickness.value), -in_units(group.width.value)


def _solid_line(index: JobIndex, species: str, group: _Group) -> BillLine:
    finished, parts = Fraction(0), dict[str, Fraction | int]()
    for name, qty, (long, wide), over in group.pieces:
        finished += qty * content_of(index, "board", long.length, wide.length, group.thickness.length)
        parts[name] = qty * content_of(index, "board", over[0].length, over[1].length, group.rough.length)
    return BillLine(
        form="board",
        species=species,
        thickness=group.thickness,
        width=group.width,
        qty=sum(qty for _, qty, _, _ in group.pieces),
        finished=finished,
        rough=Fraction(sum(parts.values())),
        measure=_CONTENT[index.unit],
        length=max((over[0] for *_, over in group.pieces), key=lambda f: in_units(f.value)),
        parts=parts,
    )


def _areas(index: JobIndex, making: MakingPlan) -> Iterator[BillLine]:
    """Cores and bought sheet by thickness."""
    groups: dict[tuple[str, str, object], list[tuple[Part, Figure]]] = {}
    for made in making.fronts.values():
        for part in made.parts:
            if part.kind != "panel" or part.material == "solid":
                continue
            thick = made.build.panel.core if part.material == "veneered" else part.thickness
            form = {"veneered": "core", "sheet": "sheet", "glass": "glass"}[part.material]
            species = part.species or "" if form == "sheet" else ""
            groups.setdefault((form, species, thick.value), []).append((part, thick))
    for (form, species, _), parts in groups.items():
        yield _area_line(index, form, species, parts)


def _area_line(index: JobIndex, form: str, species: str, parts: list[tuple[Part, Figure]]) -> BillLine:
    finished = sum((p.qty * area(index, p.width.length, p.length.length) for p, _ in parts), start=Fraction(0))
    rough = {p.id: p.qty * area(index, _rough(p)[1].length, _rough(p)[0].length) for p, _ in parts}
    longest = max((_rough(p)[0] for p, _ in parts), key=lambda f: in_units(f.value))
    qty, whole = sum(p.qty for p, _ in parts), sum(rough.values(), start=Fraction(0))
    return BillLine(form, species, parts[0][1], None, qty, finished, whole, _AREA[index.unit], longest, rough)


def _rough(part: Part) -> Size:
    return part.rough_length or part.length, part.rough_width or part.width


def _covering(index: JobIndex, facing: FacingPlan) -> Iterator[BillLine]:
    """Skins, strips and trim that are bought as sheet or milled from boards; sawn ones are among the leaves."""
    groups: dict[tuple[object, ...], list[Strip]] = {}
    for one in facing.pieces:
        if one.made_of != "sawn":
            form = "board" if one.made_of == "solid" else "skin" if one.kind == "skin" else "sheet"
            groups.setdefault((form, one.species, one.thickness.value, one.rough_width.value), []).append(one)
    for (kind, wood, *_), own in groups.items():
        yield _covering_line(index, str(kind), str(wood), own)


def _covering_line(index: JobIndex, form: str, species: str, own: list[Strip]) -> BillLine:
    thick, solid = own[0].thickness, form == "board"
    rough = rough_thickness(index, thick).length

    def amount(long: Figure, wide: Figure, deep: Length) -> Fraction:
        return (
            content_of(index, "board", long.length, wide.length, deep)
            if solid
            else area(index, wide.length, long.length)
        )

    parts: dict[str, Fraction | int] = {one.id: amount(one.rough_length, one.rough_width, rough) for one in own}
    finished = sum((amount(one.length, one.width, thick.length) for one in own), Fraction(0))
    longest = max((one.rough_length for one in own), key=lambda f: in_units(f.value))
    measure = (_CONTENT if solid else _AREA)[index.unit]
    whole = Fraction(sum(parts.values()))
    return BillLine(form, species, thick, own[0].rough_width, len(own), finished, whole, measure, longest, parts)


def _leaves(index: JobIndex, making: MakingPlan, veneer: VeneerPlan) -> Iterator[BillLine]:
    species = next((p.species or "" for p in making.parts if p.material == "veneered"), "")
    for leaf in veneer.leaves:
        want = leaf.count + leaf.spares
        thick = veneer.billets[0].slice if veneer.billets else assumed(index.unit, "slice")
        names = leaf_names(index, leaf.use, leaf.length.length)
        parts = dict.fromkeys(names, Fraction(leaf.count, len(names)))
        yield BillLine("leaf", species, thick, veneer.usable_width, want, None, None, "leaves", leaf.length, parts)


def _hardware(index: JobIndex, hardware: HardwarePlan) -> Iterator[BillLine]:
    hinges = Counter[str]()
    for hinge in hardware.hinges.values():
        hinges[hinge.name or NOT_CHOSEN] += new_hinges(index, hinge)
    for name, count in (+hinges).items():
        yield BillLine("hinge", name, None, None, count, None, None, "pieces", None)
    if pulls := sum(hardware.pulls.values()):
        yield BillLine("pull", "", None, None, pulls, None, None, "pieces", None)

"""The bill chapter, whole: what the job takes by form, species and size, and what the pieces at hand give."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from frontwright.core.assumed import assumed, entered
from frontwright.core.bill.result import BillLine, BillPlan
from frontwright.core.figures import Figure, plus, total
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import Allowances, Piece
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import INCH, UNITS_IN, Length, Typed, in_units, up
from frontwright.core.making.result import MakingPlan, Part
from frontwright.core.skins import skin_thickness
from frontwright.core.survey.result import SurveyPlan
from frontwright.core.veneer.result import BilletYield, VeneerPlan

Size = tuple[Figure, Figure]


def bill(
    index: JobIndex,
    survey: SurveyPlan,
    fronts: FrontsPlan,
    making: MakingPlan,
    hardware: HardwarePlan,
    veneer: VeneerPlan,
) -> BillPlan:
    """Solid wood by thickness and width, cores and sheet by area, leaves, hinges and pulls by count (F47)."""
    hand = _AtHand(index, list(index.job.pieces.values()))
    lines = [
        *_solid(index, fronts, making),
        *_areas(index, making),
        *_bought_skins(index, survey),
        *_leaves(index, making, veneer),
        *_hardware(hardware),
    ]
    order = sorted(range(len(lines)), key=lambda at: -_long(lines[at]))
    filled = {at: hand.fill(lines[at], veneer) for at in order}
    return BillPlan(tuple(filled[at] for at in range(len(lines))))


def _long(line: BillLine) -> Fraction | int:
    return in_units(line.length.value) if line.length is not None else 0


def content(index: JobIndex, thickness: Length, width: Length, length: Length) -> Fraction:
    """F47: board feet (an inch job) or cubic metres."""
    cube = Fraction(thickness.units) * width.units * length.units
    if index.unit == "in":
        return cube / (UNITS_IN["in"] ** 3 * 144)
    return cube / (UNITS_IN["mm"] * 1000) ** 3


def area(index: JobIndex, width: Length, length: Length) -> Fraction:
    """Square feet (an inch job) or square metres."""
    side = UNITS_IN["in"] * 12 if index.unit == "in" else UNITS_IN["mm"] * 1000
    return Fraction(width.units) * length.units / side**2


def rough_thickness(index: JobIndex, finished: Figure) -> Figure:
    """The thickness that is bought: planing added, in an inch job counted in quarters from one inch up."""
    allowances = index.job.allowances.get("allowances") or Allowances()
    bare = total("rough thickness", plus(finished), plus(entered(index.unit, allowances.plane_rough, "plane rough")))
    if index.unit == "mm":
        return bare
    value = max(INCH, up(bare.value, Length.inch("1/4")))
    return Figure("rough thickness", value, "derived", "", (plus(bare),), "rounded up to a quarter, one inch at least")


@dataclass(slots=True)
class _Group:
    thickness: Figure
    width: Figure
    rough: Figure
    pieces: list[tuple[int, Size, Size]] = field(default_factory=list)


def _solid(index: JobIndex, fronts: FrontsPlan, making: MakingPlan) -> Iterator[BillLine]:
    groups: dict[tuple[object, ...], _Group] = {}
    for part in making.parts:
        if part.material == "solid" and part.rough_length is not None and part.rough_width is not None:
            group = _group(index, groups, part.species, part.thickness, part.rough_width)
            group.pieces.append((part.qty, (part.length, part.width), (part.rough_length, part.rough_width)))
    for row in {id(r): r for r in fronts.row_of.values()}.values():
        slabs = [making.fronts[f] for f in row.fronts if f in making.fronts]
        if not slabs or not slabs[0].slab:
            continue
        part = slabs[0].parts[0]
        blank = (row.blank_length, row.blank_width)
        _group(index, groups, part.species, part.thickness, row.blank_width).pieces.append((1, blank, blank))
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
    finished = rough = Fraction(0)
    longest = group.pieces[0][2][0]
    for qty, size, over in group.pieces:
        finished += qty * content(index, group.thickness.length, size[1].length, size[0].length)
        rough += qty * content(index, group.rough.length, over[1].length, over[0].length)
        longest = over[0] if in_units(over[0].value) > in_units(longest.value) else longest
    return BillLine(
        form="board",
        species=species,
        thickness=group.thickness,
        width=group.width,
        qty=sum(qty for qty, _, _ in group.pieces),
        finished=finished,
        rough=rough,
        measure="board feet" if index.unit == "in" else "m3",
        length=longest,
        at_hand=0,
        lacks=rough,
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
    rough = sum((p.qty * area(index, _rough(p)[1].length, _rough(p)[0].length) for p, _ in parts), start=Fraction(0))
    longest = max((_rough(p)[0] for p, _ in parts), key=lambda f: in_units(f.value))
    qty = sum(p.qty for p, _ in parts)
    measure = "square feet" if index.unit == "in" else "m2"
    return BillLine(form, species, parts[0][1], None, qty, finished, rough, measure, longest, 0, rough)


def _rough(part: Part) -> Size:
    return part.rough_length or part.length, part.rough_width or part.width


def _bought_skins(index: JobIndex, survey: SurveyPlan) -> Iterator[BillLine]:
    for run in survey.runs:
        for side, end in run.ends.items():
            thick = skin_thickness(index, run.id, side)
            if end.skin != "bought" or thick is None or run.height is None:
                continue
            allowances = index.job.allowances.get("allowances") or Allowances()
            key = "end depth wall" if run.run.stands == "wall" else "end depth base"
            depth = entered(index.unit, end.depth_seen, key)
            wide = total(
                "skin, rough width", plus(depth), plus(entered(index.unit, allowances.skin_scribe, "skin scribe"))
            )
            long = total(
                "skin, rough length",
                plus(run.height),
                plus(entered(index.unit, allowances.strip_length, "strip length")),
            )
            measure = "square feet" if index.unit == "in" else "m2"
            finished, rough = area(index, depth.length, run.height.length), area(index, wide.length, long.length)
            yield BillLine("skin", "", thick, wide, 1, finished, rough, measure, long, 0, rough)


def _leaves(index: JobIndex, making: MakingPlan, veneer: VeneerPlan) -> Iterator[BillLine]:
    species = next((p.species or "" for p in making.parts if p.material == "veneered"), "")
    for leaf in veneer.leaves:
        want = leaf.count + leaf.spares
        thick = veneer.billets[0].slice if veneer.billets else assumed(index.unit, "slice")
        yield BillLine("leaf", species, thick, veneer.usable_width, want, None, None, "leaves", leaf.length, 0, want)


def _hardware(hardware: HardwarePlan) -> Iterator[BillLine]:
    hinges: dict[str, int] = {}
    for hinge in hardware.hinges.values():
        hinges[hinge.name or "not chosen yet"] = hinges.get(hinge.name or "not chosen yet", 0) + hinge.count
    for name, count in hinges.items():
        yield BillLine("hinge", name, None, None, count, None, None, "pieces", None, 0, count)
    if pulls := sum(hardware.pulls.values()):
        yield BillLine("pull", "", None, None, pulls, None, None, "pieces", None, 0, pulls)


class _AtHand:
    """Pieces at hand, used up line by line, the longest parts first."""

    def __init__(self, index: JobIndex, pieces: list[Piece]) -> None:
        self._index = index
        self._pieces = pieces
        self._left: dict[str, Fraction] = {}
        self._lengths = {p.id: [_units(p.length)] * p.count for p in pieces if p.form == "billet"}
        self._counts = {p.id: p.count for p in pieces if p.form == "leaf"}

    def fill(self, line: BillLine, veneer: VeneerPlan) -> BillLine:
        """The line with what is at hand of it and what it lacks."""
        if line.form == "leaf":
            found: Fraction | int = self._leaves(line, veneer)
            return replace(line, at_hand=found, lacks=max(0, line.qty - found))
        if line.rough is None:
            return line
        form = {"board": "board", "core": "core", "sheet": "sheet", "skin": "sheet"}.get(line.form, line.form)
        have = self._content(line, form, line.rough)
        return replace(line, at_hand=have, lacks=max(Fraction(0), line.rough - have))

    def _content(self, line: BillLine, form: str, wanted: Fraction) -> Fraction:
        """Content of fitting pieces not yet counted for another line, no more than is wanted."""
        have = Fraction(0)
        for piece in self._pieces:
            if have >= wanted or not _fits(piece, line, form, self._index):
                continue
            left = self._left.setdefault(piece.id, self._whole(piece, form))
            taken = min(left, wanted - have)
            self._left[piece.id] = left - taken
            have += taken
        return have

    def _whole(self, piece: Piece, form: str) -> Fraction:
        sizes = Length(_units(piece.width)), Length(_units(piece.length))
        if form == "board":
            return piece.count * content(self._index, Length(_units(piece.thickness)), *sizes)
        return piece.count * area(self._index, *sizes)

    def _leaves(self, line: BillLine, veneer: VeneerPlan) -> int:
        """Leaves lying there, and those that billets at hand would give on the machine chosen."""
        long = in_units(line.length.value) if line.length is not None else 0
        found = 0
        for piece in self._pieces:
            if piece.form == "leaf" and _units(piece.length) >= long and _species_fits(piece, line, self._index):
                taken = min(self._counts[piece.id], line.qty - found)
                self._counts[piece.id] -= taken
                found += taken
        gives = _billet_for(veneer, long)
        for piece in self._pieces:
            if gives is None or piece.form != "billet" or not _species_fits(piece, line, self._index):
                continue
            found += self._sawn(piece, gives, line.qty - found)
        return found

    def _sawn(self, piece: Piece, gives: BilletYield, wanted: int) -> int:
        allowances = self._index.job.allowances.get("allowances") or Allowances()
        kerf = entered(self._index.unit, allowances.rip_kerf, "kerf")
        need = in_units(gives.length.value) + in_units(kerf.value)
        found = 0
        for at, left in enumerate(self._lengths[piece.id]):
            while found < wanted and gives.leaves and left >= in_units(gives.length.value):
                left = max(0, left - int(need))
                found += gives.leaves
            self._lengths[piece.id][at] = left
        return min(found, max(0, wanted))


def _billet_for(veneer: VeneerPlan, long: Fraction | int) -> BilletYield | None:
    """The shortest billet of the machine planned with that gives leaves this long."""
    machine = veneer.billets[0].machine if veneer.billets else ""
    fitting = [b for b in veneer.billets if b.machine == machine and in_units(b.length.value) >= long]
    return min(fitting, key=lambda b: in_units(b.length.value), default=None)


def _fits(piece: Piece, line: BillLine, form: str, index: JobIndex) -> bool:
    if piece.form != form or not _species_fits(piece, line, index):
        return False
    wide = in_units(line.width.value) if line.width is not None else 0
    long = in_units(line.length.value) if line.length is not None and form != "board" else 0
    thick = in_units(line.thickness.value) if line.thickness is not None else 0
    same = _units(piece.thickness) >= thick if form == "board" else _units(piece.thickness) == thick
    return same and max(_units(piece.width), _units(piece.length)) >= max(long, wide) and _units(piece.width) >= wide


def _species_fits(piece: Piece, line: BillLine, index: JobIndex) -> bool:
    """A piece of no named species, or of the line's (by id or name), serves."""
    if not piece.species or not line.species or line.form == "core":
        return True
    row = index.job.species.get(line.species)
    names = {line.species.casefold(), row.name.casefold() if row else ""}
    return piece.species.casefold() in names


def _units(typed: Typed | None) -> int:
    return typed.value.units if typed is not None and typed.value is not None else 0

"""The bill chapter, whole: what the job takes by form, species and size, and what the pieces at hand give."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from frontwright.core.assumed import assumed, assumed_moisture, entered
from frontwright.core.bill.result import BillLine, BillPlan
from frontwright.core.figures import Figure, plus, total
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import Piece
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import INCH, UNITS_IN, Length, Typed, Unit, in_units, up
from frontwright.core.making.result import MakingPlan, Part
from frontwright.core.skins import depth_seen, rough_skin, skin_thickness
from frontwright.core.survey.result import SurveyPlan
from frontwright.core.veneer.result import BilletYield, VeneerPlan

Size = tuple[Figure, Figure]
_CONTENT: dict[Unit, str] = {"in": "board feet", "mm": "m3"}
_AREA: dict[Unit, str] = {"in": "square feet", "mm": "m2"}


def bill(
    index: JobIndex,
    survey: SurveyPlan,
    fronts: FrontsPlan,
    making: MakingPlan,
    hardware: HardwarePlan,
    veneer: VeneerPlan,
) -> BillPlan:
    """Solid wood by thickness and width, cores and sheet by area, leaves, hinges and pulls by count (F47)."""
    hand = _AtHand(index, [piece for piece in index.job.pieces.values() if _serves(index, piece)])
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
    one = UNITS_IN["in"] ** 3 * 144 if index.unit == "in" else (UNITS_IN["mm"] * 1000) ** 3
    return Fraction(thickness.units * width.units * length.units, one)


def area(index: JobIndex, width: Length, length: Length) -> Fraction:
    """Square feet (an inch job) or square metres."""
    side = UNITS_IN["in"] * 12 if index.unit == "in" else UNITS_IN["mm"] * 1000
    return Fraction(width.units * length.units, side**2)


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
    parts: list[tuple[int, Fraction]] = []
    for qty, size, over in group.pieces:
        finished += qty * content(index, group.thickness.length, size[1].length, size[0].length)
        each = qty * content(index, group.rough.length, over[1].length, over[0].length)
        rough += each
        parts.append((over[0].length.units, each))
        longest = over[0] if in_units(over[0].value) > in_units(longest.value) else longest
    return BillLine(
        form="board",
        species=species,
        thickness=group.thickness,
        width=group.width,
        qty=sum(qty for qty, _, _ in group.pieces),
        finished=finished,
        rough=rough,
        measure=_CONTENT[index.unit],
        length=longest,
        at_hand=0,
        lacks=rough,
        parts=tuple(parts),
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
    return BillLine(form, species, parts[0][1], None, qty, finished, rough, _AREA[index.unit], longest, 0, rough)


def _rough(part: Part) -> Size:
    return part.rough_length or part.length, part.rough_width or part.width


def _bought_skins(index: JobIndex, survey: SurveyPlan) -> Iterator[BillLine]:
    for run in survey.runs:
        for side, end in run.ends.items():
            thick = skin_thickness(index, run.id, side)
            if end.skin != "bought" or thick is None or run.height is None:
                continue
            depth = depth_seen(index, run.run, end)
            long, wide = rough_skin(index, side, run.height, depth)
            finished, rough = area(index, depth.length, run.height.length), area(index, wide.length, long.length)
            yield BillLine("skin", "", thick, wide, 1, finished, rough, _AREA[index.unit], long, 0, rough)


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
        self._over: list[tuple[Piece, int, int]] = [
            (p, _units(p.length), max(0, p.count)) for p in pieces if p.form == "leaf"
        ]

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
        """Content of fitting pieces not yet counted for another line, no more than is wanted: the short pieces first,
        each for the parts that it is long enough for."""
        have = Fraction(0)
        for piece in sorted(self._pieces, key=_usable_length):
            if have >= wanted or not _fits(piece, line, form, self._index):
                continue
            left = self._left.setdefault(piece.id, self._whole(piece, form))
            long = _usable_length(piece)
            most = sum((each for part, each in line.parts if part <= long), Fraction(0)) if line.parts else wanted
            taken = max(Fraction(0), min(left, most - have))
            self._left[piece.id] = left - taken
            have += taken
        return have

    def _whole(self, piece: Piece, form: str) -> Fraction:
        sizes = Length(_units(piece.width)), Length(_units(piece.length))
        if form == "board":
            return max(0, piece.count) * content(self._index, Length(_units(piece.thickness)), *sizes)
        return max(0, piece.count) * area(self._index, *sizes)

    def _leaves(self, line: BillLine, veneer: VeneerPlan) -> int:
        """Leaves lying there, and those that billets at hand would give on the machine chosen."""
        long = int(in_units(line.length.value)) if line.length is not None else 0
        found = self._lying(line, long, line.qty)
        gives = _billet_for(veneer, long)
        for piece in self._pieces:
            if gives is not None and piece.form == "billet" and _species_fits(piece, line, self._index):
                self._saw(piece, gives, line.qty - found)
                found += self._lying(line, long, line.qty - found)
        return found

    def _lying(self, line: BillLine, long: int, wanted: int) -> int:
        """Leaves that lie there, or were left over when a longer use was sawn for."""
        found = 0
        for at, (piece, length, count) in enumerate(self._over):
            if length >= long and _species_fits(piece, line, self._index):
                taken = min(count, wanted - found)
                self._over[at] = piece, length, count - taken
                found += taken
        return found

    def _saw(self, piece: Piece, gives: BilletYield, wanted: int) -> None:
        """Saw so many billets of these as give the leaves that are wanted."""
        long = int(in_units(gives.length.value))
        need = long + int(in_units(entered(self._index.unit, self._index.allowances.rip_kerf, "kerf").value))
        for at, left in enumerate(self._lengths[piece.id]):
            while wanted > 0 and gives.leaves and left >= long:
                left = max(0, left - need)
                wanted -= gives.leaves
                self._over.append((piece, long, gives.leaves))
            self._lengths[piece.id][at] = left
            if wanted <= 0:
                break


def _serves(index: JobIndex, piece: Piece) -> bool:
    """Whether a piece is still there, and dry enough."""
    told = index.limits.moisture_most
    limit = told.value if told is not None and told.value is not None else assumed_moisture("moisture most").units
    moisture = piece.moisture.value if piece.moisture is not None else None
    return piece.state in ("free", "in work") and (moisture is None or moisture <= limit)


def _usable_length(piece: Piece) -> int:
    return _units(piece.length) - max(0, _units(piece.end_trim))


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
    if form == "board":
        thick += _planing(index, piece)
    same = _units(piece.thickness) >= thick if form == "board" else _units(piece.thickness) == thick
    return same and max(_units(piece.width), _units(piece.length)) >= max(long, wide) and _units(piece.width) >= wide


def _planing(index: JobIndex, piece: Piece) -> Fraction | int:
    """What planing takes off a board, rough or planed (F49)."""
    if piece.planed:
        return in_units(assumed(index.unit, "plane planed").value)
    return in_units(entered(index.unit, index.allowances.plane_rough, "plane rough").value)


def _species_fits(piece: Piece, line: BillLine, index: JobIndex) -> bool:
    """A piece of no named species, or of the line's (by id or name), serves."""
    if not piece.species or not line.species or line.form == "core":
        return True
    row = index.job.species.get(line.species)
    names = {line.species.casefold(), row.name.casefold() if row else ""}
    return piece.species.casefold() in names


def _units(typed: Typed | None) -> int:
    return typed.value.units if typed is not None and typed.value is not None else 0

"""Toe kicks, valances, light rails, tops, aprons, fillers: lengths, mitres, joints, movement (F45, F46)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from math import ceil, comb

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.facing.result import Place, Strip, TrimPlan
from frontwright.core.facing.sizes import ENDS, longer, piece, run_length, skins_of, stands_open
from frontwright.core.figures import Figure, Term, minus, most, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import End, Trim
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import ZERO, half_up, in_units
from frontwright.core.skins import depth_seen, strip_thickness
from frontwright.core.survey.result import RunPlan
from frontwright.core.wood import coefficient, moisture, movement

MOVES = ("top panel", "apron")
TURNS = ("toe kick", "valance", "light rail")
_MOST_JOINTS = 12
_MOST_TRIED = 5_000  # sets of fronts under which a trim may be pieced; a kitchen has a few dozen
WIDTHS = {
    "toe kick": "kick height",
    "valance": "valance width",
    "light rail": "light rail width",
    "apron": "apron width",
}


@dataclass(frozen=True, slots=True)
class Work:
    """A trim in the making: its run with its skins, and the fronts under which it may be pieced."""

    index: JobIndex
    run: RunPlan
    row: Trim
    skins: Mapping[str, Figure]
    fronts: tuple[FrontPlan, ...]

    def size(self, typed_name: str, key: str, name: str) -> Figure:
        return entered(self.index.unit, getattr(self.row, typed_name), key, name)

    def own(self, typed_name: str, name: str) -> Figure:
        """A length that is nothing where nobody said."""
        return measured(getattr(self.row, typed_name), name) or Figure(name, ZERO, "chosen")


def trims_of(index: JobIndex, run: RunPlan, fronts: Mapping[str, FrontPlan]) -> Iterator[TrimPlan]:
    """Every trim of a run in its order, as far as the length of the run is known."""
    rows = [row for row in index.job.trims.values() if row.run == run.id]
    own = tuple(front for front in fronts.values() if front.run == run.id and front.placed)
    skins = skins_of(index, run)
    whole = run_length(run, skins)
    for row in sorted(rows, key=lambda r: (r.place, natural(r.id))):
        work = Work(index, run, row, skins, own)
        if row.kind == "filler":
            yield from _filler(work)
        elif whole is not None:
            yield _along(work, whole)


def turned_back(work: Work) -> tuple[str, ...]:
    """The ends at which a trim turns back: as chosen, else those that stand open."""
    if work.row.kind not in TURNS:
        return ()
    told = {"left": work.row.left, "right": work.row.right}
    return tuple(side for side in ENDS if (told[side] or ("return" if stands_open(work.run, side) else "")) == "return")


def _along(work: Work, whole: Figure) -> TrimPlan:
    """A trim along the run, and its returns."""
    row, mitred = work.row, turned_back(work)
    shift, factor = _shift(work)
    turned = mitred if row.kind in TURNS else tuple(s for s in ENDS if stands_open(work.run, s))
    corners = [term for side in ENDS for term in _into_corner(work, side)]
    length = total(
        f"{row.kind} of {work.run.id}, long point", plus(whole), *(Term(shift, factor) for _ in turned), *corners
    )
    width, thick = _width(work), _thickness(work)
    sides = {side: _back(work, side) for side in mitred}
    altogether = total(f"{row.kind} of {work.run.id}, returns with it", plus(length), *map(plus, sides.values()))
    joints = tuple(_joints(work, length))
    pieces = (*_pieces(work, length, joints, (width, thick)), *_returns(work, sides, (width, thick)))
    swell, shrink = _moves(work, width) if row.kind in MOVES and row.made_of == "solid" else (None, None)
    return TrimPlan(row, work.run.id, length, width, thick, altogether, pieces, joints, mitred, swell, shrink)


def _shift(work: Work) -> tuple[Figure, int]:
    """F45: a recessed kick loses its recess at each open end; what projects gets longer by it at each."""
    if work.row.kind == "toe kick":
        return work.size("recess", "kick recess", "recess of the toe kick"), -1
    return work.own("projects", f"{work.row.kind} projects"), 1


def _into_corner(work: Work, side: str) -> tuple[Term, ...]:
    """An inside corner: a recessed kick goes on under the other leg, to that one's kick; the one that is put on first
    goes on behind the other's end too, and what of its leg is hidden it does not need (common practice, no source)."""
    if work.row.kind != "toe kick":
        return ()
    index = work.index
    for corner in index.job.corners.values():
        own, other = (corner.left, corner.right) if side == "right" else (corner.right, corner.left)
        kick = next((t for t in index.job.trims.values() if t.run == other and t.kind == "toe kick"), None)
        if own != work.run.id or kick is None:
            continue
        met = Work(index, work.run, kick, {}, ())
        further = plus(met.size("recess", "kick recess", f"recess of the toe kick of {other}"))
        if own != (corner.right if corner.runs_on == "right" else corner.left):
            return (further,)
        hidden = measured(corner.hidden, "hidden behind the other leg") if corner.runs_on else None
        return (further, plus(_thickness(met)), *([minus(hidden)] if hidden is not None else []))
    return ()


def _width(work: Work) -> Figure:
    """Across the grain. A toe kick less its clearance or plus its scribe, never both; a top is as deep as the run."""
    row, index = work.row, work.index
    if row.kind in ("top panel", "underside"):
        deep = measured(row.width, f"depth of the {row.kind}")
        return deep or total(f"depth of the {row.kind}", plus(_deep(work)), plus(work.own("projects", "it projects")))
    named = f"{'height' if row.kind != 'filler' else 'width'} of the {row.kind}"
    high = entered(index.unit, row.width, WIDTHS[row.kind], named)
    if row.kind != "toe kick":
        return high
    if row.floor == "scribed":
        scribe = work.size("allowance", "kick scribe", "scribe at the floor")
        return total("height of the toe kick, to be scribed", plus(high), plus(scribe))
    clear = work.size("allowance", "kick clear", "clear of the floor")
    return total("height of the toe kick, clear of the floor", plus(high), minus(clear))


def _deep(work: Work) -> Figure:
    """How deep the run is: the deepest end that was told, else the usual depth of such a box."""
    ends = list(work.run.ends.values()) or [End(f"{work.run.id} left", work.run.id, "left")]
    read = [depth_seen(work.index, work.run.run, end) for end in ends]
    told = [one for one in read if one.source != "assumed"]
    return most(f"depth of {work.run.id}", told or read[:1])


def _back(work: Work, side: str) -> Figure:
    """How far a return runs back, to its long point."""
    end = work.run.ends.get(side) or End(f"{work.run.id} {side}", work.run.id, "left" if side == "left" else "right")
    deep = measured(work.row.back, f"return at the {side}") or depth_seen(work.index, work.run.run, end)
    shift, factor = _shift(work)
    return total(f"{work.row.kind} of {work.run.id}, return at the {side}, long point", plus(deep), Term(shift, factor))


def _thickness(work: Work) -> Figure:
    if work.row.made_of == "sawn" and measured(work.row.thickness, "") is None:
        return strip_thickness(work.index)
    thin = work.row.kind in ("toe kick", "underside") or work.row.made_of == "bought"
    return work.size("thickness", "kick thickness" if thin else "trim thickness", f"thickness of the {work.row.kind}")


def _pieces(
    work: Work, length: Figure, joints: tuple[tuple[Figure, str], ...], size: tuple[Figure, Figure]
) -> Iterator[Strip]:
    """The trim in as many pieces as its joints make, from the left."""
    start = _start(work)
    edges = [start, *(joint for joint, _ in joints), total("right end of the trim", plus(start), plus(length))]
    for at, (a, b) in enumerate(pairwise(edges)):
        own = work.row.id if not joints else f"{work.row.id} {at + 1}"
        long = total(f"{own}, length", plus(b), minus(a)) if joints else length
        low, high = _height(work, size[0])
        place = (a.value, low.value, b.value, high.value) if low is not None and high is not None else None
        yield piece(
            work.index, work.run, work.row.kind, own, _on(work), (long, *size),
            made_of=work.row.made_of, species=work.row.species or "", place=place,
        )  # fmt: skip


def _returns(work: Work, sides: Mapping[str, Figure], size: tuple[Figure, Figure]) -> Iterator[Strip]:
    for side, long in sides.items():
        own = f"{work.row.id} {side} return"
        yield piece(
            work.index, work.run, work.row.kind, own, f"{_on(work)}, back at the {side}", (long, *size),
            made_of=work.row.made_of, species=work.row.species or "",
        )  # fmt: skip


def _on(work: Work) -> str:
    return {"toe kick": "foot", "top panel": "top", "underside": "underside"}.get(work.row.kind, work.row.kind)


def _start(work: Work) -> Figure:
    """Where the trim begins on the tape of the run."""
    turned = turned_back(work) if work.row.kind in TURNS else tuple(s for s in ENDS if stands_open(work.run, s))
    shift, factor = _shift(work)
    terms = [minus(work.skins["left"])] if "left" in work.skins else []
    terms += [Term(term.figure, -term.factor) for term in _into_corner(work, "left")]
    return total("left end of the trim", *terms, *([Term(shift, -factor)] if "left" in turned else []))


def _height(work: Work, width: Figure) -> tuple[Figure | None, Figure | None]:
    """Where it is seen from the front; a top is seen by its edge, an underside not at all."""
    none, height = Figure("bottom edge", ZERO, "chosen"), work.run.height
    if work.row.kind in ("toe kick", "light rail"):
        return total("foot", minus(width)), none
    if work.row.kind == "top panel" and height is not None:
        return height, total("top of the top", plus(height), plus(_thickness(work)))
    if work.row.kind in ("valance", "apron") and height is not None:
        return total("lower edge", plus(height), minus(width)), height
    return None, None


# -- joints


def _joints(work: Work, length: Figure) -> Iterator[tuple[Figure, str]]:
    """F45: joints under the middle of a wide front, as few as the longest piece allows; evenly where none serves."""
    longest, start = _longest(work), _start(work)
    whole, most_long = Fraction(in_units(length.value)), Fraction(in_units(longest.value))
    if most_long <= 0 or whole <= most_long:
        return
    count = ceil(whole / most_long) - 1
    if count > _MOST_JOINTS:
        return  # no piece is so short: what is told of the longest is a slip
    found = _under_fronts(work, start, whole, most_long, count)
    if found:
        yield from ((_middle(front), front.id) for front in found)
        return
    for at in range(1, count + 1):
        place = half_up(Fraction(in_units(start.value)) + whole * at / (count + 1))
        yield (
            Figure(f"joint {at}", place, "derived", "evenly: no front hides it", (Term(start, 0), Term(length, 0))),
            "",
        )


def _under_fronts(
    work: Work, start: Figure, whole: Fraction, longest: Fraction, count: int
) -> tuple[FrontPlan, ...] | None:
    """The fronts under which it is pieced, the narrowest as wide as can be; None where no such set is enough."""
    row = _nearest_row(work)
    if comb(len(row), count) > _MOST_TRIED:
        return None
    begin = Fraction(in_units(start.value))

    def fits(chosen: tuple[FrontPlan, ...]) -> bool:
        edges = [begin, *(Fraction(in_units(_middle(front).value)) for front in chosen), begin + whole]
        return all(b - a <= longest for a, b in pairwise(edges))

    fitting = (chosen for chosen in combinations(row, count) if fits(chosen))
    return max(fitting, key=lambda chosen: min(in_units(front.width.value) for front in chosen), default=None)


def _nearest_row(work: Work) -> list[FrontPlan]:
    """The fronts next to the trim, left to right: the lowest over a toe kick, the highest under a valance."""
    low = work.row.kind in ("toe kick", "light rail", "underside")
    found = [f for f in work.fronts if not any(_hides(other, f, low=low) for other in work.fronts)]
    return sorted(found, key=lambda front: in_units(front.left.value))


def _hides(other: FrontPlan, front: FrontPlan, *, low: bool) -> bool:
    """Whether another front stands between this one and the trim."""
    across = in_units(other.left.value) < in_units(front.right.value) and in_units(front.left.value) < in_units(
        other.right.value
    )
    nearer = (
        in_units(other.bottom.value) < in_units(front.bottom.value)
        if low
        else in_units(other.top.value) > in_units(front.top.value)
    )
    return other is not front and across and nearer


def _middle(front: FrontPlan) -> Figure:
    return share(f"middle of {front.id}", total("its edges", plus(front.left), plus(front.right)), 2)


def _longest(work: Work) -> Figure:
    told = measured(work.row.longest, "longest piece")
    if told is not None:
        return told
    unit = work.index.unit
    if work.row.made_of == "bought":
        return total("longest piece", plus(assumed(unit, "buy sheet length")), minus(assumed(unit, "sheet trim"), 2))
    longer = entered(unit, work.index.allowances.solid_length, "solid length")
    return total(
        "longest piece", plus(assumed(unit, "buy board length")), minus(assumed(unit, "end trim")), minus(longer)
    )


# -- what moves, what fills


def _moves(work: Work, width: Figure) -> tuple[Figure, Figure]:
    """F46: how far a solid top or apron swells and shrinks across its grain from the moisture when made."""
    of, wet = coefficient(work.index, work.row.species, work.row.cut), moisture(work.index, work.run.id)
    name = f"{work.row.kind} of {work.run.id}"
    return (
        movement(f"swelling of the {name}", width, of, wet["made"], wet["high"]),
        movement(f"shrinking of the {name}", width, of, wet["low"], wet["made"]),
    )


def _filler(work: Work) -> Iterator[TrimPlan]:
    """A filler between the run and the wall: as wide as the gap at top and bottom, and what is scribed off (F10)."""
    row, run = work.row, work.run
    side: str = row.side or next((s for s in ENDS if (e := run.ends.get(s)) is not None and e.kind == "wall"), "left")
    end, height = run.ends.get(side), run.height
    if end is None or height is None:
        return
    read = [measured(gap, f"gap at the {side} end, {at}") for gap, at in
            ((end.gap_bottom, "bottom"), (end.gap_middle, "middle"), (end.gap_top, "top"))]  # fmt: skip
    gaps = [gap for gap in read if gap is not None]
    told = measured(row.width, "width of the filler")
    if not gaps and told is None:
        return
    width = told or most(f"filler at the {side} end of {run.id}", gaps, "the widest gap governs")
    room = plus(assumed(work.index.unit, "scribe room"))
    rough = total("filler, rough width", plus(width), room)
    ends = (gaps[0], gaps[-1]) if len(gaps) > 1 and told is None else None
    one = piece(
        work.index, run, "filler", row.id, f"{side} end, to the wall", (height, width, _thickness(work)),
        made_of=row.made_of, species=row.species or "", ends=ends, upright=True,
        rough=(longer(work.index, row.id, height, row.made_of), rough), place=_filler_place(run, side, width, height),
    )  # fmt: skip
    yield TrimPlan(row, run.id, height, width, one.thickness, height, (one,))


def _filler_place(run: RunPlan, side: str, width: Figure, height: Figure) -> Place | None:
    if side == "left":
        return -width.length, ZERO, ZERO, height.length
    if run.overall is None:
        return None
    return run.overall.length, ZERO, run.overall.length + width.length, height.length

"""What is left of a piece after its parts: the largest rectangles, and whether they are kept or burned (F75)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from frontwright.core.assumed import assumed
from frontwright.core.job import KeepRule, Piece, PieceForm
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length
from frontwright.core.stock.candidates import size
from frontwright.core.stock.result import Remainder

type Box = tuple[int, int, int, int]  # left, lower, along, across, in units
type Kept = tuple[tuple[int, int, bool], ...]  # least sizes along and across of rests that are kept, any way round
KEEP_AS: dict[PieceForm, tuple[PieceForm, ...]] = {
    "board": ("board",),
    "solid panel": ("board",),
    "billet": ("billet",),
    "sheet": ("sheet",),
    "panel": ("sheet",),
    "core": ("sheet",),
    "leaf": ("leaf", "strip"),
    "strip": ("strip",),
}
SMALL = 2  # a rest under half of what is kept is waste that nobody looks at
LEAST_LEAVES = 2
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


def is_kept(kept: Kept, along: int, across: int) -> bool:
    """Whether a rest of this size would be kept."""
    for long, wide, any_way in kept:
        if along >= long and across >= wide:
            return True
        if any_way and across >= long and along >= wide:
            return True
    return False


@dataclass(slots=True)
class CutUp:
    """A piece cut from edge to edge: what is left, what the saw takes. `whole`: every part could be cut free."""

    rests: list[Box]
    kerf: int = 0
    whole: bool = True


@lru_cache(maxsize=512)
def cut_up(piece: Box, parts: tuple[Box, ...], kerf: int, kept: Kept, *, rips_first: bool) -> CutUp:
    """Cuts parts free from edge to edge, so that what is worth keeping stays as large as it can.

    Rests that would be kept come off first, the largest before the others; then parts are cut apart. `rips_first`:
    of two ways to cut parts apart, along the piece first; else the way that leaves the larger rests.
    """
    first = _tried(piece, parts, kerf, kept, rips=True)
    if rips_first and first.whole:
        return first
    other = _tried(piece, parts, kerf, kept, rips=False)
    return max(first, other, key=lambda one: (one.whole, _worth(one.rests, kept)))


def _worth(rests: Sequence[Box], kept: Kept) -> int:
    """Few large rests are worth more than many small ones."""
    return sum((w * h) ** 2 for _, _, w, h in rests if is_kept(kept, w, h))


def _tried(piece: Box, parts: Sequence[Box], kerf: int, kept: Kept, *, rips: bool) -> CutUp:
    done = CutUp([])
    stack: list[tuple[Box, list[Box], bool]] = [(piece, list(parts), rips)]
    while stack:
        region, boxes, rip = stack.pop()
        if not boxes:
            done.rests.append(region)
            continue
        if (off := _worth_keeping(region, boxes, kerf, kept)) is None:
            apart = _apart(region, boxes, kerf, done, rip=rip) or _apart(region, boxes, kerf, done, rip=not rip)
            if apart:
                stack += [(r, b, rip) for r, b in apart]
                continue
            off = _widest_off(region, boxes)
        if off is None:
            done.whole = done.whole and len(boxes) == 1
            continue
        stack.append((_take_off(region, off, kerf, done), boxes, rip))
    return done


type _Off = tuple[str, int]  # side, how much lies free there


def _free(region: Box, boxes: Sequence[Box]) -> list[_Off]:
    x, y, w, h = region
    return [
        ("right", x + w - max(b[0] + b[2] for b in boxes)),
        ("left", min(b[0] for b in boxes) - x),
        ("upper", y + h - max(b[1] + b[3] for b in boxes)),
        ("lower", min(b[1] for b in boxes) - y),
    ]


def _rest(region: Box, off: _Off, kerf: int) -> tuple[int, int]:
    side, free = off
    return (free - kerf, region[3]) if side in ("right", "left") else (region[2], free - kerf)


def _worth_keeping(region: Box, boxes: Sequence[Box], kerf: int, kept: Kept) -> _Off | None:
    """The side where the largest rest that would be kept comes off."""
    rests = [(off, _rest(region, off, kerf)) for off in _free(region, boxes)]
    large = [(w * h, off) for off, (w, h) in rests if w > 0 and h > 0 and is_kept(kept, w, h)]
    return max(large)[1] if large else None


def _widest_off(region: Box, boxes: Sequence[Box]) -> _Off | None:
    off = max(_free(region, boxes), key=lambda one: one[1] * (region[3] if one[0] in ("right", "left") else region[2]))
    return off if off[1] > 0 else None


def _take_off(region: Box, off: _Off, kerf: int, done: CutUp) -> Box:
    """The region without what lies free at one side; the cut is the saw's, the rest beyond it is left."""
    x, y, w, h = region
    side, free = off
    cut = min(kerf, free)
    rest = free - cut
    upright = side in ("right", "left")
    done.kerf += cut * (h if upright else w)
    if rest > 0:
        boxes: dict[str, Box] = {
            "right": (x + w - rest, y, rest, h),
            "left": (x, y, rest, h),
            "upper": (x, y + h - rest, w, rest),
            "lower": (x, y, w, rest),
        }
        done.rests.append(boxes[side])
    left, low = (free if side == "left" else 0), (free if side == "lower" else 0)
    return x + left, y + low, w - (free if upright else 0), h - (0 if upright else free)


def _apart(region: Box, boxes: Sequence[Box], kerf: int, done: CutUp, *, rip: bool) -> list[tuple[Box, list[Box]]]:
    """The region cut through between parts, along it (`rip`) or across; nothing where no such cut is free.

    What lies free beyond the last part comes off by a cut of the same direction.
    """
    x, y, w, h = region
    at, end = (y, y + h) if rip else (x, x + w)
    bands = list(_bands(boxes, 1 if rip else 0, kerf))
    if len(bands) < 2:
        return []
    found: list[tuple[Box, list[Box]]] = []
    for number, (_, high, inside) in enumerate(bands):
        found.append(((x, at, w, high - at) if rip else (at, y, high - at, h), inside))
        free = (bands[number + 1][0] if number + 1 < len(bands) else end) - high
        cut = min(kerf, free)
        done.kerf += cut * (w if rip else h)
        at = high + cut
    if end > at:
        done.rests.append((x, at, w, end - at) if rip else (at, y, end - at, h))
    return found


def _bands(boxes: Sequence[Box], axis: int, kerf: int) -> Iterator[tuple[int, int, list[Box]]]:
    """Parts with no room for the saw between them along one axis, band by band from its start."""
    band: list[Box] = []
    low = high = 0
    for box in sorted(boxes, key=lambda b: b[axis]):
        if band and box[axis] >= high + kerf:
            yield low, high, band
            band = []
        if not band:
            low, high = box[axis], box[axis]
        band.append(box)
        high = max(high, box[axis] + box[axis + 2])
    yield low, high, band


class Keeping:
    """F75 for one job: the least sizes by form, exceptions by batch, and the value under which handling costs more."""

    def __init__(self, index: JobIndex) -> None:
        self._index = index
        self._rules = tuple(index.job.keep_rules.values())
        row = index.job.pricings.get("pricing")
        below = row.burn_below.value if row is not None and row.burn_below is not None else None
        rate = row.rate.value if row is not None and row.rate is not None else None
        self.below = below * 100 if below is not None else rate * 100 / 12 if rate is not None else None  # five minutes

    def least(self, form: PieceForm, batch: str = "") -> tuple[Length, Length, str]:
        """The least length and width that are kept of a form, and until when (an exception for a batch)."""
        rule = self._rule(form, batch)
        key = {"billet": "leaf", "panel": "sheet", "core": "sheet", "solid panel": "board"}.get(form, form)
        usual = (
            assumed(self._index.unit, f"keep {key} length").length,
            assumed(self._index.unit, f"keep {key} width").length,
        )
        if rule is None:
            return *usual, ""
        return size(rule.length) or usual[0], size(rule.width) or usual[1], rule.until

    def _rule(self, form: PieceForm, batch: str) -> KeepRule | None:
        mine = [rule for rule in self._rules if rule.form == form]
        own = next((rule for rule in mine if batch and rule.batch == batch), None)
        return own or next((rule for rule in mine if not rule.batch), None)

    def kept(self, form: PieceForm, batch: str) -> Kept:
        """The least sizes of what a piece of this form can be kept as; a sheet any way round."""
        leasts = ((one, self.least(one, batch)) for one in KEEP_AS[form])
        return tuple((long.units, wide.units, one == "sheet") for one, (long, wide, _) in leasts)

    def _as(self, form: PieceForm, batch: str, along: int, across: int) -> bool:
        long, wide, _ = self.least(form, batch)
        return is_kept(((long.units, wide.units, form == "sheet"),), along, across)

    def small(self, form: PieceForm, batch: str, along: int, across: int) -> bool:
        """Whether a rest is too little to be looked at."""
        return not is_kept(self.kept(form, batch), along * SMALL, across * SMALL)

    def judged(
        self,
        form: PieceForm,
        batch: str,
        rest: tuple[Length, Length],
        value: Fraction | None,
        leaves: int = LEAST_LEAVES,
    ) -> tuple[bool, str, str, PieceForm]:
        """Whether a rest is kept, why, until when, and as what.

        A billet must still give two leaves. Smaller ones of a batch with a rule of its own are kept for repairs; what
        is worth less than handling it is not.
        """
        along, across = rest
        for one in KEEP_AS[form]:
            if one == "billet" and leaves < LEAST_LEAVES:
                continue
            if self._as(one, batch, along.units, across.units):
                if not self._as(one, "", along.units, across.units):
                    return True, "batch", self.least(one, batch)[2], one
                if value is not None and self.below is not None and value < self.below:
                    return False, "worth less", "", one
                return True, "sizes", "", one
        as_form = KEEP_AS[form][0]
        long, _, _ = self.least(as_form, batch)
        return False, "short" if max(along, across if as_form == "sheet" else along) < long else "narrow", "", as_form

    def remainders(
        self, name: str, form: PieceForm, piece: Piece | None, rests: Sequence[Box], leaves: int = LEAST_LEAVES
    ) -> tuple[Remainder, ...]:
        """Rests of a layout with their letters, the largest first, without those too little to be looked at."""
        batch = piece.batch if piece is not None else ""
        named = [one for one in rests if not self.small(form, batch, one[2], one[3])]
        named.sort(key=lambda one: -one[2] * one[3])
        return tuple(self._remainder(name, at, one, (form, piece, leaves)) for at, one in enumerate(named))

    def _remainder(self, name: str, at: int, box: Box, of: tuple[PieceForm, Piece | None, int]) -> Remainder:
        form, piece, leaves = of
        along, across, length, width = (Length(one) for one in box)
        value = _value(piece, length, width)
        batch = piece.batch if piece is not None else ""
        keep, reason, until, kept_as = self.judged(form, batch, (length, width), value, leaves)
        decided = self._index.job.leftovers.get(f"{name} {_letter(at)}")
        if decided is not None and decided.keep != keep:
            keep, reason, until = decided.keep, "by hand", ""
        return Remainder(
            letter=_letter(at),
            along=along,
            across=across,
            length=length,
            width=width,
            form="core" if form == "core" else kept_as,
            keep=keep,
            reason=reason,
            until=until,
            value=value,
            decided=decided,
        )


def _letter(at: int) -> str:
    again, letter = divmod(at, len(_LETTERS))
    return _LETTERS[letter] + (str(again + 1) if again else "")


def _value(piece: Piece | None, length: Length, width: Length) -> Fraction | None:
    """Its share of what was paid for the piece, by its face; in the smallest unit of money."""
    if piece is None or piece.price is None or piece.price.value is None:
        return None
    long, wide = size(piece.length), size(piece.width)
    if long is None or wide is None:
        return None
    return piece.price.value * 100 * length.units * width.units / (long.units * wide.units)

"""Layouts as accepted, held against the job as it is now: what is wrong, what is left, where all wood goes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from frontwright.core.job import Laid, LaidPart, Piece, PieceForm
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import ZERO, Length
from frontwright.core.stock.candidates import SHOWS, Judge, place, size, wood_of
from frontwright.core.stock.leftovers import LEAST_LEAVES, Box, CutUp, Keeping, cut_up
from frontwright.core.stock.purchase import content_of, sizes_for
from frontwright.core.stock.result import (
    Content,
    Fault,
    Group,
    LaidOut,
    LayoutPlan,
    Offer,
    Remainder,
    Want,
)

_NOTHING = Offer("", ZERO, ZERO)


@dataclass(slots=True)
class _Job:
    """What every layout of a job is held against."""

    index: JobIndex
    judge: Judge
    keeping: Keeping
    groups: Mapping[str, Group]
    wants: Mapping[str, tuple[Group, Want]]
    cut: frozenset[str]
    rows: Mapping[str, list[LaidPart]]
    taken: set[tuple[str, int]] = field(default_factory=set)
    on: dict[str, int] = field(default_factory=dict)


def layout_plans(index: JobIndex, groups: Sequence[Group]) -> tuple[LayoutPlan, ...]:
    """Every laid piece of the job, in its order; nothing is worked out where none is laid."""
    if not index.job.laid:
        return ()
    rows: dict[str, list[LaidPart]] = {}
    for row in index.job.laid_parts.values():
        rows.setdefault(row.laid, []).append(row)
    job = _Job(
        index=index,
        judge=Judge(index, wood_of(index)),
        keeping=Keeping(index),
        groups={group.id: group for group in groups},
        wants={want.id: (group, want) for group in groups for want in group.wants},
        cut=frozenset(one for done in index.job.cuts_done.values() for one in done.parts),
        rows=rows,
    )
    laid = sorted(index.job.laid.values(), key=lambda row: (row.place, natural(row.id)))
    return _with_batches(job, [_layout(job, row) for row in laid])


def unlaid_of(groups: Sequence[Group], layouts: Sequence[LayoutPlan]) -> dict[str, dict[str, int]]:
    """Group -> part -> copies that want wood and lie on no layout that holds."""
    lying: dict[str, int] = {}
    for layout in layouts:
        for part in layout.parts:
            if layout.valid and not part.cut:
                lying[part.part] = lying.get(part.part, 0) + 1
    found: dict[str, dict[str, int]] = {}
    for group in groups:
        if group.cut != "billets":
            left = {want.id: want.open - lying.get(want.id, 0) for want in group.wants}
            found[group.id] = {part: count for part, count in left.items() if count > 0}
    return found


def _layout(job: _Job, laid: Laid) -> LayoutPlan:
    rows = sorted(job.rows.get(laid.id, []), key=lambda row: natural(row.id))
    group = job.groups.get(laid.group) or next((job.wants[r.part][0] for r in rows if r.part in job.wants), None)
    piece = job.index.job.pieces.get(laid.piece or "")
    offer, thick = _lies_on(job, laid, piece, group)
    kerf = size(laid.kerf) or (group.kerf if group is not None else ZERO)
    parts = tuple(_part(job, row) for row in rows)
    faults = list(_piece_faults(job, laid, piece, offer, group))
    boxes = [_box(part) for part in parts]
    faults += [one for row, part in zip(rows, parts, strict=True) for one in _part_faults(job, row, part, piece)]
    faults += _lying_faults(offer, parts, boxes, kerf) if offer is not None else ()
    form: PieceForm = piece.form if piece is not None else group.form if group is not None else "board"
    content, remainders, whole = _left(job, laid, _NOTHING if offer is None else offer, boxes, kerf, (form, piece))
    if not whole and not any(one.kind in ("overlap", "outside", "kerf") for one in faults):
        faults.append(Fault("edge to edge"))
    done = sum(row.laid == laid.id for row in job.index.job.cuts_done.values())
    name = group.id if group is not None else laid.group
    return LayoutPlan(
        laid=laid,
        group=name,
        offer=_NOTHING if offer is None else offer,
        thickness=thick,
        kerf=kerf,
        parts=parts,
        remainders=remainders,
        content=content,
        faults=tuple(dict.fromkeys(faults)),
        cuts=done,
    )


def _lies_on(job: _Job, laid: Laid, piece: Piece | None, group: Group | None) -> tuple[Offer | None, Length | None]:
    """The piece, or the size that will be bought (the usual one where none is named), as an offer."""
    if piece is not None:
        held = job.judge.offer_of(piece)
        return (held if held.length and held.width else None), size(piece.thickness)
    if laid.piece or group is None:
        return None, None
    sizes = sizes_for(job.judge, group)
    sold = next((one for one in sizes if one.id == (laid.size or "")), None)
    return (replace(sold.offer(), copies=1), sold.thickness.length) if sold is not None else (None, None)


def _part(job: _Job, row: LaidPart) -> LaidOut:
    """A part with the size that it was laid with, else with the one that is wanted now."""
    want = job.wants[row.part][1] if row.part in job.wants else None
    long = size(row.length) or (want.length if want is not None else ZERO)
    wide = size(row.width) or (want.width if want is not None else ZERO)
    if row.turned:
        long, wide = wide, long
    along, across = place(row.along), place(row.across)
    return LaidOut(row.id, row.part, row.number, along, across, long, wide, row.turned, row.pinned, row.id in job.cut)


def _box(part: LaidOut) -> Box:
    return part.along.units, part.across.units, part.length.units, part.width.units


def _piece_faults(
    job: _Job, laid: Laid, piece: Piece | None, offer: Offer | None, group: Group | None
) -> Iterator[Fault]:
    if piece is not None and not any(row.laid == laid.id for row in job.index.job.cuts_done.values()):
        job.on[piece.id] = job.on.get(piece.id, 0) + 1
        if piece.state in ("used up", "burned"):
            yield Fault("no piece", other=piece.id)
        elif job.on[piece.id] > max(1, piece.count):
            yield Fault("taken", other=piece.id)
    if offer is None:
        yield Fault("no piece" if piece is None else "piece size", other=laid.piece or laid.size or "")
    thick = size(piece.thickness) if piece is not None else None
    if piece is not None and thick is not None and group is not None and not group.on_leaves:
        thin = group.cut != "billets" and not job.judge.thick_enough(group, thick, planed=piece.planed)
        if thin:
            yield Fault("thin", other=piece.id)


def _part_faults(job: _Job, row: LaidPart, part: LaidOut, piece: Piece | None) -> Iterator[Fault]:
    """What a change of the job has done to a part that was laid; one that is cut is a fact."""
    key = (row.part, row.number)
    if key in job.taken:
        yield Fault("twice", row.part)
    job.taken.add(key)
    if part.cut:
        return
    if row.part not in job.wants or not 1 <= row.number <= job.wants[row.part][1].copies:
        yield Fault("not wanted", row.part)
        return
    want = job.wants[row.part][1]
    long, wide = (part.width, part.length) if row.turned else (part.length, part.width)
    if want.length > long or want.width > wide:
        yield Fault("size", row.part, by=max(want.length - long, want.width - wide))
    if row.turned and not want.turns:
        yield Fault("grain", row.part)
    if piece is not None and piece.grade not in SHOWS and want.seen == "show":
        yield Fault("grade", row.part, piece.id)


def _lying_faults(offer: Offer, parts: Sequence[LaidOut], boxes: Sequence[Box], kerf: Length) -> Iterator[Fault]:
    """Inside, clear of each other by the kerf, clear of defects."""
    left, _, low, _ = (trim.units for trim in offer.trims)
    right, high = left + offer.usable[0].units, low + offer.usable[1].units
    bad = [((d.along.units, d.across.units, d.length.units, d.width.units)) for d in offer.defects]
    for at, (part, box) in enumerate(zip(parts, boxes, strict=True)):
        over = max(left - box[0], low - box[1], box[0] + box[2] - right, box[1] + box[3] - high)
        if over > 0:
            yield Fault("outside", part.part, by=Length(over))
        if any(_apart(box, one) < 0 for one in bad):
            yield Fault("defect", part.part)
        for other, there in zip(parts[:at], boxes, strict=False):
            between = _apart(box, there)
            if between < 0:
                yield Fault("overlap", part.part, other.part, Length(-between))
            elif between < kerf.units:
                yield Fault("kerf", part.part, other.part, Length(kerf.units - between))


def _apart(one: Box, other: Box) -> int:
    """How far two boxes are apart; under nought where they overlap."""
    along = max(other[0] - one[0] - one[2], one[0] - other[0] - other[2])
    across = max(other[1] - one[1] - one[3], one[1] - other[1] - other[3])
    return max(along, across)


def _left(
    job: _Job,
    laid: Laid,
    offer: Offer,
    boxes: Sequence[Box],
    kerf: Length,
    what: tuple[PieceForm, Piece | None],
) -> tuple[Content, tuple[Remainder, ...], bool]:
    """Where the face of the piece goes; the sum is exact, since every rest is what other cuts left."""
    form, piece = what
    batch = piece.batch if piece is not None else ""
    left, _, low, _ = (trim.units for trim in offer.trims)
    usable: Box = (left, low, max(0, offer.usable[0].units), max(0, offer.usable[1].units))

    inside = tuple(box for box in boxes if _within(box, usable))
    kept = job.keeping.kept(form, batch)
    rips = form in ("board", "solid panel", "billet")
    up = cut_up(usable, inside, kerf.units, kept, rips_first=rips) if offer.length else CutUp([])
    remainders = job.keeping.remainders(laid.id, form, piece, up.rests, _leaves(job.judge, form, piece))
    whole = offer.length.units * offer.width.units
    trims = whole - usable[2] * usable[3]
    used = sum(box[2] * box[3] for box in inside)
    left_over = sum(one.length.units * one.width.units for one in remainders)
    waste = whole - trims - used - up.kerf - left_over
    return Content(whole, used, up.kerf, trims, left_over, waste), remainders, up.whole


def _within(box: Box, usable: Box) -> bool:
    low = box[0] >= usable[0] and box[1] >= usable[1]
    return low and box[0] + box[2] <= usable[0] + usable[2] and box[1] + box[3] <= usable[1] + usable[3]


def _leaves(judge: Judge, form: PieceForm, piece: Piece | None) -> int:
    return judge.leaves(piece)[0] if piece is not None and form == "billet" else LEAST_LEAVES


def _with_batches(job: _Job, layouts: list[LayoutPlan]) -> tuple[LayoutPlan, ...]:
    """Parts of one lot that lie on pieces of more than one batch: those after the first one are at fault."""
    first: dict[tuple[str, str], str] = {}
    found: list[LayoutPlan] = []
    for layout in layouts:
        mixed: list[Fault] = []
        batch = batch_of(layout)
        for part in layout.parts:
            group, want = job.wants.get(part.part, (None, None))
            if group is None or want is None or not want.lot:
                continue
            if first.setdefault((group.id, want.lot), batch) != batch:
                mixed.append(Fault("batch", part.part, layout.offer.batch))
        found.append(replace(layout, faults=(*layout.faults, *mixed)) if mixed else layout)
    return tuple(found)


def batch_of(layout: LayoutPlan) -> str:
    """Sheets bought in one go are one lot; a piece without a batch is a batch of its own."""
    if layout.laid.piece is None:
        return f"\0{layout.laid.size or ''}"
    return layout.offer.batch or f"\0\0{layout.laid.piece}"


def contents(index: JobIndex, layout: LayoutPlan) -> dict[str, Fraction]:
    """The face of a layout in board feet or m3 (square feet or m2 of sheets), by where it goes; exact."""
    sheet = layout.group.partition(" ")[0] in ("sheet", "core")
    one = content_of(index, "sheet" if sheet else "board", Length(1), Length(1), layout.thickness or Length(1))
    names = ("all", "parts", "kerf", "trims", "remainders", "waste")
    return {name: one * getattr(layout.content, name) for name in names}

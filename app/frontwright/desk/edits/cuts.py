"""Layouts changed by hand: parts placed, layouts kept or taken away, remainders kept or burned, wood that has come."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from frontwright.core.job import CutDone, Job, Laid, LaidPart, Leftover, Piece, PieceForm, SupplierSize
from frontwright.core.lengths import ZERO, typed_length
from frontwright.core.stock.result import Group, LayoutPlan
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, new_id, with_field, without
from frontwright.desk.edits.values import value_of
from frontwright.desk.keys import Place

TABLES = ("laid_parts", "laid", "leftovers")
PLACED = ("along", "across", "turned", "laid")


def entered(job: Job, place: Place, text: str, display_name: str, plain: Callable[[], Edit]) -> Edit:
    """A cell of a laid part, a laid piece or a remainder. A part that is moved stays where it was put from then on."""
    if place.table == "laid_parts" and place.field in PLACED:
        return _placed(job, place, text, display_name)
    if place.table == "leftovers":
        return _decided(job, place, text, display_name)
    return plain()


def _placed(job: Job, place: Place, text: str, name: str) -> Edit:
    row = job.laid_parts.get(place.row)
    if row is None:
        raise Refused(f"“{place.row}” lies nowhere any more: choose another row.")
    if any(row.id in done.parts for done in job.cuts_done.values()):
        raise Refused(f"{row.id} is cut already and stays where it was: take the cut back first.")
    from frontwright.core.plan import display_of

    got = value_of(job, place, text, name, display_of(job.heading))
    if place.field in ("along", "across") and got.value is None:
        got = replace(got, value=typed_length(ZERO, job.heading.unit))

    def change(before: Job) -> Job:
        moved = with_field(before, "laid_parts", place.row, place.field, got.value)
        return moved if moved is before else with_field(moved, "laid_parts", place.row, "pinned", True)  # noqa: FBT003

    return Edit(name, change, place.key, got.said)


def _decided(job: Job, place: Place, text: str, name: str) -> Edit:
    """Keep or burn, with or against the rule; its shelf; why. A decision that says nothing goes."""
    laid, _, letter = place.row.rpartition(" ")
    if laid not in job.laid or not letter:
        raise Refused(f"“{place.row}” is no longer there: choose another row.")
    old = job.leftovers.get(place.row)
    if place.field == "keep":
        if text not in ("keep", "burn", ""):
            raise Refused(f"{name[:1].upper()}{name[1:]}: choose keep or burn, or nothing for what the rule says.")
        if old is not None and old.piece and text != "keep":
            raise Refused(f"{old.piece} is on the rack already: burn it there.")
        if not text:
            return Edit(name, lambda before: before.drop(Leftover, place.row), place.key)
        new = replace(old or Leftover(place.row, laid), keep=text == "keep")
        return Edit(name, lambda before: before.put(new), place.key)
    if old is None:
        raise Refused(f"{name[:1].upper()}{name[1:]}: say first whether it is kept or burned.")
    said = " ".join(text.split())[:200]
    decided = replace(old, shelf=said) if place.field == "shelf" else replace(old, why=said)
    return Edit(name, lambda before: before.put(decided), place.key)


def keep_layout(job: Job, laid: str) -> Edit:
    """A layout that is not to be laid anew, or again may be."""
    row = _laid(job, laid)
    word = "let go" if row.pinned else "keep"
    return Edit(f"{word} layout {laid}", lambda before: before.put(replace(before.laid[laid], pinned=not row.pinned)))


def take_away(job: Job, laid: str) -> Edit:
    """A layout taken away; its parts lie nowhere then."""
    _laid(job, laid)
    if any(done.laid == laid for done in job.cuts_done.values()):
        raise Refused(f"{laid} is cut into already and stays: take its cuts back first.")
    return Edit(f"take layout {laid} away", lambda before: without(before, "laid", laid))


def let_part_go(job: Job, part: str) -> Edit:
    """A part that was placed by hand may be laid elsewhere again."""
    row = job.laid_parts.get(part)
    if row is None or not row.pinned:
        raise Refused(f"“{part}” was not placed by hand: choose another row.")
    return Edit(f"let {part} go", lambda before: before.put(replace(before.laid_parts[part], pinned=False)))


def put_by_hand(job: Job, group: str, part: str, laid: str = "") -> Edit:
    """A part that lies nowhere, laid at the lower left of a layout (or of the first one) to be moved from there."""
    where = laid or next(iter(job.laid), "")
    _laid(job, where)
    used = {row.number for row in job.laid_parts.values() if row.part == part}
    number = next(n for n in range(1, 10_000) if n not in used)
    name = free_id([*job.laid_parts], part) if part in job.laid_parts else part
    zero = typed_length(ZERO, job.heading.unit)
    row = LaidPart(name, where, part, number, zero, zero, pinned=True)
    return Edit(f"lay {part} by hand on {where}, {group}", lambda before: before.put(row), select=name)


def to_buy(job: Job, why: str, *sizes: str) -> Edit:
    """Pieces to be bought on which nothing is laid yet: group, size and number of each, one after the other."""
    asked = [(sizes[n], sizes[n + 1], sizes[n + 2]) for n in range(0, len(sizes) - 2, 3)]
    if not asked or any(not number.isdigit() for _, _, number in asked):
        raise Refused("Nothing is to be bought for this: everything is there.")
    rows: list[Laid] = []
    place = max((row.place for row in job.laid.values()), default=-1) + 1
    for group, size, number in asked:
        if size and size not in job.supplier_sizes:
            raise Refused(f"The size {size} is no longer sold: choose another on the Shop page.")
        word = group.partition(" ")[0]
        for _ in range(int(number)):
            taken = [*job.laid, *(row.id for row in rows)]
            name = f"{word} 1" if f"{word} 1" not in taken else free_id(taken, f"{word} 1")
            rows.append(Laid(name, None, size or None, place + len(rows), group, pinned=True, note=why))
    return Edit(f"put {why} on the bill", lambda before: before.put(*rows), said="It stands on the purchase list now")


def has_come(job: Job, layout: LayoutPlan, group: Group | None) -> Edit:
    """What was to be bought for a layout is there: a piece of its own, on which the layout lies from then on."""
    row = _laid(job, layout.id)
    if row.piece is not None:
        raise Refused(f"{layout.id} lies on {row.piece}, which is there already.")
    sold = job.supplier_sizes.get(row.size or "")
    piece = _bought(job, layout, group, sold)
    put = replace(row, piece=piece.id)  # its size stays: it was bought for this job
    return Edit(f"{layout.id} has come", lambda before: before.put(piece).put(put), select=layout.id)


def _bought(job: Job, layout: LayoutPlan, group: Group | None, sold: SupplierSize | None) -> Piece:
    unit = job.heading.unit
    form: PieceForm = group.form if group is not None else "board"
    left, right, low, high = layout.offer.trims
    thick = layout.thickness or (group.thickness.length if group is not None else None)
    first = {"sheet": "S-01", "core": "C-01"}.get(form, "B-01")
    piece = Piece(
        id=new_id(job, "pieces", first),
        form=form,
        species=(sold.species if sold is not None else "") or (group.species if group is not None else ""),
        length=typed_length(layout.offer.length, unit),
        width=typed_length(layout.offer.width, unit),
        thickness=typed_length(thick, unit) if thick is not None else None,
        end_trim=typed_length(left + right, unit) if left + right else None,
        edge_trim=typed_length(low + high, unit) if low + high else None,
        planed=sold.planed if sold is not None else False,
        grade=sold.grade if sold is not None else "",
        price=sold.price if sold is not None and sold.per == "piece" else None,
    )
    if sold is None:
        return piece
    return replace(piece, length=sold.length, width=sold.width, thickness=sold.thickness)


def ticked(laid: str, cuts: Sequence[int], freed: dict[int, tuple[str, ...]], when: str) -> Callable[[Job], Job]:
    """The job with these cuts made; `freed` by cut: the laid parts that it frees."""
    rows = [CutDone(f"{laid} {number}", laid, number, freed.get(number, ()), when) for number in cuts]
    return lambda job: job.put(*rows)


def unticked(job: Job, laid: str, cuts: Sequence[int], letters: Sequence[str]) -> Job:
    """The job without these cuts, and without the pieces that remainders had become by them."""
    job = job.drop(CutDone, *(row.id for row in job.cuts_done.values() if row.laid == laid and row.cut in cuts))
    for letter in letters:
        old = job.leftovers.get(f"{laid} {letter}")
        if old is not None:
            gone = old.piece
            job = job.put(replace(old, piece="")) if old.why or old.shelf else job.drop(Leftover, old.id)
            job = without(job, "pieces", gone) if gone in job.pieces else job
    return job


def _laid(job: Job, laid: str) -> Laid:
    row = job.laid.get(laid)
    if row is None:
        raise Refused(f"“{laid}” is no longer laid: choose another.")
    return row

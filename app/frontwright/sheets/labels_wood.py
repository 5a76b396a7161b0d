"""Labels for parts as they are cut, and for what is left of a piece and goes back on its shelf."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from frontwright.core.job import Defect, Piece
from frontwright.core.lengths import typed_length
from frontwright.core.plan import Plan
from frontwright.core.stock.born import born, born_bad
from frontwright.core.stock.result import Clear
from frontwright.sheets.subjects import species_name
from frontwright.sheets.words import Part, Words, finely, typed_size, words

FACES = {"vertical": "▲ up", "horizontal": "▲ up, grain ↔"}


@dataclass(frozen=True, slots=True)
class Label:
    """What a label says: a big name, and lines under it; `boxes` to write in, each with its word and what is known.

    What is known of a box was read at the bench, and is written by hand on a label that sticks there already.
    """

    name: str
    lines: tuple[Words, ...]
    boxes: tuple[tuple[str, str], ...] = ()


def part_labels(plan: Plan) -> Iterator[Label]:
    """One for every piece of every part, front by front: its name, finished size, wood, which way is up."""
    job = plan.job.heading.name
    for part in plan.making.parts:
        run = plan.fronts.fronts[part.front].run if part.front in plan.fronts.fronts else ""
        size: list[Part] = [*finely(part.length, plan.display), " × ", *finely(part.width, plan.display)]
        size += [" × ", *finely(part.thickness, plan.display)]
        wood = " ".join(text for text in (species_name(plan, part.species or ""), part.material) if text)
        for number in range(1, part.qty + 1):
            count = f", {number} of {part.qty}" if part.qty > 1 else ""
            where = " / ".join(text for text in (job, run) if text)
            lines = (
                words(*size, size=10.5, bold=True),
                words(f"{part.kind} of {part.front}{count}", size=10),
                words(f"show {FACES[part.grain]}   {wood}", size=8.5),
                words(where, size=7.5),
            )
            yield Label(part.id, lines)


def leftover_labels(plan: Plan) -> Iterator[Label]:
    """One for every piece that was cut from another of the job and is still there, also where it lies on the rack."""
    for piece in leftovers(plan):
        yield _leftover(plan, piece, [of for of in plan.job.defects.values() if of.piece == piece.id])
    for piece, bad in _on_the_rack(plan):
        yield _leftover(plan, piece, bad)


def labels_of(plan: Plan, laid: str) -> Iterator[Label]:
    """What the cuts made on one layout have freed: its parts, one label each, and its leftovers."""
    layout = next((one for one in plan.stock.layouts if one.id == laid), None)
    if layout is None:
        return
    wants = {want.id: want for group in plan.stock.groups for want in group.wants}
    freed = [part for part in layout.parts if part.cut]
    names = [name for part in freed for name in (wants[part.part].parts if part.part in wants else ()) or (part.part,)]
    named = {label.name: label for label in part_labels(plan)}
    yield from (named[name] for name in names if name in named)
    born_ = {row.piece for row in plan.job.leftovers.values() if row.laid == laid and row.piece}
    yield from (label for label in leftover_labels(plan) if label.name in born_)


def leftovers(plan: Plan) -> list[Piece]:
    """What is left of other pieces, and neither used up nor burned."""
    named = {row.piece for row in plan.job.leftovers.values() if row.piece}
    return [
        piece
        for piece in plan.job.pieces.values()
        if (piece.from_piece or piece.id in named) and piece.state in ("free", "in work")
    ]


def _on_the_rack(plan: Plan) -> Iterator[tuple[Piece, list[Defect]]]:
    """What cuts of this job left and the rack has alone, as it was when it came off the saw, with its bad places."""
    job = plan.job
    for layout in plan.stock.layouts:
        parent = job.pieces.get(layout.laid.piece or "")
        if parent is None:
            continue
        bad = [of for of in job.defects.values() if of.piece == parent.id]
        for rest in layout.remainders:
            row = rest.decided
            if row is None or not row.piece or not row.keep or row.piece in job.pieces:
                continue
            unit = job.heading.unit
            size = (typed_length(rest.length, unit), typed_length(rest.width, unit), parent.thickness)
            piece = born(parent, row.piece, size, job=job.heading.name, shelf=row.shelf or None, form=rest.form)
            where = Clear(rest.along, rest.across, rest.length, rest.width)
            yield piece, list(born_bad(bad, layout.offer, where, piece.id, unit))


def _leftover(plan: Plan, piece: Piece, defects: list[Defect]) -> Label:
    wood = ", ".join(
        text for text in (species_name(plan, piece.species), piece.batch and f"batch {piece.batch}", piece.cut) if text
    )
    form = piece.form if piece.count == 1 else f"{piece.count} × {piece.form}"
    size = words(f"{form} ", *typed_size(piece.length, piece.width, piece.thickness), size=10)
    grade = f"{piece.grade} face" if piece.grade else ""
    came = " / ".join(text for text in (piece.from_job, piece.from_piece) if text)
    told = (f"from {came}" if came else "", grade, piece.note)
    bad = ", ".join(_defect(of) for of in defects)
    lines = (
        words(wood, size=10, bold=True),
        size,
        words(", ".join(text for text in (_moisture(piece), piece.shelf and f"shelf {piece.shelf}") if text), size=10),
        words(", ".join(text for text in told if text), size=7.5),
        words(bad, size=8.5, bold=True),
    )
    return Label(piece.id, tuple(line for line in lines if line))


def _moisture(piece: Piece) -> str:
    if piece.moisture is None:
        return "MC not measured"
    return f"MC {piece.moisture.text} %" + (f" ({piece.moisture_on})" if piece.moisture_on else "")


def _defect(of: Defect) -> str:
    at = f" {of.along.text} from the left end" if of.along is not None else ""
    return f"defect: {of.what or 'a bad place'}{at}"

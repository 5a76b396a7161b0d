"""What new fronts add to the weight on the fixings of boxes that hang on the wall."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, Term
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import Weight
from frontwright.core.job import OldFront
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, in_units
from frontwright.core.making.result import MakingPlan
from frontwright.core.wood import density

ON_THE_WALL = (
    "see first what the boxes hang on",
    "screws into studs or masonry, not plaster",
    "in doubt ask who is licensed for it",
    "local codes come first",
)


def weights(index: JobIndex, fronts: FrontsPlan, making: MakingPlan) -> Iterator[Weight]:
    """For each run on the wall: new fronts against old ones of the same wood, as far as their sizes were read.

    Strips and skins are not counted: a few per cent of a front. An old front that nobody measured counts for nothing,
    so that the added weight is rather told too high.
    """
    for run in index.runs:
        own = [front for front in fronts.fronts.values() if front.run == run.id and front.id in making.fronts]
        if run.stands != "wall" or not own:
            continue
        new = _sum(f"new fronts of {run.id}", [making.fronts[front.id].mass for front in own])
        openings = {front.opening for front in own}
        rows = [row for row in index.job.old_fronts.values() if row.opening in openings]
        masses = [mass for row in rows if (mass := _old(index, row)) is not None]
        old = _sum(f"old fronts of {run.id}", masses) if masses else None
        terms = (Term(new), *([] if old is None else [Term(old, -1)]))
        more = Fraction(new.units) - (Fraction(old.units) if old is not None else 0)
        yield Weight(run.id, new, old, Figure(f"added weight on {run.id}", more, "derived", "", terms, measure="mass"))


def _sum(name: str, masses: list[Figure]) -> Figure:
    value = sum((Fraction(mass.units) for mass in masses), start=Fraction(0))
    return Figure(name, value, "derived", "", tuple(Term(mass) for mass in masses), measure="mass")


def _old(index: JobIndex, row: OldFront) -> Figure | None:
    """An old front as a slab of the usual density: what it is made of nobody weighs."""
    sizes = [measured(one, f"old front {row.id}") for one in (row.width, row.height, row.thickness)]
    wood = density(index, None)
    cube = (UNITS_IN[index.unit] * (12 if index.unit == "in" else 1000)) ** 3
    volume = Fraction(1)
    for size in sizes:
        if size is None:
            return None
        volume *= in_units(size.value)
    terms = (Term(wood, 0), *(Term(size, 0) for size in sizes if size is not None))
    return Figure(
        f"old front {row.id}",
        volume * in_units(wood.value) / cube,
        "derived",
        "volume × density",
        terms,
        measure="mass",
    )

"""What goes along to the site: everything counted that is put on, and what it is put on with (common practice)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.condition.surfaces import old_paint
from frontwright.core.facing.result import FacingPlan
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import decimal, exact_text
from frontwright.core.site.result import Hang, Pack

KINDS = {"door": "doors", "glass": "glass doors", "drawer": "drawer fronts", "fixed": "fixed fronts"}


def packing(
    index: JobIndex,
    fronts: FrontsPlan,
    hardware: HardwarePlan,
    facing: FacingPlan,
    finish: FinishPlan,
    hanging: tuple[Hang, ...],
) -> tuple[Pack, ...]:
    """The packing list; counts are of the job, tools and covers are those that its work takes."""
    found = (
        *_goods(fronts, facing),
        *_hardware(fronts, hardware),
        *_supplies(index, facing, finish),
        *_tools(fronts, hardware, facing, hanging),
        *_protection(index, facing),
        *_paper(facing),
    )
    return tuple(found)


def _goods(fronts: FrontsPlan, facing: FacingPlan) -> Iterator[Pack]:
    for kind, word in KINDS.items():
        mine = [name for name, front in fronts.fronts.items() if front.front.kind == kind]
        if mine:
            yield Pack("fronts and strips", word, str(len(mine)), ", ".join(mine))
    for run, covered in facing.runs.items():
        if covered.pieces:
            kinds = Counter(piece.kind for piece in covered.pieces)
            said = ", ".join(f"{count} {kind}{'s' if count > 1 else ''}" for kind, count in kinds.items())
            yield Pack("fronts and strips", f"strips and trim of run {run}", str(len(covered.pieces)), said)
    if facing.strips:
        yield Pack("fronts and strips", "spare strips", "2", "of the longest, from the same leaves")


def _hardware(fronts: FrontsPlan, hardware: HardwarePlan) -> Iterator[Pack]:
    hinges = Counter[str]()
    plates = Counter[str]()
    for hinge in hardware.hinges.values():
        hinges[hinge.name or "hinge, not chosen yet"] += hinge.count
        plates.update(use.name or use.id for use in hinge.plates if use.id)
    for name, count in hinges.items():
        yield Pack("hardware", name, str(count), "with screws for arm and plate")
    for name, count in plates.items():
        yield Pack("hardware", f"plate {name}", str(count))
    if pulls := sum(hardware.pulls.values()):
        yield Pack("hardware", "pulls with their screws", str(pulls), "lengths by the boring sheets, and some spare")
    if bumpers := sum(one.count for one in hardware.bumpers.values()):
        yield Pack("hardware", "bumpers", str(bumpers), "on after the finish has cured")
    if any(front.front.kind == "drawer" for front in fronts.fronts.values()):
        yield Pack("hardware", "screws and packing for drawer fronts", "a box")


def _supplies(index: JobIndex, facing: FacingPlan, finish: FinishPlan) -> Iterator[Pack]:
    glue: dict[str, tuple[Fraction, int]] = {}
    pins = Counter[str]()
    for covered in facing.runs.values():
        for bond in covered.bonds:
            if bond.kind is not None:
                had, mixes = glue.get(bond.adhesive, (Fraction(0), 0))
                glue[bond.adhesive] = had + bond.millilitres, mixes + (bond.mixes if bond.kind == "epoxy" else 0)
        for use in covered.pins:
            if use.pin is not None:
                pins[f"pins of {exact_text(use.pin, index.unit)} {index.unit}"] += use.count
    for name, (volume, mixes) in glue.items():
        why = f"{mixes} mixes, with cups and spreaders" if mixes else "with spreader or roller"
        yield Pack("glue and finish", name, f"{decimal(volume, 0)} ml", why)
    for name, count in pins.items():
        yield Pack("glue and finish", name, str(count))
    if glue:
        yield Pack("glue and finish", "cleaner, abrasive of 80 grit, tack cloths", "some", "for every surface")
    for batch in finish.batches:
        yield Pack("glue and finish", f"{batch.name}, of the same tin", _a_little(batch.volume), "to touch up")
    if finish.batches:
        yield Pack("glue and finish", "the test piece", "1", "to hold beside what hangs")


def _a_little(volume: Fraction) -> str:
    """A twentieth of what the job takes is enough to touch up; common practice."""
    return f"about {decimal(volume / 20, 2)}" if volume else "a little"


def _tools(fronts: FrontsPlan, hardware: HardwarePlan, facing: FacingPlan, hanging: tuple[Hang, ...]) -> Iterator[Pack]:
    yield Pack("tools", "long level, straightedge, line or laser", "1 each", "the line to level to")
    yield Pack("tools", "tape, square, pencil, story stick", "1 each")
    gaps = {one.spacer.units for one in hanging if one.spacer is not None and one.spacer.units > 0}
    if gaps:
        yield Pack("tools", "spacers", f"{len(gaps)} thickness{'es' if len(gaps) > 1 else ''}", "see the hanging list")
    if hardware.hinges:
        yield Pack("tools", "driver, bits, pilot drills, boards to rest doors on", "1 set")
    if any(hardware.pulls.values()):
        yield Pack("tools", "jig for pulls", "1", "with a drill for its holes")
    if facing.pieces:
        yield Pack("tools", "fine saw, block plane, chisel, flush trimmer, scraper", "1 each", "strips cut to fit")
        yield Pack("tools", "tape, roller, cauls and clamps", "1 set", "for the longest strip")
    if any(front.look.scheme == "inset" for front in fronts.fronts.values()):
        yield Pack("tools", "plane for inset fronts, feeler strips", "1 each")


def _protection(index: JobIndex, facing: FacingPlan) -> Iterator[Pack]:
    yield Pack(
        "to protect and clean", "sheeting, blankets, cardboard, tape", "some", "for floor, counter and the way in"
    )
    yield Pack("to protect and clean", "vacuum with a fine filter, bags, rags, glasses, ear muffs", "1 each")
    if facing.pieces:
        yield Pack("to protect and clean", "gloves, respirator for dust and vapour", "each", "for every person")
    surfaces = index.job.surfaces.values()
    if any(one.swab == "lead" or old_paint(index.job, one) for one in surfaces):
        what = "wet wipes, plastic sheets to seal off, bags for waste"
        yield Pack("to protect and clean", what, "a supply", "paint that may hold lead")
    yield Pack("to protect and clean", "lidded metal can with water", "1", "oily rags")


def _paper(facing: FacingPlan) -> Iterator[Pack]:
    sheets = "elevation, hanging list, boring sheets, snag sheet"
    yield Pack("paper", f"{sheets}{', trim map' if facing.pieces else ''}", "1 each")

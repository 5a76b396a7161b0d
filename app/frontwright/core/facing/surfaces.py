"""What the pieces of a run are glued to, as it was found and as it is to be made good."""

from __future__ import annotations

from frontwright.core.facing.result import Ground
from frontwright.core.job import FinishKind, Surface, SurfaceWhere
from frontwright.core.job.index import JobIndex

_GROUNDS: dict[FinishKind, Ground] = {
    "bare": "bare wood",
    "oil or wax": "bare wood",
    "varnish or lacquer": "sound finish",
    "paint": "sound finish",
    "vinyl film": "sound film",
    "plastic laminate": "laminate",
    "edge tape": "laminate",
}


def ground_of(index: JobIndex, run: str, where: SurfaceWhere) -> Ground:
    """The ground on one surface of a run; `not said` where nobody looked."""
    row = next((one for one in index.job.surfaces.values() if (one.run, one.where) == (run, where)), None)
    return "not said" if row is None else ground(row)


def ground(row: Surface) -> Ground:
    """What lifts is peeled down to the wood, cut away, or held by pins as well; what is greasy is washed first."""
    if row.state == "lifting":
        return "bare wood" if row.made_good == "peel and key" else "sound finish" if row.made_good else "lifting"
    if row.state == "waxed or greasy" and not row.clean:
        return "greasy"
    if row.finish == "oil or wax" and not row.clean:
        return "greasy"
    return _GROUNDS[row.finish] if row.finish is not None else "not said"

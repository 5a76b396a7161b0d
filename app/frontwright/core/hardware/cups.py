"""The cup against the joint and the floor of wood under it (F27)."""

from __future__ import annotations

from frontwright.core.assumed import entered
from frontwright.core.figures import Figure, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.hinges import hinge_row
from frontwright.core.hardware.result import CupPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length
from frontwright.core.making.result import BuildPlan


def cup_of(index: JobIndex, front: FrontPlan, build: BuildPlan, slab: bool) -> CupPlan:
    """F27: far edge, limit at the joint, centre and floor, from the hinge edge; a slab has no joint to meet."""
    row, unit = hinge_row(index, front), index.unit
    diameter, depth = entered(unit, row.cup, "cup"), entered(unit, row.cup_depth, "cup depth")
    edge = entered(unit, row.edge_distance, "edge distance")
    wall = entered(unit, row.wall, "cup wall")
    whole = front.height if front.hinge_side == "top" else front.width
    member = whole if slab else _hinge_member(front, build)
    joint = Figure("joint, none in a slab", Length(0), "chosen") if slab else build.engagement
    return CupPlan(
        front=front.id,
        diameter=diameter,
        depth=depth,
        far_edge=total(f"far edge of the cup of {front.id}", plus(edge), plus(diameter)),
        limit=total("room for the cup", plus(member), minus(joint), minus(wall)),
        centre=total(f"cup centre of {front.id}", plus(edge), plus(share("half a cup", diameter, 2))),
        floor_left=total("wood under the cup", plus(build.thickness), minus(depth)),
        floor_least=entered(unit, row.floor, "cup floor"),
    )


def _hinge_member(front: FrontPlan, build: BuildPlan) -> Figure:
    """The member that the cups are bored into: a stile, or the top rail of a door hung at the top."""
    return build.top_rail if front.hinge_side == "top" else build.stile

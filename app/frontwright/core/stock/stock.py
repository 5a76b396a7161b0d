"""The stock chapter, whole: what is to be cut from what, layouts as accepted, which pieces another batch keeps out."""

from __future__ import annotations

from frontwright.core.facing.result import FacingPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.making.result import MakingPlan
from frontwright.core.stock.checks import stock_checks
from frontwright.core.stock.layouts import layout_plans, unlaid_of
from frontwright.core.stock.result import StockPlan
from frontwright.core.stock.wants import groups_of
from frontwright.core.veneer.result import VeneerPlan


def stock(
    index: JobIndex,
    fronts: FrontsPlan,
    making: MakingPlan,
    facing: FacingPlan,
    veneer: VeneerPlan,
) -> StockPlan:
    """Groups of parts to be laid, and the layouts of the job held against them."""
    groups = groups_of(index, fronts, making, facing, veneer)
    layouts = layout_plans(index, groups)
    checks = tuple(stock_checks(index, groups, layouts))
    return StockPlan(groups, layouts, unlaid_of(groups, layouts), checks)

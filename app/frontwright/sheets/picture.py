"""A drawing of the core laid on paper."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.plan import Plan
from frontwright.sheets.base import Page


@dataclass(frozen=True, slots=True)
class Picture:
    @staticmethod
    def of_front(plan: Plan, front: str) -> Picture:
        return Picture()

    def scale(self, width: float, height: float) -> str:
        return "1:10"

    def draw(self, page: Page, x: float, y: float, width: float, height: float) -> None:
        page.pen.box(x, y, width, height)

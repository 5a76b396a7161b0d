"""The sheets of an open job: listed, made, noted as printed. What draws them is only loaded when one is asked for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from frontwright.core.plan import Plan
from frontwright.desk.contents import SheetLine
from frontwright.desk.edits.edit import Edit

if TYPE_CHECKING:
    from frontwright.sheets.catalogue import Paper, SheetInfo


class JobSheets:
    """The sheets of the plan that was seen last."""

    def __init__(self) -> None:
        self._seen: tuple[Plan, dict[str, SheetInfo]] | None = None

    @property
    def looked_at(self) -> bool:
        """Whether anybody asked for the sheets in this sitting."""
        return self._seen is not None

    def lines(self, plan: Plan) -> tuple[SheetLine, ...]:
        """The list with the state of each."""
        from frontwright.desk.sheets_list import sheet_lines

        return sheet_lines(plan, self._infos(plan))

    def pdf(self, plan: Plan, keys: Sequence[str], paper: Paper, when: str) -> bytes | str:
        """These sheets as one PDF; or one sentence why not."""
        from frontwright.desk.sheets_list import pdf

        return pdf(plan, self._named(plan, keys), paper, when)

    def printed(self, plan: Plan, keys: Sequence[str], when: str) -> Edit:
        """The edit that notes these as printed or saved; Refused where none is named."""
        from frontwright.desk.sheets_list import printed_edit

        return printed_edit(plan.job, self._named(plan, keys), when)

    def _named(self, plan: Plan, keys: Sequence[str]) -> list[SheetInfo]:
        return [info for one, info in self._infos(plan).items() if one in keys]

    def _infos(self, plan: Plan) -> dict[str, SheetInfo]:
        from frontwright.desk.sheets_list import sheet_infos

        if self._seen is None or self._seen[0] is not plan:
            self._seen = (plan, sheet_infos(plan))
        return self._seen[1]

"""The sheets of an open job: listed, made, noted as printed. What draws them is only loaded when one is asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from frontwright.core.plan import Plan
from frontwright.desk.contents import SheetLine
from frontwright.desk.edits.edit import Edit

if TYPE_CHECKING:
    from frontwright.core.bill.result import WholeBill
    from frontwright.sheets.catalogue import Paper, SheetInfo


class JobSheets:
    """The sheets of the plan that was seen last. `bill` tells what is pulled, bought and paid for, as it is now."""

    def __init__(self, bill: Callable[[], WholeBill] | None = None) -> None:
        self._bill = bill
        self._seen: tuple[Plan, int, dict[str, SheetInfo]] | None = None

    @property
    def looked_at(self) -> bool:
        """Whether anybody asked for the sheets in this sitting."""
        return self._seen is not None

    def lines(self, plan: Plan, step: int = 0) -> tuple[SheetLine, ...]:
        """The list with the state of each; `step` goes on where the rack has moved and the plan has not."""
        from frontwright.desk.sheets_list import sheet_lines

        return sheet_lines(plan, self._infos(plan, step))

    def pdf(self, plan: Plan, keys: Sequence[str], paper: Paper, when: str, step: int = 0) -> bytes | str:
        """These sheets as one PDF; or one sentence why not."""
        from frontwright.desk.sheets_list import pdf

        return pdf(plan, self._named(plan, keys, step), paper, when, self._bill)

    def printed(self, plan: Plan, keys: Sequence[str], when: str, step: int = 0) -> Edit:
        """The edit that notes these as printed or saved; Refused where none is named."""
        from frontwright.desk.sheets_list import printed_edit

        return printed_edit(plan.job, self._named(plan, keys, step), when)

    def _named(self, plan: Plan, keys: Sequence[str], step: int) -> list[SheetInfo]:
        return [info for one, info in self._infos(plan, step).items() if one in keys]

    def _infos(self, plan: Plan, step: int) -> dict[str, SheetInfo]:
        from frontwright.desk.sheets_list import sheet_infos

        if self._seen is None or self._seen[0] is not plan or self._seen[1] != step:
            self._seen = (plan, step, sheet_infos(plan, self._bill))
        return self._seen[2]

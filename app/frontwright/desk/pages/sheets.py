"""The Sheets page: the list with the state of each (`Session.sheets` has the same as lines for the window)."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.findings import CheckLevel
from frontwright.desk.contents import Column, PageContents, SheetLine, Table, TableRow
from frontwright.desk.pages.bill import bill_of
from frontwright.desk.pages.findings import finding_line
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.numbers import count_of

_LEVELS: dict[str, CheckLevel] = {"held": "stop", "stale": "warn"}
_WORDS = {"not printed": "not printed", "current": "current", "stale": "stale", "held": "held back"}


def sheets_page(view: View) -> PageContents:
    """The list of sheets as a table."""
    from frontwright.desk.sheets_list import sheet_infos, sheet_lines, stale_checks

    infos = sheet_infos(view.plan, lambda: bill_of(view))
    lines = sheet_lines(view.plan, infos)
    stale = (check for check in stale_checks(view.plan, infos) if check.is_open)
    findings = tuple(replace(finding_line(view, check), answerable=False) for check in stale)
    again = sum(1 for line in lines if line.state == "stale")
    held = sum(1 for line in lines if line.state == "held")
    said = [f"{count_of(again, 'sheet')} to print again"] if again else []
    said += [f"{held} held back"] if held else []
    columns = (
        Column("", axis=False),
        Column("sheet", axis=False, share=2),
        Column("state", axis=False),
        Column("why", axis=False, share=3),
    )
    rows = tuple(_row(line) for line in lines)
    table = Table("sheets", "Sheets", "", columns, rows, tall=True)
    return PageContents("sheets", "Sheets", (), "", ", ".join(said), ((table,),), None, findings)


def _row(line: SheetLine) -> TableRow:
    level = _LEVELS.get(line.state, "ok")
    cells = (
        words(line.number, line.subject, bold=True),
        words(line.title, line.subject),
        words(_WORDS[line.state], line.subject, level=level, bold=level != "ok"),
        words(line.reason, line.subject),
    )
    return TableRow(line.subject, cells)

"""Sheets that leave the program: saved or printed, the bytes as they were previewed."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QWidget

from frontwright.core.lengths import Unit
from frontwright.core.plan import derive
from frontwright.desk.edits.start import empty_job
from frontwright.desk.whole_files import write_whole
from frontwright.window import dialogs

BLANK = ("field-run", "field-opening")


def blank_sheets(unit: Unit) -> bytes:
    """The blank field sheets, usable without the program, on the paper of this unit's countries."""
    from frontwright.sheets.catalogue import Stamp, make, sheets_of

    plan = derive(empty_job(unit))
    infos = [info for info in sheets_of(plan) if info.kind in BLANK]
    return make(plan, infos, "letter" if unit == "in" else "a4", Stamp())


def save_data(parent: QWidget, data: bytes, suggested: Path) -> tuple[str, bool]:
    """Ask where to and save; gives a notice (empty where it was called off) and whether it was done."""
    path = dialogs.place_for_sheets(parent, suggested)
    if path is None:
        return "", False
    try:
        write_whole(path, data)
    except OSError as error:
        return f"{path.name} cannot be written there ({error.strerror}): choose another place.", False
    return f"Saved as {path}", True


def print_data(parent: QWidget, data: bytes, name: str) -> tuple[str, bool]:
    """Ask which printer and print; gives a notice (empty where it was called off) and whether it was done."""
    from frontwright.window import printing

    printer = printing.ask_printer(parent, name)
    if printer is None:
        return "", False
    pages = printing.print_pdf(data, printer)
    return f"{pages} {'page' if pages == 1 else 'pages'} given to the printer.", True

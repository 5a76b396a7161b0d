"""Everything that is asked in a box of the desktop, each behind one call, so that a test can put an answer there."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QInputDialog, QMessageBox, QWidget

JOBS = "Jobs (*.frontwright *.json)"
WORKBOOK, LISTS = "Workbook with all lists (*.xlsx)", "Lists (*.xlsx *.csv)"


def job_to_open(parent: QWidget, folder: Path) -> Path | None:
    """A job file that a person picked; None where none was."""
    name, _ = QFileDialog.getOpenFileName(parent, "Open a job", str(folder), JOBS)
    return Path(name) if name else None


def place_for_copy(parent: QWidget, suggested: Path) -> Path | None:
    """Where a copy of the job goes, as a file of words that other programs can read."""
    return _place(parent, "Keep a copy as", suggested, "Job as text (*.json)", ".json")


def place_for_lists(parent: QWidget, suggested: Path) -> Path | None:
    """Where the lists of a job go: all of them in a workbook, or one as CSV."""
    return _place(parent, "Save the lists as", suggested, f"{WORKBOOK};;One list (*.csv)", ".xlsx")


def list_to_take_in(parent: QWidget, folder: Path) -> Path | None:
    """A list of parts or pieces that a person picked; None where none was."""
    name, _ = QFileDialog.getOpenFileName(parent, "Take in a list", str(folder), LISTS)
    return Path(name) if name else None


def place_for_sheets(parent: QWidget, suggested: Path) -> Path | None:
    """Where sheets are to be saved."""
    return _place(parent, "Save the sheets as", suggested, "PDF (*.pdf)", ".pdf")


def choose(parent: QWidget, title: str, words: str, choices: tuple[str, ...]) -> str | None:
    """One of a few words; None where none was taken."""
    word, taken = QInputDialog.getItem(parent, title, words, list(choices), 0, False)  # noqa: FBT003 - Qt's signature
    return word if taken else None


def tell(parent: QWidget | None, title: str, words: str, details: str = "") -> None:
    """Say something that must not be missed."""
    box = QMessageBox(QMessageBox.Icon.Warning, title, words, QMessageBox.StandardButton.Ok, parent)
    if details:
        box.setDetailedText(details)
    box.exec()


def _place(parent: QWidget, title: str, suggested: Path, kinds: str, ending: str) -> Path | None:
    name, _ = QFileDialog.getSaveFileName(parent, title, str(suggested), kinds)
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(ending)

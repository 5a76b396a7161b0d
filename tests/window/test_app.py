"""Starting, breaking off, printing: what surrounds the window."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from frontwright.window import app, crash, printing
from frontwright.window.paper import blank_sheets
from frontwright.window.settings import Settings
from frontwright.window.theme import Theme
from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPrintSupport import QPrinter
from pytestqt.qtbot import QtBot


def test_the_program_tests_itself_and_touches_nothing_of_the_persons_own(qtbot: QtBot, own_home: Path) -> None:
    assert app.selftest() == 0
    assert not list(own_home.rglob("*.frontwright"))


def test_a_crash_keeps_what_is_typed_first_then_is_written_down_and_told(
    qtbot: QtBot, caplog: pytest.LogCaptureFixture
) -> None:
    steps: list[str] = []
    hook = crash.CrashHook(lambda: steps.append("kept"), lambda words, text: steps.append(f"{words}\n{text}"))
    try:
        raise RuntimeError("the saw stopped")
    except RuntimeError as error:
        hook(type(error), error, error.__traceback__)
    assert steps[0] == "kept"
    assert "the saw stopped" in steps[1]
    assert crash.SENTENCE in steps[1]
    assert "the saw stopped" in caplog.text
    assert "the saw stopped" in crash.last_crash()
    assert crash.last_crash() == ""


def test_a_rescue_that_fails_hinders_no_other(qtbot: QtBot, caplog: pytest.LogCaptureFixture) -> None:
    told: list[str] = []

    def fails() -> None:
        raise OSError("the disk is full")

    hook = crash.CrashHook(fails, lambda _words, text: told.append(text))
    hook(ValueError, ValueError("first"), None)
    assert "first" in told[0]
    assert "the disk is full" in caplog.text


def test_the_hook_stands_where_python_asks(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    hook = crash.CrashHook(lambda: None, lambda _words, _text: None)
    hook.install()
    assert sys.excepthook is hook


@pytest.mark.parametrize(("unit", "points"), [("in", (612, 792)), ("mm", (595.3, 841.9))])
def test_a_blank_field_sheet_prints_at_its_own_size(
    qtbot: QtBot, tmp_path: Path, unit: str, points: tuple[float, float]
) -> None:
    data = blank_sheets("in" if unit == "in" else "mm")
    place = tmp_path / "printed.pdf"
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(place))
    printer.setResolution(150)
    printer.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Point)
    pages = printing.print_pdf(data, printer)
    document = QPdfDocument()
    document.load(str(place))
    assert document.pageCount() == pages >= 2
    sizes = [sorted((document.pagePointSize(n).width(), document.pagePointSize(n).height())) for n in range(pages)]
    for size in sizes:
        assert size == pytest.approx(points, abs=2)
    picture = document.render(pages - 1, document.pagePointSize(pages - 1).toSize())
    dark = sum(
        picture.pixelColor(x, y).lightness() < 128
        for x in range(0, picture.width(), 3)
        for y in range(0, picture.height(), 3)
    )
    assert dark > 50


def test_bytes_that_are_no_sheet_are_not_printed(qtbot: QtBot, tmp_path: Path) -> None:
    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "nothing.pdf"))
    with pytest.raises(ValueError, match="cannot be read"):
        printing.print_pdf(b"no sheet", printer)


def test_the_window_remembers_size_and_palette_and_forgets_nonsense(qtbot: QtBot) -> None:
    settings = Settings()
    settings.mode, settings.growth = "dark", 1.5
    again = Settings()
    assert (again.mode, again.growth) == ("dark", 1.5)
    again._kept.setValue("look/mode", "purple")
    again._kept.setValue("look/size", "enormous")
    assert (Settings().mode, Settings().growth) == ("desktop", 1.0)
    assert Theme(Settings().mode, Settings().growth).growth == 1.0

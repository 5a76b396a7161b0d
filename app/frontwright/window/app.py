"""Starting the window: once for a person, once unseen to see whether this copy of the program is whole."""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QTimer
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from frontwright.resources import resource
from frontwright.window import crash, dialogs
from frontwright.window.main_window import MainWindow
from frontwright.window.settings import Settings
from frontwright.window.theme import Theme


def run(job_path: Path | None = None, shop_path: Path | None = None) -> int:
    """Open the window with a job; without one with the job opened last, at the first start with the sample.

    Returns the exit code of the program.
    """
    application = _application()
    settings = Settings()
    theme = Theme(settings.mode, settings.growth)
    theme.dress()
    window = MainWindow(theme, shop_path, settings)
    if settings.geometry is not None:
        window.restoreGeometry(settings.geometry)
    crash.CrashHook(window.rescue, lambda words, text: dialogs.tell(window, "Frontwright", words, text)).install()
    window.show()
    window.open_first(job_path)
    _collect_seldom()
    last = crash.last_crash()
    if last:
        QTimer.singleShot(0, window, lambda: window.show_last_crash(last))
    return application.exec()


def _collect_seldom() -> None:
    """A plan is thousands of figures and leaves no cycles: what stands is not looked through again, the rest seldom."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)


def selftest() -> int:
    """Open the window unseen with a sample, make one sheet, close; 0 if all was well, else 1 with what was not.

    Nothing of the person's own is touched: job and shop lie in a folder that is thrown away.
    """
    from tempfile import TemporaryDirectory

    if "QT_QPA_PLATFORM" not in os.environ:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    application = _application()
    with TemporaryDirectory() as folder:
        problem = _try_out(application, Path(folder))
    if problem:
        sys.stderr.write(f"{problem}\n")
        return 1
    return 0


def _try_out(application: QApplication, folder: Path) -> str:
    """Go once through the program; gives what went wrong, "" where nothing did."""
    from frontwright.desk import recent

    theme = Theme("light")
    theme.dress()
    window = MainWindow(theme, folder / "shop.frontwright-shop")
    window.show()
    try:
        sample = recent.sample("laundry-pair", folder)
        if not window.open_job(sample) or window.view is None:
            return window.status.left.text() or "the sample job does not open"
        for tab in window.view.session.tabs():
            window.view.open_chapter(tab.chapter)
            application.processEvents()
        ready = [line.key for line in window.view.sheets() if line.state != "held"]
        made = window.view.pdf(ready[:1], window.view.paper()) if ready else "the sample job has no sheet that is ready"
        if isinstance(made, str):
            return made
        return "" if made.startswith(b"%PDF") else "a sheet was made that is no PDF"
    finally:
        window.close()
        window.deleteLater()
        application.processEvents()


def _application() -> QApplication:
    """The one application object of the process."""
    running = QApplication.instance()
    if isinstance(running, QApplication):
        return running
    QCoreApplication.setOrganizationName("frontwright")
    QCoreApplication.setApplicationName("frontwright")
    application = QApplication(sys.argv[:1])
    application.setStyle("Fusion")
    application.setDesktopFileName("frontwright")
    application.setWindowIcon(QIcon(str(resource("icons", "frontwright.svg"))))
    return application

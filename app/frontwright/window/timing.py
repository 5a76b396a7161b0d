"""What a person waits for in the window, measured in a process of its own; `frontwright bench` starts it unseen.

Each function prints one line of JSON: seconds, or megabytes of memory.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from frontwright.core.lengths import IN_THIRTYSECONDS
from frontwright.desk.keys import key
from frontwright.window.entry import EntryField
from frontwright.window.main_window import MainWindow
from frontwright.window.reading import understood
from frontwright.window.theme import Theme


def stand(job: str, shop: str) -> None:
    """Open a job and say so when its first page can be used: `memory` in megabytes (None where it is not told)."""
    application, window = _window(job, shop)
    _say(stands=True, memory=_memory())
    window.close()
    application.processEvents()


def typing(text: str) -> None:
    """Type a text letter by letter into an entry field: the slowest letter until its reading is on the screen."""
    application = _application()
    theme = Theme("light")
    theme.dress()
    room = QWidget()
    room.resize(400, 200)
    field = EntryField(theme, lambda typed: understood(typed, "length", IN_THIRTYSECONDS), room)
    field.show_note_in(room)
    room.show()
    field.setFocus()
    waits = []
    for letter in text:
        began = perf_counter()
        QTest.keyClicks(field, letter)
        application.processEvents()
        room.grab()
        waits.append(perf_counter() - began)
    _say(slowest=max(waits))


def redraw(job: str, shop: str, opening: str, texts: str) -> None:
    """Enter one text after another for the width of an opening: the middle wait for the page to be painted."""
    application, window = _window(job, shop)
    view = window.view
    if view is None:
        raise SystemExit("there is no job to enter anything into")
    waits = []
    for chapter in ("survey", "fronts"):
        view.open_chapter(chapter)
        application.processEvents()
        for text in texts.split(","):
            view.session.enter(key("readings", opening, "width", "top"), text)
            began = perf_counter()
            view.refresh()
            application.processEvents()
            window.repaint()
            waits.append(perf_counter() - began)
    window.close()
    _say(middle=sorted(waits)[len(waits) // 2], slowest=max(waits))


def _window(job: str, shop: str) -> tuple[QApplication, MainWindow]:
    application = _application()
    theme = Theme("light")
    theme.dress()
    window = MainWindow(theme, Path(shop))
    window.show()
    if not window.open_job(Path(job)):
        raise SystemExit(window.status.left.text())
    application.processEvents()
    window.repaint()
    return application, window


def _application() -> QApplication:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    application = QApplication(sys.argv[:1])
    application.setStyle("Fusion")
    return application


def _memory() -> float | None:
    """Megabytes that this process has taken at most; None where the system does not tell."""
    try:
        import resource
    except ImportError:
        return None
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1024 * 1024 if sys.platform == "darwin" else 1024)


def _say(**told: float | bool | None) -> None:
    sys.stdout.write(json.dumps(told) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    wanted: dict[str, Callable[..., None]] = {"stand": stand, "typing": typing, "redraw": redraw}
    wanted[sys.argv[1]](*sys.argv[2:])

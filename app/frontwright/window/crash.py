"""What nobody foresaw went wrong: keep what is typed, write it down, say it, show it at the next start."""

from __future__ import annotations

import logging
import sys
import traceback
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QStandardPaths

_log = logging.getLogger("frontwright")
SENTENCE = (
    "Something went wrong in the program itself. The job is in its file as it was before the last step; "
    "what was half typed is kept."
)


def place() -> Path:
    """The file in which the last crash is written down."""
    folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppDataLocation)
    return Path(folder) / "last-crash.txt"


def last_crash() -> str:
    """The text of the last crash, once; "" where there was none since it was last asked."""
    path = place()
    try:
        text = path.read_text(encoding="utf-8")
        path.unlink()
    except OSError:
        return ""
    return text


class CrashHook:
    """Takes what nothing else caught. `rescue` keeps half-typed text, `tell` shows a sentence and the details."""

    def __init__(self, rescue: Callable[[], None], tell: Callable[[str, str], None]) -> None:
        self._rescue, self._tell = rescue, tell
        self._busy = False

    def install(self) -> None:
        """From now on everything uncaught comes here."""
        sys.excepthook = self

    def __call__(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt) or self._busy:
            sys.__excepthook__(kind, error, trace)
            return
        self._busy = True
        text = "".join(traceback.format_exception(kind, error, trace))
        for step in (lambda: _log.error("%s", text), self._rescue, lambda: _write(text), lambda: self._show(text)):
            _guarded(step)
        self._busy = False

    def _show(self, text: str) -> None:
        self._tell(SENTENCE, text)


def _write(text: str) -> None:
    path = place()
    path.parent.mkdir(parents=True, exist_ok=True)
    when = datetime.now().astimezone().isoformat(timespec="seconds")
    path.write_text(f"{when}\n{text}", encoding="utf-8")


def _guarded(step: Callable[[], None]) -> None:
    """One rescue must not hinder the next."""
    try:
        step()
    except Exception:  # noqa: BLE001 - the outermost call: whatever a rescue runs into is logged, the next one is tried
        _log.exception("a rescue failed")

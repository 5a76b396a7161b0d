"""What the window remembers from one start to the next: size, palette, place. Nothing of a job is in it."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QByteArray, QSettings

from frontwright.window.theme import GROWTHS, Mode

_NAME = "frontwright"


class Settings:
    """The window's own memory, in the platform's place for such things."""

    def __init__(self) -> None:
        self._kept = QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, _NAME, _NAME)

    @property
    def mode(self) -> Mode:
        mode = str(self._kept.value("look/mode", "desktop"))
        return cast(Mode, mode) if mode in ("desktop", "light", "dark") else "desktop"

    @mode.setter
    def mode(self, mode: Mode) -> None:
        self._kept.setValue("look/mode", mode)

    @property
    def growth(self) -> float:
        try:
            growth = float(str(self._kept.value("look/size", "1")))
        except ValueError:
            return 1.0
        return growth if growth in GROWTHS else 1.0

    @growth.setter
    def growth(self, growth: float) -> None:
        self._kept.setValue("look/size", str(growth))

    @property
    def begun(self) -> dict[str, str]:
        """What was typed into the form of a new job that was not started yet."""
        found = self._kept.value("begun/form", {})
        return {str(name): str(text) for name, text in found.items()} if isinstance(found, dict) else {}

    @begun.setter
    def begun(self, texts: dict[str, str]) -> None:
        self._kept.setValue("begun/form", dict(texts))

    @property
    def geometry(self) -> QByteArray | None:
        found = self._kept.value("window/place")
        return found if isinstance(found, QByteArray) else None

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._kept.setValue("window/place", geometry)

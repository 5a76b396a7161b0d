"""What window tests share: a theme, and a place of paper in which widgets can be shown."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from frontwright.window.theme import Theme
from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

Shower = Callable[[QWidget], QWidget]


@pytest.fixture
def theme(qtbot: QtBot) -> Theme:
    made = Theme("light")
    made.dress()
    return made


@pytest.fixture
def show(qtbot: QtBot) -> Shower:
    """Shows a widget on a page of its own, active, so that it can have the focus."""

    shown: list[QWidget] = []  # whoever shows a page keeps it until the test is over

    def _show(widget: QWidget) -> QWidget:
        page = QWidget()
        shown.append(page)
        page.setObjectName("page")
        layout = QVBoxLayout(page)
        layout.addWidget(widget)
        page.resize(900, 500)
        qtbot.addWidget(page)
        with qtbot.waitActive(page):
            page.show()
            page.activateWindow()
        return page

    return _show

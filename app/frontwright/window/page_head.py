"""The head of a page: title, chooser of the subject, buttons, one line of advice."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from frontwright.desk.contents import Action, Choice, PageContents
from frontwright.window.block import SHOWN, action_buttons, button_in, keeping_focus
from frontwright.window.chooser import Chooser
from frontwright.window.prose import Prose
from frontwright.window.search_line import SearchLine
from frontwright.window.theme import Theme

MARGIN = 20
ROOMY = 1000


class PageHead(QWidget):
    """Title, chooser of the subject, one line of advice at the right, and what the whole page offers as buttons."""

    subject_chosen = Signal(str)
    acted = Signal(str)
    searched = Signal(str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._choices: tuple[Choice, ...] = ()
        self._actions: tuple[Action, ...] = ()
        self._title = QLabel()
        self._title.setFont(theme.font(20, bold=True))
        self.chooser = Chooser(theme)
        self.chooser.setAccessibleName("what this page shows")
        self.chooser.activated.connect(self._choose)
        self.search = SearchLine(theme)
        self.search.asked.connect(self.searched)
        self._found = Prose(theme)
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(theme.px(8))
        self._advice = Prose(theme, right=True)
        self._advice.setMinimumWidth(theme.px(280))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(theme.px(MARGIN), theme.px(8), theme.px(MARGIN), 0)
        layout.setSpacing(theme.px(24))
        layout.addWidget(self._title)
        layout.addWidget(self.chooser)
        layout.addWidget(self.search)
        layout.addWidget(self._found)
        layout.addLayout(self._buttons)
        layout.addStretch(1)
        layout.addWidget(self._advice, 2)
        self.setFixedHeight(theme.px(52))

    def show_head(self, contents: PageContents) -> None:
        """Take over title, choices and advice; nothing is sent."""
        self._title.setText(contents.title)
        self._advice.say(contents.advice)
        if contents.choosers != self._choices:
            self._choices = contents.choosers
            self.chooser.show_choices(
                [(choice.value, choice.word) for choice in contents.choosers],
                named=contents.chapter not in ("shop", "site"),
            )
        self.chooser.setVisible(bool(contents.choosers))
        self.search.setVisible(contents.search is not None)
        self._found.setVisible(bool(contents.found))
        self._found.say(contents.found)
        self.search.stand_at(contents.search or "")
        at = self.chooser.findData(contents.chosen)
        if at >= 0:
            self.chooser.setCurrentIndex(at)
        if contents.actions != self._actions:
            self._show_actions(contents.actions)

    def _show_actions(self, actions: tuple[Action, ...]) -> None:
        had = keeping_focus(self._buttons)
        self._actions = actions
        while (item := self._buttons.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        shown = SHOWN if self._roomy else 0
        for button in action_buttons(actions, self.acted.emit, shown):
            self._buttons.addWidget(button)
        had(self._buttons)

    def button_of(self, action: str) -> QPushButton | None:
        """The button that has this done; None where there is none, or it stands in a menu."""
        return button_in(self._buttons, self._actions, action)

    @property
    def _roomy(self) -> bool:
        """Whether buttons can stand beside the chooser; in a narrow window they share one menu."""
        return self.width() >= self._theme.px(ROOMY)

    def resizeEvent(self, event: QResizeEvent) -> None:
        was = event.oldSize().width() >= self._theme.px(ROOMY)
        super().resizeEvent(event)
        if was is not self._roomy:
            self._show_actions(self._actions)

    def _choose(self, at: int) -> None:
        self.subject_chosen.emit(self.chooser.itemData(at))

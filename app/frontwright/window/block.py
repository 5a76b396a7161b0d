"""A table or form with its title, a soft word beside it, and its buttons."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from frontwright.desk.contents import Action, Form, Table
from frontwright.window.figures import paint_parts, parts_width, words_with_figures
from frontwright.window.grid import Grid
from frontwright.window.hands import Hands
from frontwright.window.theme import Theme

SHOWN = 2  # buttons beside each other; more go into a menu


def action_buttons(actions: Sequence[Action], do: Callable[[str], None], shown: int = SHOWN) -> list[QPushButton]:
    """Buttons for actions; `do` gets the key. What is done more seldom stands in the menu of a last button."""
    few = actions[:shown]
    buttons = []
    for action in few:
        button = QPushButton(action.word)
        button.setAutoDefault(True)
        button.ensurePolished()
        button.clicked.connect(lambda _=False, key=action.key: do(key))
        buttons.append(button)
    if len(few) < len(actions):
        more = QPushButton("More …" if few else "Choose …")
        menu = QMenu(more)
        for action in actions[shown:]:
            menu.addAction(action.word).triggered.connect(lambda _=False, key=action.key: do(key))
        more.setMenu(menu)
        buttons.append(more)
    return buttons


def button_in(row: QHBoxLayout, actions: Sequence[Action], wanted: str) -> QPushButton | None:
    """The button of a row that has this done; None where there is none, or it stands in a menu."""
    for at, one in enumerate(actions):
        item = row.itemAt(at)
        button = item.widget() if item is not None else None
        if one.key == wanted and isinstance(button, QPushButton) and button.menu() is None:
            return button
    return None


def keeping_focus(row: QHBoxLayout) -> Callable[[QHBoxLayout], None]:
    """Before the buttons of a row are made anew: gives what puts the focus on the one that stands there then.

    Otherwise whoever pressed a button with a key would find the focus somewhere else in the window.
    """
    widgets = [item.widget() for at in range(row.count()) if (item := row.itemAt(at)) is not None]
    at = next((n for n, one in enumerate(widgets) if one is not None and one.hasFocus()), -1)

    def put(new: QHBoxLayout) -> None:
        item = new.itemAt(min(at, new.count() - 1)) if at >= 0 and new.count() else None
        button = item.widget() if item is not None else None
        if button is not None:
            button.show()  # a widget that is not shown yet cannot have the focus
            button.setFocus()

    return put


class Heading(QWidget):
    """A bold title at the left, soft words at the right, on one line."""

    def __init__(self, theme: Theme, size: float = 14, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme, self._size = theme, size
        self._title = self._aside = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def say(self, title: str, aside: str = "") -> None:
        if (title, aside) != (self._title, self._aside):
            self._title, self._aside = title, aside
            self.setAccessibleName(title)
            self.updateGeometry()
            self.update()

    def sizeHint(self) -> QSize:
        scale = self._theme.scale
        width = parts_width(words_with_figures(self._title), self._theme.letters(self._size, bold=True))
        aside = parts_width(words_with_figures(self._aside), self._theme.letters(12))
        return QSize(round(width + aside + 12 * scale), self._theme.px(26))

    def minimumSizeHint(self) -> QSize:
        width = parts_width(words_with_figures(self._title), self._theme.letters(self._size, bold=True))
        return QSize(round(width), self._theme.px(26))

    def paintEvent(self, _event: QPaintEvent) -> None:
        scale, colours = self._theme.scale, self._theme.palette
        painter = QPainter(self)
        y = round(self.height() / 2 + 5 * scale)
        end = paint_parts(
            painter,
            QPointF(0, y),
            words_with_figures(self._title),
            self._theme.letters(self._size, bold=True),
            colours.ink,
        )
        aside = words_with_figures(self._aside)
        left = self.width() - parts_width(aside, self._theme.letters(12))
        if left > end + 8 * scale:
            paint_parts(painter, QPointF(left, y), aside, self._theme.letters(12), colours.ink_soft)
        painter.end()


class Block(QWidget):
    """One table or form of a page."""

    def __init__(self, theme: Theme, hands: Hands, block: Table | Form, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = block.key
        self._theme, self._hands = theme, hands
        self._heading = Heading(theme)
        self.grid = Grid(theme, hands, block, self)
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(theme.px(8))
        self._actions: tuple[Action, ...] = ()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme.px(2))
        layout.addWidget(self._heading)
        layout.addWidget(self.grid, 1)
        layout.addLayout(self._buttons)
        layout.addStretch(0)
        self.show_block(block)

    def show_block(self, block: Table | Form) -> None:
        """Take over new contents of this block."""
        self._heading.say(block.title, block.aside)
        self._heading.setVisible(bool(block.title))
        self.grid.show_block(block)
        self.grid.setMaximumHeight(self.grid.sizeHint().height())
        self.grid.updateGeometry()
        if block.actions != self._actions:
            self._show_actions(block.actions)

    def _show_actions(self, actions: tuple[Action, ...]) -> None:
        had = keeping_focus(self._buttons)
        self._actions = actions
        while (item := self._buttons.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for button in action_buttons(actions, self._act, self._shown(actions)):
            self._buttons.addWidget(button)
        if actions:
            had(self._buttons)
            self._buttons.addStretch(1)
            self._buttons.setContentsMargins(0, self._theme.px(6), 0, 0)

    def _shown(self, actions: tuple[Action, ...]) -> int:
        """A form is narrow: several buttons under it would be wider than the form, so they share one."""
        if self.grid.is_form:
            return 1 if len(actions) == 1 else 0
        return SHOWN

    def button_of(self, action: str) -> QPushButton | None:
        """The button that has this done; None where there is none, or it stands in a menu."""
        return button_in(self._buttons, self._actions, action)

    @property
    def is_form(self) -> bool:
        return self.grid.is_form

    @property
    def is_narrow(self) -> bool:
        return self.grid.is_narrow

    @property
    def wanted(self) -> int:
        """The width at which every column of the block has room."""
        return max(self.grid.sizeHint().width(), self._buttons.sizeHint().width())

    @property
    def least_width(self) -> int:
        """The width below which the block does not stand beside another: a wide table may scroll a little sideways."""
        share = 0.85 if self.is_narrow else 0.6
        return max(round(share * self.wanted), self._buttons.sizeHint().width())

    def _act(self, key: str) -> None:
        outcome = self._hands.act(key)
        if outcome.problem or outcome.said:
            self._hands.say(outcome.problem or outcome.said)
        if outcome.next_key:
            self._hands.go_on("", 1, outcome.next_key)

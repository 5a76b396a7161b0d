"""A new job from one form: two readings and three choices, with the drawing and the first numbers beside it, live."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import cast

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QShowEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QButtonGroup,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from frontwright.core.drawing.marks import Drawing
from frontwright.core.job import DoorKind, Scheme
from frontwright.core.lengths import IN_HALF_MM, IN_THIRTYSECONDS, Display, Unit
from frontwright.desk.edits.start import NewJob
from frontwright.desk.pages.start import StartContents, start_contents
from frontwright.window.block import Heading
from frontwright.window.canvas import Board, paint_drawing
from frontwright.window.entry import EntryField
from frontwright.window.figures import paint_parts
from frontwright.window.grid import Grid
from frontwright.window.hands import OnlyLook
from frontwright.window.prose import Prose
from frontwright.window.reading import Understood, understood
from frontwright.window.theme import Theme

FIELDS = ("width", "height", "amount", "name")


@dataclass(frozen=True, slots=True)
class Option:
    """One of a few choices: its value, its word, and the small drawing that shows it."""

    value: str
    word: str
    icon: Drawing | None


class ChoiceTile(QAbstractButton):
    """A choice as a small drawing with a word; the chosen one has a frame of ink and a bar."""

    def __init__(self, theme: Theme, option: Option, size: QSize) -> None:
        super().__init__()
        self._theme, self.option = theme, option
        self.setCheckable(True)
        self.setFixedSize(size)
        self.setAccessibleName(option.word)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)

    def paintEvent(self, _event: QPaintEvent) -> None:
        theme, px, colours = self._theme, self._theme.px, self._theme.palette
        painter = QPainter(self)
        rect = QRectF(self.rect())
        painter.fillRect(rect, colours.field)
        high = px(22) if self.option.icon is not None else rect.height()
        bar = QRectF(0, rect.height() - high, rect.width(), high)
        icon = rect.adjusted(px(8), px(8), -px(8), -px(28))
        if self.option.icon is not None:
            painter.save()
            paint_drawing(painter, icon, self.option.icon, theme)
            painter.restore()
        chosen = self.isChecked()
        if chosen:
            painter.fillRect(bar, colours.ink)
        painter.setFont(theme.font(12, bold=chosen, condensed=len(self.option.word) > 13))
        painter.setPen(colours.paper if chosen else colours.ink)
        painter.drawText(bar, Qt.AlignmentFlag.AlignCenter, self.option.word)
        line = px(2) if chosen else max(1, px(1))
        painter.setPen(QPen(colours.ink if chosen else colours.rule, line))
        painter.drawRect(rect.adjusted(line / 2, line / 2, -line / 2, -line / 2))
        if self.hasFocus():
            painter.setPen(QPen(colours.blue, px(2)))
            painter.drawRect(rect.adjusted(px(3), px(3), -px(3), -px(3)))
        painter.end()


class Tiles(QWidget):
    """Choices side by side; arrow keys walk and choose."""

    chosen = Signal(str)

    def __init__(
        self, theme: Theme, options: Sequence[Option], name: str, width: float, gap: float, high: float
    ) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        self._tiles: dict[str, ChoiceTile] = {}
        self.setAccessibleName(name)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme.px(gap))
        for option in options:
            tile = ChoiceTile(theme, option, QSize(theme.px(width), theme.px(high)))
            tile.toggled.connect(lambda on, value=option.value: self._toggled(value, on=on))
            self._group.addButton(tile)
            self._tiles[option.value] = tile
            layout.addWidget(tile)
        layout.addStretch(1)

    @property
    def value(self) -> str:
        return next((value for value, tile in self._tiles.items() if tile.isChecked()), "")

    def _toggled(self, value: str, *, on: bool) -> None:
        """The chosen tile is the one that Tab stops at."""
        self._tiles[value].setFocusPolicy(Qt.FocusPolicy.StrongFocus if on else Qt.FocusPolicy.ClickFocus)
        if on:
            self.chosen.emit(value)

    def choose(self, value: str) -> None:
        self._tiles[value].setChecked(True)

    @property
    def tiles(self) -> list[ChoiceTile]:
        return list(self._tiles.values())


class UnitSwitch(Tiles):
    """Inches or millimetres, as two words side by side."""

    def __init__(self, theme: Theme) -> None:
        options = (Option("in", "inches", None), Option("mm", "millimetres", None))
        super().__init__(theme, options, "unit", 88, 0, 28)

    @property
    def unit(self) -> Unit:
        return "mm" if self.value == "mm" else "in"


class Numbered(QWidget):
    """A number in a ring with words beside it: one line of the form."""

    def __init__(self, theme: Theme, number: str, words: str, small: str = "") -> None:
        super().__init__()
        self._theme, self._number, self._words, self._small = theme, number, words, small
        self.setFixedSize(theme.px(172), theme.px(60 if small else 32))

    def say(self, words: str) -> None:
        self._words = words
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        theme, px, colours = self._theme, self._theme.px, self._theme.palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._number:
            painter.setPen(QPen(colours.ink, 1.4 * theme.scale))
            painter.drawEllipse(QPointF(px(10.5), px(16)), px(9.5), px(9.5))
            painter.setFont(theme.font(12, bold=True))
            painter.drawText(QRectF(0, px(6), px(21), px(20)), Qt.AlignmentFlag.AlignCenter, self._number)
        paint_parts(painter, QPointF(px(34), px(21)), (self._words,), theme.letters(14), colours.ink)
        for row, line in enumerate(self._small.split("\n") if self._small else ()):
            at = QPointF(px(34), px(38 + 16 * row))
            paint_parts(painter, at, (line,), theme.letters(12), colours.ink_soft)
        painter.end()


class Line(QFrame):
    """A rule across the form."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setFixedHeight(max(2, theme.px(1.5)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.palette.ink)
        painter.end()


@dataclass(frozen=True, slots=True)
class Icons:
    """The small drawings of the form's choices, by value."""

    fronts: dict[str, Drawing]
    schemes: dict[str, Drawing]
    builds: dict[str, Drawing]


def _options(words: Sequence[tuple[str, str]], icons: dict[str, Drawing]) -> list[Option]:
    return [Option(value, word, icons.get(value)) for value, word in words]


FRONTS = (("one", "one door"), ("pair", "a pair"))
SCHEMES = (("inset", "inset"), ("partial cover", "partial cover"), ("full cover", "full cover"))
BUILDS = (
    ("dowelled", "dowelled"),
    ("stub tenon", "stub tenon"),
    ("cope and stick", "cope and stick"),
    ("mitred", "mitred"),
    ("slab", "slab"),
)


class NewJobPage(QScrollArea):
    """The form. `started` is sent with the finished form, `kept` with what is typed, when the typing pauses."""

    started = Signal(object)
    field_sheet = Signal(str)
    left = Signal()
    kept = Signal(dict)

    def __init__(
        self,
        theme: Theme,
        icons: Icons,
        contents: Callable[[NewJob], StartContents] = start_contents,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._theme, self._contents = theme, contents
        self.form = NewJob()
        self._shown: StartContents | None = None
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._make_fields(icons)
        self._lay_out()
        self._order()
        self.unit.choose("in")
        self.fronts.choose("one")
        self.scheme.choose("partial cover")
        self.build.choose("stub tenon")
        self._changed()

    def _make_fields(self, icons: Icons) -> None:
        theme = self._theme
        self.unit = UnitSwitch(theme)
        self.fields = {name: self._field(name) for name in FIELDS}
        self.said = {name: Prose(theme, "", 13) for name in ("width", "height", "amount")}
        for name, words in self.said.items():
            self.fields[name].read_as.connect(lambda found, said=words: self._tell(said, found))
        self.fronts = Tiles(theme, _options(FRONTS, icons.fronts), "fronts", 117, 12, 86)
        self.scheme = Tiles(theme, _options(SCHEMES, icons.schemes), "how it lies", 117, 12, 86)
        self.build = Tiles(theme, _options(BUILDS, icons.builds), "door build", 99, 7, 86)
        for tiles in (self.unit, self.fronts, self.scheme, self.build):
            tiles.chosen.connect(lambda _value: self._changed())
        self.start = QPushButton("Start the job")
        self.start.setProperty("main", "true")
        self.start.clicked.connect(self._start)
        self.blank = QPushButton("Print a blank field sheet")
        self.blank.clicked.connect(lambda: self.field_sheet.emit(self.form.unit))
        self.problem = Prose(theme, "", 13, "stop")
        self.amount_word = Numbered(theme, "", "Cover on each side")
        self.board = Board(theme)
        self.board.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def _field(self, name: str) -> EntryField:
        field = EntryField(self._theme, None if name == "name" else self._read)
        field.setFont(self._theme.font(18 if name != "name" else 15))
        field.setFixedHeight(self._theme.px(32))
        words = {
            "width": "opening width",
            "height": "opening height",
            "amount": "cover on each side",
            "name": "keep as",
        }
        field.setAccessibleName(words[name])
        field.textChanged.connect(lambda _text: self._changed())
        field.kept.connect(lambda _text: self.kept.emit(self.texts))
        return field

    @property
    def _display(self) -> Display:
        return IN_THIRTYSECONDS if self.unit.unit == "in" else IN_HALF_MM

    def _read(self, text: str) -> Understood:
        return understood(text, "length", self._display)

    def _tell(self, words: Prose, found: Understood) -> None:
        role = {"doubt": "warn", "refused": "stop"}.get(found.state, "ink_soft")
        words.say(found.line, role)

    def _lay_out(self) -> None:
        px = self._theme.px
        body = QWidget()
        columns = QHBoxLayout(body)
        columns.setContentsMargins(px(72), px(28), px(48), px(12))
        columns.setSpacing(px(48))
        left = QWidget()
        left.setFixedWidth(px(560))
        left.setLayout(self._left())
        columns.addWidget(left, 0, Qt.AlignmentFlag.AlignTop)
        columns.addLayout(self._right(), 1)
        self.setWidget(body)
        for surface in (body, self.viewport()):
            surface.setAutoFillBackground(False)

    def _order(self) -> None:
        """Tab and Enter walk in the order of the numbers."""
        steps: list[QWidget] = [self.fields["width"], self.fields["height"], *self.fronts.tiles, *self.scheme.tiles]
        steps += [self.fields["amount"], *self.build.tiles, self.fields["name"], self.start, self.blank]
        steps += self.unit.tiles
        for before, after in pairwise(steps):
            QWidget.setTabOrder(before, after)

    def _left(self) -> QGridLayout:
        theme, px = self._theme, self._theme.px
        grid = QGridLayout()
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(px(4))
        grid.setVerticalSpacing(px(13))
        grid.addLayout(self._title(), 0, 0, 1, 3)
        grid.addWidget(Line(theme), 1, 0, 1, 3)
        lines = (("1", "Opening width", "width"), ("2", "Opening height", "height"))
        for row, (number, words, name) in enumerate(lines, 2):
            grid.addWidget(Numbered(theme, number, words), row, 0)
            grid.addLayout(self._beside(self.fields[name], self.said[name]), row, 1, 1, 2)
        grid.addWidget(Numbered(theme, "3", "Fronts"), 4, 0)
        grid.addWidget(self.fronts, 4, 1, 1, 2)
        grid.addWidget(Numbered(theme, "4", "How it lies", "on the frame,\nseen from above"), 5, 0)
        grid.addWidget(self.scheme, 5, 1, 1, 2)
        grid.addWidget(self.amount_word, 6, 0)
        grid.addLayout(self._beside(self.fields["amount"], self.said["amount"]), 6, 1, 1, 2)
        corner = self._soft("corner, from the front")
        corner.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        grid.addWidget(Numbered(theme, "5", "Door build"), 7, 0)
        grid.addWidget(corner, 7, 1, 1, 2)
        builds = QHBoxLayout()
        builds.setContentsMargins(px(34), 0, 0, 0)
        builds.addWidget(self.build)
        grid.addLayout(builds, 8, 0, 1, 3)
        grid.addWidget(Line(theme), 9, 0, 1, 3)
        grid.addWidget(Numbered(theme, "", "Keep as"), 10, 0)
        grid.addWidget(self.fields["name"], 10, 1, 1, 2)
        self._last(grid)
        return grid

    def _title(self) -> QGridLayout:
        theme = self._theme
        title = QLabel("New job")
        title.setFont(theme.font(24, bold=True))
        under = Prose(theme, "Two readings and three choices. Everything else can wait.", 14)
        layout = QGridLayout()
        layout.addWidget(title, 0, 0)
        layout.addWidget(self.unit, 0, 1, Qt.AlignmentFlag.AlignRight)
        layout.addWidget(under, 1, 0, 1, 2)
        return layout

    def _beside(self, field: EntryField, words: Prose) -> QHBoxLayout:
        layout = QHBoxLayout()
        layout.setSpacing(self._theme.px(12))
        field.setFixedWidth(self._theme.px(152))
        layout.addWidget(field)
        layout.addWidget(words, 1, Qt.AlignmentFlag.AlignVCenter)
        return layout

    def _soft(self, words: str) -> QLabel:
        label = QLabel(words)
        label.setFont(self._theme.font(12))
        label.setStyleSheet(f"color: {self._theme.palette.ink_soft.name()}")
        return label

    def _last(self, grid: QGridLayout) -> None:
        px = self._theme.px
        keys = self._soft("Ctrl+Enter")
        keys.setContentsMargins(px(34), 0, 0, 0)
        buttons = QHBoxLayout()
        buttons.setSpacing(px(12))
        for button in (self.start, self.blank):
            button.setFixedHeight(px(36))
            buttons.addWidget(button, 1)
        grid.addWidget(keys, 11, 0)
        grid.addLayout(buttons, 11, 1, 1, 2)
        grid.addWidget(self.problem, 12, 0, 1, 3)

    def _right(self) -> QVBoxLayout:
        theme, px = self._theme, self._theme.px
        layout = QVBoxLayout()
        layout.setSpacing(px(4))
        self.board.setMinimumHeight(px(300))
        layout.addWidget(self.board, 1)
        self._heading = Heading(theme)
        layout.addSpacing(px(10))
        layout.addWidget(self._heading)
        first = self._contents(self.form)
        self.numbers = Grid(theme, OnlyLook(first.display), first.numbers)
        self.numbers.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        layout.addWidget(self.numbers)
        layout.addSpacing(px(10))
        heading = Heading(theme)
        heading.say("Most worth reading next")
        layout.addWidget(heading)
        layout.addWidget(Line(theme))
        worth = QGridLayout()
        worth.setContentsMargins(0, px(4), 0, 0)
        worth.setVerticalSpacing(0)
        self._worth = [(Prose(theme, "", 13, "ink", bold=True), Prose(theme, "", 12)) for _ in range(3)]
        for column, (what, why) in enumerate(self._worth):
            worth.addWidget(what, 0, column)
            worth.addWidget(why, 1, column)
        layout.addLayout(worth)
        return layout

    # what is shown

    def _changed(self) -> None:
        form = NewJob(
            self.unit.unit,
            self.fields["width"].text(),
            self.fields["height"].text(),
            self.fronts.value == "pair",
            cast(Scheme, self.scheme.value or "partial cover"),
            self.fields["amount"].text(),
            cast(DoorKind, self.build.value or "stub tenon"),
            self.fields["name"].text(),
        )
        if form == self.form and self._shown is not None:
            return
        unit_changed = form.unit != self.form.unit
        shape_changed = replace(form, name="") != replace(self.form, name="")
        self.form = form
        self.amount_word.say("Gap on each side" if form.scheme == "inset" else "Cover on each side")
        if unit_changed:
            for name in ("width", "height", "amount"):
                self.fields[name].set_reader(self._read)
        if shape_changed or self._shown is None:
            self._show(self._contents(form))

    def _show(self, contents: StartContents) -> None:
        self._shown = contents
        self.board.set_drawings((contents.drawing,) if contents.drawing else ())
        self._heading.say(contents.numbers.title, contents.numbers.aside if contents.numbers.rows else "")
        self.numbers.hands = OnlyLook(contents.display)
        self.numbers.show_block(contents.numbers)
        self.numbers.setFixedHeight(self.numbers.sizeHint().height())
        for (what, why), (reading, reason) in zip(self._worth, contents.worth, strict=False):
            what.say(reading)
            why.say(reason)
        self.problem.say("")

    @property
    def texts(self) -> dict[str, str]:
        """What is typed, and the unit, to be put back by `show_draft`."""
        return {name: field.text() for name, field in self.fields.items()} | {"unit": self.unit.unit}

    def show_draft(self, texts: dict[str, str]) -> None:
        """Put back what was half typed before."""
        if texts.get("unit") in ("in", "mm"):
            self.unit.choose(texts["unit"])
        for name, field in self.fields.items():
            if name in texts:
                field.setText(texts[name])

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.fields["width"].setFocus()

    def keep_typing(self) -> None:
        for field in self.fields.values():
            field.keep()

    # keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._start()
        elif enter:
            self._next()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _next(self) -> None:
        """Enter walks on; on the last line it starts the job."""
        if self.fields["name"].hasFocus():
            self._start()
        else:
            self.focusNextChild()

    def _start(self) -> None:
        if self._shown is not None and self._shown.problem:
            self.problem.say(self._shown.problem)
            empty = next(
                (n for n in ("width", "height") if self._read(self.fields[n].text()).state != "value"), "amount"
            )
            self.fields[empty].setFocus()
            return
        for field in self.fields.values():
            field.forget()
        self.started.emit(self.form)

    def say(self, sentence: str) -> None:
        """Why the job could not be started."""
        self.problem.say(sentence)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        painter.fillRect(self.viewport().rect(), self._theme.palette.paper)
        painter.end()
        super().paintEvent(event)

    @property
    def words(self) -> str:
        """For the status line."""
        return "The file is made when the job is started"

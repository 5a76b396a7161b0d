"""A new job from one form: two readings and three choices, with the drawing and the first numbers beside it, live."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import cast

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import (
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
from frontwright.core.lengths import IN_HALF_MM, IN_THIRTYSECONDS, Display, show
from frontwright.desk.edits.start import NewJob
from frontwright.desk.pages.start import StartContents, start_contents
from frontwright.window.block import Heading
from frontwright.window.canvas import Board
from frontwright.window.entry import EntryField
from frontwright.window.grid import Grid
from frontwright.window.hands import OnlyLook
from frontwright.window.prose import Prose
from frontwright.window.reading import Understood, understood
from frontwright.window.theme import Theme
from frontwright.window.tiles import Line, Numbered, Option, Tiles, UnitSwitch

FIELDS = ("width", "height", "amount", "name")


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
    def unit_words(self) -> str:
        """ "inches, shown to 1/32": the unit of the job that is being begun."""
        unit = "inches" if self.unit.unit == "in" else "millimetres"
        return f"{unit}, shown to {show(self._display.step, self._display)}"

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

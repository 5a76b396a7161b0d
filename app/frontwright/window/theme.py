"""Colours, type and sizes: a clean drawing board in light and in dark, in any size that the desktop asks for."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cache
from typing import Literal

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontInfo, QFontMetricsF, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from frontwright.resources import resource

Mode = Literal["desktop", "light", "dark"]
FAMILY = "DejaVu Sans"
CONDENSED = "DejaVu Sans Condensed"
BASE_FONT = 13  # the size of words in pixels at which one pixel of the look is one pixel of the screen
GROWTHS = (1.0, 1.25, 1.5, 1.75, 2.0)


@dataclass(frozen=True, slots=True)
class Palette:
    """One colour for each role of the look; what a role means is the same in light and in dark."""

    ground: QColor
    paper: QColor
    field: QColor
    ink: QColor
    ink_soft: QColor
    rule: QColor
    hair: QColor
    wood: QColor
    wood_grain: QColor
    selection: QColor
    wash: QColor
    blue: QColor
    assumed: QColor
    as_built: QColor
    note: QColor
    warn: QColor
    stop: QColor

    @classmethod
    def of(cls, codes: str) -> Palette:
        """A palette from colour codes without their #, in the order of the fields."""
        return cls(*(QColor(f"#{code}") for code in codes.split()))

    def level(self, level: str) -> QColor:
        """The colour of a finding's level; ink where nothing was found."""
        return {"note": self.note, "warn": self.warn, "stop": self.stop}.get(level, self.ink)

    def __hash__(self) -> int:
        return hash(tuple(getattr(self, f.name).rgb() for f in fields(self)))


# The roles in order: ground, paper, field, ink, ink soft; rule, hair; wood, its grain; selection, wash, blue pencil;
# assumed, as-built, note, warn, stop.
LIGHT = Palette.of(
    "DFE4E0 FAFBF8 FFFFFF 16222B 4C5962 75828A D5DAD6 F3E6CC A07D4B D3E4F4 EAF2F9 1B5C96 "
    "80500A 0B5F58 3A5566 80500A A11F1F"
)
DARK = Palette.of(
    "151B20 1F272D 171E23 E9ECE8 A9B4B9 77848B 343E45 4B3B25 AA8A56 1E4363 21333F 7FB8E8 "
    "E3B062 69CDBF A6BECD E3B062 FF9C90"
)


@dataclass(frozen=True, slots=True)
class Letters:
    """Letters of one size (in pixels of this screen), bold or condensed or not, on a screen of this scale."""

    size: float
    scale: float
    bold: bool = False
    condensed: bool = False


def load_fonts() -> None:
    """Make the fonts that come with the program known, once. FileNotFoundError where this copy lacks them."""
    families = QFontDatabase.families()
    if FAMILY in families and CONDENSED in families:
        return
    for name in ("DejaVuSans", "DejaVuSans-Bold", "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"):
        QFontDatabase.addApplicationFont(str(resource("fonts", f"{name}.ttf")))


@cache
def font(size: float, bold: bool = False, condensed: bool = False, struck: bool = False) -> QFont:
    """A font by its size in pixels of this screen."""
    made = QFont(CONDENSED if condensed else FAMILY)
    made.setPixelSize(max(1, round(size)))
    if size != round(size):
        made.setPointSizeF(size * 72 / _dots_per_inch())
    made.setBold(bold)
    made.setStrikeOut(struck)
    return made


@cache
def metrics(size: float, bold: bool = False, condensed: bool = False) -> QFontMetricsF:
    return QFontMetricsF(font(size, bold, condensed))


def _dots_per_inch() -> float:
    return QGuiApplication.primaryScreen().logicalDotsPerInch()


class Theme(QObject):
    """What is in force: the palette and the size. `changed` is sent when either was changed."""

    changed = Signal()

    def __init__(self, mode: Mode = "desktop", growth: float = 1.0) -> None:
        super().__init__()
        load_fonts()
        self.mode: Mode = mode
        self.growth = growth
        self._desktop = max(1.0, QFontInfo(QGuiApplication.font()).pixelSize() / BASE_FONT)
        hints = QGuiApplication.styleHints()
        hints.colorSchemeChanged.connect(self._desktop_changed)

    @property
    def dark(self) -> bool:
        """Whether the dark palette is in force: by choice, else as the desktop has it."""
        if self.mode == "desktop":
            return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
        return self.mode == "dark"

    @property
    def palette(self) -> Palette:
        return DARK if self.dark else LIGHT

    @property
    def scale(self) -> float:
        """How many pixels of this screen one pixel of the look takes."""
        return self._desktop * self.growth

    def px(self, size: float) -> int:
        """A size of the look in whole pixels of this screen."""
        return round(size * self.scale)

    def font(self, size: float, *, bold: bool = False, condensed: bool = False) -> QFont:
        return font(size * self.scale, bold, condensed)

    def letters(self, size: float, *, bold: bool = False) -> Letters:
        """Letters of a size of the look."""
        return Letters(size * self.scale, self.scale, bold)

    def choose(self, mode: Mode | None = None, growth: float | None = None) -> None:
        """Take another palette or size, for every window at once."""
        self.mode = mode or self.mode
        self.growth = growth or self.growth
        self.dress()
        self.changed.emit()

    def dress(self) -> None:
        """Give the whole program this font, palette and the looks of buttons, menus and bars."""
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setFont(self.font(13))
            application.setPalette(self._widgets())
            application.setStyleSheet(self._sheet())

    def _desktop_changed(self) -> None:
        if self.mode == "desktop":
            self.choose()

    def _widgets(self) -> QPalette:
        colours, role = self.palette, QPalette.ColorRole
        made = QPalette()
        for place, colour in {
            role.Window: colours.ground,
            role.WindowText: colours.ink,
            role.Base: colours.field,
            role.AlternateBase: colours.field,
            role.Text: colours.ink,
            role.Button: colours.paper,
            role.ButtonText: colours.ink,
            role.Highlight: colours.blue,
            role.HighlightedText: colours.paper,
            role.ToolTipBase: colours.field,
            role.ToolTipText: colours.ink,
            role.PlaceholderText: colours.ink_soft,
            role.Mid: colours.rule,
        }.items():
            made.setColor(place, colour)
        for place in (role.WindowText, role.Text, role.ButtonText):
            made.setColor(QPalette.ColorGroup.Disabled, place, colours.rule)
        return made

    def _sheet(self) -> str:
        named = {f.name: getattr(self.palette, f.name).name() for f in fields(Palette)}
        sizes = {f"px{n}": f"{self.px(n)}px" for n in (1, 2, 3, 4, 6, 8, 10, 12, 16, 20, 26, 28)}
        return _SHEET.format(**named, **sizes, thin=f"{max(1, self.px(1))}px")


_SHEET = """
QMenuBar {{ background: {ground}; color: {ink}; }}
QMenuBar::item {{ padding: {px4} {px12}; background: transparent; }}
QMenuBar::item:selected {{ background: {selection}; color: {ink}; }}
QMenu {{ background: {field}; color: {ink}; border: {thin} solid {rule}; padding: {px4} 0; }}
QMenu::item {{ padding: {px4} {px28} {px4} {px20}; }}
QMenu::item:selected {{ background: {selection}; color: {ink}; }}
QMenu::item:disabled {{ color: {rule}; }}
QMenu::separator {{ height: {thin}; background: {hair}; margin: {px4} 0; }}
QPushButton {{ background: {field}; color: {ink}; border: {thin} solid {rule}; border-radius: {px2};
  min-height: {px26}; padding: 0 {px16}; }}
QPushButton:hover {{ background: {wash}; }}
QPushButton:pressed {{ background: {selection}; }}
QPushButton:focus {{ border: {px2} solid {blue}; }}
QPushButton:disabled {{ color: {rule}; border-color: {hair}; }}
QPushButton[main="true"] {{ background: {ink}; color: {paper}; border-color: {ink}; font-weight: bold; }}
QPushButton[main="true"]:disabled {{ background: {hair}; color: {ink_soft}; border-color: {hair}; }}
QPushButton[main="true"]:focus {{ border: {px3} double {paper}; }}
QComboBox {{ background: {field}; color: {ink}; border: {thin} solid {rule}; border-radius: {px2};
  min-height: {px26}; padding: 0 {px8}; }}
QComboBox:focus {{ border: {px2} solid {blue}; }}
QComboBox::drop-down {{ border: none; width: {px26}; }}
QComboBox::down-arrow {{ image: none; }}
QComboBox QAbstractItemView {{ background: {field}; color: {ink}; selection-background-color: {selection};
  selection-color: {ink}; border: {thin} solid {rule}; outline: none; }}
QLineEdit {{ background: {field}; color: {ink}; border: {thin} solid {rule}; padding: 0 {px8};
  selection-background-color: {blue}; selection-color: {paper}; }}
QLineEdit:focus {{ border: {px2} solid {blue}; }}
QLineEdit[cell="true"] {{ border: {px2} solid {blue}; padding: 0 {px2}; }}
QScrollBar:vertical {{ background: transparent; width: {px10}; margin: 0 {px2}; }}
QScrollBar:horizontal {{ background: transparent; height: {px10}; margin: {px2} 0; }}
QScrollBar::handle {{ background: {rule}; border-radius: {px3}; min-height: {px28}; min-width: {px28}; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: {hair}; border-radius: {px3}; }}
QSplitter::handle {{ background: {rule}; }}
QToolTip {{ background: {field}; color: {ink}; border: {thin} solid {blue}; padding: {px4}; }}
QScrollArea, QAbstractScrollArea {{ border: none; background: transparent; }}
QCheckBox, QRadioButton, QLabel, QDialog {{ color: {ink}; }}
"""

"""Colours can be told apart, sizes scale, letters are those that come with the program."""

from __future__ import annotations

import pytest
from frontwright.window.theme import DARK, LIGHT, Palette, Theme
from PySide6.QtGui import QColor, QFontInfo
from pytestqt.qtbot import QtBot

SURFACES = ("ground", "paper", "field", "wood", "selection")
# role: surfaces it stands on, least contrast in light and in dark (text 4.5, lines 3)
LEAST = {
    "ink": (SURFACES, 12.4, 8.6),
    "ink_soft": (("ground", "paper", "field", "selection"), 5.5, 4.8),
    "rule": (("ground", "paper", "field"), 3.0, 3.9),
    "wood_grain": (("wood",), 3.0, 3.3),
    "blue": (SURFACES, 5.3, 4.8),
    "assumed": (SURFACES, 5.2, 5.2),
    "warn": (SURFACES, 5.2, 5.2),
    "as_built": (SURFACES, 5.7, 5.4),
    "note": (SURFACES, 6.0, 5.3),
    "stop": (SURFACES, 5.9, 5.1),
}


def _light(colour: QColor) -> float:
    """Relative luminance after the accessibility guidelines for the web, version 2."""
    parts = (channel / 255 for channel in (colour.red(), colour.green(), colour.blue()))
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: QColor, b: QColor) -> float:
    high, low = sorted((_light(a), _light(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_black_on_white_has_the_contrast_that_the_guidelines_name() -> None:
    assert contrast(QColor("black"), QColor("white")) == pytest.approx(21)


@pytest.mark.parametrize("role", LEAST)
@pytest.mark.parametrize(("palette", "column"), [(LIGHT, 1), (DARK, 2)], ids=["light", "dark"])
def test_every_role_keeps_its_least_contrast_on_the_worst_surface_it_meets(
    palette: Palette, column: int, role: str
) -> None:
    surfaces, *least = LEAST[role]
    worst = min(contrast(getattr(palette, role), getattr(palette, surface)) for surface in surfaces)
    assert int(worst * 10) / 10 >= least[column - 1], worst


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_text_has_four_and_a_half_and_lines_three(palette: Palette) -> None:
    for role, (surfaces, *_) in LEAST.items():
        wanted = 3.0 if role in ("rule", "wood_grain") else 4.5
        for surface in surfaces:
            assert contrast(getattr(palette, role), getattr(palette, surface)) >= wanted, (role, surface)


def test_letters_are_those_that_come_with_the_program(qtbot: QtBot) -> None:
    theme = Theme("light")
    assert QFontInfo(theme.font(13)).family() == "DejaVu Sans"
    assert QFontInfo(theme.font(13, condensed=True)).family() == "DejaVu Sans Condensed"


@pytest.mark.parametrize("growth", [1.0, 1.25, 1.5, 2.0])
def test_every_size_grows_with_the_chosen_size(qtbot: QtBot, growth: float) -> None:
    plain, grown = Theme("light"), Theme("light", growth)
    assert grown.px(28) == round(28 * plain.scale * growth)
    assert grown.letters(15).size == pytest.approx(plain.letters(15).size * growth)


def test_dark_and_light_follow_the_menu_before_the_desktop(qtbot: QtBot) -> None:
    theme = Theme("dark")
    assert theme.palette == DARK
    with qtbot.waitSignal(theme.changed):
        theme.choose("light")
    assert theme.palette == LIGHT

"""The findings under a page: every way out can be reached at any width, and the open finding is whole."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.desk.contents import Action, FindingLine
from frontwright.window.findings import FindingHands, FindingsStrip
from frontwright.window.prose import Prose
from frontwright.window.theme import Theme
from frontwright.window.ways import WaysRow
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

HOLDS = "holds back: saw sheet, leaf map, glue-up card"
WAYS = ("Change the blade before P4", "Saw on at 3/32", "Keep back 5/32", "Add a billet like P")


def line(subject: str) -> FindingLine:
    ways = tuple(Action(f"way/{at}", word) for at, word in enumerate(WAYS))
    said = "A slice loses 9/64, not 7/64: it gives 5 leaves, not 6."
    return FindingLine(
        f"key/{subject}", "stop", subject, said, "have 5", "need 6", "So it goes on.", ways, True, None, HOLDS
    )


def shown(qtbot: QtBot, theme: Theme, width: int, subjects: str) -> tuple[FindingsStrip, list[int]]:
    """A strip of this width with a finding for each letter, the first one open, and the heights it asked for."""
    strip = FindingsStrip(theme, FindingHands(lambda _key: None, lambda _key, _text: None))
    asked: list[int] = []
    strip.needs.connect(asked.append)
    qtbot.addWidget(strip)
    strip.resize(width, 220)
    strip.show()
    strip.show_lines(tuple(line(subject) for subject in subjects))
    qtbot.waitUntil(lambda: strip.rows[0].width() > 100, timeout=1000)
    return strip, asked


@pytest.mark.parametrize("width", [620, 900, 1144, 1780])
def test_every_way_out_and_what_is_held_back_lie_within_the_strip(qtbot: QtBot, theme: Theme, width: int) -> None:
    strip, _ = shown(qtbot, theme, width, "P")
    (ways,) = strip.findChildren(WaysRow)
    qtbot.waitUntil(lambda: ways.height() >= ways.heightForWidth(ways.width()), timeout=1000)
    things = [*ways.findChildren(QPushButton), *ways.findChildren(Prose)]
    assert len(things) == len(WAYS) + 2
    places = [thing.geometry() for thing in things]
    assert all(ways.rect().contains(place) for place in places)
    assert not [(a, b) for at, a in enumerate(places) for b in places[at + 1 :] if a.intersects(b)]
    assert ways.mapTo(strip.viewport(), ways.rect().topRight()).x() < strip.viewport().width()


def test_the_open_finding_is_asked_to_be_whole_and_many_shut_ones_take_no_more_than_their_share(
    qtbot: QtBot, theme: Theme
) -> None:
    one, asked = shown(qtbot, theme, 1144, "P")
    assert asked[-1] >= one.rows[0].heightForWidth(one.viewport().width() - 16)
    _, many = shown(qtbot, theme, 1144, "PQRSTUVW")
    assert asked[-1] <= many[-1] <= 220


@pytest.mark.parametrize("width", [620, 900, 1144])
def test_a_shut_finding_is_whole_however_many_lines_its_sentence_takes(qtbot: QtBot, theme: Theme, width: int) -> None:
    strip, asked = shown(qtbot, theme, width, "P")
    long = replace(line("P"), level="note", sentence="A slice loses 9/64, not 7/64, and so it goes on. " * 4)
    strip.resize(width, 800)
    strip.show_lines((long,))
    strip.choose("")
    (row,) = strip.rows
    qtbot.waitUntil(lambda: row.height() > strip.fontMetrics().height() * 2, timeout=1000)
    assert not row.is_open
    assert asked[-1] >= row.sizeHint().height()


def test_without_findings_the_strip_asks_for_a_line_alone(qtbot: QtBot, theme: Theme) -> None:
    strip, asked = shown(qtbot, theme, 1144, "P")
    strip.show_lines(())
    assert asked[-1] == 34


def test_a_finding_that_comes_up_on_the_billet_in_hand_is_opened_though_an_older_one_is(
    qtbot: QtBot, theme: Theme
) -> None:
    strip, _ = shown(qtbot, theme, 1144, "PQ")
    strip.show_lines((line("P"), line("Q"), line("R")), "R")
    assert [row.line.subject for row in strip.rows if row.is_open] == ["R"]
    strip.show_lines((line("P"), line("Q"), line("R"), line("S")), "R")
    assert [row.line.subject for row in strip.rows if row.is_open] == ["R"]

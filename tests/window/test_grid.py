"""Tables and forms are filled by keyboard alone, and nothing half typed is ever lost to a refresh."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

import pytest
from frontwright.core.figures import Figure, Source
from frontwright.core.lengths import IN_SIXTEENTHS, IN_THIRTYSECONDS, Display, Length, read
from frontwright.desk.contents import Action, Cell, Choice, Column, Form, FormLine, Outcome, Table, TableRow
from frontwright.window.cells import CellsModel, as_table
from frontwright.window.entry import EntryField
from frontwright.window.grid import Grid
from frontwright.window.theme import Theme
from PySide6.QtCore import QPersistentModelIndex, Qt
from PySide6.QtGui import QAccessible, QGuiApplication
from PySide6.QtTest import QAbstractItemModelTester, QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

Shower = Callable[[QWidget], QWidget]
ENTER, TAB, BACK = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Backtab


@dataclass
class Remembering:
    """Hands without a job: entered texts are remembered, those in `refuse` are refused."""

    display: Display = IN_THIRTYSECONDS
    selected: str = ""
    entered: list[tuple[str, str]] = field(default_factory=list)
    pasted: list[tuple[list[str], list[str]]] = field(default_factory=list)
    acted: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    drafts: dict[str, str] = field(default_factory=dict)
    workings: list[str] = field(default_factory=list)
    walked: list[tuple[str, int, str]] = field(default_factory=list)
    refuse: dict[str, str] = field(default_factory=dict)

    def enter(self, key: str, text: str) -> Outcome:
        if text in self.refuse:
            return Outcome(problem=self.refuse[text])
        self.entered.append((key, text))
        return Outcome()

    def paste(self, keys: Sequence[str], texts: Sequence[str]) -> Outcome:
        self.pasted.append((list(keys), list(texts)))
        return Outcome()

    def act(self, key: str) -> Outcome:
        self.acted.append(key)
        return Outcome()

    def select(self, subject: str) -> None:
        self.selected = subject

    def draft(self, key: str) -> str | None:
        return self.drafts.get(key)

    def keep_draft(self, key: str, text: str) -> None:
        self.drafts[key] = text

    def drop_draft(self, key: str) -> None:
        self.drafts.pop(key, None)

    def open_working(self, key: str) -> bool:
        self.workings.append(key)
        return True

    def close_working(self) -> bool:
        return False

    def go_on(self, key: str, step: int, wish: str = "") -> bool:
        self.walked.append((key, step, wish))
        return True

    def after(self, key: str) -> str:
        return f"after {key}"

    def say(self, text: str) -> None:
        self.said.append(text)


def inches(text: str, name: str = "a size", source: Source = "taped") -> Figure:
    value = read(text, "in").value
    return Figure(name, value if value is not None else Length(0), source)


def taped(key: str, text: str, subject: str, name: str = "") -> Cell:
    figure = inches(text) if text else None
    return Cell(key, "length", text, figure, subject=subject, name=name or key)


def worked(key: str, text: str, subject: str, *, bold: bool = False) -> Cell:
    return Cell(key, "figure", figure=inches(text, source="derived"), subject=subject, name=key, bold=bold)


def openings(*extra: str, first: str = "21 1/16") -> Table:
    """A table of openings as read, each with the eight readings and two figures worked out."""
    columns = (
        Column("", axis=False),
        *(Column(at, "width") for at in ("top", "middle", "bottom")),
        *(Column(at, "height") for at in ("left", "middle", "right")),
        *(Column(at, "diagonals") for at in ("\\", "/")),
        *(Column(what, "worked out") for what in ("least", "spread")),
    )
    sizes = {
        "OA": [first, "21", "21", "26 1/2", "26 1/2", "26 1/2", "33 13/16", "33 13/16"],
        "OB": ["21 1/8", "21 1/16", "21 1/16", "26 1/2", "26 1/2", "26 9/16", "33 7/8", ""],
    }
    rows = []
    for of in ("OA", "OB", *extra):
        readings = sizes.get(of, [""] * 8)
        cells = tuple(taped(f"{of} {n}", text, of) for n, text in enumerate(readings))
        rows.append(
            TableRow(
                of,
                (Cell("", "words", of, bold=True), *cells, worked(f"{of} l", "21", of), worked(f"{of} s", "1/16", of)),
            )
        )
    return Table("openings", "Openings, in the order they are read", "", columns, tuple(rows), (), tall=True)


def members() -> Table:
    """Members along a run, with a sum under them and a finding on the difference."""
    columns = (Column("member", axis=False), Column("", axis=False), Column("across"), Column("from"), Column("to"))
    rows = [
        TableRow(
            of,
            (
                Cell("", "words", of, bold=True),
                Cell("", "words", kind),
                taped(f"across {of}", across, of),
                worked(f"from {of}", start, of),
                worked(f"to {of}", end, of),
            ),
        )
        for of, kind, across, start, end in (
            ("A1", "stile", "1 1/2", "0", "1 1/2"),
            ("OA", "opening", "21", "1 1/2", "22 1/2"),
            ("A2", "stile", "1 1/2", "22 1/2", "24"),
        )
    ]
    rows += [
        TableRow(
            "",
            (Cell("", "words", "sum", bold=True), Cell("", "words"), worked("sum", "48 1/16", "", bold=True)),
            result=True,
        ),
        TableRow(
            "",
            (
                Cell("", "words", "difference"),
                Cell("", "words", ""),
                Cell("difference", "figure", figure=inches("1/8", source="derived"), level="stop", bold=True),
                Cell("", "words", "stop, at most 0.083", level="stop"),
            ),
        ),
    ]
    action = (Action("add stile", "Add a stile"), Action("add opening", "Add an opening"))
    return Table("members", "Along the run, left to right", "line at mid height", columns, tuple(rows), action)


def ends() -> Form:
    """A form with every source of a figure, a choice, a tick, words that nobody can read."""
    lines = (
        FormLine("height, left", taped("height left", "30", "R1")),
        FormLine("height, right", taped("height right", "30 1/16", "R1")),
        FormLine("top rail", Cell("top rail", "length", "", inches("1 3/4", source="assumed"), name="top rail")),
        FormLine(
            "left end",
            Cell(
                "left end",
                "choice",
                "wall",
                choices=(
                    Choice("wall", "against wall"),
                    Choice("corner", "in a corner"),
                    Choice("open", "open to view"),
                ),
                name="left end",
            ),
        ),
        FormLine("gap at the wall", Cell("gap", "length", name="gap at the wall")),
        FormLine("depth seen", Cell("depth", "length", "12 1/", unread=True, name="depth seen")),
        FormLine("skin", Cell("skin", "tick", "yes", name="skin")),
        FormLine(
            "milled stock",
            Cell(
                "stock",
                "length",
                "13/16",
                Figure("stock", Length.inch("13/16"), "as-built", planned=inches("3/4")),
                name="milled stock",
            ),
        ),
        FormLine("by", Cell("by", "text", "A. Turner", name="measured by")),
    )
    return Form("ends", "Heights and ends", "", lines)


def grid_of(theme: Theme, show: Shower, block: Table | Form, hands: Remembering) -> Grid:
    grid = Grid(theme, hands, block)
    show(grid)
    return grid


def opened(grid: Grid) -> EntryField:
    editor = grid._delegate.editor
    assert editor is not None
    return editor


def type_text(qtbot: QtBot, text: str) -> None:
    """Type as a person does: each key goes where the focus is by then."""
    for letter in text:
        focused = QApplication.focusWidget()
        assert focused is not None
        QTest.keyClicks(focused, letter)


@pytest.mark.parametrize("block", [openings(), members(), ends()], ids=["openings", "members", "ends"])
def test_the_model_holds_what_qt_asks_of_a_model_through_every_kind_of_change(
    qtbot: QtBot, block: Table | Form
) -> None:
    model = CellsModel(as_table(block), IN_THIRTYSECONDS)
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    for table in (openings("OC"), openings("OC", first="22"), openings(), members(), as_table(ends()), openings()):
        model.show(table, IN_THIRTYSECONDS)
    model.show(openings(), IN_SIXTEENTHS)
    assert model.rowCount() == 2
    assert tester.failureReportingMode() is QAbstractItemModelTester.FailureReportingMode.Fatal


def test_a_refresh_tells_only_the_cells_that_differ(qtbot: QtBot) -> None:
    table = openings()
    model = CellsModel(table, IN_THIRTYSECONDS)
    changed: list[tuple[int, int]] = []
    model.dataChanged.connect(lambda first, _last, _roles: changed.append((first.row(), first.column())))
    row = table.rows[1]
    new = taped("OB 0", "22", "OB")
    cells = (row.cells[0], new, *row.cells[2:])
    model.show(
        Table("openings", "", "", table.columns, (table.rows[0], type(row)("OB", cells)), tall=True), IN_THIRTYSECONDS
    )
    assert changed == [(1, 1)]


def test_rows_that_come_in_between_leave_the_others_where_they_are_known(qtbot: QtBot) -> None:
    model = CellsModel(openings(), IN_THIRTYSECONDS)
    kept = QPersistentModelIndex(model.place_of("OB 3"))
    rows = openings("OC").rows
    model.show(Table("openings", "", "", openings().columns, (rows[0], rows[2], rows[1]), tall=True), IN_THIRTYSECONDS)
    assert kept.row() == 2
    assert model.place_of("OB 3").row() == 2


def test_typing_opens_the_cell_and_enter_enters_it_and_walks_on(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OB 7")
    type_text(qtbot, "3")
    type_text(qtbot, "3 15/16")
    assert opened(grid).text() == "33 15/16"
    QTest.keyClick(opened(grid), ENTER)
    assert hands.entered == [("OB 7", "33 15/16")]
    assert hands.walked == [("OB 7", 1, "")]
    assert grid.open_text is None


def test_shift_tab_enters_and_walks_back(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OB 2")
    type_text(qtbot, "9")
    QTest.keyClick(opened(grid), BACK)
    assert hands.entered == [("OB 2", "9")]
    assert hands.walked == [("OB 2", -1, "")]


def test_enter_without_typing_walks_on_and_enters_nothing(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 0")
    QTest.keyClick(grid, ENTER)
    assert hands.entered == []
    assert hands.walked == [("OA 0", 1, "after OA 0")]


def test_tab_without_typing_walks_to_the_next_cell_of_any_kind(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 0")
    QTest.keyClick(grid, TAB)
    assert hands.walked == [("OA 0", 1, "")]


def test_f2_opens_with_what_was_typed_before(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    grid = grid_of(theme, show, openings(), Remembering())
    grid.stand_on("OA 3")
    QTest.keyClick(grid, Qt.Key.Key_F2)
    assert opened(grid).text() == "26 1/2"


def test_escape_leaves_the_cell_as_it_was_and_keeps_no_draft(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 3")
    type_text(qtbot, "27")
    qtbot.waitUntil(lambda: hands.drafts == {"OA 3": "27"})
    QTest.keyClick(opened(grid), Qt.Key.Key_Escape)
    assert (hands.entered, hands.drafts, grid.open_text) == ([], {}, None)


def test_half_typed_text_is_kept_within_half_a_second(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OB 7")
    type_text(qtbot, "23 5/")
    qtbot.waitUntil(lambda: hands.drafts == {"OB 7": "23 5/"}, timeout=500)


def test_a_refresh_neither_eats_a_half_typed_cell_nor_enters_it(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OB 7")
    type_text(qtbot, "33 15")
    for table in (openings(first="23"), openings("OC"), openings("OC", "OD", first="24"), openings()):
        grid.show_block(table)
        assert opened(grid).text() == "33 15"
    assert hands.entered == []
    type_text(qtbot, "/16")
    QTest.keyClick(opened(grid), ENTER)
    assert hands.entered == [("OB 7", "33 15/16")]


def test_a_half_typed_cell_of_last_time_opens_with_its_text(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    grid = grid_of(theme, show, openings(), Remembering(drafts={"OB 7": "33 7/"}))
    grid.stand_on("OB 7")
    assert opened(grid).text() == "33 7/"


def test_a_refused_entry_stays_open_and_says_why(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering(refuse={"0": "Width, top, of OA: nothing is as wide as that; type what the tape says."})
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 0")
    type_text(qtbot, "0")
    QTest.keyClick(opened(grid), ENTER)
    assert opened(grid).text() == "0"
    note = opened(grid)._note
    assert note is not None
    assert note.said.startswith("Width, top, of OA")
    assert hands.walked == []
    assert hands.drafts == {"OA 0": "0"}


def test_leaving_a_cell_by_mouse_enters_it(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 1")
    type_text(qtbot, "21 1/4")
    grid.setFocus()
    assert hands.entered == [("OA 1", "21 1/4")]


def test_the_open_cell_says_how_it_is_read_in_both_units(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    grid = grid_of(theme, show, openings(), Remembering())
    grid.stand_on("OB 7")
    type_text(qtbot, "33 15/16")
    note = opened(grid)._note
    assert note is not None
    assert note.said == "= 33 15/16 in, 862.0 mm"
    type_text(qtbot, "x")
    assert "862" not in note.said
    assert note.said


def test_equals_opens_the_working_of_the_figure_and_is_no_typing(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.setFocus()
    grid.setCurrentIndex(grid.cells.place_of("OA l"))
    type_text(qtbot, "=")
    assert hands.workings == ["OA l"]
    assert grid.open_text is None


def test_delete_empties_a_cell(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 2")
    QTest.keyClick(grid, Qt.Key.Key_Delete)
    assert hands.entered == [("OA 2", "")]


def test_a_block_of_cells_is_pasted_as_one_edit(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 1")
    QGuiApplication.clipboard().setText("21\t21 1/8\n20\t20 1/2\n")
    QTest.keyClick(grid, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert hands.pasted == [(["OA 1", "OA 2", "OB 1", "OB 2"], ["21", "21 1/8", "20", "20 1/2"])]
    assert hands.entered == []


def test_a_letter_chooses_among_choices(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, ends(), hands)
    grid.stand_on("left end")
    type_text(qtbot, "o")
    type_text(qtbot, "i")
    assert hands.entered == [("left end", "open"), ("left end", "corner")]


def test_letters_typed_as_a_word_choose_what_has_that_word(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    names = ("American beech", "northern red oak", "white ash", "white oak")
    cell = Cell("wood", "choice", "", None, tuple(Choice(name, name) for name in names), "", "wood")
    hands = Remembering()
    grid = grid_of(theme, show, Form("f", "", "", (FormLine("wood", cell),)), hands)
    grid.stand_on("wood")
    type_text(qtbot, "oak")
    assert hands.entered[-1] == ("wood", "northern red oak")
    type_text(qtbot, "white o")
    assert hands.entered[-1] == ("wood", "white oak")


def test_space_turns_a_tick_over(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, ends(), hands)
    grid.stand_on("skin")
    QTest.keyClick(grid, Qt.Key.Key_Space)
    assert hands.entered == [("skin", "no")]


def test_walking_on_a_row_selects_its_subject(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    hands = Remembering()
    grid = grid_of(theme, show, openings(), hands)
    grid.stand_on("OA 3")
    assert hands.selected == "OA"
    QTest.keyClick(grid, Qt.Key.Key_Down)
    assert hands.selected == "OB"


def test_a_screen_reader_hears_name_value_and_source(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    grid = grid_of(theme, show, ends(), Remembering())

    def said(key: str) -> str:
        return str(grid.cells.data(grid.cells.place_of(key), Qt.ItemDataRole.AccessibleTextRole))

    assert said("height left") == "height left, 30, taped"
    assert said("top rail") == "top rail, 1 3/4, assumed"
    assert said("gap") == "gap at the wall, not measured"
    assert said("depth") == "depth seen, 12 1/, unread"
    assert said("stock") == "milled stock, 13/16, is"
    grid.stand_on("gap")
    interface = QAccessible.queryAccessibleInterface(grid)
    assert interface is not None
    assert interface.text(QAccessible.Text.Name) == "Heights and ends"


def test_a_figure_is_shown_by_its_source(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    grid = grid_of(theme, show, ends(), Remembering())
    cells = {line.cell.key: line.cell for line in ends().lines}

    def look(key: str) -> tuple[str, str]:
        found = grid.painter.look(cells[key], IN_THIRTYSECONDS)
        return "".join(str(part) for part in found.parts), found.under

    assert look("height right") == ("30 1/16", "solid")
    assert look("top rail") == ("(1 3/4)", "dashed")
    assert look("gap") == ("", "dotted")
    assert look("depth") == ("12 1/ ?", "wavy")
    assert look("stock") == ("is 13/16", "double")
    planned = grid.painter.look(cells["stock"], IN_THIRTYSECONDS).beside
    assert [str(part) for part in planned] == ["3/4"]


def test_figures_of_a_column_end_their_whole_on_one_axis(qtbot: QtBot, theme: Theme, show: Shower) -> None:
    grid = grid_of(theme, show, openings(), Remembering())
    from frontwright.window.figures import box_of

    room = grid.rooms[1]
    letters = theme.letters(15)
    for text in ("21 1/16", "21"):
        look = grid.painter.look(taped("x", text, "x"), IN_THIRTYSECONDS)
        assert box_of(look.parts, letters).before <= room.before + 0.01
    assert room.after > 0


def test_a_derived_figure_of_an_assumed_one_has_brackets_and_no_line(qtbot: QtBot, theme: Theme) -> None:
    from frontwright.core.figures import plus, total
    from frontwright.window.figures import figure_look

    rests = total("width", plus(inches("22", source="assumed")), plus(inches("1/2")))
    found = figure_look(rests, IN_THIRTYSECONDS, theme.palette)
    assert ("".join(str(part) for part in found.parts), found.under) == ("(22 1/2)", "none")
    assert found.colour == theme.palette.assumed


def test_rows_may_come_in_while_a_cell_is_open_in_a_table_that_needs_a_bar(
    qtbot: QtBot, theme: Theme, show: Shower
) -> None:
    """A sum and a difference come under a run as its overall is entered; the table lays itself out meanwhile."""
    grid = grid_of(theme, show, openings(), Remembering())
    table = openings("OC", "OD", "OE", "OF", "OG", "OH")
    total = TableRow("", (Cell("", "words", "sum over all of the openings", bold=True),), result=True)
    whole = replace(table, rows=(total, *table.rows))
    for height in range(grid.height(), 20, -15):
        grid.show_block(openings())
        grid.resize(grid.width(), height)
        grid.stand_on("OB 2")
        type_text(qtbot, "21")
        grid.show_block(whole)
        assert opened(grid).text() == "21"
        grid.give_up(opened(grid))
    assert grid.cells.rowCount() == len(whole.rows)

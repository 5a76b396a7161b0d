"""Contents made up for tests of the window alone, and hands that only remember what was asked of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from frontwright.core.figures import Figure, Source
from frontwright.core.lengths import IN_THIRTYSECONDS, Display, Length, read
from frontwright.desk.contents import Action, Cell, Choice, Column, Form, FormLine, Outcome, Table, TableRow


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

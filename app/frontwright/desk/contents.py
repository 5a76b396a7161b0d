"""What a page shows, without a toolkit: tables and forms made of cells, each with a key by which it is edited."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from frontwright.core.drawing.marks import Drawing
from frontwright.core.figures import Figure
from frontwright.core.findings import CheckLevel

CellKind = Literal["length", "number", "count", "text", "choice", "tick", "figure", "words"]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a cell's choices: the value that an edit takes, and the word that is shown."""

    value: str
    word: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a table or form.

    The first six kinds can be edited: `Session.enter(key, text)`. `figure` (derived, or what an empty entry stands at:
    an assumed figure) is shown by its source; `text` is what was typed, or words. `subject` is selected with the cell;
    `name` is its spoken name and the name of its edit ("width, top, of OA"). `level`: a finding stands here.
    `quiet`: it can be written, but is seldom (the name of a row), so no line stands under it. `then`: the cell that
    Enter goes to, where that is not the next one. `bar`: a bar instead of words: what is had, what is had with one
    condition, what is needed.
    """

    key: str
    kind: CellKind
    text: str = ""
    figure: Figure | None = None
    choices: tuple[Choice, ...] = ()
    subject: str = ""
    name: str = ""
    bold: bool = False
    level: CheckLevel = "ok"
    unread: bool = False
    hint: str = ""
    quiet: bool = False
    then: str = ""
    bar: tuple[int, int, int] | None = None

    @property
    def editable(self) -> bool:
        return self.kind not in ("figure", "words")


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, the group over it, and whether figures stand on an axis in it."""

    title: str
    group: str = ""
    axis: bool = True
    share: int = 1


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row; `head` rows are section heads inside the table ("Crosscut, stop at 539"), with words at the right end."""

    subject: str
    cells: tuple[Cell, ...]
    head: bool = False
    aside: str = ""
    result: bool = False


@dataclass(frozen=True, slots=True)
class Action:
    """Something a person can have done at a place: `Session.act(key)`; `word` stands on the button or in the menu."""

    key: str
    word: str
    subject: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table. `actions` are its buttons (add a stile, add an opening); rows are in measuring order.

    `fine`: its lengths are thicknesses, told more closely than the job's.
    """

    key: str
    title: str
    aside: str
    columns: tuple[Column, ...]
    rows: tuple[TableRow, ...]
    actions: tuple[Action, ...] = ()
    tall: bool = False
    fine: bool = False


@dataclass(frozen=True, slots=True)
class FormLine:
    label: str
    cell: Cell


@dataclass(frozen=True, slots=True)
class Form:
    """A form: one label and one cell a line; `across`: cells side by side, labels above; `fine` as of a table."""

    key: str
    title: str
    aside: str
    lines: tuple[FormLine, ...]
    actions: tuple[Action, ...] = ()
    across: bool = False
    fine: bool = False


@dataclass(frozen=True, slots=True)
class FindingLine:
    """A finding worded: `level`, `title` (the subjects in bold) and `sentence`, then what is had and needed.

    `subject` is selected with it; `reason` is its second line; `ways` are its buttons (`Session.act`); `answerable`:
    `It is so, because ...` is offered (`Session.answer`); `answer` is what was said; `holds` names sheets held back.
    `shown`: it is open from the start.
    """

    key: str
    level: CheckLevel
    subject: str
    sentence: str
    have: str
    need: str
    reason: str = ""
    ways: tuple[Action, ...] = ()
    answerable: bool = False
    answer: str | None = None
    holds: str = ""
    title: str = ""
    shown: bool = False


@dataclass(frozen=True, slots=True)
class Tab:
    """A page in the list at the left: its chapter, and the strongest finding with its count."""

    chapter: str
    word: str
    level: CheckLevel = "ok"
    count: int = 0


@dataclass(frozen=True, slots=True)
class Board:
    """The drawing beside the tables. `wide`: 2.2 times as wide as high or more, then it lies across the top."""

    drawings: tuple[Drawing, ...]
    wide: bool = False


@dataclass(frozen=True, slots=True)
class PageContents:
    """A whole page. `bands`: blocks (tables, forms) side by side in each band, from the top.

    `start`: the cell or button on which a person begins, where that is not the first reading. `search`: what is asked
    in the search line that takes the chooser's place, None where there is none; `found`: how much answers it.
    """

    chapter: str
    title: str
    choosers: tuple[Choice, ...]
    chosen: str
    advice: str
    bands: tuple[tuple[Table | Form, ...], ...]
    board: Board | None
    findings: tuple[FindingLine, ...]
    actions: tuple[Action, ...] = ()
    start: str = ""
    search: str | None = None
    found: str = ""


@dataclass(frozen=True, slots=True)
class WorkingLine:
    """One line of a working: `depth` counts columns to the left; `sum`: a rule stands above it."""

    key: str
    name: str
    how: str
    sign: str
    figure: Figure
    source: str
    depth: int
    opens: bool
    open: bool
    sum: bool = False
    rounding: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of an edit: `problem` is one sentence where nothing was changed; `said` a notice of what was.

    `select` is selected now. `next_key` is the cell to go to, on the page of `chapter` where that is not empty.
    `prints`: keys of the sheets that are to be printed now.
    """

    problem: str = ""
    said: str = ""
    select: str = ""
    next_key: str = ""
    chapter: str = ""
    prints: tuple[str, ...] = ()


Listener = Callable[[], None]


@dataclass(frozen=True, slots=True)
class SheetLine:
    """A sheet in the list: current, stale (with the reason), or held back (by what)."""

    key: str
    number: str
    kind: str
    title: str
    subject: str
    state: Literal["not printed", "current", "stale", "held"]
    reason: str = ""
    pages: int = 0
    marks: tuple[str, ...] = field(default_factory=tuple)

"""What a page is made from: job, plan, shop, what is selected and typed, and the cells in which they are shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, Source
from frontwright.core.findings import LEVELS, Check, CheckLevel, Code
from frontwright.core.job import Amount, Job, Reading, Shop
from frontwright.core.job.declared import Declared, ValueKind, declared
from frontwright.core.lengths import Display, Typed, Unit, read, typed_length
from frontwright.core.plan import Plan
from frontwright.desk.contents import Cell, CellKind, Choice, TableRow
from frontwright.desk.edits.rows import field_of, row_or_new
from frontwright.desk.edits.rules import unlikely
from frontwright.desk.keys import TAKEN, key
from frontwright.desk.ways import cell_of
from frontwright.desk.wording.fields import cell_name, field_word, reading_word, value_word

if TYPE_CHECKING:
    from frontwright.desk.lay_desk import LayDesk
    from frontwright.desk.rack_desk import RackDesk

_KINDS: dict[ValueKind, CellKind] = {
    "text": "text",
    "count": "count",
    "yes or no": "tick",
    "length": "length",
    "amount": "number",
    "texts": "text",
}
_YES_NO = (Choice("", "not said"), Choice("yes", "yes"), Choice("no", "no"))
RACK = "rack:"  # before the table in the key of a cell that belongs to the rack
SHOP = "shop:"  # before the table in the key of a cell that belongs to the shop's own file
_TAPED = (
    "openings",
    "runs",
    "members",
    "columns",
    "ends",
    "old_fronts",
    "old_hinges",
    "drawers",
    "service_lines",
    "cabinets",
    "pieces",
)
_BUILT = ("as_built", "leaves", "pressed_panels", "plane_passes")
_DATUM = ("edge left", "edge right", "edge low", "edge high")


@dataclass(frozen=True, slots=True)
class Wish:
    """What a person has chosen to look at on a page, beside its subject: nothing of it is in the job."""

    look: str = ""  # id of the look shown on the Fronts page
    whole: bool = False  # every field of the look is shown
    asked: str = ""  # key of the cell that a way out led to, shown whatever else is
    entries: str = ""  # table shown on the Shop page
    heights: frozenset[str] = frozenset()  # heights of the run at which a further line of readings was asked for
    search: str = ""  # what the rack is searched for
    question: str = ""  # what it is asked whether there is enough for
    compare: bool = False  # spreads and schemes of a run are held side by side
    counting: bool = False  # the shelves are walked along on counting day


@dataclass(frozen=True)
class View:
    """Everything a page is made from. `drafts`: text by cell key that could not be taken, with why."""

    job: Job
    plan: Plan
    shop: Shop
    chosen: str = ""
    selected: str = ""
    drafts: Mapping[str, str] = field(default_factory=dict)
    problems: Mapping[str, str] = field(default_factory=dict)
    wish: Wish = field(default_factory=Wish)
    rack: RackDesk | None = None
    lay: LayDesk | None = None
    today: str = ""

    @property
    def unit(self) -> Unit:
        return self.display.unit

    @property
    def display(self) -> Display:
        return self.plan.display

    @cached_property
    def open_checks(self) -> tuple[Check, ...]:
        """The findings, the strongest first."""
        found = [check for check in self.plan.checks if check.is_open]
        return tuple(sorted(found, key=lambda check: (check.answer is not None, -LEVELS.index(check.level))))

    def level_of(self, subject: str, *codes: Code) -> CheckLevel:
        """The strongest level of the findings of these rules at a subject; notes are not marked."""
        found = (c.level for c in self.open_checks if c.code in codes and subject in c.where and c.level != "note")
        return next(found, "ok")

    @cached_property
    def marked(self) -> dict[str, CheckLevel]:
        """The cells in which a finding is put right, by key, with its level; notes are not marked."""
        return {
            place: check.level
            for check in reversed(self.open_checks)
            for way in check.ways
            if way.kind != "look at" and check.level != "note" and (place := cell_of(self.job, check, way))
        }

    @cached_property
    def doubted(self) -> dict[tuple[str, str], CheckLevel]:
        """Readings that a finding asks to take again (of, what), by its level."""
        return {
            (way.of, way.field): check.level
            for check in reversed(self.open_checks)
            for way in check.ways
            if way.kind == "read again" and check.level != "note"
        }

    @cached_property
    def readings(self) -> dict[tuple[str, str, str], Reading]:
        """The readings that stand: by of, what and at, the last one that is not struck out."""
        return {(r.of, r.what, r.at): r for r in self.job.readings.values() if not r.struck}

    # -- cells

    def entry(
        self,
        table: str,
        row: str,
        name: str,
        figure: Figure | None = None,
        *,
        subject: str = "",
        word: str = "",
        bold: bool = False,
    ) -> Cell:
        """The cell of a field. `figure` is what an empty one stands at."""
        said = word or cell_name(self.job, table, row, name)
        return self._entry(self.job, table, row, name, figure, said, subject or row, bold=bold)

    def shop_entry(self, table: str, row: str, name: str, figure: Figure | None = None) -> Cell:
        """The cell of a field of one of the shop's own entries."""
        said = f"{cell_name(self.shop, table, row, name)}, in the shop"
        return self._entry(self.shop, table, row, name, figure, said, f"{SHOP}{row}", bold=False)

    def _entry(
        self,
        whole: Job | Shop,
        table: str,
        row: str,
        name: str,
        figure: Figure | None,
        said: str,
        subject: str,
        *,
        bold: bool,
    ) -> Cell:
        kind = field_of(whole, table, name)
        value = getattr(row_or_new(whole, table, row), name)
        place = key(f"{SHOP}{table}" if isinstance(whole, Shop) else table, row, name)
        return self._drafted(self._of_kind(place, kind, table, value, figure, said, subject, bold=bold))

    def _of_kind(
        self,
        place: str,
        kind: Declared,
        table: str,
        value: object,
        figure: Figure | None,
        said: str,
        subject: str,
        *,
        bold: bool,
    ) -> Cell:
        if kind.kind == "length":
            return self._length(place, table, kind.name, value, figure, said, subject, bold=bold)
        if kind.kind == "amount":
            text, unread = _amount_text(value)
            return Cell(place, "number", text, figure if not text else None, (), subject, said, bold, unread=unread)
        choices = choices_of(table, kind)
        if choices:
            return Cell(place, "choice", plain_text(value), None, choices, subject, said, bold)
        return Cell(place, _KINDS[kind.kind], plain_text(value), figure, (), subject, said, bold)

    def _length(
        self,
        place: str,
        table: str,
        name: str,
        value: object,
        figure: Figure | None,
        said: str,
        subject: str,
        *,
        bold: bool,
    ) -> Cell:
        if not isinstance(value, Typed):
            return Cell(place, "length", "", figure, (), subject, said, bold)
        if value.value is None:
            problem = read(value.text, self.unit).problem or ""
            return Cell(place, "length", value.text, None, (), subject, said, bold, "warn", unread=True, hint=problem)
        shown = figure if figure is not None and figure.source in ("taped", "chosen", "as-built") else None
        own = shown or Figure(said, value.value, _source(table, name))
        hint = unlikely(table, name, value.value, said, self.display) or ""
        text = entry_text(value, self.unit)
        return Cell(place, "length", text, own, (), subject, said, bold, self.marked.get(place, "ok"), hint=hint)

    def rack_entry(self, table: str, row: Any, name: str) -> Cell:
        """The cell of a field of a row of the rack that no job has."""
        kind = next(one for one in declared(type(row)) if one.name == name)
        said = f"{field_word(table, name)} of {row.id}, on the rack"
        subject = getattr(row, "piece", row.id)
        place = key(f"{RACK}{table}", row.id, name)
        return self._drafted(self._of_kind(place, kind, table, getattr(row, name), None, said, subject, bold=False))

    def reading(
        self,
        of: str,
        what: str,
        at: str = "",
        figure: Figure | None = None,
        *,
        subject: str = "",
        home: str = "openings",
    ) -> Cell:
        """The cell of a reading. `figure` is what stands there while nothing was read."""
        found = self.readings.get((of, what, at))
        said = f"{reading_word(what, at)}, of {of}"
        place = key("readings", of, what, at)
        value = found.value if found is not None else None
        cell = self._length(place, home, what, value, figure, said, subject or of, bold=False)
        level = self.doubted.get((of, what), "ok") if value is not None else "ok"
        return self._drafted(replace(cell, level=cell.level if cell.unread else level))

    def taken(self, reading: Reading, name: str) -> Cell:
        """The cell of a field of a reading beside its size."""
        kind = field_of(self.job, "readings", name)
        said = cell_name(self.job, "readings", reading.id, name)
        value = getattr(reading, name)
        place = key(TAKEN, reading.id, name)
        return self._drafted(self._of_kind(place, kind, "readings", value, None, said, reading.of, bold=False))

    def choice(self, place: str, text: str, choices: tuple[Choice, ...], subject: str, name: str) -> Cell:
        """A cell of choices that is no single field (what an opening holds, how a run is built)."""
        return self._drafted(Cell(place, "choice", text, None, choices, subject, name))

    def name(self, table: str, row: str, subject: str = "") -> Cell:
        """The cell that holds a row's id, by which it can be renamed."""
        return self._drafted(
            Cell(key(table, row, "id"), "text", row, None, (), subject or row, f"name of {row}", bold=True, quiet=True)
        )

    def assumed(self, name: str) -> Figure:
        """An assumed length by its key."""
        return assumed(self.unit, name)

    def _drafted(self, cell: Cell) -> Cell:
        """The cell with text that was typed there and could not be taken."""
        text = self.drafts.get(cell.key)
        if text is None:
            return cell
        return replace(cell, text=text, figure=None, unread=True, hint=self.problems.get(cell.key, ""))


def worked(figure: Figure | None, subject: str, name: str, *, bold: bool = False, level: CheckLevel = "ok") -> Cell:
    """A cell that shows a figure worked out."""
    return Cell(key("figure", subject, name), "figure", "", figure, (), subject, f"{name} of {subject}", bold, level)


def words(text: str, subject: str = "", *, bold: bool = False, level: CheckLevel = "ok") -> Cell:
    """A cell of words."""
    return Cell("", "words", text, None, (), subject, text, bold, level)


def down(rows: Sequence[TableRow]) -> tuple[TableRow, ...]:
    """Rows of a table with a column a thing: Enter goes down the figures of one, then to the next, so that what is
    typed on belongs to the same thing."""
    deep = max((len(row.cells) for row in rows), default=0)
    order = [row.cells[at] for at in range(deep) for row in rows if at < len(row.cells)]
    then = dict(pairwise(cell.key for cell in order if cell.kind in ("length", "number", "count")))
    return tuple(
        replace(row, cells=tuple(replace(one, then=then.get(one.key, one.then)) for one in row.cells)) for row in rows
    )


def choices_of(table: str, kind: Declared) -> tuple[Choice, ...]:
    """What can be chosen in a field; none where anything can be typed."""
    if kind.kind == "yes or no" and kind.optional:
        return _YES_NO
    if not kind.choices:
        return ()
    first = (Choice("", value_word(table, kind.name, "")),) if kind.optional else ()
    return (*first, *(Choice(one, value_word(table, kind.name, one)) for one in kind.choices))


def named_choices(rows: Mapping[str, Any], empty: str) -> tuple[Choice, ...]:
    """Reusable entries to choose from."""
    return (Choice("", empty), *(Choice(row, getattr(one, "name", "") or row) for row, one in rows.items()))


def plain_text(value: object) -> str:
    """A value that is no length as it stands in a cell."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(value)
    return str(value)


def _amount_text(value: object) -> tuple[str, bool]:
    return (value.text, value.value is None) if isinstance(value, Amount) else ("", False)


@lru_cache(maxsize=20_000)
def entry_text(typed: Typed, unit: Unit) -> str:
    """A typed length as text that reads back as its value in this unit: as typed, unless the job's unit has changed."""
    if typed.value is None or read(typed.text, unit).value == typed.value:
        return typed.text
    return typed_length(typed.value, unit).text


def _source(table: str, name: str) -> Source:
    if table in _BUILT or name.endswith("_is"):
        return "as-built"
    taped = table in _TAPED or (table == "billets" and name in ("length", "width", "thickness"))
    return "taped" if taped or name in _DATUM else "chosen"

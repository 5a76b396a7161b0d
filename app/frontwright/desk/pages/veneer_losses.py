"""Losses by name on the Veneer page: a row each loss, a column each saw and blade, what was seen and learned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from frontwright.core.drawing.section import finer
from frontwright.core.figures import Figure
from frontwright.core.job import Blade, Machine
from frontwright.core.job.index import JobIndex
from frontwright.core.veneer.learning import OUTLIER
from frontwright.core.veneer.result import BilletPlan, Comparison, Losses
from frontwright.core.veneer.sawing import losses_of, mounted_on
from frontwright.desk.contents import Action, Cell, Choice, Column, Table, TableRow
from frontwright.desk.edits.blades import blades_of
from frontwright.desk.edits.learning import WORDS, What, is_odd, learned_figure, seen_losses
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, down, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import count_of, length_text
from frontwright.desk.wording.veneer import saw_word

_OF_BLADE = ("kerf", "wander", "out_of_square")
_SAW = ("most_height", "blade_height", "overlap", "out_of_square")
_OF_KIND = {"band saw": ("most_height",), "table saw": ("blade_height", "overlap", "out_of_square")}
_LEARNED: dict[What, str] = {"loss": "learned, each slice", "rejoint": "learned, re-joint loss"}


@dataclass(frozen=True, slots=True)
class Sawn:
    """A column: a saw, with one of its blades where it has any; `first` of its saw, `mounted` on it now."""

    saw: Machine
    blade: Blade | None
    losses: Losses
    word: str
    own: bool
    first: bool
    mounted: bool

    @property
    def blade_id(self) -> str:
        return self.blade.id if self.blade is not None else ""

    def home(self, name: str) -> tuple[str, str]:
        """Table and row in which a figure of this column is typed."""
        if self.blade is not None and name in _OF_BLADE:
            return "blades", self.blade.id
        return "machines", self.saw.id


def losses_table(view: View, plan: BilletPlan) -> Table:
    """A row each loss, a column each saw and blade: figures are typed here where the saw is the job's."""
    columns = _columns(view)
    heads = [Column(one.word, _under(one)) for one in columns]
    rows = [_loss_row(view, columns, name) for name in ("kerf", "wander", "rejoint")]
    rows[0] = replace(rows[0], cells=(*rows[0].cells, words("")))
    if plan.seen is not None and plan.seen.rejoint is not None:
        seen = worked(plan.seen.rejoint, plan.id, "re-joint loss seen")
        rows[2] = replace(rows[2], cells=(*rows[2].cells, seen))
    rows.append(_together(view, plan, columns))
    rows.append(_loss_row(view, columns, "keep_back"))
    rows += [*_seen_rows(view, plan, len(columns)), *_counts(view, columns), *_mounted(view, columns)]
    rows += [_saw_row(view, columns, name) for name in _SAW if any(name in _OF_KIND[one.saw.kind] for one in columns)]
    rows += [row for what in _LEARNED for row in _learned(view, columns, what)]
    named = (Column("of each slice", axis=False, share=2), *heads, Column(f"on {plan.id} it is", "seen"))
    aside = "each by its own name; the saw that is planned with first said"
    return Table("losses", "Losses by name, saws compared", aside, named, down(rows), _actions(view, columns))


def _columns(view: View) -> tuple[Sawn, ...]:
    index = JobIndex(view.job)
    found: list[Sawn] = []
    for saw in view.job.machines.values() or (Machine("band saw", "band saw", "usual band saw"),):
        own, on = saw.id in view.job.machines, mounted_on(index, saw)
        blades: Sequence[Blade | None] = blades_of(view.job, saw.id)
        blades = blades if on is not None else (None, *blades)
        for at, blade in enumerate(blades):
            word = saw_word(saw.name or saw.id, blade.name or blade.id) if blade is not None else saw.name or saw.id
            losses = losses_of(index, saw, blade)
            found.append(Sawn(saw, blade, losses, word, own, at == 0, blade is on))
    return tuple(found)


def _under(one: Sawn) -> str:
    planned = "planned with" if one.saw.chosen and one.mounted else "compared"
    return planned if one.mounted else "not mounted"


def _actions(view: View, columns: Sequence[Sawn]) -> tuple[Action, ...]:
    learned = [one for one in columns if one.own and learned_figure(view.job, view.shop, one.saw.id, one.blade_id)]
    found = [
        Action(key("use-learned", one.saw.id, one.blade_id), f"Plan {one.word} with the learned loss", one.saw.id)
        for one in learned
    ]
    found += [
        Action(key("add-blade", one.saw.id), f"Add a blade to {one.saw.name or one.saw.id}", one.saw.id)
        for one in columns
        if one.own and one.first
    ]
    if view.selected in view.job.blades:
        found.append(Action(key("delete", "blades", view.selected), f"Take out {view.selected}", view.selected))
    return (*found, Action(key("new", "machines"), "Add a saw"))


def _loss_row(view: View, columns: Sequence[Sawn], name: str) -> TableRow:
    cells = [words(field_word("machines", name))]
    for one in columns:
        figure: Figure = getattr(one.losses, name)
        table, row = one.home(name)
        typed = one.own and (one.first or table == "blades")
        cells.append(view.entry(table, row, name, figure) if typed else worked(figure, one.saw.id, name))
    return TableRow("", tuple(cells))


def _mounted(view: View, columns: Sequence[Sawn]) -> list[TableRow]:
    """Which blade is mounted on each saw, and what each blade is called; none where no saw has blades of its own."""
    if not any(one.blade is not None for one in columns):
        return []
    mounted = [_mount_cell(view, one) if one.own and one.first else words("") for one in columns]
    called = [view.name("blades", one.blade.id) if one.blade is not None else words("") for one in columns]
    return [
        TableRow("", (words("blade"), *called)),
        TableRow("", (words(field_word("machines", "blade")), *mounted)),
    ]


def _mount_cell(view: View, one: Sawn) -> Cell:
    blades = (Choice(blade.id, blade.name or blade.id) for blade in blades_of(view.job, one.saw.id))
    choices = (Choice("", "none of these"), *blades)
    said = cell_name(view.job, "machines", one.saw.id, "blade")
    return view.choice(key("machines", one.saw.id, "blade"), one.saw.blade or "", choices, one.saw.id, said)


def _saw_row(view: View, columns: Sequence[Sawn], name: str) -> TableRow:
    """What a saw takes on edge, and how far its blade leans."""
    cells = [words(field_word("machines", name))]
    for one in columns:
        table, row = one.home(name)
        typed = one.own and name in _OF_KIND[one.saw.kind] and (one.first or table == "blades")
        usual = view.assumed(f"table saw {name.replace('_', ' ')}") if name in ("blade_height", "overlap") else None
        cells.append(view.entry(table, row, name, usual) if typed else words(""))
    return TableRow("", tuple(cells))


def _together(view: View, plan: BilletPlan, columns: Sequence[Sawn]) -> TableRow:
    cells = [words("lost each slice", bold=True)]
    cells += [worked(one.losses.together, one.saw.id, "loss a slice", bold=True) for one in columns]
    if plan.seen is not None and plan.seen.slices:
        level = view.level_of(plan.id, "resaw-yield")
        cells.append(worked(plan.seen.loss, plan.id, "loss seen", bold=True, level=level))
    return TableRow("", tuple(cells), result=True)


def _seen_rows(view: View, plan: BilletPlan, saws: int) -> list[TableRow]:
    """F60 as it is read off: each figure opens its working; what lies out of all that was learned is marked (F76)."""
    if plan.seen is None:
        return []
    blank = tuple(words("") for _ in range(saws))
    figures = (
        (f"mean leaf of {count_of(plan.seen.slices, 'slice')}", plan.seen.mean_thickness),
        ("leaf and loss, each slice", plan.seen.pitch),
        ("rest, if the saw goes on so", plan.seen.rest),
    )
    rows = [TableRow("", (words(said), *blank, worked(figure, plan.id, said))) for said, figure in figures]
    rows.append(TableRow("", (words("leaves still to come"), *blank, words(str(plan.seen.more), plan.id))))
    for one in seen_losses(view.job, view.plan, plan.id):
        if is_odd(view.shop, one):
            said = f"{WORDS[one.what]}, {one.blade or one.machine}, out of what was learned"
            seen = f"{length_text(one.value, finer(view.display))}, over {OUTLIER} spreads"
            rows.append(TableRow("", (words(said), *blank, words(seen, plan.id, level="warn"))))
    return rows


def _counts(view: View, columns: Sequence[Sawn]) -> list[TableRow]:
    """So many leaves with this saw, short by so many with that."""
    compared = {(one.machine, one.blade): one for one in view.plan.veneer.compared}
    found: list[Comparison | None] = [compared.get((one.saw.id, one.blade_id)) for one in columns]
    if not any(found):
        return []
    wanted = next(one.wanted for one in found if one is not None)

    def row(said: str, texts: list[str], *, bold: bool = False) -> TableRow:
        return TableRow("", (words(said, bold=bold), *(words(text, bold=bold) for text in texts)))

    short = [str(sum(count for _, count in one.short)) if one is not None else "" for one in found]
    return [
        row(f"leaves of the {wanted} wanted", [str(one.gives) if one is not None else "" for one in found]),
        row("short by", short, bold=True),
        row("with rests planed to leaves", [str(one.with_rests) if one is not None else "" for one in found]),
    ]


def _learned(view: View, columns: Sequence[Sawn], what: What) -> list[TableRow]:
    """What the shop learned of each saw in this wood: the figure, how far it spreads, over how many jobs."""
    found = [learned_figure(view.job, view.shop, one.saw.id, one.blade_id, what) for one in columns]
    if not any(found):
        return []
    cells = [words(_LEARNED[what])]
    for one in found:
        value = one.value.value if one is not None and one.value is not None else None
        spread = one.spread.value if one is not None and one.spread is not None else None
        text = length_text(value, finer(view.display)) if value is not None else ""
        apart = f" ± {length_text(spread, finer(view.display))}" if spread else ""
        cells.append(words(f"{text}{apart}, {count_of(one.count, 'job')}" if one is not None and text else ""))
    return [TableRow("", tuple(cells))]

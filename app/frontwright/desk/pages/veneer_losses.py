"""Losses by name on the Veneer page: a row each loss, a column each saw, what was seen and learned."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from frontwright.core.figures import Figure
from frontwright.core.job import Job, Machine
from frontwright.core.job.index import JobIndex
from frontwright.core.veneer.result import BilletPlan, Comparison, Losses
from frontwright.core.veneer.sawing import losses_of
from frontwright.desk.contents import Action, Column, Table, TableRow
from frontwright.desk.edits.learning import learned_loss
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of, length_text

_LOSSES = ("kerf", "wander", "rejoint")
_SAW = ("blade", "most_height", "blade_height", "overlap", "out_of_square")
_OF_KIND = {
    "band saw": ("blade", "most_height"),
    "table saw": ("blade", "blade_height", "overlap", "out_of_square"),
}


def losses_table(view: View, plan: BilletPlan) -> Table:
    """A row each loss, a column each saw: figures are typed here where the saw is the job's."""
    saws = list(view.job.machines.values()) or [Machine("band saw", "band saw", "usual band saw")]
    index = JobIndex(view.job)
    losses = {saw.id: losses_of(index, saw) for saw in saws}
    compared = {one.machine: one for one in view.plan.veneer.compared}
    columns = [Column("of each slice", axis=False, share=2)]
    columns += [Column(_saw_word(view.job, saw), "planned with" if saw.chosen else "compared") for saw in saws]
    columns.append(Column(f"on {plan.id} it is", "seen"))
    rows = [_loss_row(view, losses, saws, name) for name in _LOSSES]
    rows[0] = replace(rows[0], cells=(*rows[0].cells, words("")))
    rows.append(_together(view, plan, losses, saws))
    rows.append(_loss_row(view, losses, saws, "keep_back"))
    rows += _seen_rows(plan, len(saws))
    rows += _counts(compared, saws)
    rows += [_saw_row(view, saws, name) for name in _SAW if any(name in _OF_KIND[saw.kind] for saw in saws)]
    rows += _learned(view, saws)
    aside = "each by its own name; the saw that is planned with first said"
    actions = tuple(
        Action(key("use-learned", saw.id), f"Plan {_saw_word(view.job, saw)} with the learned loss", saw.id)
        for saw in saws
        if saw.id in view.job.machines and learned_loss(view.job, view.shop, saw) is not None
    )
    add = Action(key("new", "machines"), "Add a saw")
    return Table("losses", "Losses by name, saws compared", aside, tuple(columns), tuple(rows), (*actions, add))


def _saw_word(job: Job, saw: Machine) -> str:
    name = saw.name or saw.id if saw.id in job.machines else "usual band saw"
    return f"{name}, {saw.blade}" if saw.blade else name


def _loss_row(view: View, losses: Mapping[str, Losses], saws: list[Machine], name: str) -> TableRow:
    cells = [words(field_word("machines", name))]
    for saw in saws:
        figure: Figure = getattr(losses[saw.id], name)
        own = saw.id in view.job.machines
        cells.append(view.entry("machines", saw.id, name, figure) if own else worked(figure, saw.id, name))
    return TableRow("", tuple(cells))


def _saw_row(view: View, saws: list[Machine], name: str) -> TableRow:
    """What a saw takes, and the blade that is mounted on it."""
    cells = [words(field_word("machines", name))]
    for saw in saws:
        own = saw.id in view.job.machines and name in _OF_KIND[saw.kind]
        usual = view.assumed(f"table saw {name.replace('_', ' ')}") if name in ("blade_height", "overlap") else None
        cells.append(view.entry("machines", saw.id, name, usual) if own else words(""))
    return TableRow("", tuple(cells))


def _together(view: View, plan: BilletPlan, losses: Mapping[str, Losses], saws: list[Machine]) -> TableRow:
    cells = [words("lost each slice", bold=True)]
    cells += [worked(losses[saw.id].together, saw.id, "loss a slice", bold=True) for saw in saws]
    if plan.seen is not None:
        level = view.level_of(plan.id, "resaw-yield")
        cells.append(worked(plan.seen.loss, plan.id, "loss seen", bold=True, level=level))
    return TableRow("", tuple(cells), result=True)


def _seen_rows(plan: BilletPlan, saws: int) -> list[TableRow]:
    """F60 as it is read off: each figure opens its working."""
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
    return rows


def _counts(compared: Mapping[str, Comparison], saws: list[Machine]) -> list[TableRow]:
    """So many leaves with this saw, short by so many with that."""
    found = [compared.get(saw.id) for saw in saws]
    if not any(found):
        return []
    wanted = next(one.wanted for one in found if one is not None)

    def row(said: str, texts: list[str], *, bold: bool = False) -> TableRow:
        return TableRow("", (words(said, bold=bold), *(words(text, bold=bold) for text in texts)))

    short = [sum(count for _, count in one.short) if one is not None else 0 for one in found]
    return [
        row(f"leaves of the {wanted} wanted", [str(one.gives) if one is not None else "" for one in found]),
        row("short by", [str(count) for count in short], bold=True),
        row("with rests planed to leaves", [str(one.with_rests) if one is not None else "" for one in found]),
    ]


def _learned(view: View, saws: list[Machine]) -> list[TableRow]:
    """What the shop learned of each saw in this wood: the figure, how far it spreads, over how many jobs."""
    found = [learned_loss(view.job, view.shop, saw) for saw in saws]
    if not any(found):
        return []
    cells = [words("learned, each slice")]
    for one in found:
        value = one.value.value if one is not None and one.value is not None else None
        spread = one.spread.value if one is not None and one.spread is not None else None
        text = length_text(value, view.display) if value is not None else ""
        apart = f" ± {length_text(spread, view.display)}" if spread else ""
        cells.append(words(f"{text}{apart}, {count_of(one.count, 'job')}" if one is not None and text else ""))
    return [TableRow("", tuple(cells))]

"""Sums that must close, told by kind."""

from __future__ import annotations

from frontwright.core.figures import Figure, plus, total
from frontwright.core.findings import CheckLevel
from frontwright.core.fronts.result import Sum
from frontwright.core.lengths import in_units
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import (
    Column,
    Table,
    TableRow,
)
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.numbers import count_of, figure_text, length_text


def sums_table(view: View, run: RunPlan) -> Table:
    rows: list[TableRow] = []
    for at, one in enumerate(s for s in view.plan.fronts.sums if s.run == run.id):
        rows += _sum_rows(view, one, at)
    columns = (Column("", axis=False, share=2), Column(""))
    return Table("sums", "Sums that must close", "", columns, tuple(rows))


def _sum_rows(view: View, one: Sum, at: int) -> list[TableRow]:
    """A row of fronts term by term, like ones together; a column in one line."""
    subject = one.of[0] if one.of else one.run
    name = f"{one.direction} {at + 1}"
    agrees = in_units(one.total.value) == in_units(one.equals.value)
    said = "agrees" if agrees else "does not agree"
    total_of = worked(one.total, subject, f"{name}, together", bold=True, level=_level(view, subject, agrees))
    if one.direction == "column":
        terms = " + ".join(figure_text(term, view.display) for term in one.terms if in_units(term.value))
        return [TableRow(subject, (words(f"{terms}: {said}", subject), total_of))]
    rows = [TableRow(subject, (words(f"Row {', '.join(one.of)}", subject, bold=True),), head=True)]
    rows += [
        TableRow(subject, (words(word, subject), worked(f, subject, f"{name}, {word}")))
        for word, f in _terms(view, one)
    ]
    rows.append(TableRow(subject, (words("together", subject), total_of), result=True))
    equals = worked(one.equals, subject, f"{name}, overall")
    return [*rows, TableRow(subject, (words(f"overall, {said}", subject, bold=agrees), equals))]


def _level(view: View, subject: str, agrees: bool) -> CheckLevel:
    return "ok" if agrees else view.level_of(subject, "row-sum")


def _terms(view: View, one: Sum) -> list[tuple[str, Figure]]:
    """Reveals singly, all fronts together, gaps of a size together."""
    pairs = list(zip(one.kinds, one.terms, strict=True))
    reveals = [(term.name, term) for kind, term in pairs if kind == "reveal"]
    gaps = [term for kind, term in pairs if kind == "gap"]
    fronts = [term for kind, term in pairs if kind not in ("reveal", "gap")]
    found = reveals[:1]
    if fronts:
        found.append((count_of(len(fronts), "front"), total(count_of(len(fronts), "front"), *map(plus, fronts))))
    for size in dict.fromkeys(gap.value for gap in gaps):
        same = [gap for gap in gaps if gap.value == size]
        word = f"{count_of(len(same), 'gap')} of {length_text(size, view.display)}"
        found.append((word, total(word, *map(plus, same))))
    return [*found, *reveals[1:]]

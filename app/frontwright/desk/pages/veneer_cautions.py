"""What to mind at the saw, on the page where the slices are read: the same words as on the saw sheet."""

from __future__ import annotations

from frontwright.core.veneer.cautions import MANUAL, at_the_saw
from frontwright.core.veneer.result import BilletPlan
from frontwright.desk.contents import Column, Table, TableRow
from frontwright.desk.pages.view import View, words


def cautions_table(view: View, plan: BilletPlan) -> Table:
    """The cautions of the saw that this billet is sawn with now, a line each; the manual is named at the head."""
    saw = view.job.machines.get(plan.saw_now.machine)
    kind = saw.kind if saw is not None else "band saw"
    rows = []
    for caution in at_the_saw(kind):
        for at, said in enumerate(caution.says):
            about = words("" if at else caution.word, plan.id, bold=True)
            rows.append(TableRow(plan.id, (about, words(said, plan.id))))
    columns = (Column("for", axis=False), Column("mind", axis=False, share=4))
    return Table("cautions", f"At the {kind}", MANUAL.rstrip("."), columns, tuple(rows), tall=False)

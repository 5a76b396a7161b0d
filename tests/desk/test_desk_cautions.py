"""The cautions at the saw stand where the slices are read, in the words of the sheet at the machine."""

from __future__ import annotations

import pytest
from frontwright.core.job import MachineKind
from frontwright.core.veneer.cautions import at_the_saw
from frontwright.desk.contents import Table
from frontwright.desk.session import Session


def cautions(session: Session, billet: str) -> Table:
    bands = session.page("veneer", billet).bands
    return next(block for band in bands for block in band if isinstance(block, Table) and block.key == "cautions")


def said(table: Table) -> str:
    return "; ".join(str(cell.text) for row in table.rows for cell in row.cells)


@pytest.mark.parametrize("kind", ["band saw", "table saw"])
def test_guard_push_blocks_featherboard_and_stance_are_named_at_either_saw(kind: MachineKind) -> None:
    text = "; ".join(one for caution in at_the_saw(kind) for one in caution.says)
    for word in ("guard", "push blocks", "featherboard", "out of line with the blade", "same face to the fence"):
        assert word in text
    assert ("riving knife" in text) == (kind == "table saw")


def test_the_page_of_a_billet_says_them_and_puts_the_manual_first(laundry: Session) -> None:
    table = cautions(laundry, "A")
    assert table.title == "At the band saw"
    assert table.aside == "The machine's own manual comes first"
    assert "push blocks, not fingers, finish the cut" in said(table)


def test_a_billet_that_goes_to_the_table_saw_has_the_cautions_of_that(laundry: Session) -> None:
    laundry.act("enter-billets")
    assert laundry.enter("billets/A/machine", "table saw").problem == ""
    assert "the splitter or riving knife follows the kerf" in said(cautions(laundry, "A"))
    assert "riving knife" not in said(cautions(laundry, "B"))

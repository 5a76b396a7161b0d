"""Leaves side by side on a panel: how many, where the joints lie, what shows of the outer ones (F56, F57)."""

from __future__ import annotations

from frontwright.core.assumed import entered, measured
from frontwright.core.figures import Figure, Term, least, minus, most, plus, share, total
from frontwright.core.job import Billet, Piece
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units

MOST_LEAVES = 100  # side by side; more come of a width that was mistyped


def usable_width(index: JobIndex) -> Figure:
    """F56: the width of a leaf after its edges are jointed, from the narrowest billet at hand, else the usual one."""
    edge = entered(index.unit, index.allowances.leaf_edge, "leaf edge")
    return total("usable width of a leaf", plus(billet_size(index, "width")), minus(edge, 2))


def billet_size(index: JobIndex, what: str) -> Figure:
    """Width of the billets at hand, the least of them, or their thickness, the most; the usual one where there is none.

    The width of a billet that was cut and jointed counts too: leaves of one panel come from any of them.
    """
    rows: list[Piece | Billet] = [piece for piece in index.job.pieces.values() if piece.form == "billet"]
    if what == "width":
        rows += index.job.billets.values()
    found = (measured(getattr(row, what), f"{what} of {row.id}") for row in rows)
    at_hand = [figure for figure in found if figure is not None]
    if at_hand:
        if what == "thickness":
            return most("thickness of the billets", at_hand, "the thickest of those at hand")
        return least(f"{what} of the billets", at_hand, "the least of those at hand")
    return entered(index.unit, None, f"billet {what}")


def leaves_across(core_across: Figure, usable: Figure) -> int:
    """F56: whole leaves that cover the core's width."""
    wide = in_units(usable.value)
    return max(1, -(-in_units(core_across.value) // wide)) if wide > 0 else 1


def joints(leaves: int, usable: Figure) -> tuple[Figure, ...]:
    """Joints from the centre line: an even number of leaves puts one on it, an odd number a leaf."""
    found: list[Figure] = []
    for at in range(1, min(leaves, MOST_LEAVES)):
        doubled = total("twice the joint from the centre", Term(usable, 2 * at - leaves))
        found.append(share(f"joint {at} from the centre", doubled, 2))
    return tuple(found)


def outer_visible(leaves: int, sight: Figure, usable: Figure) -> Figure:
    """What shows of each outer leaf, trimmed alike; of a single leaf the whole sight."""
    if leaves < 2:
        return sight
    rest = total("sight less the inner leaves", plus(sight), minus(usable, leaves - 2))
    return share("what shows of the outer leaves", rest, 2)

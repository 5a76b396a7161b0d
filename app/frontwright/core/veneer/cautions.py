"""What to mind at the saw, in short sentences: for the page where the slices are read and the sheet at the machine.

The usual cautions of the trade; the manual of the machine that is used goes before all of them.
"""

from __future__ import annotations

from frontwright.core.cautions import Caution
from frontwright.core.job import MachineKind

MANUAL = "The machine's own manual comes first."

_HANDS = Caution(
    "hands",
    (
        "tall fence; featherboard ahead of the blade and never beside it",
        "push blocks, not fingers, finish the cut",
    ),
)
_STANCE = Caution(
    "stance",
    (
        "stand out of line with the blade; reach over only when it has stopped",
        "eyes and ears covered, dust drawn off",
    ),
)
_AT: dict[MachineKind, tuple[Caution, ...]] = {
    "band saw": (
        Caution(
            "guard",
            ("guard and guides down to just above the billet", "the tension that the blade's maker gives"),
        ),
        _HANDS,
        _STANCE,
        Caution(
            "heat, load",
            (
                "smoke, burning or a motor that labours: stop, let it cool, sharpen or clean",
                "never push harder",
            ),
        ),
    ),
    "table saw": (
        Caution(
            "splitter",
            (
                "the splitter or riving knife follows the kerf of the blade that is mounted; guard on",
                "another blade: another splitter, and another plan",
            ),
        ),
        _HANDS,
        _STANCE,
        Caution("two passes", ("same face to the fence for both; turned, a blade out of square leaves a step",)),
        Caution(
            "heat, load",
            (
                "one full pass a side rather than many shallow ones",
                "smoke, a closing kerf or a motor that labours: stop, let it cool",
            ),
        ),
    ),
}
_EACH = Caution(
    "each slice",
    (
        "joint its face; same face to the fence",
        "arrow to the tree's top; number, face; scorch and bow under state",
    ),
)
_REST = Caution(
    "leaves",
    (
        "sticker and weight them for 24 to 72 hours",
        "billet shell and core within 2 % of each other before sawing",
    ),
)


def at_the_saw(kind: MachineKind) -> tuple[Caution, ...]:
    """The cautions of resawing on a saw of this kind, in the order in which they are wanted."""
    return (*_AT[kind], _EACH, _REST)

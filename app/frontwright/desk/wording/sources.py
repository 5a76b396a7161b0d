"""Words for where a figure comes from, and for how strong a finding is."""

from __future__ import annotations

from frontwright.core.figures import Figure, Source
from frontwright.core.findings import CheckLevel

_SOURCES: dict[Source, str] = {
    "taped": "taped",
    "chosen": "chosen",
    "derived": "worked out",
    "assumed": "assumed",
    "as-built": "is",
}
NOT_MEASURED = "not measured"
UNREAD = "unread"
LEVEL_WORDS: dict[CheckLevel, str] = {"ok": "holds", "note": "note", "warn": "warn", "stop": "stop"}


def source_word(figure: Figure | None) -> str:
    """The word that stands in the working, the tip and the spoken name; none at all is not measured."""
    if figure is None:
        return NOT_MEASURED
    if figure.source == "derived" and figure.rests:
        return "rests on an assumed figure"
    return _SOURCES[figure.source]

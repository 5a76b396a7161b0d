"""Words for where a figure comes from."""

from __future__ import annotations

from frontwright.core.figures import Figure, Source

_SOURCES: dict[Source, str] = {
    "taped": "taped",
    "chosen": "chosen",
    "derived": "worked out",
    "assumed": "assumed",
    "as-built": "is",
}
NOT_MEASURED = "not measured"


def source_word(figure: Figure | None) -> str:
    """The word that stands in the working, the tip and the spoken name; none at all is not measured."""
    if figure is None:
        return NOT_MEASURED
    if figure.source == "derived" and figure.rests:
        return "rests on an assumed figure"
    return _SOURCES[figure.source]

"""The small drawings of the new-job form, by the values they stand for."""

from __future__ import annotations

from frontwright.core.drawing.icons import build_icon, fronts_icon, scheme_icon
from frontwright.window.new_job import Icons


def icons() -> Icons:
    """All small drawings of the form."""
    return Icons(
        {"one": fronts_icon(1), "pair": fronts_icon(2)},
        {
            "inset": scheme_icon("inset"),
            "partial cover": scheme_icon("partial cover"),
            "full cover": scheme_icon("full cover"),
        },
        {
            "dowelled": build_icon("dowelled"),
            "stub tenon": build_icon("stub tenon"),
            "cope and stick": build_icon("cope and stick"),
            "mitred": build_icon("mitred"),
            "slab": build_icon("slab"),
        },
    )

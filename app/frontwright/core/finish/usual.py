"""What a finish is taken to need until its tin has been read: one figure a unit, with its source."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from frontwright.core.assumed import COMMON, SOURCES
from frontwright.core.figures import Figure, number
from frontwright.core.lengths import Unit

_GUIDES = f"usual figure: {SOURCES['T6']}"
# key: (name, inch job, mm job, source); cover in square feet a gallon, m2 a litre
_USUAL: dict[str, tuple[str, str, str, str]] = {
    "coats": ("coats", "3", "3", _GUIDES),
    "cover": ("cover of a coat", "400", "10", _GUIDES),
    "extra": ("for brush and tray, %", "15", "15", COMMON),
    "stain_hours": ("stain dries, h", "12", "12", COMMON),
    "sealer_hours": ("sealer dries, h", "4", "4", COMMON),
    "turn_hours": ("turned after, h", "1", "1", COMMON),
    "side_minutes": ("to coat a side, min", "3", "3", COMMON),
    "dry_hours": ("a coat dries, h", "4", "4", _GUIDES),
    "recoat_most": ("next coat within, h", "24", "24", _GUIDES),
    "hang_days": ("before hanging, days", "3", "3", COMMON),
    "bumper_days": ("before bumpers, days", "7", "7", COMMON),
    "places": ("places of the rack", "6", "6", COMMON),
    "strips_a_place": ("strips to a place", "4", "4", COMMON),
    "coat_hours": ("first to last coat of a day, h", "5", "5", COMMON),
}
USUAL = frozenset(_USUAL)


@cache
def usual_finish(unit: Unit, key: str) -> Figure:
    """The assumed figure of this key; KeyError if there is none."""
    name, inch, mm, source = _USUAL[key]
    return number(name, Fraction(inch if unit == "in" else mm), "assumed", source)

"""What a field may hold beside what its type says: signs, impossible sizes, and sizes that are unlikely.

The figures are those of the trade's table (columns suspicious and impossible), in millimetres whatever the job's unit.
"""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.lengths import LONGEST, ZERO, Display, Length, Typed, Unit, show
from frontwright.core.unread import MAY_BE_ZERO
from frontwright.desk.edits.amounts import units_of
from frontwright.desk.wording.numbers import decimal

ANY_SIGN = {  # positions and leans: to the left of, below, or away from
    "edge left",
    "edge right",
    "edge low",
    "edge high",
    "edge_left",
    "edge_right",
    "edge_top",
    "edge_bottom",
    "pin_left",
    "pin_right",
    "pin_bottom",
    "pin_top",
    "leans",
    "low",
    "high",
    "begins",
    "ends",
    "at",
    "bow",
    "slope_shows",
    "constant",
    "box_out",
}
LOWEST_PLATE = ("plates", "height")
_MM = Length.mm
# (table, field) -> no smaller than this
_LEAST: dict[tuple[str, str], Length] = {("openings", "width"): _MM(60), ("looks", "gap"): Length(1)}
# (table, field) -> likely from, to
_LIKELY: dict[tuple[str, str], tuple[Length, Length]] = {
    ("runs", "overall"): (_MM(300), _MM(8000)),
    ("runs", "height"): (_MM(150), _MM(3000)),
    ("openings", "width"): (_MM(100), _MM(1000)),
    ("openings", "height"): (_MM(60), _MM(2200)),
    ("openings", "wind gap"): (ZERO, _MM(20)),
    ("members", "across"): (_MM(15), _MM(120)),
    ("cabinets", "side"): (_MM(9), _MM(25)),
    ("ends", "gap_top"): (ZERO, _MM(100)),
    ("ends", "gap_middle"): (ZERO, _MM(100)),
    ("ends", "gap_bottom"): (ZERO, _MM(100)),
    ("members", "bow"): (_MM(-2), _MM(2)),
    ("old_fronts", "thickness"): (_MM(12), _MM(28)),
    ("cabinets", "frame_inside"): (ZERO, _MM(30)),
    ("old_hinges", "cup"): (_MM(35), _MM(40)),
    ("old_hinges", "cup_depth"): (_MM(11), _MM("13.5")),
    ("old_hinges", "edge_distance"): (_MM(3), _MM(7)),
    ("old_hinges", "thickness"): (_MM(12), _MM(28)),
    ("old_hinges", "screws_apart"): (_MM(16), _MM(60)),
    ("drawers", "box_front"): (_MM(9), _MM(25)),
    ("looks", "gap"): (_MM("1.5"), _MM(6)),
    ("pull_types", "holes"): (_MM(32), _MM(400)),
    ("pull_types", "projection"): (ZERO, _MM(60)),
    ("pull_types", "thread"): (_MM(4), _MM(20)),
    ("plates", "height"): (ZERO, _MM(20)),
    ("hinge_types", "cup"): (_MM(26), _MM(40)),
    ("hinge_types", "cup_depth"): (_MM("10.5"), _MM(13)),
    ("hinge_types", "edge_distance"): (_MM(3), _MM(8)),
    ("looks", "bumper"): (_MM(1), _MM(4)),
    ("obstacles", "away"): (ZERO, _MM(2000)),
    ("facings", "thickness"): (_MM("0.5"), _MM(7)),
    ("facings", "inside_thickness"): (_MM("0.5"), _MM(7)),
    ("ends", "skin_thickness"): (_MM("0.5"), _MM(20)),
    ("ends", "proud"): (ZERO, _MM(20)),
    ("trims", "width"): (_MM(10), _MM(1000)),
    ("trims", "thickness"): (_MM(2), _MM(45)),
    ("trims", "longest"): (_MM(300), _MM(6000)),
    ("adhesives", "film"): (_MM("0.05"), _MM(1)),
    ("insides", "runner"): (_MM(5), _MM(30)),
    ("looks", "meeting_gap"): (_MM("1.5"), _MM(6)),
    ("door_builds", "thickness"): (_MM(12), _MM(30)),
    ("door_builds", "stile"): (_MM(40), _MM(120)),
    ("door_builds", "top_rail"): (_MM(40), _MM(150)),
    ("door_builds", "bottom_rail"): (_MM(40), _MM(200)),
    ("panel_builds", "slice"): (_MM("1.2"), _MM(5)),
    ("panel_builds", "core"): (_MM("2.5"), _MM(12)),
    ("panel_builds", "core_is"): (_MM("2.5"), _MM(12)),
    ("panel_builds", "sheet"): (_MM(3), _MM(13)),
    ("panel_builds", "sheet_is"): (_MM(3), _MM(13)),
    ("machines", "kerf"): (_MM("0.5"), _MM(4)),
    ("allowances", "rip_kerf"): (_MM("0.5"), _MM(6)),
    ("machines", "wander"): (ZERO, _MM("1.6")),
    ("blades", "kerf"): (_MM("0.5"), _MM(4)),
    ("blades", "wander"): (ZERO, _MM("1.6")),
    ("machines", "rejoint"): (ZERO, _MM("1.6")),
    ("machines", "keep_back"): (ZERO, _MM(20)),
    ("billets", "length"): (_MM(150), _MM(3000)),
    ("billets", "width"): (_MM(50), _MM(400)),
    ("billets", "thickness"): (_MM(15), _MM(120)),
    ("billets", "slice"): (_MM("1.2"), _MM(5)),
    ("billets", "slice_now"): (_MM("1.2"), _MM(5)),
    ("billets", "keep_now"): (ZERO, _MM(20)),
    **{("leaves", f"thick_{at}"): (_MM("1.2"), _MM(6)) for at in range(1, 7)},
    **{("pressed_panels", f"corner_{at}"): (_MM(5), _MM(25)) for at in range(1, 5)},
    ("pressed_panels", "flatness"): (ZERO, _MM(3)),
    ("plane_passes", "thickness"): (_MM(4), _MM(25)),
    ("presses", "throat"): (_MM(50), _MM(1500)),
}
# thicker than this no such thing is: thicker than any door
_MOST: dict[tuple[str, str], Length] = {
    ("panel_builds", "core"): _MM(30),
    ("panel_builds", "core_is"): _MM(30),
    ("panel_builds", "sheet"): _MM(30),
    ("panel_builds", "sheet_is"): _MM(30),
    ("facings", "thickness"): _MM(30),
    ("facings", "inside_thickness"): _MM(30),
    ("ends", "skin_thickness"): _MM(30),
}
_WIDEST_KERF = _MM(25)  # wider than any blade: it would be a plank's worth of dust
_HOURS = (Fraction(0), Fraction(240), Fraction(0), Fraction(24))
_DAYS = (Fraction(0), Fraction(120), Fraction(1), Fraction(30))
# amounts: (table, field) -> possible from, to; likely from, to
_AMOUNTS: dict[str, tuple[Fraction, Fraction, Fraction, Fraction]] = {
    "moisture_low": (Fraction(0), Fraction(30), Fraction(4), Fraction(16)),
    "moisture_made": (Fraction(0), Fraction(30), Fraction(4), Fraction(16)),
    "moisture_high": (Fraction(0), Fraction(30), Fraction(4), Fraction(16)),
    "flat": (Fraction(0), Fraction(1, 10), Fraction(1, 1000), Fraction(6, 1000)),
    "quarter": (Fraction(0), Fraction(1, 10), Fraction(5, 10000), Fraction(4, 1000)),
    "moisture_shell": (Fraction(0), Fraction(30), Fraction(4), Fraction(16)),
    "moisture_core": (Fraction(0), Fraction(30), Fraction(4), Fraction(16)),
    "ring_angle": (Fraction(0), Fraction(90), Fraction(0), Fraction(90)),
    "out_of_square": (Fraction(0), Fraction(10), Fraction(0), Fraction(1)),
    "open_minutes": (Fraction(1), Fraction(600), Fraction(3), Fraction(120)),
    "clamp_minutes": (Fraction(1), Fraction(600), Fraction(3), Fraction(120)),
    "used_share": (Fraction(1, 10), Fraction(1), Fraction(1, 2), Fraction(1)),
    "layup_minutes": (Fraction(0), Fraction(120), Fraction(0), Fraction(30)),
    "clamp_seconds": (Fraction(0), Fraction(600), Fraction(5), Fraction(120)),
    "weight": (Fraction(20), Fraction(1000), Fraction(100), Fraction(400)),
    "pot_minutes": (Fraction(1, 2), Fraction(600), Fraction(3), Fraction(120)),
    "strip_minutes": (Fraction(1, 10), Fraction(120), Fraction(1, 2), Fraction(10)),
    "press_minutes": (Fraction(1), Fraction(4320), Fraction(15), Fraction(1440)),
    "close_minutes": (Fraction(0), Fraction(60), Fraction(1), Fraction(15)),
    "angle": (Fraction(45), Fraction(180), Fraction(85), Fraction(140)),
    "opens": (Fraction(30), Fraction(270), Fraction(85), Fraction(180)),
    "extra": (Fraction(0), Fraction(100), Fraction(5), Fraction(30)),
    "stain_hours": _HOURS,
    "sealer_hours": _HOURS,
    "turn_hours": _HOURS,
    "dry_hours": (Fraction(1, 10), Fraction(240), Fraction(1), Fraction(24)),
    "recoat_most": (Fraction(1), Fraction(720), Fraction(12), Fraction(72)),
    "coat_hours": (Fraction(0), Fraction(24), Fraction(2), Fraction(16)),
    "side_minutes": (Fraction(0), Fraction(240), Fraction(1), Fraction(30)),
    "hang_days": _DAYS,
    "bumper_days": _DAYS,
    "shop_humidity": (Fraction(0), Fraction(100), Fraction(20), Fraction(80)),
}
# no bag gives more than the air outside, 14.7 psi at the sea (the standard atmosphere); pumps reach 10 to 14 (T5)
_BAG: dict[Unit, tuple[Fraction, Fraction, Fraction, Fraction]] = {
    "mm": (Fraction(0), Fraction("0.1013"), Fraction("0.06"), Fraction("0.098")),
    "in": (Fraction(0), Fraction("14.7"), Fraction(9), Fraction("14.2")),
}
_DENSITY: dict[Unit, tuple[Fraction, Fraction, Fraction, Fraction]] = {
    "mm": (Fraction(100), Fraction(1300), Fraction(450), Fraction(900)),
    "in": (Fraction(6), Fraction(81), Fraction(28), Fraction(56)),
}
_FINISH_COVER: dict[Unit, tuple[Fraction, Fraction, Fraction, Fraction]] = {  # m2 a litre, square feet a gallon
    "mm": (Fraction(1, 2), Fraction(60), Fraction(3), Fraction(16)),
    "in": (Fraction(20), Fraction(2500), Fraction(150), Fraction(650)),
}
_TEMPERATURE: dict[Unit, tuple[Fraction, Fraction, Fraction, Fraction]] = {  # degrees Celsius, Fahrenheit
    "mm": (Fraction(0), Fraction(50), Fraction(10), Fraction(35)),
    "in": (Fraction(32), Fraction(122), Fraction(50), Fraction(95)),
}


def impossible(table: str, field: str, value: Length, name: str, display: Display, seam: bool = False) -> str | None:
    """One sentence why no such length can be in this field, with the way out; None if it can."""
    if abs(value) > LONGEST:
        return f"{_up(name)}: {_said(value, display)} is over 30 m; check the unit and type it again."
    if field in ANY_SIGN:
        return None
    if value < ZERO:
        return f"{_up(name)} cannot be under zero; type the size without a sign, or leave it empty."
    if not value and field not in MAY_BE_ZERO and (table, field) != LOWEST_PLATE and not seam:
        return f"{_up(name)} cannot be zero; type what was measured, or leave it empty where nothing was."
    if (table, field) == ("allowances", "rip_kerf") and value > _WIDEST_KERF:
        said = f"{_said(value, display)} is more than {_said(_WIDEST_KERF, display)}"
        return f"{_up(name)}: {said}, wider than any blade; look at the unit and type it again, 0 for a knife or shear."
    least, most = _LEAST.get((table, field)), _MOST.get((table, field))
    if least is not None and value < least:
        said = f"{_said(value, display)} is less than {_said(least, display)}"
        return f"{_up(name)}: {said}, which cannot be; read it again."
    if most is not None and value > most:
        said = f"{_said(value, display)} is more than {_said(most, display)}"
        return f"{_up(name)}: {said}, thicker than any door; look at the unit and type it again."
    return None


def unlikely(table: str, field: str, value: Length, name: str, display: Display) -> str | None:
    """One sentence where a length is out of the usual; None where it is usual."""
    if (table, field) == ("allowances", "rip_kerf") and not value:
        return f"{_up(name)} is nothing: right for a knife or shear; a saw takes its kerf, so type that."
    low, high = _LIKELY.get((table, field), (None, None))
    if low is not None and value < low:
        return f"{_up(name)} is usually {_said(low, display)} or more; leave it if it is so."
    if high is not None and value > high:
        return f"{_up(name)} is usually {_said(high, display)} at most; leave it if it is so."
    return None


def impossible_amount(field: str, value: Fraction, name: str, unit: Unit) -> str | None:
    """One sentence why no such number can be in this field; None if it can."""
    least, most, _, _ = amount_range(field, unit)
    if least <= value <= most:
        return None
    return f"{_up(name)} lies between {_between(least, most, field, unit)}; type it again, or leave it empty."


def unlikely_amount(field: str, value: Fraction, name: str, unit: Unit) -> str | None:
    _, _, low, high = amount_range(field, unit)
    if low <= value <= high:
        return None
    return f"{_up(name)} usually lies between {_between(low, high, field, unit)}; leave it if it is so."


def _between(low: Fraction, high: Fraction, field: str, unit: Unit) -> str:
    units = units_of(field)
    return f"{decimal(low, 4)} and {decimal(high, 4)}{f' {units[unit]}' if units else ''}"


def amount_range(field: str, unit: Unit) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Least and most that can be, least and most that are usual."""
    if field == "density":
        return _DENSITY[unit]
    if field in ("temperature", "shop_temperature"):
        return _TEMPERATURE[unit]
    if field == "bag_pressure":
        return _BAG[unit]
    if field in ("cover", "stain_cover", "sealer_cover"):
        return _FINISH_COVER[unit]
    return _AMOUNTS.get(field, (Fraction(0), Fraction(10**9), Fraction(0), Fraction(10**9)))


def readable(typed: Typed | None) -> bool:
    return typed is not None and typed.value is not None


def _said(value: Length, display: Display) -> str:
    return f"{show(value, display)} {display.unit}"


def _up(text: str) -> str:
    return text[:1].upper() + text[1:]

"""What a wood does: movement per 1 % of moisture, the room's range of moisture, density (F25, F35)."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import COMMON, DENSITY, FLAT, assumed_moisture, entered_number
from frontwright.core.figures import Figure, Term, only_assumed
from frontwright.core.job import Species
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import decimal, in_units


def coefficient(index: JobIndex, species: str | None, cut: str = "flat") -> Figure:
    """Movement across the grain, as a share of the width for 1 % of moisture; the cautious one where none is named."""
    row = index.job.species.get(species or "") or Species("")
    given = row.quarter if cut == "quarter" else row.flat
    usual = Figure("movement per 1 % of moisture", FLAT, "assumed", "the largest usual, beech", measure="number")
    figure = entered_number(given, usual, f"movement of {row.name or 'the wood'} per 1 % of moisture")
    return figure if figure is usual or not row.source else _sourced(figure, row.source)


def _sourced(figure: Figure, source: str) -> Figure:
    return Figure(figure.name, figure.value, figure.source, source, measure="number")


def density(index: JobIndex, species: str | None) -> Figure:
    """Density in lb/ft3 of an inch job, in kg/m3 of one in millimetres."""
    row = index.job.species.get(species or "") or Species("")
    usual = Figure("density", DENSITY[index.unit], "assumed", COMMON, measure="number")
    return entered_number(row.density, usual, f"density of {row.name or 'the wood'}")


def moisture(index: JobIndex, run: str) -> dict[str, Figure]:
    """Wood moisture of the run's room in per cent: `low`, `made`, `high`."""
    row = index.job.runs.get(run)
    room = index.job.rooms.get(row.room) if row else None
    given = (room.moisture_low, room.moisture_made, room.moisture_high) if room else (None, None, None)
    names = ("moisture low", "moisture made", "moisture high")
    low, made, high = (
        entered_number(one, assumed_moisture(name), name) for one, name in zip(given, names, strict=True)
    )
    if in_units(low.value) > in_units(high.value):  # noted the wrong way round: what moves is the same
        low, high = high, low
    return {"low": low, "made": made, "high": high}


def equilibrium(fahrenheit: Fraction, humidity: Fraction) -> Fraction:
    """Wood moisture in per cent that air of this temperature and relative humidity (0 to 1) brings about.

    Source: Wood Handbook FPL-GTR-190, Eq. 4-5; it agrees with Table 4-2 within a tenth up to 130 °F. ValueError where
    the humidity is no share.
    """
    if not 0 <= humidity <= 1:
        raise ValueError("humidity runs from 0 to 1")
    t, t2 = fahrenheit, fahrenheit**2
    w = 330 + Fraction("0.452") * t + Fraction("0.00415") * t2
    k = Fraction("0.791") + Fraction("0.000463") * t - Fraction("0.000000844") * t2
    k1 = Fraction("6.34") + Fraction("0.000775") * t - Fraction("0.0000935") * t2
    k2 = Fraction("1.09") + Fraction("0.0284") * t - Fraction("0.0000904") * t2
    kh = k * humidity
    return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2))


def movement(name: str, width: Figure, per_cent: Figure, dry: Figure, wet: Figure) -> Figure:
    """F35: width across the grain x coefficient x change of moisture; not rounded, never below nothing."""
    change = max(Fraction(0), Fraction(in_units(wet.value)) - in_units(dry.value))
    value = Fraction(in_units(width.value)) * in_units(per_cent.value) * change
    terms = tuple(Term(f, 0) for f in (width, per_cent, wet, dry))
    points = decimal(change, 3).rstrip("0").rstrip(".")
    return Figure(name, value, "derived", f"width × coefficient × {points} % of moisture", terms)


def guessed(moved: Figure) -> bool:
    """Whether a movement stands on the usual wood in a usual room: nobody said which."""
    return only_assumed(*(term.figure for term in moved.terms[1:]))

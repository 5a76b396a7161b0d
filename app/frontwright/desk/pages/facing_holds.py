"""What holds the pieces of a run, on the Facing page: adhesive by surface, pins, and the adhesives themselves."""

from __future__ import annotations

from frontwright.core.assumed import COMMON
from frontwright.core.drawing.section import finer
from frontwright.core.facing.bonds import ADHESIVE_USUAL
from frontwright.core.facing.result import Bond, Pins, RunFacing
from frontwright.core.figures import Figure
from frontwright.core.lengths import show
from frontwright.desk.contents import Action, Cell, Column, Form, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.facing import GROUNDS, PREPARED
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of, decimal

_ADHESIVE = ("name", "kind", "film", "pot_minutes", "used_share", "strip_minutes")


def holds_bands(view: View, faced: RunFacing) -> list[tuple[Table | Form, ...]]:
    """Adhesive and pins of the run, then the adhesives of the job."""
    bands: list[tuple[Table | Form, ...]] = []
    if faced.bonds:
        bands.append((_bonds(faced),))
    if faced.pins:
        bands.append((_pins(view, faced),))
    return [*bands, (_adhesives(view),)]


def _bonds(faced: RunFacing) -> Table:
    columns = (
        Column("on", axis=False),
        Column("surface", axis=False, share=2),
        Column("with", axis=False),
        Column("strips", axis=False),
        Column("takes", axis=False),
        Column("to a mix", axis=False),
        Column("first", axis=False, share=3),
    )
    rows = tuple(TableRow(faced.run, _bond(bond)) for bond in faced.bonds)
    return Table("bonds", "Stuck on with", "area times film; a mix by its pot life", columns, rows)


def _bond(bond: Bond) -> tuple[Cell, ...]:
    mix = f"{bond.per_mix}, {count_of(bond.mixes, 'mix', 'mixes')}" if bond.per_mix else "too slow for it"
    timed = bond.kind == "epoxy"
    return (
        words(bond.where, bond.run, bold=True),
        words(GROUNDS[bond.ground], bond.run),
        words(bond.adhesive or "nothing until it is made good", bond.run, level="ok" if bond.fits else "stop"),
        words(str(bond.strips), bond.run),
        words(f"{decimal(bond.millilitres, 0)} ml" if bond.kind is not None else "", bond.run),
        words(mix if timed else "", bond.run),
        words(PREPARED[bond.ground], bond.run),
    )


def _pins(view: View, faced: RunFacing) -> Table:
    columns = (
        Column("strips", axis=False),
        Column("thick", axis=False),
        Column("on", axis=False),
        Column("pin from", axis=False),
        Column("to", axis=False),
        Column("pin", axis=False),
        Column("pins", axis=False),
    )
    rows = tuple(TableRow(faced.run, _pin(view, pins)) for pins in faced.pins)
    return Table("pins", "Pins", "not where a hinge screw comes", columns, rows)


def _pin(view: View, pins: Pins) -> tuple[Cell, ...]:
    display = finer(view.display)
    said = show(pins.pin, display) if pins.pin is not None else "none fits: adhesive and tape"
    return (
        words(count_of(len(pins.pieces), "strip"), pins.run),
        words(show(pins.thickness.value, display), pins.run),
        words(show(pins.behind.value, display), pins.run),
        words(show(pins.least.value, display), pins.run),
        words(show(pins.most.value, display), pins.run),
        words(said, pins.run, bold=True),
        words(str(pins.count) if pins.pin is not None else "", pins.run),
    )


def _adhesives(view: View) -> Table:
    figures: dict[str, Figure] = {"film": view.assumed("glue film")}
    figures |= {
        name: Figure(field_word("adhesives", name), value, "assumed", COMMON, measure="number")
        for name, value in ADHESIVE_USUAL.items()
    }
    rows = tuple(
        TableRow(one, tuple(view.entry("adhesives", one, name, figures.get(name)) for name in _ADHESIVE))
        for one in view.job.adhesives
    )
    actions = [Action(key("new", "adhesives"), "Add an adhesive")]
    if view.selected in view.job.adhesives:
        actions.append(Action(key("delete", "adhesives", view.selected), f"Take out {view.selected}", view.selected))
    columns = tuple(Column(field_word("adhesives", name), axis=name not in ("name", "kind")) for name in _ADHESIVE)
    aside = "by its own sheet; else by the surface"
    return Table("adhesives", "Adhesives", aside, columns, rows, tuple(actions))

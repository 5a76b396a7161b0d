"""What must lie ready before the bottle is opened, and the order in which a pressing is laid up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from frontwright.core.drawing.leaf_map import panel_of
from frontwright.core.drawing.pressing import layers, named, stations_of
from frontwright.core.figures import Figure
from frontwright.core.lengths import decimal
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import PressingPlan

_CORE = {
    "across": "Its grain runs across the leaves.",
    "along": "Its grain runs along the leaves: stop, it will bend.",
    "none": "It has no grain.",
}


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing to lay out: its name, its sizes, and what is said of it."""

    name: str
    sizes: tuple[Figure, ...]
    says: str


def things(plan: Plan, of: PressingPlan) -> Iterator[Thing]:
    """Leaves and cores from below, then everything else, down to the clock."""
    stack = layers(plan, of)
    for layer in stack:
        if layer.face is not None:
            yield Thing(named(layer.face), (), f"{layer.face.side}, {layer.panel}, taped")
        elif layer.kind == "core":
            panel = panel_of(plan, layer.panel)[1]
            sizes = tuple(f for f in (panel.core_along, panel.core_across) if f is not None)
            yield Thing("core", sizes, layer.panel if len(of.panels) > 1 else "")
    films = sum(layer.kind == "film" for layer in stack) - of.in_bag
    edges = "edges rounded" if of.in_bag else "flat and clean"
    yield Thing("two cauls", (), f"{edges}, {films} films")
    yield from _bag() if of.in_bag else _clamps(of)
    yield Thing(f"{_grams(of, 1)} g", (), f"of glue, {_grams(of, of.lines * len(of.panels))} g a face")
    yield Thing("", (), "spreader, tape, water, rag, clock")


def _clamps(of: PressingPlan) -> Iterator[Thing]:
    yield Thing(f"{of.clamps} clamps", (of.open_to,), "open, in order")
    yield Thing("", (), f"{stations_of(of.clamps)} crowned cross cauls")


def _bag() -> Iterator[Thing]:
    yield Thing("bag", (), "tried for leaks, its seal clean")
    yield Thing("", (), "mesh over all, pump running")


def _grams(of: PressingPlan, parts: int) -> str:
    return decimal(of.glue_grams / parts, 0)


def order(plan: Plan, of: PressingPlan) -> tuple[str, ...]:
    """The steps of the lay-up, one after the other."""
    return tuple(_steps(plan, of))


def _steps(plan: Plan, of: PressingPlan) -> Iterator[str]:
    """Each short enough for one line of the page."""
    grain = next(layer.grain for layer in layers(plan, of) if layer.kind == "core")
    opened = "bag open, pump tried" if of.in_bag else "clamps opened to size, cross cauls at their marks"
    yield f"Rehearse dry: everything in its place, {opened}."
    yield f"Mark the core: centre line, show side, arrow. {_CORE[grain]}"
    yield "Spread the core's show side, lay the show leaves, tape outward, over all round."
    yield "Film and caul on it, turn it over; spread the back, lay the back leaves, tape outward."
    yield "Film, caul. Both faces in one pressing."
    if len(of.panels) > 1:
        stacked = of.lie == "stacked"
        yield (
            "Film between the panels; the next one the same way."
            if stacked
            else ("The next panel the same way, beside it under the same caul; all of one thickness.")
        )
    yield from _closing(of)
    yield "Write the time on the panel; out of the press, stand it on edge, air to both faces."
    yield f"The glue brings {decimal(of.water_grams, 0)} g of water: plane after 24 hours, or the joints sink."


def _closing(of: PressingPlan) -> Iterator[str]:
    if of.in_bag:
        yield "Into the bag, mesh over the caul; close it, draw it down, press it flat round all edges."
        return
    yield "Middle clamps first, then outwards in pairs by their numbers; squeeze-out all round."

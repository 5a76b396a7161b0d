"""The Veneer page: by its chooser a billet and its slices, a panel and its leaves, or a pressing."""

from __future__ import annotations

from dataclasses import replace

from frontwright.desk.contents import Action, Board, Choice, PageContents
from frontwright.desk.edits import learning
from frontwright.desk.keys import key
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.veneer_billets import billet_bands, sawn_of
from frontwright.desk.pages.veneer_panels import panel_bands
from frontwright.desk.pages.veneer_pressings import pressing_bands
from frontwright.desk.pages.view import View
from frontwright.desk.ways import PRESSING
from frontwright.desk.wording.fields import value_word
from frontwright.desk.wording.numbers import count_of, decimal


def veneer_page(view: View) -> PageContents:
    """The whole page of what the chooser stands on; of a job without leaves an empty one."""
    choosers = _choosers(view)
    chosen = chosen_of(view, tuple(choice.value for choice in choosers))
    plans = {plan.id: plan for plan in view.plan.veneer.plans}
    if not chosen:
        said = "No front has a panel of leaves, and no end a sawn skin"
        begin = (Action(key("veneer-panels"), "Veneer the panels on a core"), *_actions(view))
        return PageContents("veneer", "Veneer", (), "", said, (), None, finding_lines(view, "veneer"), begin)
    if chosen in plans:
        bands, advice = billet_bands(view, plans[chosen]), _advice(view, chosen)
    elif chosen in view.plan.veneer.panels:
        bands, advice = panel_bands(view, chosen), _pressed_in(view, chosen)
    else:
        bands, advice = pressing_bands(view, chosen.removeprefix(PRESSING)), _minutes(view, chosen)
    return PageContents(
        chapter="veneer",
        title="Veneer",
        choosers=choosers,
        chosen=chosen,
        advice=advice,
        bands=tuple(tuple(replace(block, fine=True) for block in band) for band in bands),
        board=_board(view, chosen),
        findings=finding_lines(view, "veneer"),
        actions=_actions(view),
        start=first_to_do(view, chosen),
    )


def first_to_do(view: View, chosen: str) -> str:
    """The first slice of the billet that is still to be read; before there are billets, the button that enters them."""
    plan = next((one for one in view.plan.veneer.plans if one.id == chosen), None)
    if plan is None:
        return ""
    if chosen not in view.job.billets:
        return "" if view.job.billets else key("enter-billets")
    coming = next((one for one in plan.slices if one.state == "to come"), None)
    return key("leaves", coming.id, "thick_1") if coming is not None else ""


def _choosers(view: View) -> tuple[Choice, ...]:
    veneer = view.plan.veneer
    found = [Choice(plan.id, _billet_word(view, plan.id)) for plan in veneer.plans]
    found += [Choice(panel, f"panel, {_leaves_of(view, panel)}") for panel in veneer.panels]
    found += [
        Choice(f"{PRESSING}{one.id}", f"of {', '.join(one.panels)}, {decimal(one.minutes, 1)} min")
        for one in veneer.pressings
    ]
    return tuple(found)


def _billet_word(view: View, billet: str) -> str:
    plan = next(one for one in view.plan.veneer.plans if one.id == billet)
    piece = view.job.pieces.get(plan.billet.piece or "")
    saw = view.job.machines.get(plan.machine)
    wood = [piece.species, f"batch {piece.batch}" if piece.batch else ""] if piece is not None else []
    planned = "" if billet in view.job.billets else "as planned"
    words = ["billet", *wood, saw.name or saw.id if saw is not None else "", planned]
    return ", ".join(word for word in words if word)


def _leaves_of(view: View, panel: str) -> str:
    on = sum(1 for seat in view.plan.veneer.seats if seat.of == panel)
    match = view.plan.veneer.match.get(panel)
    said = count_of(on, "leaf", "leaves") + " on one core"
    return f"{said}, {value_word('billets', 'match', match)}" if match else said


def chosen_of(view: View, values: tuple[str, ...]) -> str:
    """What the page stands on: what was chosen, else what is selected or holds it, else the first."""
    if view.chosen in values:
        return view.chosen
    joined = _pressing_with(view, view.chosen.removeprefix(PRESSING)) if view.chosen.startswith(PRESSING) else ""
    if joined:
        return joined
    selected = view.selected
    if selected in values:
        return selected
    billet = next((p.id for p in view.plan.veneer.plans if any(leaf.id == selected for leaf in p.slices)), "")
    made = view.plan.making.fronts.get(selected)
    panel = next((p.part for p in made.panels if p.part in values), "") if made is not None else ""
    return billet or panel or next(iter(values), "")


def _pressing_with(view: View, panel: str) -> str:
    """The pressing in which a panel is that was pressed by itself before; "" where there is none."""
    return next((f"{PRESSING}{one.id}" for one in view.plan.veneer.pressings if panel in one.panels), "")


def _advice(view: View, chosen: str) -> str:
    """How many leaves are wanted and come; of one that is lost or at risk, the billet in hand first, that it is so.

    A leaf can be saved as long as something of its billet is still to be sawn.
    """
    plans = sorted(view.plan.veneer.plans, key=lambda plan: plan.id != chosen)
    for plan in plans:
        risky = next((one for one in plan.slices if one.at_risk or one.state == "lost"), None)
        if risky is not None and plan.seen is not None:
            said = "will be missing" if risky.state == "lost" else "is at risk"
            saved = plan.seen.more and any(way.to is not None for way in plan.ways)
            ways = "it can still be saved" if saved else "see the ways out below"
            return f"Look before the next slice: {risky.id} {said}, {ways}"
    planned = next((one for one in view.plan.veneer.compared if one.chosen), None)
    if planned is None:
        return ""
    sawn = sum(sawn_of(plan) for plan in view.plan.veneer.plans)
    return f"{count_of(planned.wanted, 'leaf', 'leaves')} wanted, {planned.gives} planned, {sawn} sawn"


def _pressed_in(view: View, panel: str) -> str:
    found = next((one for one in view.plan.veneer.pressings if panel in one.panels), None)
    return _said(view, found.id) if found is not None else ""


def _minutes(view: View, chosen: str) -> str:
    return _said(view, chosen.removeprefix(PRESSING))


def _said(view: View, pressing: str) -> str:
    one = next(found for found in view.plan.veneer.pressings if found.id == pressing)
    how = "with a helper" if one.helped else "alone"
    return f"Pressed {how} in {decimal(one.minutes, 1)} min, limit {decimal(one.limit, 1)}"


def _board(view: View, chosen: str) -> Board:
    from frontwright.core.drawing.billet import billet
    from frontwright.core.drawing.leaf_map import leaf_map
    from frontwright.core.drawing.pressing import pressing
    from frontwright.core.drawing.section import section

    veneer = view.plan.veneer
    if any(plan.id == chosen for plan in veneer.plans):
        return Board((billet(view.plan, chosen),))
    if chosen not in veneer.panels:
        return Board((pressing(view.plan, chosen.removeprefix(PRESSING)),))
    front = next(m.front for m in view.plan.making.fronts.values() if any(p.part == chosen for p in m.panels))
    cut = section(view.plan, front)
    drawings = (leaf_map(view.plan, chosen),)
    return Board((*drawings, cut) if cut is not None else drawings)


def _actions(view: View) -> tuple[Action, ...]:
    """What concerns the whole page: learning from the billets that are done; an outlier is asked about."""
    seen = learning.seen_losses(view.job, view.plan)
    found: list[Action] = []
    if seen:
        billets = ", ".join(dict.fromkeys(billet for one in seen for billet in one.billets))
        held = learning.outliers(view.shop, seen)
        found += [Action(key("learn"), f"Learn from {billets}")] if len(held) < len(seen) else []
        found += [Action(key("learn", "", "all the same"), f"Count {billets} all the same")] if held else []
    return tuple(found)

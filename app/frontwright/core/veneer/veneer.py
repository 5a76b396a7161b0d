"""The veneer chapter, whole: leaves wanted, billets as they are, every leaf in its place, panels and pressings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from frontwright.core.assumed import assumed, entered
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.job import Allowances, Billet, Blade, LeafSide, Machine, Match
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import in_units, typed_length
from frontwright.core.making.builds import panel_plan
from frontwright.core.making.leaves import leaves_across, usable_width
from frontwright.core.making.result import MakingPlan, PanelPart, PanelPlan
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.checks import veneer_checks
from frontwright.core.veneer.counts import (
    Nest,
    billet_length,
    billet_yields,
    leaf_counts,
    machines_of,
    strip_nests,
    unfit,
)
from frontwright.core.veneer.leaf_checks import billet_checks, leaf_checks, narrower_checks, strip_checks
from frontwright.core.veneer.moisture import shop_checks
from frontwright.core.veneer.panels import leaves_of_faces, panel_made
from frontwright.core.veneer.press_checks import press_checks
from frontwright.core.veneer.pressing import benches_of, rehearsed
from frontwright.core.veneer.result import BilletPlan, BilletYield, Comparison, LeafCount, Seat, VeneerPlan
from frontwright.core.veneer.sawing import billet_plan, is_spare, losses_of, mounted_on
from frontwright.core.veneer.seats import Face, Room, seats_of
from frontwright.core.veneer.seen import leaves_in, rest_of

MOST_BILLETS = 60  # more are not planned by themselves: a length or width was mistyped
_SIDES: tuple[LeafSide, ...] = ("show", "back")
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


def veneer(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, facing: FacingPlan) -> VeneerPlan:
    """Everything of leaves, from what is wanted to the panel out of the press."""
    usable = usable_width(index)
    nests = strip_nests(index, making, facing, usable)
    leaves = leaf_counts(making, facing, usable, nests)
    yields = billet_yields(index, [leaf.length for leaf in leaves])
    panels = [p for made in making.fronts.values() for p in made.panels if p.leaf_length is not None]
    panel = panel_plan(index, first_veneered(index))
    rows = _billets(index, leaves, yields)
    usual = max((y.length for y in yields), key=lambda f: in_units(f.value), default=None)
    plans = tuple(billet_plan(index, row, panel, usual) for row in rows)
    builds = {p.part: making.fronts[p.front].build.panel for p in panels}
    faces = [*_faces(index, fronts, panels, builds, usable), *_skins(facing, usable), *_strips(index, nests)]
    seats, missing = seats_of(plans, faces, _room(index))
    made = {p.part: panel_made(index, p, builds[p.part], leaves_of_faces(plans, seats, p.part)) for p in panels}
    benches = benches_of(index, panels, builds)
    pressings = tuple(rehearsed(bench) for bench in benches)
    compared = tuple(_compared(index, leaves, plans)) if leaves else ()
    homeless = unfit(facing, nests, usable)
    checks = (
        *veneer_checks(index, plans, compared, missing, panels, made, builds),
        *press_checks(index, benches, pressings, panels),
        *shop_checks(index, plans),
        *billet_checks(index, plans, panel),
        *leaf_checks(index, plans, compared, leaves, seats, missing),
        *strip_checks(homeless),
        *narrower_checks(panels, usable, entered(index.unit, _allowances(index).panel_edge, "panel edge")),
    )
    return VeneerPlan(
        leaves=leaves,
        billets=yields,
        usable_width=usable,
        plans=plans,
        compared=compared,
        seats=seats,
        missing=missing,
        match=_matches(plans, seats),
        nests=tuple((use, leaf) for use, _, laid in nests for leaf in laid),
        unfit=tuple(strip.id for strip, _, _ in homeless),
        panels=made,
        pressings=pressings,
        checks=checks,
    )


def _allowances(index: JobIndex) -> Allowances:
    return index.job.allowances.get("allowances") or Allowances()


def _billets(index: JobIndex, leaves: Sequence[LeafCount], yields: Sequence[BilletYield]) -> list[Billet]:
    """The billets entered; where none is, as many of each length as the chosen machine needs."""
    rows = sorted(index.job.billets.values(), key=lambda b: (b.place, natural(b.id)))
    if rows:
        return rows
    machine = machines_of(index)[0]
    found: list[Billet] = []
    for length, wanted in sorted(_by_billet(index, leaves).items(), key=lambda item: -item[1][1]):
        one = next(
            (y for y in yields if y.length.value == length and y.machine == (machine.name or machine.kind)), None
        )
        count = -(-wanted[1] // one.leaves) if one is not None and one.leaves else 0
        typed = typed_length(wanted[0].length, index.unit)
        for _ in range(min(count, MOST_BILLETS - len(found))):
            found.append(Billet(_letter(len(found)), place=len(found), length=typed))
    return found


def _letter(at: int) -> str:
    again, letter = divmod(at, len(_LETTERS))
    return _LETTERS[letter] + (str(again + 1) if again else "")


def _by_billet(index: JobIndex, leaves: Sequence[LeafCount]) -> dict[object, tuple[Figure, int]]:
    """Leaves wanted by the length of the billet that they are sawn from."""
    found: dict[object, tuple[Figure, int]] = {}
    for leaf in leaves:
        length = billet_length(index, leaf.length)
        found[length.value] = (length, found.get(length.value, (length, 0))[1] + leaf.count)
    return found


def _compared(index: JobIndex, leaves: Sequence[LeafCount], plans: Sequence[BilletPlan]) -> Iterator[Comparison]:
    """What each machine and blade would give of the same billets, each by its own thickness, by the length it is long
    enough for; the chosen one as the billets themselves are planned."""
    wanted = _by_billet(index, leaves)
    lengths = sorted(wanted.values(), key=lambda one: -in_units(one[0].value))
    chosen = machines_of(index)[0]
    for machine in machines_of(index):
        on = mounted_on(index, machine)
        others = [blade for blade in index.job.blades.values() if blade.machine == machine.id and blade is not on]
        for blade in (on, *others):
            planned = machine is chosen and blade is on
            gives = dict.fromkeys(wanted, 0)
            rests = 0
            for plan in plans:
                fit = next((one for one, _ in lengths if in_units(one.value) <= in_units(plan.length.value)), None)
                if fit is not None:
                    count, spare = (plan.planned, plan.spare) if planned else _given(index, machine, blade, plan)
                    gives[fit.value] += count
                    rests += count + spare
            short = tuple(_short(lengths, gives))
            need = sum(count for _, count in lengths)
            name = blade.id if blade is not None else ""
            yield Comparison(machine.id, planned, sum(gives.values()), need, rests, short, name)


def _short(lengths: Sequence[tuple[Figure, int]], gives: Mapping[object, int]) -> Iterator[tuple[Figure, int]]:
    """Leaves lacking of each length of billet, the longest first; what long billets give over serves shorter leaves."""
    over = 0
    for length, need in lengths:
        over += gives[length.value] - need
        if over < 0:
            yield length, -over
            over = 0


def _given(index: JobIndex, machine: Machine, blade: Blade | None, plan: BilletPlan) -> tuple[int, bool]:
    """How many leaves a machine and blade would give of a billet, and whether the rest would be one more."""
    losses = losses_of(index, machine, blade)
    thick, leaf, loss, keep = plan.thickness, plan.slice, losses.together, losses.keep_back
    count = leaves_in(thick, leaf, loss, keep)
    rest = rest_of("rest", thick, leaf, loss, keep, count)
    return count, is_spare(index, leaf, rest, keep)


def _faces(
    index: JobIndex,
    fronts: FrontsPlan,
    panels: Sequence[PanelPart],
    builds: Mapping[str, PanelPlan],
    usable: Figure,
) -> Iterator[Face]:
    """Show face and back of every shop-made panel, the doors of a pair together."""
    inner, stop = int(in_units(usable.value)), assumed(index.unit, "veneer stop")
    for panel in panels:
        if panel.leaf_length is None or panel.leaves_across is None:
            continue
        pair, count, build = fronts.fronts[panel.front].opening, panel.leaves_across, builds[panel.part]
        units = panel.leaf_length.length.units
        across = in_units(panel.core_across.value) if panel.core_across is not None else 0
        outer = int(across - max(0, count - 2) * inner) // min(2, count)
        thin = int(sum(in_units(part.value) for part in (build.glue_loss, build.show_loss, stop)))
        planned = int(in_units(build.slice.value))
        for side in _SIDES:
            yield Face(panel.part, side, count, units, pair, panel.front, inner, outer, min(thin, planned), planned)


def _room(index: JobIndex) -> Room:
    """What a billet is longer than its leaves, and a leaf wider than after its edges are jointed."""
    over = entered(index.unit, index.allowances.billet_over_leaf, "billet over leaf").length.units
    return Room(over, 2 * entered(index.unit, index.allowances.leaf_edge, "leaf edge").length.units)


def _skins(facing: FacingPlan, usable: Figure) -> Iterator[Face]:
    for strip in facing.strips:
        if strip.order == 1:
            count, inner = leaves_across(strip.rough_width, usable), int(in_units(usable.value))
            outer = int(in_units(strip.rough_width.value) - max(0, count - 2) * inner) // min(2, count)
            yield Face(strip.id, "skin", count, strip.rough_length.length.units, inner=inner, outer=outer)


def _strips(index: JobIndex, nests: Sequence[Nest]) -> Iterator[Face]:
    kerf = entered(index.unit, index.allowances.rip_kerf, "kerf").length
    for use, length, laid in nests:
        for at, leaf in enumerate(laid):
            used = leaf.used(kerf).units
            yield Face(f"{use} {at + 1}", "strips", 1, length.length.units, inner=used, outer=used)


def _matches(plans: Sequence[BilletPlan], seats: Sequence[Seat]) -> dict[str, Match]:
    """How the show face of each panel is matched: as its billet is."""
    matches = {plan.id: plan.billet.match for plan in plans}
    return {seat.of: matches[seat.billet] for seat in seats if seat.side == "show"}

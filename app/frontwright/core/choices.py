"""Looks of a run held side by side: spreads of reveal and cover (F19), and schemes; each worked out as a whole.

For a constant reveal the cover differs from stile to stile, for a constant cover the reveal does. What the eye sees are
the reveals; what hinges and plates allow is the cover. Nothing is changed by comparing: a choice holds the look that
would be entered, and taking it is one edit.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, least, minus, most, plus, share, total
from frontwright.core.findings import Check
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import Job, Look, Scheme
from frontwright.core.lengths import Exact, Typed, half_up, in_units, typed_length
from frontwright.core.plan import Plan, derive

type Spread = Literal["as it is", "same reveals", "same cover", "equal fronts", "full cover", "partial cover", "inset"]
SPREADS: tuple[Spread, ...] = ("same reveals", "same cover", "equal fronts")
SCHEMES: tuple[Scheme, ...] = ("full cover", "partial cover", "inset")
_OF_A_SPREAD = ("scheme", "cover", "gap", "reveal", "equal_fronts")


@dataclass(frozen=True, slots=True)
class Compared:
    """A look of a run, worked out. `look`: what would be entered for the run; `taken`: it is so already.

    `reveals` between neighbouring fronts, `differ`: by how much the widest and the narrowest differ, `seen`: whether
    that is seen (F19). `least_cover`: of all its fronts; `plates`: so many of each under its hinges; `beyond`: fronts
    whose hinges do not give the cover (an open stop); `stops`: all open stops of the run's fronts.
    """

    kind: Spread
    look: Look
    plan: Plan
    taken: bool
    reveals: tuple[Figure, ...]
    differ: Figure | None
    seen: bool
    least_cover: Figure | None
    covers: tuple[Figure, Figure] | None
    plates: tuple[tuple[str, int], ...]
    lacking: int
    beyond: tuple[str, ...]
    stops: tuple[Check, ...]


def spreads(plan: Plan, run: str) -> tuple[Compared, ...]:
    """The look as it is, then those spreads of reveal and cover that differ from it and from each other."""
    return tuple(_differing([_compared(plan, run, "as it is"), *(_compared(plan, run, kind) for kind in SPREADS)]))


def schemes(plan: Plan, run: str) -> tuple[Compared, ...]:
    """Full cover, partial cover and inset, each with usual figures where the run has none of its own."""
    return tuple(_compared(plan, run, kind) for kind in SCHEMES)


def look_of(plan: Plan, run: str, kind: Spread) -> Look:
    """The look of the run with this spread or scheme; as it is where the run has no front to go by."""
    own = plan.job.looks.get(f"run:{run}") or Look(f"run:{run}")
    fronts = fronts_on(plan, run)
    if kind == "as it is" or not fronts:
        return own
    now = fronts[0].look
    bare = replace(own, cover=None, reveal=None, gap=None, equal_fronts=False)
    if kind == "same cover":
        return replace(bare, scheme="partial cover", cover=_typed(plan, _cover(plan, fronts)))
    if kind == "same reveals" and now.scheme == "full cover":
        return replace(bare, scheme="full cover", gap=own.gap)
    if kind in ("same reveals", "equal fronts"):
        reveal = _typed(plan, _middle_reveal(plan, fronts))
        return replace(bare, scheme="partial cover", reveal=reveal, equal_fronts=kind == "equal fronts")
    scheme: Scheme = "full cover" if kind == "full cover" else "inset" if kind == "inset" else "partial cover"
    return own if now.scheme == scheme else replace(bare, scheme=scheme)


def taken(job: Job, look: Look) -> Job:
    """The job with this look of a run; a look that says nothing goes."""
    said = replace(look, equal_fronts=None) if look.equal_fronts is False and not _says(job, look) else look
    return job.drop(Look, look.id) if said == Look(look.id) else job.put(said)


def _says(job: Job, look: Look) -> bool:
    """Whether a look above the run chooses equal fronts, so that "no" must be said."""
    return any(other.equal_fronts for one, other in job.looks.items() if one != look.id)


def fronts_on(plan: Plan, run: str) -> list[FrontPlan]:
    """The fronts of a run that have their place on it."""
    return [front for front in plan.fronts.fronts.values() if front.run == run and front.placed]


def _compared(plan: Plan, run: str, kind: Spread) -> Compared:
    look = look_of(plan, run, kind)
    changed = taken(plan.job, look)
    now = plan.job.looks.get(look.id) == changed.looks.get(look.id)
    other = plan if now else derive(changed)
    fronts = fronts_on(other, run)
    reveals = tuple(_reveals(fronts))
    differ = None
    if reveals:
        widest, narrowest = (
            most("widest reveal", reveals, "the widest"),
            least("narrowest reveal", reveals, "the least"),
        )
        differ = total("reveals differ by", plus(widest), minus(narrowest))
    uses = [use for front in fronts for use in _plates(other, front.id)]
    ids = {front.id for front in fronts}
    stops = [check for check in other.checks if check.is_open and check.level == "stop" and ids & set(check.where)]
    return Compared(
        kind=kind,
        look=look,
        plan=other,
        taken=now,
        reveals=reveals,
        differ=differ,
        seen=differ is not None and differ.units > _visible(other, fronts).units,
        least_cover=_least_cover(fronts),
        covers=_covers(fronts),
        plates=tuple(Counter(name for name, _ in uses).items()),
        lacking=sum(lacks for _, lacks in uses),
        beyond=tuple(dict.fromkeys(w for c in stops if c.code == "hinge-overlay" for w in c.where if w in ids)),
        stops=tuple(stops),
    )


def _differing(found: Sequence[Compared]) -> Iterator[Compared]:
    """Those that give other fronts than all before them."""
    seen: set[tuple[object, ...]] = set()
    for one in found:
        sizes = tuple((f.id, f.left.units, f.right.units) for f in one.plan.fronts.fronts.values())
        if sizes not in seen:
            seen.add(sizes)
            yield one


def _reveals(fronts: Sequence[FrontPlan]) -> Iterator[Figure]:
    """What shows between neighbours that stand in different columns."""
    by_id = {front.id: front for front in fronts}
    for front in fronts:
        other = by_id.get(front.neighbours.get("right", ""))
        if other is not None and other.opening != front.opening:
            yield total(f"reveal {front.id} to {other.id}", plus(other.left), minus(front.right))


def _visible(plan: Plan, fronts: Sequence[FrontPlan]) -> Figure:
    """F19: gaps may differ by less than reveals before anyone sees it."""
    full = all(front.look.scheme == "full cover" for front in fronts)
    return assumed(plan.job.heading.unit, "sum gaps" if full else "sum reveals")


def _side_covers(fronts: Sequence[FrontPlan]) -> list[Figure]:
    found = (front.overlay.get(side) for front in fronts for side in ("left", "right"))
    return [cover for cover in found if cover is not None]


def _covers(fronts: Sequence[FrontPlan]) -> tuple[Figure, Figure] | None:
    covers = _side_covers(fronts)
    return (least("least", covers), most("most", covers)) if covers else None


def _least_cover(fronts: Sequence[FrontPlan]) -> Figure | None:
    covers = [front.least_cover for front in fronts if front.least_cover is not None]
    return least("least cover", covers, "the least of all fronts") if covers else None


def _plates(plan: Plan, front: str) -> list[tuple[str, bool]]:
    hinge = plan.hardware.hinges.get(front)
    if hinge is None:
        return []
    own = [(use.name or use.id or "the hinge's own", use.lacking) for use in hinge.plates]
    return own or [("not known", False)] * hinge.count


def _cover(plan: Plan, fronts: Sequence[FrontPlan]) -> Exact:
    """The cover that most hinges of the run give; where none is known, the middle of the covers as they are."""
    given = [hinge.cover for f in fronts if (hinge := plan.hardware.hinges.get(f.id)) is not None and hinge.cover]
    counts: Mapping[Exact, int] = Counter(figure.value for figure in given)
    if counts:
        return max(counts, key=lambda value: (counts[value], -Fraction(in_units(value))))
    covers = _side_covers(fronts)
    return share("middle cover", total("all covers", *(plus(c) for c in covers)), len(covers)).value


def _middle_reveal(plan: Plan, fronts: Sequence[FrontPlan]) -> Exact:
    """The reveal in the middle of those that there are; the usual one where there are none."""
    reveals = list(_reveals(fronts))
    if not reveals:
        return assumed(plan.job.heading.unit, "reveal").value
    return share("middle reveal", total("all reveals", *(plus(r) for r in reveals)), len(reveals)).value


def _typed(plan: Plan, value: Exact) -> Typed:
    """A length as it would be typed, on the job's step."""
    step = plan.display.step
    rounded = half_up(Fraction(in_units(value)), step)
    return typed_length(rounded if rounded.units > 0 else step, plan.job.heading.unit)

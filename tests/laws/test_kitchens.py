"""Laws that hold for every run of fronts: sums close, proof lines hold, a mirrored run mirrors, units do not matter."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import (
    Column,
    DoorBuild,
    DoorKind,
    Front,
    Heading,
    Job,
    Look,
    Member,
    Opening,
    PanelBuild,
    PanelKind,
    Reading,
    ReadingWhat,
    Room,
    Row,
    Run,
    Scheme,
    Species,
    amount,
)
from frontwright.core.lengths import ZERO, Length, Typed, Unit, in_units, typed_length
from frontwright.core.plan import Plan, derive
from hypothesis import assume, given, settings
from hypothesis import strategies as st

STEP = Length.inch("1/32")
Filling = Literal["door left", "door right", "pair", "drawer", "fixed", "open"]
MIRRORED: dict[Filling, Filling] = {"door left": "door right", "door right": "door left"}


@dataclass(frozen=True)
class Stack:
    """A column: openings from the top, each with what fills it, and the rails between them; in steps."""

    width: int
    heights: tuple[int, ...]
    rails: tuple[int, ...]
    fillings: tuple[Filling, ...]


@dataclass(frozen=True)
class Kitchen:
    """A face-frame run with everything read and chosen, in steps of 1/32 in."""

    stiles: tuple[int, ...]
    stacks: tuple[Stack, ...]
    rail: int
    scheme: Scheme
    by_cover: bool
    cover: int
    gap: int
    ends: tuple[int, int]
    equal: bool
    door: DoorKind
    drawer: DoorKind
    panel: PanelKind
    mid_rails: int

    def mirrored(self) -> Kitchen:
        """The same run seen in a mirror."""
        stacks = tuple(
            replace(stack, fillings=tuple(MIRRORED.get(f, f) for f in stack.fillings)) for stack in self.stacks[::-1]
        )
        return replace(self, stiles=self.stiles[::-1], stacks=stacks, ends=self.ends[::-1])

    @property
    def length(self) -> int:
        return sum(self.stiles) + sum(stack.width for stack in self.stacks)

    @property
    def height(self) -> int:
        return 2 * self.rail + sum(self.stacks[0].heights) + sum(self.stacks[0].rails)


@st.composite
def stacks(draw: st.DrawFn, inner: int) -> Stack:
    rails = draw(st.lists(st.integers(24, 64), max_size=2).map(tuple))
    rest = inner - sum(rails)
    cuts = sorted(draw(st.lists(st.integers(64, rest - 64), min_size=len(rails), max_size=len(rails))))
    heights = tuple(b - a for a, b in pairwise([0, *cuts, rest]))
    assume(min(heights) >= 64)
    kinds: tuple[Filling, ...] = ("door left", "door right", "pair", "drawer", "fixed", "open")
    filled = draw(st.lists(st.sampled_from(kinds), min_size=len(heights), max_size=len(heights)).map(tuple))
    return Stack(draw(st.integers(320, 1200)), heights, rails, filled)


@st.composite
def kitchens(draw: st.DrawFn) -> Kitchen:
    inner = draw(st.integers(500, 1200))
    filled = draw(st.lists(stacks(inner), min_size=1, max_size=4).map(tuple))
    some = draw(st.lists(st.integers(24, 80), min_size=len(filled) + 1, max_size=len(filled) + 1).map(tuple))
    kinds: tuple[DoorKind, ...] = ("dowelled", "stub tenon", "cope and stick", "mitred", "slab")
    panels: tuple[PanelKind, ...] = ("veneered", "sheet", "solid")
    schemes: tuple[Scheme, ...] = ("full cover", "partial cover", "inset")
    return Kitchen(
        stiles=some,
        stacks=filled,
        rail=draw(st.integers(24, 80)),
        scheme=draw(st.sampled_from(schemes)),
        by_cover=draw(st.booleans()),
        cover=draw(st.integers(4, 11)),
        gap=draw(st.integers(1, 9)),
        ends=(draw(st.integers(1, 20)), draw(st.integers(1, 20))),
        equal=draw(st.booleans()),
        door=draw(st.sampled_from(kinds)),
        drawer=draw(st.sampled_from(kinds)),
        panel=draw(st.sampled_from(panels)),
        mid_rails=draw(st.integers(0, 1)),
    )


def job_of(kitchen: Kitchen, unit: Unit = "in") -> Job:
    """The run as a job in which nothing that a front or a part needs is left to be assumed."""
    return Job().put(*_place(kitchen, unit), *_look(kitchen, unit), *_builds(kitchen, unit))


def _steps(count: int, unit: Unit) -> Typed:
    return typed_length(STEP * count, unit)


def _place(kitchen: Kitchen, unit: Unit) -> Iterator[Row]:
    yield Heading(unit=unit, step=_steps(1, unit))
    yield Room("room", moisture_low=amount("6"), moisture_made=amount("8"), moisture_high=amount("11"))
    yield Run("K", "room")
    widths = [
        width for pair in zip(kitchen.stiles, (*(s.width for s in kitchen.stacks), 0), strict=True) for width in pair
    ]
    edges = list(accumulate(widths, initial=0))
    for n, _ in enumerate(kitchen.stiles):
        yield Member(f"S{n}", "K", "stile", 2 * n + 1)
        yield _reading(f"S{n}", "edge left", "", edges[2 * n], unit)
        yield _reading(f"S{n}", "edge right", "", edges[2 * n + 1], unit)
    for name in ("top rail", "bottom rail"):
        yield Member(name, "K", "top rail" if name == "top rail" else "bottom rail")
        yield _reading(name, "across", "", kitchen.rail, unit)
    yield _reading("K", "overall", "", kitchen.length, unit)
    yield _reading("K", "height", "middle", kitchen.height, unit)
    for n, stack in enumerate(kitchen.stacks):
        yield Column(f"C{n}", "K", 2 * n + 2)
        yield from _stack(n, stack, kitchen.height - kitchen.rail, unit)


def _stack(column: int, stack: Stack, top: int, unit: Unit) -> Iterator[Row]:
    for place, height in enumerate(stack.heights, 1):
        name = f"{column}-{place}"
        yield Opening(name, f"C{column}", place)
        for at in ("top", "middle", "bottom"):
            yield _reading(name, "width", at, stack.width, unit)
        for at in ("left", "middle", "right"):
            yield _reading(name, "height", at, height, unit)
        yield from _fronts(name, stack.fillings[place - 1])
        top -= height
        if place <= len(stack.rails):
            yield Member(f"M{name}", "K", "mid rail", place, column=f"C{column}")
            yield _reading(f"M{name}", "edge high", "", top, unit)
            top -= stack.rails[place - 1]
            yield _reading(f"M{name}", "edge low", "", top, unit)


def _fronts(opening: str, filling: Filling) -> Iterator[Front]:
    if filling == "pair":
        yield Front(f"F{opening}L", opening, "door", 1, "left")
        yield Front(f"F{opening}R", opening, "door", 2, "right")
    elif filling == "door left" or filling == "door right":
        yield Front(f"F{opening}", opening, "door", 1, "left" if filling == "door left" else "right")
    else:
        yield Front(f"F{opening}", opening, filling)


def _reading(of: str, what: ReadingWhat, at: str, steps: int, unit: Unit) -> Reading:
    return Reading(f"{of} {what} {at}", of, what, at, _steps(steps, unit))


def _look(kitchen: Kitchen, unit: Unit) -> Iterator[Row]:
    gap = _steps(kitchen.gap, unit)
    left, right = (_steps(end, unit) for end in kitchen.ends)
    look = Look(
        "room:room",
        kitchen.scheme,
        gap=gap,
        meeting_gap=gap,
        inset_side=gap,
        inset_top=gap,
        inset_bottom=gap,
        inset_meeting=gap,
        least_cover=gap,
        equal_fronts=kitchen.equal,
        door_build="door",
        drawer_build="drawer",
        door_grain="vertical",
        drawer_grain="horizontal",
        species="ash",
        cut="flat",
    )
    if kitchen.by_cover and kitchen.scheme == "partial cover":
        yield replace(look, cover=_steps(kitchen.cover, unit))
    else:
        yield replace(look, reveal=gap, reveal_left=left, reveal_right=right, reveal_top=gap, reveal_bottom=gap)


def _builds(kitchen: Kitchen, unit: Unit) -> Iterator[Row]:
    def steps(count: int) -> Typed:
        return _steps(count, unit)

    for name, kind in (("door", kitchen.door), ("drawer", kitchen.drawer)):
        yield DoorBuild(
            name, "", kind, steps(24), steps(24), steps(48), steps(48), steps(56), steps(40), kitchen.mid_rails,
            drawer_rail=steps(24), groove=steps(12), stick=steps(12), rabbet_width=steps(12), clearance=steps(1),
            panel="panel", dowel=steps(12), dowel_depth=steps(36), dowel_outer=steps(16), dowel_wall=steps(4),
            species="ash",
        )  # fmt: skip
    yield PanelBuild(
        "panel", "", kitchen.panel, steps(6), steps(6), steps(7), steps(7), steps(12), steps(4),
        typed_length(Length.inch("1/64"), unit), steps(1), steps(1), "ash",
    )  # fmt: skip
    yield Species("ash", "White ash", amount("0.0027"), amount("0.0017"), amount("42"))


def figures_of(plan: Plan) -> dict[tuple[str, ...], Figure]:
    """Every size that is cut, by what it is of and its name."""
    found: dict[tuple[str, ...], Figure | None] = {}
    for front in plan.fronts.fronts.values():
        found |= {
            (front.id, side): getattr(front, side) for side in ("left", "right", "bottom", "top", "width", "height")
        }
        found |= {(front.id, "cover", side): cover for side, cover in front.overlay.items()}
    for part in plan.making.parts:
        names = ("length", "width", "thickness")
        found |= {(part.front, part.id, name): getattr(part, name) for name in names}
    for made in plan.making.fronts.values():
        found |= {(made.front, panel.part, "along"): panel.along for panel in made.panels}
        found |= {(made.front, "sight"): made.sight_width}
    return {key: figure for key, figure in found.items() if figure is not None}


def is_rounded(figure: Figure) -> bool:
    return bool(figure.rounding) or any(is_rounded(term.figure) for term in figure.terms)


@settings(max_examples=40)
@given(kitchens())
def test_fronts_and_reveals_of_each_row_and_column_add_up_to_the_overall(kitchen: Kitchen) -> None:
    plan = derive(job_of(kitchen))
    for each in plan.fronts.sums:
        assert sum((Fraction(in_units(term.value)) for term in each.terms), Fraction(0)) == in_units(each.equals.value)
        assert each.total.value == each.equals.value
    assert not [check for check in plan.checks if check.code == "row-sum" and check.level != "ok"]


@settings(max_examples=40)
@given(kitchens())
def test_every_front_stands_in_a_row_and_in_a_column_that_close(kitchen: Kitchen) -> None:
    plan = derive(job_of(kitchen))
    for front in plan.fronts.fronts.values():
        assert {each.direction for each in plan.fronts.sums if front.id in each.of} == {"row", "column"}


@settings(max_examples=40)
@given(kitchens())
def test_proof_lines_hold_for_every_front(kitchen: Kitchen) -> None:
    plan = derive(job_of(kitchen))
    for made in plan.making.fronts.values():
        for proof in made.proofs:
            sides = [
                sum(times * Fraction(in_units(f.value)) for times, f in side) for side in (proof.left, proof.right)
            ]
            assert sides[0] == sides[1]
            assert proof.agrees


@settings(max_examples=40)
@given(kitchens())
def test_two_stiles_and_a_rail_less_both_joints_are_the_front(kitchen: Kitchen) -> None:
    plan = derive(job_of(kitchen))
    joints = {"dowelled": ZERO, "stub tenon": STEP * 12, "cope and stick": STEP * 12}
    for made in plan.making.fronts.values():
        parts = {part.kind: part for part in made.parts}
        if made.slab or made.build.kind not in joints:
            continue
        rail = parts["top rail"].length.length + 2 * parts["stile"].width.length - 2 * joints[made.build.kind]
        assert rail == plan.fronts.fronts[made.front].width.length
        assert parts["stile"].length.length == plan.fronts.fronts[made.front].height.length


@settings(max_examples=40)
@given(kitchens())
def test_no_front_edge_is_finer_than_the_step(kitchen: Kitchen) -> None:
    assume(kitchen.scheme != "inset")
    for front in derive(job_of(kitchen)).fronts.fronts.values():
        assert all(
            in_units(edge.value) % STEP.units == 0 for edge in (front.left, front.right, front.bottom, front.top)
        )


@settings(max_examples=40)
@given(kitchens())
def test_a_mirrored_run_has_mirrored_fronts(kitchen: Kitchen) -> None:
    ours = derive(job_of(kitchen)).fronts.fronts
    theirs = derive(job_of(kitchen.mirrored())).fronts.fronts
    overall = STEP * kitchen.length
    assert len(ours) == len(theirs)
    for front in ours.values():
        twin = theirs[twin_of(front, len(kitchen.stacks))]
        slack = STEP if any(is_rounded(f) for f in (front.width, twin.width, front.left, twin.right)) else ZERO
        assert abs(front.width.length - twin.width.length) <= slack
        for near, far in (("left", "right"), ("right", "left")):
            if front.overlay[near] is not None:  # where a pair meets, two roundings can meet as well
                assert abs(overall - getattr(front, near).length - getattr(twin, far).length) <= slack
        assert (front.bottom.value, front.top.value) == (twin.bottom.value, twin.top.value)
        assert front.hinge_side == {"left": "right", "right": "left"}.get(str(twin.hinge_side))


def twin_of(front: FrontPlan, columns: int) -> str:
    """The id of a front in the mirrored run: columns count from the other end, doors of a pair change places."""
    column, _, rest = front.id.removeprefix("F").partition("-")
    return f"F{columns - 1 - int(column)}-{rest.translate(str.maketrans('LR', 'RL'))}"


@settings(max_examples=40)
@given(kitchens())
def test_inch_and_millimetre_jobs_of_the_same_lengths_agree_where_nothing_is_assumed(kitchen: Kitchen) -> None:
    inches, millimetres = (figures_of(derive(job_of(kitchen, unit))) for unit in ("in", "mm"))
    assert inches.keys() == millimetres.keys()
    assert bool(settled(inches)) == bool(inches)
    for key, figure in settled(inches).items():
        assert not millimetres[key].rests
        assert millimetres[key].value == figure.value, key


def settled(figures: Mapping[tuple[str, ...], Figure]) -> dict[tuple[str, ...], Figure]:
    return {key: figure for key, figure in figures.items() if not figure.rests}

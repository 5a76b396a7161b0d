"""Everything that follows from a job, worked out in the order of the trade."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from frontwright.core.answers import with_answers
from frontwright.core.assumed import assumed
from frontwright.core.bill.bill import bill
from frontwright.core.bill.result import BillPlan, Proviso, WholeBill
from frontwright.core.bill.whole import Planned, Quote, quote, whole_bill
from frontwright.core.brief import near_match, unasked
from frontwright.core.condition.condition import condition
from frontwright.core.condition.result import ConditionPlan
from frontwright.core.facing.facing import facing
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.finish.finish import finish
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.fronts import fronts
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.hardware import borings, hardware, pull_screws
from frontwright.core.hardware.result import BoringPlan, HardwarePlan, PullScrew
from frontwright.core.job import HardwareLot, Heading, Job, Shop
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Display
from frontwright.core.making.making import making
from frontwright.core.making.measured_fronts import with_measured_fronts
from frontwright.core.making.result import MakingPlan
from frontwright.core.site.made import made as fronts_made
from frontwright.core.site.result import MadePlan, SitePlan
from frontwright.core.site.site import site
from frontwright.core.site.work import Planned as Worked
from frontwright.core.space.result import SpacePlan
from frontwright.core.space.space import space
from frontwright.core.stock.candidates import Wood
from frontwright.core.stock.enough import THIS_JOB, enough
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.result import Enough, Fit, StockPlan
from frontwright.core.stock.stock import stock
from frontwright.core.survey.result import SurveyPlan
from frontwright.core.survey.survey import survey
from frontwright.core.unread import set_aside, unread
from frontwright.core.veneer.result import VeneerPlan
from frontwright.core.veneer.veneer import veneer


@dataclass(frozen=True, slots=True)
class ReadNext:
    """A reading worth taking: `what` (`core thickness`, `second width`, `diagonals`), `of` the builds, openings or
    fronts that wait for it."""

    what: str
    of: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """What `derive` gives. `checks` are those of all chapters with their answers; `display` shows lengths.

    `read_next`: what is most worth reading next, most moving first.
    """

    job: Job
    display: Display
    survey: SurveyPlan
    condition: ConditionPlan
    fronts: FrontsPlan
    making: MakingPlan
    hardware: HardwarePlan
    facing: FacingPlan
    space: SpacePlan
    finish: FinishPlan
    made: MadePlan
    veneer: VeneerPlan
    stock: StockPlan
    bill: BillPlan
    checks: tuple[Check, ...]
    read_next: tuple[ReadNext, ...]

    @property
    def index(self) -> JobIndex:
        """The job as it was worked out, by what its rows belong to; made anew when asked for."""
        return JobIndex(set_aside(self.job, tuple(unread(self.job))))


def derive(job: Job, shop: Shop | None = None) -> Plan:  # noqa: ARG001 - its rack is asked apart
    """The plan of a job. Pure and total: any job gives a plan; what is missing is assumed openly, never an error.

    Figures come from the job alone: it carries a copy of each shop entry that it uses. The shop's rack is asked
    apart, by `asked` and `billed_whole`.
    """
    unreadable = tuple(unread(job))
    index = JobIndex(set_aside(job, unreadable))
    display = display_of(job.heading)
    surveyed = survey(index)
    found = condition(index, surveyed)
    fronted = fronts(index, surveyed, display)
    made = making(index, fronted, display)
    fronted = with_measured_fronts(index, surveyed, fronted, made)
    hung = hardware(index, surveyed, fronted, made)
    faced = facing(index, surveyed, fronted, found)
    spaced = space(index, surveyed, fronted, made, hung, display)
    coated = finish(index, fronted, made, faced)
    as_made = fronts_made(index, fronted, hung)
    sawn = veneer(index, fronted, made, faced)
    laid = stock(index, fronted, made, faced, sawn)
    billed = bill(index, fronted, made, hung, faced, sawn)
    looked_at = (
        *unreadable,
        *surveyed.checks,
        *found.checks,
        *fronted.checks,
        *made.checks,
        *spaced.hung,
        *spaced.checks,
        *as_made.checks,
        *faced.checks,
        *sawn.checks,
        *laid.checks,
    )
    checks = with_answers(job, looked_at)
    following = tuple(r for r in _read_next(job, surveyed, made, hung) if r.of)
    before, after = (surveyed, found, fronted, made, hung, faced, spaced), (coated, as_made, sawn, laid, billed)
    return Plan(job, display, *before, *after, checks, following)


def display_of(heading: Heading) -> Display:
    """How this job shows lengths: by its own step, else the usual one of its unit."""
    step = heading.step.value if heading.step is not None else None
    usual = assumed(heading.unit, "step").length
    try:
        return Display(heading.unit, step if step is not None else usual, heading.decimals)
    except ValueError:  # no step that this unit can be written in: nought, or a third of a millimetre in an inch job
        return Display(heading.unit, usual, heading.decimals)


def _read_next(job: Job, survey: SurveyPlan, making: MakingPlan, hardware: HardwarePlan) -> Iterator[ReadNext]:
    """What moves most, first: thickness of the panel, second width and height, diagonals, the hinge, the billet."""
    panels = {m.build.panel.id: m.build.panel for m in making.fronts.values() if not m.slab}.values()
    unread = [p for p in panels if not p.measured]
    for kind, word in (("veneered", "core thickness"), ("", "sheet thickness")):
        yield ReadNext(word, tuple(p.id for p in unread if (p.kind == "veneered") is bool(kind)))
    openings = survey.openings.values()
    yield ReadNext("second width", tuple(o.id for o in openings if _taped(o.widths) < 2))
    yield ReadNext("second height", tuple(o.id for o in openings if _taped(o.heights) < 2))
    yield ReadNext("diagonals", tuple(o.id for o in openings if None in o.diagonals))
    yield ReadNext("hinge and its cover", tuple(h.front for h in hardware.hinges.values() if h.cover is None))
    if not any(piece.form == "billet" for piece in job.pieces.values()):
        yield ReadNext("billet", tuple(p.id for p in panels if p.kind == "veneered"))


def _taped(figures: Iterable[Figure]) -> int:
    return sum(figure.source == "taped" for figure in figures)


def billed_whole(
    plan: Plan, lying: Wood | None = None, fit: Fit = first_fit, lots: Iterable[HardwareLot] = ()
) -> WholeBill:
    """What to pull and to buy, hours and costs of a plan: asked for, not part of every working out.

    `lying`: a whole rack instead of the job's own pieces; `fit` lays parts on pieces; `lots`: hardware on hand.
    """
    return whole_bill(_planned(plan), lying, fit, lots)


def bored(plan: Plan) -> dict[str, BoringPlan]:
    """Every boring of every front by its id: asked for, not part of every working out."""
    return borings(plan.index, plan.fronts, plan.hardware)


def screwed(plan: Plan) -> dict[str, PullScrew]:
    """The screws of the pulls by front (F28), likewise."""
    return pull_screws(plan.index, plan.fronts, plan.making, plan.hardware)


def asked(plan: Plan, question: str = THIS_JOB, lying: Wood | None = None, fit: Fit = first_fit) -> Enough:
    """Have I got enough for this job, for what is not yet cut, or for one more front like that of an id (F49)?"""
    return enough(plan.index, plan.stock.groups, question, lying, fit)


def quoted(plan: Plan, bill: WholeBill) -> Quote:
    """The quote of a plan's bill, with all that it rests on."""
    guessed = [
        name
        for name, made in plan.making.fronts.items()
        if any(size.rests for part in made.parts for size in (part.length, part.width, part.thickness))
    ]
    near = near_match(plan.job)
    unsettled = (
        *(Proviso("not asked", question.short) for question in unasked(plan.job)),
        *([Proviso("near match", near)] if near else []),
    )
    return quote(bill, ((one.what, one.of) for one in plan.read_next), guessed, plan.checks, unsettled)


def sited(plan: Plan) -> SitePlan:
    """Work in its order, and the day on site: lines, hanging, packing, story sticks; when asked for."""
    chapters = Worked(plan.fronts, plan.making, plan.hardware, plan.facing, plan.veneer, plan.finish)
    return site(plan.index, plan.survey, chapters)


def _planned(plan: Plan) -> Planned:
    return Planned(
        plan.index,
        plan.fronts,
        plan.making,
        plan.hardware,
        plan.facing,
        plan.finish,
        plan.veneer,
        plan.stock,
        plan.bill,
    )

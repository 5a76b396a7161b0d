"""Learning between jobs: what the saws of this job lost goes among the shop's learned figures, and comes back (F76)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.job import Blade, Job, Learned, Shop
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Display, Length, Unit, half_up, in_units, typed_length
from frontwright.core.plan import Plan
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.learning import OUTLIER, is_outlier, learned
from frontwright.core.veneer.result import BilletPlan, Stretch
from frontwright.core.veneer.sawing import losses_of, mounted_on
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.wording.numbers import capital, count_of, length_text

type What = Literal["kerf", "wander", "rejoint", "loss"]
WORDS = {"loss": "loss a slice", "wander": "wander", "kerf": "kerf", "rejoint": "re-joint loss"}


@dataclass(frozen=True, slots=True)
class SeenLoss:
    """A loss as it was in this job: of which saw, blade and wood, over how many slices, which leaves."""

    what: What
    machine: str
    blade: str
    species: str
    value: Length
    slices: int
    billets: tuple[str, ...]
    leaves: tuple[str, ...]

    @property
    def id(self) -> str:
        return learned_id(self.what, self.machine, self.blade, self.species)

    @property
    def saw(self) -> tuple[str, str, str]:
        """Saw, blade and wood."""
        return self.machine, self.blade, self.species


def learned_id(what: str, machine: str, blade: str, species: str) -> str:
    """The id of a learned figure: "loss, band saw, wide blade, white ash"."""
    return ", ".join(part for part in (what, machine, blade, species) if part)


def seen_losses(job: Job, plan: Plan, only: str = "") -> list[SeenLoss]:
    """What each saw and blade lost in each wood, of this billet or of all that have no leaf to come: the mean over
    their slices. Where a blade was changed on the way the slices of each are its own.

    None of them is counted already.
    Readings by which a saw would have lost less than nothing are left out: one of them is wrong.
    """
    index = JobIndex(job)
    groups: dict[tuple[str, str, str], list[tuple[str, Stretch]]] = {}
    for billet in plan.veneer.plans:
        if billet.id != only and (only or any(one.state == "to come" for one in billet.slices)):
            continue
        for stretch in billet.stretches:
            if not any(job.leaves[leaf].counted for leaf in stretch.leaves):
                on = (stretch.saw.machine, stretch.saw.blade, _species(job, index, billet))
                groups.setdefault(on, []).append((billet.id, stretch))
    return [one for on, found in groups.items() for one in _of_saw(on, found)]


def _species(job: Job, index: JobIndex, plan: BilletPlan) -> str:
    piece = job.pieces.get(plan.billet.piece or "")
    return piece.species if piece is not None and piece.species else first_veneered(index).species or ""


def _of_saw(on: tuple[str, str, str], found: list[tuple[str, Stretch]]) -> Iterator[SeenLoss]:
    """The whole loss; what jointing took where it was read; wander is what kerf and re-joint loss leave of it."""
    billets = tuple(dict.fromkeys(billet for billet, _ in found))
    leaves = tuple(leaf for _, stretch in found for leaf in stretch.leaves)
    all_seen = [stretch.seen for _, stretch in found]
    slices = sum(seen.slices for seen in all_seen)

    def one(what: What, value: Length) -> SeenLoss:
        return SeenLoss(what, *on, value, slices, billets, leaves)

    named = found[-1][1].saw.losses
    loss = _mean([(seen.loss, seen.slices) for seen in all_seen])
    yield one("loss", loss)
    jointed = [(seen.rejoint, seen.slices) for seen in all_seen if seen.rejoint is not None]
    rejoint = _mean(jointed) if jointed else named.rejoint.length
    if jointed:
        yield one("rejoint", rejoint)
    wander = loss - named.kerf.length - rejoint
    if wander >= ZERO:
        yield one("wander", wander)
    if named.kerf.source == "chosen":
        yield one("kerf", named.kerf.length)


def _mean(figures: Sequence[tuple[Figure, int]]) -> Length:
    """The mean of figures, each counted as often as slices were seen."""
    together = sum((Fraction(in_units(figure.value)) * count for figure, count in figures), start=Fraction(0))
    return half_up(together / sum(count for _, count in figures))


def outliers(shop: Shop, seen: Sequence[SeenLoss]) -> list[SeenLoss]:
    """Those that lie out of what was learned, with all else that was seen of such a saw in such a wood."""
    odd = {one.saw for one in seen if is_odd(shop, one)}
    return [one for one in seen if one.saw in odd]


def is_odd(shop: Shop, one: SeenLoss) -> bool:
    old = shop.learned.get(one.id)
    return old is not None and is_outlier(old, one.value)


def learned_shop(shop: Shop, seen: Sequence[SeenLoss], job: str, unit: Unit) -> Shop:
    """The shop with these counted (F76); further billets of the same job move a figure without counting a job more."""
    for one in seen:
        old = shop.learned.get(one.id) or Learned(one.id, one.what, one.machine, one.species, blade=one.blade)
        new = learned(old, one.value, job, unit)
        shop = shop.put(replace(new, count=old.count) if old.count and old.last_job == job else new)
    return shop


def counted(seen: Sequence[SeenLoss]) -> Edit:
    """The leaves marked, so that none is counted twice."""
    billets = dict.fromkeys(billet for one in seen for billet in one.billets)
    leaves = dict.fromkeys(leaf for one in seen for leaf in one.leaves)
    name = f"learn from {', '.join(billets)}"

    def change(before: Job) -> Job:
        rows = [before.leaves[one] for one in leaves if one in before.leaves]
        return before.put(*(replace(row, counted=True) for row in rows))

    return Edit(name, change)


def told(shop: Shop, seen: Sequence[SeenLoss], display: Display) -> Iterator[str]:
    """What was learned, a sentence a figure."""
    for one in seen:
        row = shop.learned.get(one.id)
        if row is not None and row.value is not None and row.value.value is not None:
            jobs = count_of(row.count, "job")
            now = length_text(row.value.value, display)
            yield f"{_said(one)} was {length_text(one.value, display)}; learned over {jobs}: {now}."


def asked(shop: Shop, held: Sequence[SeenLoss], display: Display) -> Iterator[str]:
    """Why a figure was not counted, and how it is."""
    for one in held:
        row = shop.learned.get(one.id)
        if not is_odd(shop, one) or row is None or row.value is None or row.value.value is None:
            continue
        so_far = f"{length_text(row.value.value, display)} learned over {count_of(row.count, 'job')}"
        yield (
            f"{_said(one)} was {length_text(one.value, display)}, more than {OUTLIER} spreads from the {so_far}: "
            "it is not counted unless you choose “Count it all the same”."
        )


def _said(one: SeenLoss) -> str:
    word = ", ".join(part for part in (WORDS[one.what], one.machine, one.blade) if part)
    return capital(word)


def learned_figure(job: Job, shop: Shop, machine: str, blade: str, what: What = "loss") -> Learned | None:
    """What the shop learned of this saw with this blade in the wood of this job's leaves."""
    wood = first_veneered(JobIndex(job)).species or ""
    return shop.learned.get(learned_id(what, machine, blade, wood))


def use_learned(job: Job, shop: Shop, machine: str, blade: str | None = None) -> Edit:
    """Plan with what was learned of a saw and blade: re-joint loss as learned, wander as the whole loss leaves it.

    Without a blade it is the one mounted.
    """
    saw = job.machines.get(machine)
    on = mounted_on(JobIndex(job), saw) if saw is not None and blade is None else job.blades.get(blade or "")
    loss = _learned_length(job, shop, machine, on, "loss")
    if saw is None or loss is None:
        raise Refused(f"Nothing was learned of the losses of {machine} in this wood yet.")
    named = losses_of(JobIndex(job), saw, on)
    rejoint = _learned_length(job, shop, machine, on, "rejoint")
    wander = loss - named.kerf.length - (named.rejoint.length if rejoint is None else rejoint)
    if wander < ZERO:
        raise Refused(f"The loss learned of {machine} is less than its kerf and re-joint loss; look at its kerf first.")
    typed = typed_length(wander, job.heading.unit)
    jointed = replace(saw, rejoint=typed_length(rejoint, job.heading.unit)) if rejoint is not None else saw
    rows = (jointed, replace(on, wander=typed)) if on is not None else (replace(jointed, wander=typed),)
    return Edit(f"plan {machine} with the learned loss", lambda before: before.put(*rows), select=machine)


def _learned_length(job: Job, shop: Shop, machine: str, blade: Blade | None, what: What) -> Length | None:
    found = learned_figure(job, shop, machine, blade.id if blade is not None else "", what)
    return found.value.value if found is not None and found.value is not None else None

"""Learning between jobs: what the saws of this job lost goes among the shop's learned figures, and comes back (F76)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from frontwright.core.job import Job, Learned, Machine, Shop
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Display, Length, Unit, half_up, in_units, typed_length
from frontwright.core.plan import Plan
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.learning import OUTLIER, is_outlier, learned
from frontwright.core.veneer.result import BilletPlan, Seen
from frontwright.core.veneer.sawing import losses_of, machine_of
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.wording.numbers import count_of, length_text

_WORDS = {"loss": "loss a slice", "wander": "wander", "kerf": "kerf", "rejoint": "re-joint loss"}


@dataclass(frozen=True, slots=True)
class SeenLoss:
    """A loss as it was in this job: of which saw (with its blade) and wood, over how many slices of which billets."""

    what: Literal["kerf", "wander", "rejoint", "loss"]
    machine: str
    species: str
    value: Length
    slices: int
    billets: tuple[str, ...]

    @property
    def id(self) -> str:
        return learned_id(self.what, self.machine, self.species)


def learned_id(what: str, machine: str, species: str) -> str:
    """The id of a learned figure: "loss, band saw, white ash"."""
    return ", ".join(part for part in (what, machine, species) if part)


def saw_word(machine: Machine) -> str:
    """A saw with the blade that is mounted, by which its losses are learned."""
    return f"{machine.id}, {machine.blade}" if machine.blade else machine.id


def seen_losses(job: Job, plan: Plan, only: str = "") -> list[SeenLoss]:
    """What each saw lost in each wood, of this billet or of all that have no leaf to come; the mean over their slices.

    None of them is counted already.
    Readings by which a saw would have lost less than nothing are left out: one of them is wrong.
    """
    index = JobIndex(job)
    groups: dict[tuple[str, str], list[tuple[BilletPlan, Seen]]] = {}
    saws: dict[str, Machine] = {}
    for billet in plan.veneer.plans:
        if billet.id != only and (only or any(one.state == "to come" for one in billet.slices)):
            continue
        if billet.seen is None or not billet.seen.slices or billet.billet.counted or billet.seen.loss.length < ZERO:
            continue
        saw = machine_of(index, _last_saw(billet) or billet.billet.machine)
        saws[saw_word(saw)] = saw
        groups.setdefault((saw_word(saw), _species(job, index, billet)), []).append((billet, billet.seen))
    return [one for (word, wood), found in groups.items() for one in _of_saw(index, saws[word], word, wood, found)]


def _last_saw(plan: BilletPlan) -> str | None:
    sawn = [one.leaf for one in plan.slices if one.leaf is not None]
    return sawn[-1].machine if sawn else None


def _species(job: Job, index: JobIndex, plan: BilletPlan) -> str:
    piece = job.pieces.get(plan.billet.piece or "")
    return piece.species if piece is not None and piece.species else first_veneered(index).species or ""


def _of_saw(
    index: JobIndex, saw: Machine, word: str, wood: str, found: list[tuple[BilletPlan, Seen]]
) -> Iterator[SeenLoss]:
    slices = sum(seen.slices for _, seen in found)
    billets = tuple(plan.id for plan, _ in found)
    together = sum((Fraction(in_units(seen.loss.value)) * seen.slices for _, seen in found), start=Fraction(0))
    loss = half_up(together / slices)
    yield SeenLoss("loss", word, wood, loss, slices, billets)
    named = losses_of(index, saw)
    wander = loss - named.kerf.length - named.rejoint.length
    if wander >= ZERO:
        yield SeenLoss("wander", word, wood, wander, slices, billets)
    if named.kerf.source == "chosen":
        yield SeenLoss("kerf", word, wood, named.kerf.length, slices, billets)


def outliers(shop: Shop, seen: Sequence[SeenLoss]) -> list[SeenLoss]:
    """Those that lie out of what was learned, with all else that was seen of such a saw in such a wood."""
    odd = {(one.machine, one.species) for one in seen if _odd(shop, one)}
    return [one for one in seen if (one.machine, one.species) in odd]


def _odd(shop: Shop, one: SeenLoss) -> bool:
    old = shop.learned.get(one.id)
    return old is not None and is_outlier(old, one.value)


def learned_shop(shop: Shop, seen: Sequence[SeenLoss], job: str, unit: Unit) -> Shop:
    """The shop with these counted (F76); further billets of the same job move a figure without counting a job more."""
    for one in seen:
        old = shop.learned.get(one.id) or Learned(one.id, one.what, one.machine, one.species)
        new = learned(old, one.value, job, unit)
        shop = shop.put(replace(new, count=old.count) if old.count and old.last_job == job else new)
    return shop


def counted(seen: Sequence[SeenLoss]) -> Edit:
    """The billets marked, so that none is counted twice."""
    billets = dict.fromkeys(billet for one in seen for billet in one.billets)
    name = f"learn from {', '.join(billets)}"

    def change(before: Job) -> Job:
        rows = [before.billets[one] for one in billets if one in before.billets]
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
        if not _odd(shop, one) or row is None or row.value is None or row.value.value is None:
            continue
        so_far = f"{length_text(row.value.value, display)} learned over {count_of(row.count, 'job')}"
        yield (
            f"{_said(one)} was {length_text(one.value, display)}, more than {OUTLIER} spreads from the {so_far}: "
            "it is not counted unless you choose “Count it all the same”."
        )


def _said(one: SeenLoss) -> str:
    word = f"{_WORDS[one.what]}, {one.machine}"
    return word[:1].upper() + word[1:]


def learned_loss(job: Job, shop: Shop, machine: Machine, what: str = "loss") -> Learned | None:
    """What the shop learned of this saw in the wood of this job's leaves."""
    wood = first_veneered(JobIndex(job)).species or ""
    return shop.learned.get(learned_id(what, saw_word(machine), wood))


def use_learned(job: Job, shop: Shop, machine: str) -> Edit:
    """Plan with the learned loss of a saw: its wander becomes what kerf and re-joint loss leave of it."""
    saw = job.machines.get(machine)
    found = learned_loss(job, shop, saw) if saw is not None else None
    if saw is None or found is None or found.value is None or found.value.value is None:
        raise Refused(f"Nothing was learned of the losses of {machine} in this wood yet.")
    named = losses_of(JobIndex(job), saw)
    wander = found.value.value - named.kerf.length - named.rejoint.length
    if wander < ZERO:
        raise Refused(f"The loss learned of {machine} is less than its kerf and re-joint loss; look at its kerf first.")
    new = replace(saw, wander=typed_length(wander, job.heading.unit))
    return Edit(f"plan {machine} with the learned loss", lambda before: before.put(new), select=machine)

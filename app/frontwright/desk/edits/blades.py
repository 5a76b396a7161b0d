"""Blades of a saw: made, mounted, chosen for a billet or from a leaf on; slices made keep the blade that made them."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.job import Billet, Blade, Job, Leaf, Machine, Shop
from frontwright.core.job.index import JobIndex
from frontwright.core.making.builds import panel_plan
from frontwright.core.plan import Plan
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.sawing import billet_plan, machine_of, was_sawn
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id


def add_blade(job: Job, _plan: Plan, machine: str) -> Edit:
    """A further blade of a saw, all of it as the saw's own figures until it is told."""
    if machine not in job.machines:
        raise Refused(f"“{machine}” is no longer there: choose another saw.")
    row = new_blade(job, machine)
    return Edit(f"add blade {row.id} of {machine}", lambda before: before.put(row), select=row.id)


def new_blade(job: Job, machine: str = "") -> Blade:
    """A blade of this saw, else of the one planned with. Refused where the job has no saw."""
    chosen = next((m.id for m in job.machines.values() if m.chosen), next(iter(job.machines), ""))
    if not (machine or chosen):
        raise Refused("A blade belongs to a saw: add the saw first.")
    return Blade(_free(job, "blade 1"), machine or chosen)


def shop_blade(shop: Shop, row: str) -> Blade:
    """A blade of the first of the shop's own saws. Refused where it has none."""
    if not shop.machines:
        raise Refused("A blade belongs to a saw: add the saw to the shop first.")
    return Blade(row, next(iter(shop.machines)))


def _free(job: Job, like: str) -> str:
    return like if like not in job.blades else free_id(set(job.blades), like)


def blades_of(job: Job, machine: str) -> list[Blade]:
    return [blade for blade in job.blades.values() if blade.machine == machine]


def mount(job: Job, machine: str, text: str) -> Edit:
    """Another blade mounted: what was sawn before keeps its own, the next slice of a billet in hand is sawn with this.

    Refused where the blade is not one of this saw.
    """
    saw = job.machines.get(machine)
    if saw is None:
        raise Refused(f"“{machine}” is no longer there: choose another saw.")
    wanted = text.strip()
    if wanted and (wanted not in job.blades or job.blades[wanted].machine != machine):
        raise Refused(f"“{wanted}” is no blade of {machine}: choose one of its own.")
    name = f"mount {wanted} on {machine}" if wanted else f"{machine} by its own figures"
    return Edit(name, lambda before: _mounted(before, machine, wanted), f"machines/{machine}/blade")


def _mounted(job: Job, machine: str, wanted: str) -> Job:
    saw = job.machines[machine]
    if (saw.blade or "") == wanted:
        return job
    begun = _begun(job, saw)
    was = saw.blade if saw.blade in job.blades else None
    if begun and was is None:
        former = Blade(_free(job, "first blade"), machine, "", saw.kerf, saw.wander, saw.out_of_square)
        job, was = job.put(former), former.id
    for row in begun:
        job = job.put(replace(row, machine=machine, blade=was))
    for billet in dict.fromkeys(row.id if isinstance(row, Billet) else row.billet for row in begun):
        if wanted and (following := _following(job, billet)) is not None:
            job = job.put(replace(following, machine=machine, blade=wanted))
    return job.put(replace(saw, blade=wanted or None))


def _begun(job: Job, saw: Machine) -> list[Billet | Leaf]:
    """Billets begun with this saw, and leaves from which on it was taken, of which nobody said with which blade."""
    index = JobIndex(job)
    panel = panel_plan(index, first_veneered(index))
    found: list[Billet | Leaf] = []
    for billet in job.billets.values():
        made = [one for one in billet_plan(index, billet, panel).slices if one.leaf is not None and was_sawn(one.leaf)]
        if billet.blade is None and any(one.saw.machine == saw.id for one in made) and _is_of(index, billet, saw):
            found.append(billet)
        rows = [one.leaf for one in made if one.leaf is not None]
        found += [row for row in rows if row.machine == saw.id and row.blade is None]
    return found


def _is_of(index: JobIndex, billet: Billet, saw: Machine) -> bool:
    return machine_of(index, billet.machine).id == saw.id


def _following(job: Job, billet: str) -> Leaf | None:
    """The leaf of a billet that is sawn next, as long as nobody said with what."""
    rows = [one for one in job.leaves.values() if one.billet == billet]
    number = max((one.number for one in rows if was_sawn(one)), default=0) + 1
    name = f"{billet}{number}"
    found = job.leaves.get(name, Leaf(name, billet, number))
    return found if found.machine is None and found.blade is None else None


def with_saw[R: (Billet, Leaf)](job: Job, row: R, text: str) -> R | None:
    """A billet or leaf sawn with what was chosen: a blade with its saw, a saw with the blade mounted, "" as before.

    None where there is nothing of that name.
    """
    wanted = text.strip()
    if wanted in job.blades:
        return replace(row, machine=job.blades[wanted].machine, blade=wanted)
    if wanted in job.machines or not wanted:
        return replace(row, machine=wanted or None, blade=None)
    return None

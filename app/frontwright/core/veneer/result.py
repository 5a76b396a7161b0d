"""What the veneer chapter gives as counts: leaves wanted by use, leaves a billet by machine and size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.figures import Figure

LeafUse = Literal["panels", "skin", "strips", "stile strips", "rail strips"]


@dataclass(frozen=True, slots=True)
class LeafCount:
    """Leaves of one use and length; `spares` are those wanted beside (F58)."""

    use: LeafUse
    length: Figure
    count: int
    spares: int


@dataclass(frozen=True, slots=True)
class BilletYield:
    """Leaves a billet of one size gives on one machine (F53); `tallest`: the widest billet that it takes on edge."""

    id: str
    machine: str
    length: Figure
    width: Figure
    thickness: Figure
    slice: Figure
    loss: Figure
    keep_back: Figure
    leaves: int
    rest: Figure
    spare: bool
    tallest: Figure | None = None


@dataclass(frozen=True, slots=True)
class VeneerPlan:
    leaves: tuple[LeafCount, ...]
    billets: tuple[BilletYield, ...]
    usable_width: Figure

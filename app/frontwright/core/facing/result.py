"""What the facing chapter gives: strips for the frame faces, skins for the ends."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.figures import Figure


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip or sawn skin; `order` of gluing: 1 skins, 2 stile strips, 3 rail strips (F41, F42)."""

    id: str
    run: str
    on: str
    length: Figure
    width: Figure
    thickness: Figure
    rough_length: Figure
    rough_width: Figure
    order: int


@dataclass(frozen=True, slots=True)
class FacingPlan:
    strips: tuple[Strip, ...]

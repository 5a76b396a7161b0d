"""What is added while the job is worked: sizes as built, answers to checks, sheets that were printed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.lengths import Typed


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """A size measured on the thing made; `of` is a part or front id, `what` the size (length, width, ...).

    Of a front: `diagonal 1` from top left to bottom right, `diagonal 2` from bottom left to top right; `wind` is how
    far its fourth corner stands off when the other three lie, `bow` the hollow or belly along its height.
    """

    id: str
    of: str
    what: Literal[
        "length",
        "width",
        "height",
        "thickness",
        "rabbet depth",
        "groove width",
        "diagonal 1",
        "diagonal 2",
        "wind",
        "bow",
    ]
    value: Typed | None = None
    by: str = ""
    when: str = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a person said to a check, with the figures it stood at then; it stays when the check has fallen silent."""

    id: str
    code: str
    where: str
    value: str
    limit: str
    level: str
    answer: str
    by: str = ""
    when: str = ""


@dataclass(frozen=True, slots=True)
class Printed:
    """A sheet that was printed or saved, and the digest of the figures it was made from (`facts`: what it showed)."""

    id: str
    kind: str
    subject: str
    version: int
    digest: str
    facts: str = ""
    when: str = ""

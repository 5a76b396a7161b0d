"""The four faces that come with the program, registered with the PDF library once and only when paper is made."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal
from unicodedata import category

from frontwright.resources import resource

Face = Literal["DejaVuSans", "DejaVuSans-Bold", "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"]
FACES: tuple[Face, ...] = ("DejaVuSans", "DejaVuSans-Bold", "DejaVuSansCondensed", "DejaVuSansCondensed-Bold")
_SPACES = re.compile(" {2,}")
MISSING = "\N{REPLACEMENT CHARACTER}"


@lru_cache(maxsize=1)
def register() -> frozenset[int]:
    """Make the faces known to the PDF library; gives the code points that all of them can show."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known: list[frozenset[int]] = []
    for face in FACES:
        font = TTFont(face, str(resource("fonts", f"{face}.ttf")))
        pdfmetrics.registerFont(font)
        known.append(frozenset(font.face.charToGlyph))
    return frozenset.intersection(*known)


@lru_cache(maxsize=20_000)
def em_width(text: str, face: Face) -> float:
    """How wide `text` is in this face, as a multiple of the size of its letters."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    register()
    return float(stringWidth(text, face, 1000)) / 1000


@lru_cache(maxsize=20_000)
def printable(text: str) -> str:
    """`text` as one line that can be printed: runs of spaces, line breaks and control characters become one space.

    Marks that only steer (joiners, turns of direction) are left out, and what the faces cannot show becomes the sign
    for a missing letter. Every text from a job goes through here.
    """
    known = register()
    shown = "".join(_sign(sign, known) for sign in text)
    return _SPACES.sub(" ", shown)


def _sign(sign: str, known: frozenset[int]) -> str:
    kind = category(sign)
    if sign.isspace() or kind == "Cc":
        return " "
    if kind == "Cf":
        return ""
    return sign if ord(sign) in known else MISSING

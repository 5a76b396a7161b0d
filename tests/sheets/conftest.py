"""How the tests read a sheet: every piece of text with its place, as another program finds it in the PDF."""

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from frontwright.core.plan import Plan, derive
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from pypdf import PdfReader

type Piece = tuple[str, float, float, float]  # text, millimetres from the left and from the top, size in points
MM = 25.4 / 72


def _pieces(page: Any) -> list[Piece]:
    found: list[Piece] = []
    high = float(page.mediabox.height)

    def met(text: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        if text.strip():
            x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
            y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
            found.append((text.strip("\n"), x * MM, (high - y) * MM, size))

    page.extract_text(visitor_text=met)
    return found


@pytest.fixture
def pieces() -> Callable[[bytes], list[list[Piece]]]:
    """Gives the pieces of text of every page of a PDF."""
    return lambda pdf: [_pieces(page) for page in PdfReader(BytesIO(pdf)).pages]


@pytest.fixture
def page_texts(pieces: Callable[[bytes], list[list[Piece]]]) -> Callable[[bytes], list[str]]:
    """Gives the text of every page of a PDF as one line."""
    return lambda pdf: [" ".join(" ".join(text for text, *_ in page).split()) for page in pieces(pdf)]


def _sample(name: str) -> Plan:
    return derive(job_from_json(resource("samples", f"{name}.json").read_text("utf-8")))


@pytest.fixture(scope="session")
def laundry() -> Plan:
    """The pair of laundry doors, in inches."""
    return _sample("laundry-pair")


@pytest.fixture(scope="session")
def kitchen() -> Plan:
    """The run of twelve openings and the hutch, in millimetres."""
    return _sample("kitchen-run")

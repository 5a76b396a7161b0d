"""Drawings on paper: figures where they belong, to scale, black only."""

import re
from collections.abc import Callable
from functools import cache
from io import BytesIO

import pytest
from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import elevation, in_two
from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.section import section
from frontwright.core.lengths import Length
from frontwright.core.plan import Plan, derive
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.sheets.player import Use, medium, put, scale_for
from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

type Piece = tuple[str, float, float, float]
type Pieces = Callable[[bytes], list[list[Piece]]]
POINTS = 72 / 25.4


@cache
def planned(name: str) -> Plan:
    return derive(job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8")))


def paper(drawing: Drawing, use: Use, n: int | None) -> bytes:
    """One A4 page across with the drawing 10 mm inside its edges."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(297 * POINTS, 210 * POINTS), invariant=1)
    put(canvas, 210, drawing, medium(use), 10, 10, 277, 190, n)
    canvas.save()
    return out.getvalue()


def content(pdf: bytes) -> str:
    contents = PdfReader(BytesIO(pdf)).pages[0].get_contents()
    assert contents is not None
    return contents.get_data().decode("latin-1")


def test_sizes_of_an_elevation_stand_on_the_paper_in_the_big_letters_of_the_wall(pieces: Pieces) -> None:
    first, _ = in_two(planned("kitchen-run"), "K", Length.mm(1781))
    found = {text.strip(): size for text, _, _, size in pieces(paper(first, "wall", 10))[0]}
    for text in ("594.5", "375.5", "396.5", "256", "279"):
        assert any(text in piece for piece in found), text
    assert found["279"] >= 20


def test_heights_on_the_left_stand_beside_their_fronts(pieces: Pieces) -> None:
    first, _ = in_two(planned("kitchen-run"), "K", Length.mm(1781))
    places = {text.strip(): (x, y) for text, x, y, _ in pieces(paper(first, "wall", 10))[0]}
    assert places["167"][0] == pytest.approx(places["256"][0], abs=0.5) == pytest.approx(places["279"][0], abs=0.5)
    assert places["167"][1] < places["256"][1] < places["279"][1]
    assert places["279"][1] - places["256"][1] == pytest.approx((256 / 2 + 4 + 279 / 2) / 10, abs=1.5)


def test_a_section_at_full_size_is_as_wide_as_the_stile() -> None:
    plan = planned("kitchen-run")
    drawing = section(plan, "F7R")
    assert drawing is not None
    text = content(paper(drawing, "bench", 1))
    xs = sorted(float(x) for x, _ in re.findall(r"(-?[\d.]+) (-?[\d.]+) l\b", text))
    assert any(b - a == pytest.approx(70 * POINTS, abs=1.6) for a in xs for b in xs)


def test_nothing_but_black_and_white_is_used() -> None:
    plan = planned("laundry-pair")
    for drawing in (door(plan, "DA", "bench"), elevation(plan, "R1", "wall")):
        text = content(paper(drawing, "bench", None))
        assert set(re.findall(r"([\d.]+) [gG]\b", text)) <= {"0", "1"}
        assert not re.search(r"[\d.]+ [\d.]+ [\d.]+ (rg|RG)\b", text.replace("0 0 0 rg", "").replace("0 0 0 RG", ""))


def test_the_same_drawing_gives_the_same_bytes() -> None:
    drawing = door(planned("laundry-pair"), "DA", "bench")
    assert paper(drawing, "bench", 5) == paper(drawing, "bench", 5)


def test_a_run_too_long_for_the_paper_goes_in_at_a_smaller_scale() -> None:
    drawing = elevation(planned("kitchen-run"), "K", "wall")
    assert [scale_for(drawing, medium("wall"), width, 120) for width in (400, 220, 10)] == [10, 20, None]

"""The sheet of paper: a metre of ground is what the scale says on it, and all that belongs there is there."""

import io
import re
from pathlib import Path

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from design.document import Plan
from design.drawing import DrawingOptions
from design.exchange.pdf_out import METRIC_SCALES, SHEETS, US_SCALES, SheetWords, TooLarge, plan_pdf
from design.loading import load_plan

ROOT = Path(__file__).resolve().parents[2]
POINTS_PER_METRE = 72 / 0.0254  # ISO 32000-1, 8.3.2.3: user space is 1/72 inch; 25.4 mm to the inch
WORDS = SheetWords("Quince House", ("Somebody", "Revision 1"))


def sheet_of(plan, sheet="a4", units="metric"):
    content = plan_pdf(plan, None, DrawingOptions(units=units), sheet, WORDS)
    reader = PdfReader(io.BytesIO(content))
    assert len(reader.pages) == 1
    page = reader.pages[0]
    scale = int(re.search(r"1:(\d+)", page.extract_text())[1])
    return reader, page, scale


def line_lengths(reader, page):
    """Lengths in points of all straight pieces on the page, by the transformations in its content."""
    matrix, stack, at, lengths = (1, 0, 0, 1, 0, 0), [], None, []
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        numbers = [float(n) for n in operands] if operator in (b"cm", b"m", b"l") else []
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q":
            matrix = stack.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = numbers
            o, p, q, r, s, t = matrix
            matrix = (
                a * o + b * q,
                a * p + b * r,
                c * o + d * q,
                c * p + d * r,
                e * o + f * q + s,
                e * p + f * r + t,
            )
        elif operator in (b"m", b"l"):
            x, y = numbers
            here = (x * matrix[0] + y * matrix[2] + matrix[4], x * matrix[1] + y * matrix[3] + matrix[5])
            if operator == b"l" and at:
                lengths.append(((here[0] - at[0]) ** 2 + (here[1] - at[1]) ** 2) ** 0.5)
            at = here
    return lengths


def ten_metres(wide=12.0, tall=9.0):
    """A plan with one line of exactly 10 m."""
    ground = {
        "areas": [{"id": "a", "outline": [[0, 0], [wide, 0], [wide, tall], [0, tall]]}],
        "services": [{"id": "s", "kind": "gas", "path": [[1, 1], [11, 1]], "depth_m": 0.6}],
    }
    return Plan.model_validate(
        {"format": "plan/1", "ground": ground, "supply": {"at": [0, 0], "static_kpa": 300}}
    )


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("size", [(12, 9), (9, 40), (90, 30), (200, 140), (900, 700)])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_ten_metres_measure_ten_metres_to_scale(sheet, size, units):
    reader, page, scale = sheet_of(
        ten_metres(*size) if min(size) > 11 else ten_metres(12, size[1]), sheet, units
    )
    assert scale in (US_SCALES if units == "us" else METRIC_SCALES)
    wanted = 10 * POINTS_PER_METRE / scale
    assert any(length == pytest.approx(wanted, abs=0.03) for length in line_lengths(reader, page))


def test_the_scale_is_the_largest_that_fits():
    _, _, a4 = sheet_of(ten_metres(30, 20), "a4")
    _, _, a3 = sheet_of(ten_metres(30, 20), "a3")
    assert a3 < a4
    # 30 m at 1:100 are 300 mm, more than the 297 of a lying A4 and less than the 420 of a lying A3
    assert (a3, a4) == (100, 200)


@pytest.mark.parametrize("sheet", SHEETS)
def test_nothing_lies_beyond_the_sheet(sheet):
    plan = load_plan((ROOT / "demo/plans/quince-house.json").read_bytes())
    _, page, _ = sheet_of(plan, sheet)
    width, height = (float(n) for n in page.mediabox[2:])
    places = []
    page.extract_text(visitor_text=lambda text, cm, tm, *_: text.strip() and places.append((
        tm[4] * cm[0] + tm[5] * cm[2] + cm[4], tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
    )))  # fmt: skip
    assert places
    assert all(0 <= x <= width and 0 <= y <= height for x, y in places)


def test_title_scale_bar_north_key_and_caution_are_on_it():
    plan = load_plan((ROOT / "demo/plans/quince-house.json").read_bytes())
    words = sheet_of(plan)[1].extract_text()
    for wanted in ("Quince House", "Revision 1", "10 m", "N", "Lawn", "Sprinkler head", "located and marked"):
        assert wanted in words, wanted


def test_text_beyond_latin_breaks_nothing():
    words = SheetWords("Сад 花園 💧 " + "x" * 400, ("\x00\n",))
    assert plan_pdf(ten_metres(), None, DrawingOptions(), "a4", words).startswith(b"%PDF")


def test_the_largest_plan_still_fits_somewhere():
    plan = ten_metres()
    far = plan.model_copy(update={"supply": plan.supply.model_copy(update={"at": (5000.0, -5000.0)})})
    assert sheet_of(far)[2] >= 25_000


def test_what_fits_at_no_scale_is_said():
    plan = ten_metres()
    far = plan.model_copy(update={"supply": plan.supply.model_copy(update={"at": (1e6, 0.0)})})
    with pytest.raises(TooLarge):
        sheet_of(far)

"""The same display list on paper."""

from io import BytesIO

from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from design.drawing import DrawingOptions, plan_drawing, supply_chart
from design.drawing.pdf import draw_on_canvas
from tests.design_drawing.garden_plan import PARTS, garden_plan, garden_report


def page_words(*drawings) -> str:
    out = BytesIO()
    canvas = Canvas(out, pagesize=(600, 800), invariant=1)
    for number, drawing in enumerate(drawings):
        draw_on_canvas(canvas, drawing, (30, 30 + number * 400), 500)
    canvas.save()
    return PdfReader(BytesIO(out.getvalue())).pages[0].extract_text()


def test_paper_shows_the_words_that_the_page_shows():
    plan, report = garden_plan(), garden_report()
    words = page_words(plan_drawing(plan, report, DrawingOptions(parts=PARTS)), supply_chart(plan, report))
    for wanted in (
        "West lawn",
        "H1",
        "V1",
        "25 · 8.5 m",
        "10 m",
        "Trench dug by hand",
        "design 30.0 L/min",
        "gauge",
    ):
        assert wanted in words

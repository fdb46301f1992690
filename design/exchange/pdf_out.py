"""The plan on one sheet of paper, to a round scale, with title, north, scale bar, key and caution."""

from dataclasses import dataclass, replace
from io import BytesIO
from textwrap import wrap

from reportlab.lib.colors import HexColor
from reportlab.lib.pagesizes import A3, A4, LETTER
from reportlab.pdfgen.canvas import Canvas

from design.document import Plan
from design.drawing import DrawingOptions, plan_drawing
from design.drawing.frame import PAD
from design.drawing.palette import ALERT, FAINT_INK, INK
from design.drawing.pdf import draw_on_canvas
from design.drawing.plan import map_span
from design.drawing.shapes import Drawing
from design.report import CheckReport

SHEETS: dict[str, tuple[float, float]] = {"a4": A4, "a3": A3, "letter": LETTER}
SHEET_WORDS = {"a4": "A4", "a3": "A3", "letter": "Letter"}
POINTS_PER_METRE = 72 / 0.0254
# Scales of site plans; with feet, whole feet to the inch from 5 to 100. Common practice, no source.
METRIC_SCALES = (50, 100, 200, 250, 500, 1000, 1250, 2000, 2500, 5000, 10_000, 25_000, 50_000, 100_000)
US_SCALES = (60, 120, 240, 360, 480, 600, 720, 1200, 2400, 4800, 6000, 12_000, 24_000, 60_000, 120_000)
CAUTION = (
    "Have buried services located and marked before any digging, and dig by hand near them: what is drawn of "
    "them is what somebody said. A design aid: local codes and licensed practice come first. "
    "Printed at another size than the sheet's own, the scale is wrong: measure the bar."
)
_MARGIN, _HEAD, _FOOT, _TEXT = 28.0, 44.0, 40.0, 8.0


class TooLarge(ValueError):
    """The plan is on no sheet at any scale."""


@dataclass(frozen=True)
class SheetWords:
    """``title`` is large, ``lines`` small below it."""

    title: str
    lines: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Fit:
    drawing: Drawing
    denominator: int
    page: tuple[float, float]


def plan_pdf(
    plan: Plan, report: CheckReport | None, options: DrawingOptions, sheet: str, words: SheetWords
) -> bytes:
    """The largest round scale at which the map and its key fit, upright or lying. Raises TooLarge."""
    fit = _fit(plan, report, replace(options, text_size=_TEXT, interactive=False), SHEETS[sheet])
    out = BytesIO()
    canvas = Canvas(out, pagesize=fit.page, invariant=1)
    canvas.setTitle(words.title)
    _write_head(canvas, fit, sheet, words)
    drawing = fit.drawing
    below = fit.page[1] - _MARGIN - _HEAD - drawing.height
    draw_on_canvas(canvas, drawing, (_MARGIN, below), drawing.width)
    _write_foot(canvas, fit)
    canvas.save()
    return out.getvalue()


def scales(units: str) -> tuple[int, ...]:
    return US_SCALES if units == "us" else METRIC_SCALES


def _fit(plan: Plan, report: CheckReport | None, options: DrawingOptions, size: tuple[float, float]) -> _Fit:
    wide_m, tall_m = map_span(plan, report, options)
    pages = ((min(size), max(size)), (max(size), min(size)))
    for denominator in scales(options.units):
        scale = POINTS_PER_METRE / denominator
        for page in pages:
            room = (page[0] - 2 * _MARGIN, page[1] - 2 * _MARGIN - _HEAD - _FOOT)
            if wide_m * scale + 2 * PAD > room[0] or tall_m * scale + 2 * PAD > room[1]:
                continue
            sized = replace(options, width=room[0], max_height=tall_m * scale + 2 * PAD)
            drawing = plan_drawing(plan, report, sized)
            if drawing.height <= room[1]:
                return _Fit(drawing, denominator, page)
    raise TooLarge("The plan is too large for this sheet at any scale.")


def _write_head(canvas: Canvas, fit: _Fit, sheet: str, words: SheetWords) -> None:
    width, height = fit.page
    top = height - _MARGIN
    scale = f"1:{fit.denominator} on {SHEET_WORDS[sheet]}"
    canvas.setFillColor(HexColor(INK))
    canvas.setFont("Helvetica-Bold", 14)
    canvas.drawString(
        _MARGIN, top - 12, _cut(canvas, words.title, "Helvetica-Bold", 14, width - 2 * _MARGIN - 120)
    )
    canvas.drawRightString(width - _MARGIN, top - 12, scale)
    canvas.setFillColor(HexColor(FAINT_INK))
    canvas.setFont("Helvetica", 9)
    for number, line in enumerate(words.lines[:2]):
        fitted = _cut(canvas, line, "Helvetica", 9, width - 2 * _MARGIN)
        canvas.drawString(_MARGIN, top - 25 - 11 * number, fitted)


def _write_foot(canvas: Canvas, fit: _Fit) -> None:
    width = fit.page[0] - 2 * _MARGIN
    canvas.setStrokeColor(HexColor(ALERT))
    canvas.setLineWidth(0.8)
    canvas.line(_MARGIN, _MARGIN + _FOOT - 8, _MARGIN + width, _MARGIN + _FOOT - 8)
    canvas.setFillColor(HexColor(INK))
    canvas.setFont("Helvetica", 7.5)
    lines = wrap(CAUTION, int(width / 3.6))
    for number, line in enumerate(lines[:3]):
        canvas.drawString(_MARGIN, _MARGIN + _FOOT - 18 - 9 * number, line)


def _cut(canvas: Canvas, words: str, font: str, size: float, room: float) -> str:
    if canvas.stringWidth(words, font, size) <= room:
        return words
    kept = words
    while kept and canvas.stringWidth(kept + "…", font, size) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"

"""Measures, colours and paragraph styles of the proposal, for one company."""

from dataclasses import dataclass

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm

from .colour import accent_colour, readable_on_white, tint
from .data import ProposalData
from .fonts import faces

PAGE_SIZES = {"A4": A4, "Letter": LETTER}
SIDE_MARGIN = 21 * mm
PLAN_MARGIN = 13 * mm  # at the sides of the plan's page, which needs all the width
TOP_MARGIN = 18.5 * mm
FOOT_MARGIN = 16 * mm
INK = HexColor("#22303a")
FAINT = HexColor("#56636c")
HAIRLINE = HexColor("#d5dade")


@dataclass(frozen=True)
class Look:
    """``accent`` fills, ``heading`` is the same hue dark enough for text, ``wash`` a pale tint."""

    accent: Color
    heading: Color
    wash: Color
    regular: str
    bold: str
    page_size: tuple[float, float]
    styles: dict[str, ParagraphStyle]

    @property
    def text_width(self) -> float:
        return self.page_size[0] - 2 * SIDE_MARGIN

    def __getitem__(self, name: str) -> ParagraphStyle:
        return self.styles[name]


def look_of(data: ProposalData) -> Look:
    accent = accent_colour(data.company.accent)
    heading = readable_on_white(accent)
    main = faces().main
    styles = _styles(main.regular, main.bold, heading)
    return Look(
        accent, heading, tint(accent, 0.08), main.regular, main.bold, PAGE_SIZES[data.page_size], styles
    )


def _styles(regular: str, bold: str, heading: Color) -> dict[str, ParagraphStyle]:
    body = ParagraphStyle("body", fontName=regular, fontSize=8.8, leading=12, textColor=INK)

    def style(name: str, **changes: object) -> ParagraphStyle:
        return ParagraphStyle(name, parent=body, **changes)

    right = {"alignment": TA_RIGHT}
    styles = [
        body,
        style("paragraph", spaceAfter=3),
        style("company", fontName=bold, fontSize=14, leading=18, textColor=heading),
        style("small", fontSize=7.8, leading=10.4, textColor=FAINT),
        style("small-right", fontSize=7.8, leading=10.4, textColor=FAINT, **right),
        style("title", fontName=bold, fontSize=21, leading=25, textColor=INK, spaceAfter=4),
        style("title-long", fontName=bold, fontSize=14, leading=18, textColor=INK, spaceAfter=4),
        style("promise", fontSize=11.5, leading=16, textColor=heading, spaceAfter=4),
        style(
            "heading",
            fontName=bold,
            fontSize=12.5,
            leading=16,
            textColor=heading,
            spaceBefore=11,
            spaceAfter=4,
        ),
        style("subheading", fontName=bold, fontSize=9, leading=12.6, spaceBefore=5, spaceAfter=2),
        style("label", fontSize=7.4, leading=10, textColor=FAINT),
        style("figure", fontName=bold, fontSize=14, leading=18, textColor=heading),
        style("item", leftIndent=10, spaceAfter=2),
        style("cell-bold", fontName=bold),
        style("amount", **right),
        style("amount-bold", fontName=bold, **right),
        style("total-label", fontName=bold, fontSize=11, leading=15),
        style("total", fontName=bold, fontSize=11, leading=15, **right),
        style("grand-label", fontSize=9, leading=12, textColor=FAINT),
        style("grand", fontName=bold, fontSize=21, leading=26, textColor=heading),
    ]
    return {s.name: s for s in styles}

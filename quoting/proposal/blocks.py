"""Small building blocks that every part of the proposal uses."""

from collections.abc import Iterable
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Flowable, HRFlowable, Paragraph, Spacer, Table

from .styles import HAIRLINE, Look
from .words import clean, markup

_SHORT_POINT = 110  # characters of a point that stands beside another
_LONGEST_CELL = 700  # characters; a longer text goes on in the row below
_HEADING_ROOM = 56.0  # points that a heading needs below it, so that it never ends a page


class Heading(Paragraph):
    """A heading that also becomes a bookmark."""

    def __init__(self, text: str, style: ParagraphStyle) -> None:
        super().__init__(markup(text, bold=True), style)
        self.bookmark = clean(text)


def heading(text: str, look: Look) -> list[Flowable]:
    return [CondPageBreak(_HEADING_ROOM), Heading(text, look["heading"])]


def words(text: str, style: ParagraphStyle) -> Paragraph:
    """A paragraph of user's text; bold when its style is."""
    return Paragraph(markup(text, bold=style.fontName.endswith("-Bold")), style)


def amount(text: str, style: ParagraphStyle) -> Paragraph:
    """A price: one piece, which no line end divides."""
    return words(text.replace(" ", "\u00a0"), style)


def bullets(texts: Iterable[str], look: Look) -> list[Flowable]:
    return [Paragraph(markup(text), look["item"], bulletText="–") for text in texts if clean(text)]


def two_columns(texts: Iterable[str], look: Look) -> list[Flowable]:
    """Short points side by side; long ones one below the other, so that any can go on overleaf."""
    shown = [text for text in texts if clean(text)]
    if not shown or any(len(text) > _SHORT_POINT for text in shown):
        return bullets(shown, look)
    half = -(-len(shown) // 2)
    cells = [bullets([text], look) for text in shown] + [[]] * (2 * half - len(shown))
    rows = [list(pair) for pair in zip(cells[:half], cells[half:], strict=True)]
    flat = [("TOPPADDING", (0, 0), (-1, -1), 0.6), ("BOTTOMPADDING", (0, 0), (-1, -1), 0.6)]
    return [table(rows, [look.text_width / 2] * 2, [*flat, ("RIGHTPADDING", (0, 0), (0, -1), 12)])]


def run_in(title: str, text: str, look: Look) -> Paragraph:
    """A paragraph that begins with its title."""
    head = f'<font name="{look.bold}">{markup(title.rstrip(".") + ".", bold=True)}</font>'
    return Paragraph(f"{head} {markup(text)}", look["paragraph"])


def rule(space: float = 6) -> HRFlowable:
    return HRFlowable(width="100%", thickness=0.6, color=HAIRLINE, spaceBefore=space, spaceAfter=space)


def gap(points: float) -> Spacer:
    return Spacer(1, points)


def pieces(text: str) -> list[str]:
    """A long text cut at blanks, so that one row never outgrows a page."""
    found, line = [], ""
    for word in clean(text).split(" "):
        if line and len(line) + len(word) > _LONGEST_CELL:
            found.append(line)
            line = ""
        line = f"{line} {word}".strip()
    return [*found, line] if line or not found else found


def table(rows: list[list[Any]], widths: list[float], style: list[tuple[Any, ...]]) -> Table:
    """Rows never split inside, so that a price stays on one page with its words."""
    base: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 2.7),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 3.4),
    ]
    return Table(rows, colWidths=widths, style=[*base, *style], splitByRow=1, splitInRow=0, hAlign="LEFT")

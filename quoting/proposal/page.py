"""The page around the story: margins, running head and foot, page x of y, bookmarks."""

from io import BytesIO
from typing import Any

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from .blocks import Heading
from .data import ProposalData
from .styles import FAINT, FOOT_MARGIN, HAIRLINE, PLAN_MARGIN, SIDE_MARGIN, TOP_MARGIN, Look
from .words import clean, runs

_SMALL = 7.6
_LONGEST = 60  # characters of a name in head and foot


class CountingCanvas(Canvas):
    """Holds pages back until their number is known, to write "page x of y"."""

    def __init__(self, *args: Any, foot: str, look: Look, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._foot, self._look = foot, look
        self._pages: list[dict[str, Any]] = []

    def showPage(self) -> None:  # noqa: N802 - reportlab's name
        self._pages.append(dict(self.__dict__))
        self._startPage()

    def save(self) -> None:
        count = len(self._pages)
        for state in self._pages:
            self.__dict__.update(state)
            self._write_foot(count)
            Canvas.showPage(self)
        Canvas.save(self)

    def _write_foot(self, count: int) -> None:
        width, y = self._pagesize[0], FOOT_MARGIN * 0.48
        self.setStrokeColor(HAIRLINE)
        self.setLineWidth(0.6)
        self.line(SIDE_MARGIN, y + 12, width - SIDE_MARGIN, y + 12)
        self.setFillColor(FAINT)
        write_left(self, SIDE_MARGIN, y, self._foot)
        self.setFont(self._look.regular, _SMALL)
        self.drawRightString(width - SIDE_MARGIN, y, f"Page {self._pageNumber} of {count}")


def write_left(canvas: Canvas, x: float, y: float, text: str) -> None:
    line = canvas.beginText(x, y)
    for font, words in runs(text):
        line.setFont(font, _SMALL)
        line.textOut(words)
    canvas.drawText(line)


def shortened(text: str) -> str:
    text = clean(text)
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"


class ProposalDocument(BaseDocTemplate):
    """A cover without a running head, then pages with one."""

    def __init__(self, out: BytesIO, data: ProposalData, look: Look) -> None:
        self._look, self._company = look, shortened(data.company.name)
        self._marks = 0
        super().__init__(
            out,
            pagesize=look.page_size,
            title=clean(f"Proposal {data.quote_number}, revision {data.revision}"),
            author=clean(data.company.name),
            subject=clean(f"Irrigation for {data.customer_name}"),
            creator="Trenchbook",
            lang=data.language,
            invariant=1,
        )
        upright = look.page_size
        self.addPageTemplates(
            [
                self._template("cover", upright, TOP_MARGIN * 0.62, SIDE_MARGIN),
                self._template("plan", upright, TOP_MARGIN, PLAN_MARGIN),
                self._template("plan-wide", (upright[1], upright[0]), TOP_MARGIN, PLAN_MARGIN),
                self._template("later", upright, TOP_MARGIN, SIDE_MARGIN),
            ]
        )

    def _template(self, name: str, size: tuple[float, float], top: float, side: float) -> PageTemplate:
        width, height = size
        frame = Frame(
            side, FOOT_MARGIN, width - 2 * side, height - FOOT_MARGIN - top,
            leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0, id=name,
        )  # fmt: skip
        on_page = _nothing if name == "cover" else self._head
        return PageTemplate(id=name, frames=[frame], onPage=on_page, pagesize=size)

    def _head(self, canvas: Canvas, document: Any) -> None:
        width, height = canvas._pagesize
        y = height - TOP_MARGIN * 0.55
        canvas.saveState()
        canvas.setFillColor(FAINT)
        write_left(canvas, SIDE_MARGIN, y, self._company)
        canvas.setStrokeColor(self._look.accent)
        canvas.setLineWidth(1.4)
        canvas.line(SIDE_MARGIN, y - 7, width - SIDE_MARGIN, y - 7)
        canvas.restoreState()

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802 - reportlab's name
        if isinstance(flowable, Heading):
            self._marks += 1
            key = f"part-{self._marks}"
            self.canv.bookmarkPage(key)
            self.canv.addOutlineEntry(flowable.bookmark, key, 0)


def _nothing(canvas: Canvas, document: Any) -> None:
    """The cover has its own letterhead."""

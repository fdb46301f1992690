"""Draws a drawing on a reportlab canvas: the same display list as the SVG."""

from collections.abc import Callable
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.pdfbase.pdfmetrics import stringWidth

from .palette import PAPER, STYLES, Style
from .shapes import XY, Circle, Drawing, Line, Polygon, Shape, Text

# Splits a text into runs of (font name, words), in the order in which they stand on the line.
Runs = Callable[[str, bool], list[tuple[str, str]]]
_HALO_SHARE = 0.22


def plain_runs(text: str, bold: bool) -> list[tuple[str, str]]:
    """Latin only, with the fonts that every PDF reader has."""
    return [("Helvetica-Bold" if bold else "Helvetica", text)]


def draw_on_canvas(canvas: Any, drawing: Drawing, at: XY, width: float, runs: Runs = plain_runs) -> None:
    """``at`` is the lower left corner in points; the height follows from the width."""
    scale = width / drawing.width
    canvas.saveState()
    canvas.translate(*at)
    canvas.scale(scale, scale)
    painter = _Painter(canvas, drawing.height, runs)
    for group in drawing.groups:
        for shape in group.shapes:
            painter.draw(shape)
    canvas.restoreState()


class _Painter:
    def __init__(self, canvas: Any, height: float, runs: Runs) -> None:
        self._canvas, self._height, self._runs = canvas, height, runs

    def draw(self, shape: Shape) -> None:
        if isinstance(shape, Text):
            self._text(shape)
            return
        style = STYLES[shape.style]
        self._pen(style, shape.width if isinstance(shape, Line) else None)
        fill, stroke = int(style.fill is not None), int(style.stroke is not None)
        if isinstance(shape, Circle):
            x, y = shape.centre
            self._canvas.circle(x, self._height - y, shape.radius, stroke=stroke, fill=fill)
            return
        rings = shape.rings if isinstance(shape, Polygon) else (shape.points,)
        path = self._path(rings, closed=isinstance(shape, Polygon))
        self._canvas.drawPath(path, stroke=stroke, fill=fill, fillMode=0)  # even-odd

    def _pen(self, style: Style, width: float | None) -> None:
        canvas = self._canvas
        if style.fill:
            canvas.setFillColor(HexColor(style.fill))
            canvas.setFillAlpha(style.fill_opacity)
        if style.stroke:
            canvas.setStrokeColor(HexColor(style.stroke))
            canvas.setLineWidth(width or style.width)
            canvas.setDash(*((list(style.dash), 0) if style.dash else ([], 0)))
            canvas.setLineCap(1 if style.round_ends else 0)
            canvas.setLineJoin(1 if style.round_ends else 0)

    def _path(self, rings: tuple[tuple[XY, ...], ...], *, closed: bool) -> Any:
        path = self._canvas.beginPath()
        for ring in rings:
            for index, (x, y) in enumerate(ring):
                (path.lineTo if index else path.moveTo)(round(x, 2), round(self._height - y, 2))
            if closed:
                path.close()
        return path

    def _text(self, text: Text) -> None:
        style = STYLES[text.style]
        runs = self._runs(text.text, style.bold)
        width = sum(stringWidth(words, font, text.size) for font, words in runs)
        before = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
        canvas = self._canvas
        canvas.saveState()
        canvas.translate(text.at[0], self._height - text.at[1])
        canvas.rotate(-text.angle_deg)
        canvas.setFillAlpha(1)
        if style.halo:
            canvas.setStrokeColor(HexColor(PAPER))
            canvas.setLineWidth(text.size * _HALO_SHARE)
            canvas.setDash([], 0)
            canvas.setLineJoin(1)
            canvas.setFillColor(HexColor(PAPER))
            canvas.saveState()  # the render mode outlives its text object
            self._line(runs, -before, text.size, mode=2)
            canvas.restoreState()
        canvas.setFillColor(HexColor(style.fill or PAPER))
        self._line(runs, -before, text.size, mode=0)
        canvas.restoreState()

    def _line(self, runs: list[tuple[str, str]], x: float, size: float, *, mode: int) -> None:
        line = self._canvas.beginText(x, 0)
        line.setTextRenderMode(mode)
        for font, words in runs:
            line.setFont(font, size)
            line.textOut(words)
        self._canvas.drawText(line)

"""Water by month as bars, against the cap where there is one."""

from collections.abc import Iterator

from design.drawing.chart_frame import Axis, ChartFrame, round_axis
from design.drawing.options import DrawingOptions, Units
from design.drawing.shapes import Drawing, Group, Line, Polygon, Shape, Text
from hydraulics.units import from_si
from hydraulics.watering import MonthProgramme, WateringYear

# share of a month's width that its bar fills
_BAR_SHARE = 0.7
_MONTHS = 12


def watering_chart(year: WateringYear, cap_l: float | None, options: DrawingOptions) -> Drawing:
    """A bar for each month, m3 or US gallons; a dashed line at the cap; each bar tells its figure."""
    units = options.units
    highest = max([_value(month.litres, units) for month in year.months])
    top = max(highest, _value(cap_l, units) if cap_l else 0.0)
    # Room above the bars for their figures.
    axis = round_axis(f"Water, {_unit(units)} a month", 1.08 * top)
    height = options.max_height or options.width * 0.5
    frame = ChartFrame(options.width, height, options.text_size, Axis("", float(_MONTHS), 1.0), axis)
    groups = [
        Group("chart", tuple(_axes(frame)), kind="axes"),
        *(_bar(frame, place, month, units) for place, month in enumerate(year.months)),
    ]
    if cap_l:
        groups.append(_cap(frame, cap_l, units))
    words = f"{_words(year.litres, units)} a year"
    if year.peak:
        words += f", most in {year.peak.climate.name}: {_words(year.peak.litres, units)}"
    return Drawing(
        options.width,
        height,
        options.title,
        f"{words}.",
        tuple(groups),
        options.interactive,
        options.id_prefix,
    )


def _value(litres: float, units: Units) -> float:
    return from_si(litres, "volume", "gal" if units == "us" else "m3")


def _unit(units: Units) -> str:
    return "US gal" if units == "us" else "m³"


def _figure(litres: float, units: Units) -> str:
    value = _value(litres, units)
    return f"{value:,.0f}" if units == "us" else f"{value:.1f}"


def _words(litres: float, units: Units) -> str:
    return f"{_figure(litres, units)} {_unit(units)}"


def _axes(frame: ChartFrame) -> Iterator[Shape]:
    size = frame.size
    for step in range(round(frame.y.top / frame.y.step) + 1):
        x, y = frame.page(0, step * frame.y.step)
        yield Line(((x, y), (frame.right, y)), "grid")
        label = f"{step * frame.y.step:,g}"
        yield Text((x - size * 0.4, y + size * 0.32), label, "furniture-text", size * 0.9, "end")
    yield Line(((frame.left, frame.bottom), (frame.right, frame.bottom)), "axis")
    yield Text((size * 0.4, size * 1.2), frame.y.words, "furniture-text", size)


def _bar(frame: ChartFrame, place: int, month: MonthProgramme, units: Units) -> Group:
    left, right = (place + (1 - _BAR_SHARE) / 2, place + (1 + _BAR_SHARE) / 2)
    value = _value(month.litres, units)
    x0, top = frame.page(left, value)
    x1, bottom = frame.page(right, 0)
    middle, size = (x0 + x1) / 2, frame.size
    name = month.climate.name[:3]
    shapes: list[Shape] = [Text((middle, bottom + size * 1.4), name, "furniture-text", size * 0.9, "middle")]
    if value > 0:
        shapes.append(Polygon((((x0, top), (x1, top), (x1, bottom), (x0, bottom)),), "junction"))
        figure = _figure(month.litres, units)
        shapes.append(Text((middle, top - size * 0.4), figure, "label", size * 0.8, "middle"))
    title = f"{month.climate.name}: {_words(month.litres, units)}"
    return Group("chart", tuple(shapes), title, kind="bar")


def _cap(frame: ChartFrame, cap_l: float, units: Units) -> Group:
    value = _value(cap_l, units)
    start, end = frame.page(0, value), frame.page(frame.x.top, value)
    words = f"cap {_words(cap_l, units)}"
    label = Text(
        (start[0] + frame.size * 0.5, start[1] - frame.size * 0.4), words, "label-faint", frame.size * 0.9
    )
    return Group("chart", (Line((start, end), "design-line"), label), words, kind="cap")

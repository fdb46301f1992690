"""The supply curve with its design point, and the pressure along the way to the worst head."""

from dataclasses import dataclass
from itertools import pairwise
from math import dist

from design.document import BucketTest, GaugeTest, Plan
from design.report import CaseResult, CheckReport, SupplyResult
from hydraulics.catalogue import HeadPart

from .chart_frame import ChartFrame, axis_shapes, point_label, round_axis
from .labels import LabelSpace
from .measures import flow_value, flow_words, length_value, length_words, pressure_value, pressure_words
from .options import DrawingOptions, Units
from .shapes import XY, Circle, Drawing, Group, Line, Polygon, Shape, Text
from .supply_margin import band_group, spare_group

# Hazen–Williams exponent of flow, as in the report's supply curve.
_EXPONENT = 1.852
_STEPS = 48
_NEAR = 6.0  # text sizes: closer than this, one name is enough


@dataclass(frozen=True)
class Reading:
    flow_lpm: float
    kpa: float
    words: str


def supply_kpa(supply: SupplyResult, flow_lpm: float) -> float:
    """Pressure that the supply curve leaves at that flow."""
    return supply.static_kpa - supply.loss_coefficient * flow_lpm**_EXPONENT


def readings(plan: Plan) -> list[Reading]:
    """What was measured; a bucket stands at no pressure, since its tap runs wide open."""
    found = [Reading(0, plan.supply.static_kpa, "static")]
    for test in plan.supply.tests:
        if isinstance(test, BucketTest):
            found.append(Reading(test.litres / test.seconds * 60, 0, "bucket"))
        elif isinstance(test, GaugeTest):
            found.append(Reading(test.flow_lpm, test.residual_kpa, "gauge"))
        else:
            found.append(Reading(0, test.pressure_kpa, "static"))
    return found


def placed_readings(plan: Plan, report: CheckReport) -> list[Reading]:
    """The readings at the level of the connection, as the report has them, else as they were taken."""
    placed = [Reading(r.flow_lpm, r.kpa, r.kind) for r in report.supply.readings]
    return placed or readings(plan)


def supply_chart(plan: Plan, report: CheckReport, options: DrawingOptions | None = None) -> Drawing:
    """Supply curve, the readings it was fitted to, the design point, and what each case asks."""
    options = options or DrawingOptions(width=560, title="Water supply")
    supply, measured = report.supply, placed_readings(plan, report)
    flows = [r.flow_lpm for r in measured] + [c.flow_lpm for c in report.cases] + [supply.design_flow_lpm]
    kpas = [r.kpa for r in measured] + [supply.static_kpa] + [c.connection_kpa for c in report.cases]
    units = options.units
    frame = _frame(
        options, "Flow", "Pressure",
        flow_value(max(flows), units), pressure_value(max(kpas), units),
    )  # fmt: skip
    band = None if options.plain else band_group(frame, supply, units)
    spares = [] if options.plain else [spare_group(frame, case, units) for case in report.cases]
    groups = (
        *([band] if band else []),
        _group("axes", "", axis_shapes(frame)),
        _group("curve", "Supply curve", _curve(frame, supply, units)),
        *(spare for spare in spares if spare),
        *_marks(frame, measured, report, options),
    )
    words = f"Design flow {flow_words(supply.design_flow_lpm, units)} at "
    words += f"{pressure_words(supply_kpa(supply, supply.design_flow_lpm), units)}."
    return _finished(frame, options, words, groups)


def _finished(frame: ChartFrame, options: DrawingOptions, words: str, groups: tuple[Group, ...]) -> Drawing:
    return Drawing(
        frame.width, frame.height, options.title, words, groups, options.interactive, options.id_prefix
    )


def _frame(options: DrawingOptions, x_name: str, y_name: str, x_top: float, y_top: float) -> ChartFrame:
    us = options.units == "us"
    x_unit = ("US gal/min" if us else "L/min") if x_name == "Flow" else ("ft" if us else "m")
    height = options.max_height or options.width * 0.58
    x_axis = round_axis(f"{x_name}, {x_unit}", x_top)
    y_axis = round_axis(f"{y_name}, {'psi' if us else 'kPa'}", y_top)
    return ChartFrame(options.width, height, options.text_size, x_axis, y_axis)


def _group(kind: str, title: str, shapes: list[Shape]) -> Group:
    return Group("chart", tuple(shapes), title, kind=kind)


def _curve(frame: ChartFrame, supply: SupplyResult, units: Units) -> list[Shape]:
    points = _curve_points(frame, supply, units)
    return [Line(tuple(points), "curve")] if len(points) > 1 else []


def _curve_points(frame: ChartFrame, supply: SupplyResult, units: Units) -> list[XY]:
    points = []
    for i in range(_STEPS + 1):
        flow = frame.x.top * i / _STEPS
        flow_lpm = flow / flow_value(1.0, units)
        kpa = supply_kpa(supply, flow_lpm)
        if kpa < 0:
            break
        points.append(frame.page(flow, pressure_value(kpa, units)))
    return points


def _marks(
    frame: ChartFrame, measured: list[Reading], report: CheckReport, options: DrawingOptions
) -> list[Group]:
    units, plain = options.units, options.plain
    space, unit = frame.space(), frame.size / 12
    pen = _Pen(frame, space, units)
    supply = report.supply
    for point in _curve_points(frame, supply, units):
        space.block(point, 2 * unit)
    for case in () if plain else report.cases:
        for share in (0.0, 0.25, 0.5, 0.75, 1.0):
            space.block(pen.place(case.flow_lpm, case.connection_kpa - share * case.spare_kpa), 4 * unit)
    at = pen.place(supply.design_flow_lpm, max(supply_kpa(supply, supply.design_flow_lpm), 0))
    design: list[Shape] = [Line((at, (at[0], frame.bottom)), "design-line")]
    design.append(Polygon((_lozenge(at, 6 * unit),), "design-point"))
    for step in range(int((frame.bottom - at[1]) / frame.size)):
        space.block((at[0], at[1] + step * frame.size), frame.size * 0.3)
    words = f"design {flow_words(supply.design_flow_lpm, units)}"
    groups = [pen.group("design", words, words, at, design)]
    named: list[tuple[str, XY]] = []
    for reading in measured:
        at = pen.place(reading.flow_lpm, reading.kpa)
        figures = f"{pressure_words(reading.kpa, units)}, {flow_words(reading.flow_lpm, units)}"
        disc: list[Shape] = [Circle(at, 4.5 * unit, "reading")]
        again = any(words == reading.words and dist(at, spot) < _NEAR * frame.size for words, spot in named)
        named.append((reading.words, at))
        words = "" if again else reading.words
        groups.append(pen.group("reading", f"{reading.words} {figures}", words, at, disc))
    return groups + _demands(pen, report, plain)


def _demands(pen: "_Pen", report: CheckReport, plain: bool) -> list[Group]:
    """What each case takes, the busiest first; a case that stands close to a named one has only a title."""
    groups: list[Group] = []
    named: list[XY] = []
    unit = pen.frame.size / 12
    for case in sorted(report.cases, key=lambda c: -c.flow_lpm):
        at = pen.place(case.flow_lpm, case.connection_kpa)
        figures = (
            f"{flow_words(case.flow_lpm, pen.units)} at {pressure_words(case.connection_kpa, pen.units)}"
        )
        box: list[Shape] = [Polygon((_box(at, 4 * unit),), "demand")]
        crowded = any(dist(at, spot) < _NEAR * pen.frame.size for spot in named)
        words = "" if crowded or (plain and named) else "at its busiest" if plain else case.label
        named += [at] if words else []
        groups.append(pen.group("demand", f"{case.label}: {figures}", words, at, box))
    return groups


@dataclass(frozen=True)
class _Pen:
    frame: ChartFrame
    space: LabelSpace
    units: Units

    def place(self, flow_lpm: float, kpa: float) -> XY:
        return self.frame.page(flow_value(flow_lpm, self.units), pressure_value(kpa, self.units))

    def group(self, kind: str, title: str, words: str, at: XY, shapes: list[Shape]) -> Group:
        """A symbol with its words beside it."""
        self.space.block(at, self.frame.size * 0.45)
        label = point_label(self.space, at, words, self.frame.size) if words else []
        return _group(kind, title, shapes + label)


def _lozenge(at: XY, half: float) -> tuple[XY, ...]:
    x, y = at
    return ((x, y - half), (x + half, y), (x, y + half), (x - half, y))


def _box(at: XY, half: float) -> tuple[XY, ...]:
    x, y = at
    return ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))


def pressure_path_chart(
    plan: Plan, report: CheckReport, case_label: str, options: DrawingOptions | None = None
) -> Drawing | None:
    """Pressure from the supply to the worst head of a case; none when the case has no such path."""
    case = next((c for c in report.cases if c.label == case_label), None)
    stations = _stations(plan, report, case) if case else []
    if case is None or len(stations) < 2:
        return None
    options = options or DrawingOptions(width=560, title=f"Pressure on the way to {case.worst_head}")
    units = options.units
    highest = max(kpa for _, _, kpa in stations)
    frame = _frame(
        options, "Distance along the pipe", "Pressure",
        length_value(stations[-1][1], units) or 1.0, pressure_value(highest, units),
    )  # fmt: skip
    groups = [_group("axes", "", axis_shapes(frame)), *_path_groups(frame, stations, units)]
    groups += _least_needed(frame, plan, case, options)
    words = f"From {pressure_words(stations[0][2], units)} at {stations[0][0]} to "
    words += f"{pressure_words(stations[-1][2], units)} at {stations[-1][0]}."
    return _finished(frame, options, words, tuple(groups))


def _stations(plan: Plan, report: CheckReport, case: CaseResult) -> list[tuple[str, float, float]]:
    """Node, metres of pipe from the first one, and pressure."""
    lengths = {p.id: p.length_m for p in report.pipes}
    between = {frozenset((p.from_, p.to)): lengths.get(p.id, 0.0) for p in plan.layout.pipes}
    path = [node for node in case.worst_path if node in case.node_kpa]
    run, stations = 0.0, []
    for before, node in pairwise((None, *path)):
        if node is None:
            continue
        run += between.get(frozenset((before or node, node)), 0.0)
        stations.append((node, run, case.node_kpa[node]))
    return stations


def _path_groups(frame: ChartFrame, stations: list[tuple[str, float, float]], units: Units) -> list[Group]:
    space, unit = frame.space(), frame.size / 12
    places = [frame.page(length_value(m, units), pressure_value(kpa, units)) for _, m, kpa in stations]
    groups = [_group("path", "", [Line(tuple(places), "path-pressure")])]
    for at in places:
        space.block(at, 4 * unit)
    for at, (node, run, kpa) in zip(places, stations, strict=True):
        words = f"{node}: {pressure_words(kpa, units)} after {length_words(run, units)}"
        label = point_label(space, at, node, frame.size)
        groups.append(_group("station", words, [Circle(at, 3.5 * unit, "path-point"), *label]))
    return groups


def _least_needed(frame: ChartFrame, plan: Plan, case: CaseResult, options: DrawingOptions) -> list[Group]:
    """The least pressure that the worst head's part works at."""
    node = next((n for n in plan.layout.nodes if n.id == case.worst_head), None)
    part = options.parts.get(getattr(node, "part", ""))
    if not isinstance(part, HeadPart):
        return []
    y = pressure_value(part.min_kpa, options.units)
    start, end = frame.page(0, y), frame.page(frame.x.top, y)
    words = f"least for {part.label}: {pressure_words(part.min_kpa, options.units)}"
    label = Text(
        (start[0] + frame.size * 0.6, start[1] + frame.size * 1.3), words, "label-faint", frame.size * 0.9
    )
    return [_group("least", words, [Line((start, end), "design-line"), label])]

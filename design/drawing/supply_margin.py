"""What the supply chart says about doubt and margin: the band round the curve, and what each case spares."""

from design.report import CaseResult, SupplyResult

from .chart_frame import ChartFrame
from .measures import flow_value, pressure_value, pressure_words
from .options import Units
from .shapes import XY, Group, Line, Polygon


def band_group(frame: ChartFrame, supply: SupplyResult, units: Units) -> Group | None:
    """The band within which the curve lies at about 95 %; none where nothing can be said."""
    inside = [point for point in supply.band if flow_value(point.flow_lpm, units) <= frame.x.top]
    if len(inside) < 2:
        return None

    def place(flow_lpm: float, kpa: float) -> XY:
        shown = min(max(pressure_value(kpa, units), 0.0), frame.y.top)
        return frame.page(flow_value(flow_lpm, units), shown)

    upper = [place(point.flow_lpm, point.high_kpa) for point in inside]
    lower = [place(point.flow_lpm, point.low_kpa) for point in reversed(inside)]
    title = "Within this band the supply lies, by what gauge and bucket can tell"
    return Group("chart", (Polygon(((*upper, *lower),), "band"),), title, kind="band")


def spare_group(frame: ChartFrame, case: CaseResult, units: Units) -> Group | None:
    """From what a case has at the connection down to what it needs; none where nothing is spare."""
    needed_kpa = case.connection_kpa - case.spare_kpa
    if case.spare_kpa <= 0 or needed_kpa < 0:
        return None
    flow = flow_value(case.flow_lpm, units)
    ends = (
        frame.page(flow, pressure_value(case.connection_kpa, units)),
        frame.page(flow, pressure_value(needed_kpa, units)),
    )
    title = f"{case.label}: {pressure_words(case.spare_kpa, units)} to spare"
    return Group("chart", (Line(ends, "spare"),), title, kind="spare")

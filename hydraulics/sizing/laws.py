"""Loss of a link as a function of its flow, and straight lines that enclose a curve.

Lines are (slope, offset). Between the two ends of an interval every line of ``lines_below`` lies
on or below the curve, and every line of ``lines_above`` on or above it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from hydraulics.emission import flow_by_rows, outlet_law
from hydraulics.friction import FLOW_EXPONENT, hazen_williams_resistance, minor_resistance
from hydraulics.network import CurveLink, Emitter, Link, PipeLink, PowerLink, Source
from hydraulics.sizing.task import SizingError

Line = tuple[float, float]
# an interval narrower than this share of its end counts as a point
POINT = 1e-9


@dataclass(frozen=True, slots=True)
class SmoothLoss:
    """loss_kpa = r q**n + m q**2 for a flow q >= 0, with n of 1 or more: convex."""

    r: float
    n: float
    m: float = 0.0

    def kpa(self, lpm: float) -> float:
        return self.r * lpm**self.n + self.m * lpm**2

    def slope(self, lpm: float) -> float:
        return self.r * self.n * lpm ** (self.n - 1) + 2 * self.m * lpm

    def tangent(self, lpm: float) -> Line:
        slope = self.slope(lpm)
        return slope, self.kpa(lpm) - slope * lpm

    def lines_below(self, low: float, high: float, count: int) -> list[Line]:
        step = (high - low) / max(count - 1, 1)
        return [self.tangent(low + place * step) for place in range(count)]

    def lines_above(self, low: float, high: float) -> list[Line]:
        return [_through((low, self.kpa(low)), (high, self.kpa(high)))]


@dataclass(frozen=True, slots=True)
class CurveLoss:
    """Piecewise linear through (0, 0) and the rows, straight on beyond the last."""

    rows: tuple[tuple[float, float], ...]

    def kpa(self, lpm: float) -> float:
        points = ((0.0, 0.0), *self.rows)
        place = next((i for i, (flow, _) in enumerate(self.rows) if lpm <= flow), len(self.rows) - 1)
        slope, offset = _through(points[place], points[place + 1])
        return slope * lpm + offset

    def lines_below(self, low: float, high: float, count: int) -> list[Line]:
        return _hull(self._points(low, high), sign=1)

    def lines_above(self, low: float, high: float) -> list[Line]:
        return _hull(self._points(low, high), sign=-1)

    def _points(self, low: float, high: float) -> list[tuple[float, float]]:
        bends = [flow for flow, _ in self.rows if low < flow < high]
        return [(flow, self.kpa(flow)) for flow in (low, *bends, high)]


Loss = SmoothLoss | CurveLoss


@dataclass(frozen=True, slots=True)
class Outflow:
    """flow_lpm = k min(p, held)**x of a pressure p >= 0, with x up to 1: concave.

    With ``rows`` of (flow_lpm, pressure_kpa) it is straight through (0, 0) and the rows instead.
    """

    k: float
    x: float
    held_kpa: float | None
    rows: tuple[tuple[float, float], ...] = ()

    def lpm(self, kpa: float) -> float:
        acting = max(min(kpa, self.held_kpa or kpa), 0.0)
        return flow_by_rows(self.rows, acting) if self.rows else self.k * acting**self.x

    def lines_above(self, low: float, high: float, count: int) -> list[Line]:
        """Flow against pressure."""
        if self.rows:
            return _hull(self._points(low, high), sign=-1)
        end = min(high, self.held_kpa or high)
        found = [(0.0, self.lpm(high))] if end < high else []
        for place in range(count):
            kpa = low + (end - low) * place / max(count - 1, 1)
            if kpa > 0:
                slope = self.k * self.x * kpa ** (self.x - 1)
                found.append((slope, self.k * kpa**self.x - slope * kpa))
        return found

    def lines_below(self, low: float, high: float) -> list[Line]:
        if self.rows:
            return _hull(self._points(low, high), sign=1)
        return [_through((low, self.lpm(low)), (high, self.lpm(high)))]

    def _points(self, low: float, high: float) -> list[tuple[float, float]]:
        bends = [*(p for _, p in self.rows), *((self.held_kpa,) if self.held_kpa else ())]
        inside = sorted({p for p in bends if low < p < high})
        return [(p, self.lpm(p)) for p in (low, *inside, high)]


def pipe_loss(pipe: PipeLink, bore_mm: float, c: float) -> SmoothLoss:
    r = hazen_williams_resistance(pipe.length_m, bore_mm, c)
    return SmoothLoss(r, FLOW_EXPONENT, minor_resistance(pipe.minor_k, bore_mm))


def link_loss(link: Link) -> Loss:
    if isinstance(link, PipeLink):
        return pipe_loss(link, link.bore_mm, link.c)
    if isinstance(link, CurveLink):
        return CurveLoss(link.rows)
    if isinstance(link, PowerLink):
        return SmoothLoss(link.coefficient, link.exponent)
    raise SizingError(f"“{link.id}” is of a kind for which pipe sizes cannot be worked out yet")


def source_loss(source: Source) -> SmoothLoss:
    return SmoothLoss(source.loss_coefficient, source.exponent)


def outflow(emitter: Emitter, highest_kpa: float) -> Outflow:
    """As the solver has it: what is no power law from 0.05 to 1 becomes rows, up to that pressure twice."""
    law = outlet_law(emitter, highest_kpa)
    return Outflow(law.coefficient, law.exponent, law.regulated_kpa, law.rows)


def is_point(low: float, high: float) -> bool:
    return high - low <= POINT * max(abs(high), 1.0)


def _through(a: tuple[float, float], b: tuple[float, float]) -> Line:
    if b[0] - a[0] <= 0:
        return 0.0, a[1]
    slope = (b[1] - a[1]) / (b[0] - a[0])
    return slope, a[1] - slope * a[0]


def _hull(points: Sequence[tuple[float, float]], sign: int) -> list[Line]:
    """Sides of the lower (sign 1) or upper (sign -1) hull of points that rise in x."""
    kept: list[tuple[float, float]] = []
    for point in points:
        while len(kept) > 1 and sign * _turn(kept[-2], kept[-1], point) <= 0:
            kept.pop()
        kept.append(point)
    return [_through(a, b) for a, b in pairwise(kept)]


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

"""How much water leaves a head or a drip area at a pressure: q = K min(p, p_regulated)**x, or its rows."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from hydraulics.catalogue import DripPart, HeadPart, PerformanceRow
from hydraulics.emission import flow_by_rows

# Torricelli: flow from a fixed opening goes with the root of the pressure
ROOT = 0.5
# below this fitted exponent the flow is held by the head itself, whatever the pressure
HELD_EXPONENT = 0.05
# rows that one K and x miss by more than this share of flow are followed row by row
FIT_SHARE = 0.01
# pressures between two rows at which the flow is worked out, so that a straight line serves there
_PIECES = 6
# least rise of flow from one point to the next, as the solver needs some
_LEAST_RISE = 1e-4

Points = tuple[tuple[float, float], ...]  # (flow in L/min, pressure in kPa)


@dataclass(frozen=True)
class EmitterLaw:
    """flow_lpm = coefficient * min(pressure_kpa, regulated_kpa)**exponent; none below zero.

    With ``rows`` of (flow, kPa) the flow is straight between them and on beyond the last; the
    coefficient and the exponent are then no more than the best fit.
    """

    coefficient: float
    exponent: float
    regulated_kpa: float | None = None
    rows: Points = ()

    def flow_lpm(self, pressure_kpa: float) -> float:
        pressure = max(min(pressure_kpa, self.regulated_kpa or pressure_kpa), 0.0)
        if self.rows:
            return flow_by_rows(self.rows, pressure)
        return self.coefficient * pressure**self.exponent

    def scaled(self, factor: float) -> "EmitterLaw":
        rows = tuple((flow * factor, kpa) for flow, kpa in self.rows)
        return EmitterLaw(self.coefficient * factor, self.exponent, self.regulated_kpa, rows)


def rows_law(rows: Sequence[PerformanceRow], regulated_kpa: float | None = None) -> EmitterLaw:
    """The law of a head: one K and x where that meets every row within 1 %, else the rows.

    Between two rows the flow goes with the power of the pressure that joins them, below the
    first with its root, beyond the last as between the last two. Flow that stops rising is
    held; rows in which it falls again are taken as held too.
    """
    law = fit_law(rows, regulated_kpa)
    used = sorted(_used(rows, regulated_kpa), key=lambda row: row.pressure_kpa)
    misses = (abs(law.flow_lpm(row.pressure_kpa) / row.flow_lpm - 1) for row in used)
    if len(used) < 2 or max(misses) <= FIT_SHARE:
        return law
    pairs = _rising([(row.pressure_kpa, row.flow_lpm) for row in used])
    held_kpa = pairs[-1][0] if pairs[-1][0] < used[-1].pressure_kpa else None
    regulated = min((kpa for kpa in (held_kpa, regulated_kpa) if kpa is not None), default=None)
    return EmitterLaw(law.coefficient, law.exponent, regulated, tuple(_points(pairs)))


def _used(rows: Sequence[PerformanceRow], regulated_kpa: float | None) -> list[PerformanceRow]:
    """Rows above the regulator say nothing new, unless there are no others."""
    return [row for row in rows if regulated_kpa is None or row.pressure_kpa <= regulated_kpa] or list(rows)


def _rising(pairs: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Pressure and flow, without rows at which the flow does not rise any more; one inside stays level."""
    last = max(range(len(pairs)), key=lambda i: (pairs[i][1], -i))
    found = [pairs[0]]
    for pressure, flow in pairs[1 : last + 1]:
        found.append((pressure, max(flow, found[-1][1] * (1 + _LEAST_RISE))))
    return found


def _points(pairs: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Flow and pressure along the powers that join the rows, from a tenth of the first pressure up."""
    first_kpa, first_lpm = pairs[0]
    for share in (0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8):
        yield first_lpm * share**ROOT, first_kpa * share
    yield first_lpm, first_kpa
    for (p1, q1), (p2, q2) in pairwise([*pairs, *_beyond(pairs)]):
        exponent = math.log(q2 / q1) / math.log(p2 / p1)
        for step in range(1, _PIECES + 1):
            pressure = p1 + (p2 - p1) * step / _PIECES
            yield q1 * (pressure / p1) ** exponent, pressure


def _beyond(pairs: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """One more pair at twice the last pressure, as the last two go on; none after a single row."""
    if len(pairs) > 1:
        (p1, q1), (p2, q2) = pairs[-2:]
        yield 2 * p2, q2 * 2 ** (math.log(q2 / q1) / math.log(p2 / p1))


def fit_law(rows: Sequence[PerformanceRow], regulated_kpa: float | None = None) -> EmitterLaw:
    """K and x by least squares on the logarithms of pressure and flow.

    One row gives x = 0.5. Rows above ``regulated_kpa`` say nothing new and are left out,
    unless there are no others. Rows of equal flow mean a head that holds its flow: it is
    taken as regulated at its lowest row, and as an opening below. x is kept within 1.
    """
    used = _used(rows, regulated_kpa)
    logs = [(math.log(row.pressure_kpa), math.log(row.flow_lpm)) for row in used]
    mean_p = sum(p for p, _ in logs) / len(logs)
    mean_q = sum(q for _, q in logs) / len(logs)
    spread = sum((p - mean_p) ** 2 for p, _ in logs)
    x = sum((p - mean_p) * (q - mean_q) for p, q in logs) / spread if spread > 0 else ROOT
    if x < HELD_EXPONENT:
        held_kpa = min(row.pressure_kpa for row in used)
        held_kpa = min(held_kpa, regulated_kpa or held_kpa)
        return EmitterLaw(math.exp(mean_q) / held_kpa**ROOT, ROOT, held_kpa)
    x = min(x, 1.0)
    return EmitterLaw(math.exp(mean_q - x * mean_p), x, regulated_kpa)


def head_law(part: HeadPart, sweep_deg: float = 360.0) -> EmitterLaw:
    """Law of a head set to that arc, in degrees."""
    law = rows_law(part.rows, part.regulated_kpa)
    return law.scaled(sweep_deg / 360.0) if part.flow_scales_with_arc else law


def drip_law(part: DripPart, emitter_count: int) -> EmitterLaw:
    """Law of a drip area: constant from ``min_kpa`` up, with the root of the pressure below.

    Emitters that do not compensate follow their exponent throughout.
    """
    full_lpm = emitter_count * part.emitter_lph / 60.0
    if part.emitter_exponent > 0:
        exponent = part.emitter_exponent
        return EmitterLaw(full_lpm / part.nominal_kpa**exponent, exponent)
    return EmitterLaw(full_lpm / part.min_kpa**ROOT, ROOT, part.min_kpa)


def precipitation_mm_per_hour(flow_lpm: float, area_m2: float) -> float:
    """60 L/min per m2, as L/m2 is mm. NMSU Soils 456 has it as 96.3 gpm/ft2 in in/h."""
    return 60.0 * flow_lpm / area_m2

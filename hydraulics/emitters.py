"""How much water leaves a head or a drip area at a pressure: q = K min(p, p_regulated)**x."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.catalogue import DripPart, HeadPart, PerformanceRow

# Torricelli: flow from a fixed opening goes with the root of the pressure
ROOT = 0.5
# below this fitted exponent the flow is held by the head itself, whatever the pressure
HELD_EXPONENT = 0.05


@dataclass(frozen=True)
class EmitterLaw:
    """flow_lpm = coefficient * min(pressure_kpa, regulated_kpa)**exponent; none below zero."""

    coefficient: float
    exponent: float
    regulated_kpa: float | None = None

    def flow_lpm(self, pressure_kpa: float) -> float:
        pressure = min(pressure_kpa, self.regulated_kpa or pressure_kpa)
        return self.coefficient * max(pressure, 0.0) ** self.exponent

    def scaled(self, factor: float) -> "EmitterLaw":
        return EmitterLaw(self.coefficient * factor, self.exponent, self.regulated_kpa)


def fit_law(rows: Sequence[PerformanceRow], regulated_kpa: float | None = None) -> EmitterLaw:
    """K and x by least squares on the logarithms of pressure and flow.

    One row gives x = 0.5. Rows above ``regulated_kpa`` say nothing new and are left out,
    unless there are no others. Rows of equal flow mean a head that holds its flow: it is
    taken as regulated at its lowest row, and as an opening below. x is kept within 1.
    """
    used = [row for row in rows if regulated_kpa is None or row.pressure_kpa <= regulated_kpa] or list(rows)
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
    law = fit_law(part.rows, part.regulated_kpa)
    return law.scaled(sweep_deg / 360.0) if part.flow_scales_with_arc else law


def drip_law(part: DripPart, emitter_count: int) -> EmitterLaw:
    """Law of a drip area: constant from ``min_kpa`` up, with the root of the pressure below."""
    full_lpm = emitter_count * part.emitter_lph / 60.0
    return EmitterLaw(full_lpm / part.min_kpa**ROOT, ROOT, part.min_kpa)


def precipitation_mm_per_hour(flow_lpm: float, area_m2: float) -> float:
    """60 L/min per m2, as L/m2 is mm. NMSU Soils 456 has it as 96.3 gpm/ft2 in in/h."""
    return 60.0 * flow_lpm / area_m2

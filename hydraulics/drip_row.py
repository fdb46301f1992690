"""One row of drip line: what it loses, what its last emitter gets, and how long it may be.

Emitters stand one spacing apart, the first a full spacing from the inlet, and the row ends at
the last. Losses where emitters narrow the line are not counted; the header that feeds the rows
is the plan's own pipe.
"""

import math
from dataclasses import dataclass

from hydraulics.catalogue import DripPart
from hydraulics.friction import (
    FLOW_EXPONENT,
    christiansen_factor,
    hazen_williams_kpa,
    hazen_williams_resistance,
)
from hydraulics.units import KPA_PER_M

# no row is looked at beyond this many emitters
MOST_EMITTERS = 5000
_HALVINGS = 60


@dataclass(frozen=True)
class RowEnd:
    """What the far end of a row gets, and the flow of its weakest emitter below its strongest."""

    end_kpa: float
    flow_lpm: float
    variation_pct: float


def outlet_loss_kpa(part: DripPart, emitters: int, emitter_lpm: float) -> float:
    """Loss along a row of equal outlets, segment by segment: R q**m times the sum of k**m.

    The exact sum that Christiansen's factor stands for.
    """
    segment = hazen_williams_resistance(part.emitter_spacing_m, part.bore_mm, part.hazen_williams_c)
    steps = sum(k**FLOW_EXPONENT for k in range(1, emitters + 1))
    return segment * emitter_lpm**FLOW_EXPONENT * steps


def outlet_loss_by_factor_kpa(part: DripPart, emitters: int, emitter_lpm: float) -> float:
    """The same by Christiansen: the loss of the whole flow over the whole length, times F."""
    length = emitters * part.emitter_spacing_m
    whole = hazen_williams_kpa(emitters * emitter_lpm, length, part.bore_mm, part.hazen_williams_c)
    return christiansen_factor(emitters) * whole


def row_end(part: DripPart, emitters: int, inlet_kpa: float, fall_m: float = 0.0) -> RowEnd:
    """The row at that inlet pressure; ``fall_m`` is how far its end lies below its inlet."""
    if emitters < 1:
        return RowEnd(inlet_kpa, 0.0, 0.0)
    lift_kpa = KPA_PER_M * fall_m / emitters
    high = max(inlet_kpa + max(lift_kpa, 0.0) * emitters, 0.0)
    low = 0.0
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if _inlet_for(part, emitters, middle, lift_kpa)[0] > inlet_kpa:
            high = middle
        else:
            low = middle
    _, flow, weakest, strongest = _inlet_for(part, emitters, low, lift_kpa)
    variation = 100 * (1 - weakest / strongest) if strongest > 0 else 0.0
    return RowEnd(low, flow, variation)


def longest_row_m(part: DripPart, inlet_kpa: float, variation_pct: float, fall_m_per_m: float = 0.0) -> float:
    """The longest row whose last emitter has its least pressure and whose flows keep within that share."""

    def holds(emitters: int) -> bool:
        fall_m = fall_m_per_m * emitters * part.emitter_spacing_m
        found = row_end(part, emitters, inlet_kpa, fall_m)
        return found.end_kpa >= part.min_kpa - 1e-6 and found.variation_pct <= variation_pct + 1e-6

    if fall_m_per_m == 0:
        count = _longest_on_the_level(part, inlet_kpa, variation_pct)
        while part.emitter_exponent > 0 and count < MOST_EMITTERS and holds(count + 1):
            count += 1
        return count * part.emitter_spacing_m
    if not holds(1):
        return 0.0
    low, high = 1, 2
    while high < MOST_EMITTERS and holds(high):
        low, high = high, 2 * high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low * part.emitter_spacing_m


def _longest_on_the_level(part: DripPart, inlet_kpa: float, variation_pct: float) -> int:
    """Emitters, counted from an end that has just enough; one pass.

    For emitters that do not compensate the first one is taken to have the pressure of the inlet,
    which may leave out the last emitter or two.
    """
    end_kpa = part.min_kpa
    if part.emitter_exponent > 0:
        share = (1 - variation_pct / 100) ** (1 / part.emitter_exponent)
        end_kpa = max(end_kpa, share * inlet_kpa)
    segment = hazen_williams_resistance(part.emitter_spacing_m, part.bore_mm, part.hazen_williams_c)
    pressure, flow, count = end_kpa, 0.0, 0
    while count < MOST_EMITTERS:
        flow += emitter_lpm(part, pressure)
        pressure += segment * flow**FLOW_EXPONENT
        if pressure > inlet_kpa + 1e-6:
            break
        count += 1
    return count


def emitter_lpm(part: DripPart, pressure_kpa: float) -> float:
    """Flow of one emitter. Compensated ones hold theirs, and below their least follow the root."""
    nominal = part.emitter_lph / 60.0
    if part.emitter_exponent == 0:
        return nominal * math.sqrt(min(max(pressure_kpa, 0.0) / part.min_kpa, 1.0))
    return float(nominal * (max(pressure_kpa, 0.0) / part.nominal_kpa) ** part.emitter_exponent)


def _inlet_for(
    part: DripPart, emitters: int, end_kpa: float, lift_kpa: float
) -> tuple[float, float, float, float]:
    """From the end back: inlet pressure, flow of the row, weakest and strongest emitter."""
    segment = hazen_williams_resistance(part.emitter_spacing_m, part.bore_mm, part.hazen_williams_c)
    pressure, flow = end_kpa, 0.0
    weakest, strongest = math.inf, 0.0
    for _ in range(emitters):
        one = emitter_lpm(part, pressure)
        weakest, strongest = min(weakest, one), max(strongest, one)
        flow += one
        pressure += segment * flow**FLOW_EXPONENT - lift_kpa
    return pressure, flow, weakest, strongest

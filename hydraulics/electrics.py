"""Control cables: resistance of copper, voltage at a coil, load on the transformer."""

from collections.abc import Sequence
from dataclasses import dataclass

# IEC 60028: resistivity of annealed copper at 20 °C is 1/58 ohm mm2/m, coefficient 0.00393 per K
COPPER_OHM_MM2_PER_M = 1 / 58
COPPER_PER_KELVIN = 0.00393
REFERENCE_C = 20.0


@dataclass(frozen=True)
class WireLeg:
    """A stretch of cable towards a valve: length, one conductor's ohm per km at 20 °C, and the current."""

    length_m: float
    ohm_per_km: float
    amp: float


def copper_ohm_per_km(conductor_mm2: float, temperature_c: float = REFERENCE_C) -> float:
    """Resistance of one solid copper conductor; strands and tolerance add up to 5 %."""
    return 1000 * COPPER_OHM_MM2_PER_M / conductor_mm2 * at_temperature(1.0, temperature_c)


def at_temperature(ohm_at_20_c: float, temperature_c: float) -> float:
    """Copper resistance at another temperature. At 75 °C it is 1.216 times that at 20 °C."""
    return ohm_at_20_c * (1 + COPPER_PER_KELVIN * (temperature_c - REFERENCE_C))


def voltage_drop(legs: Sequence[WireLeg]) -> float:
    """Volts lost on the way out and back through the legs in a row."""
    return sum(2 * leg.length_m / 1000 * leg.ohm_per_km * leg.amp for leg in legs)


def coil_volt(source_volt: float, legs: Sequence[WireLeg]) -> float:
    """Volts left at the coil, never below zero."""
    return max(source_volt - voltage_drop(legs), 0.0)


def transformer_load_va(volt: float, coils: Sequence[tuple[float, float]]) -> float:
    """VA while coils of (holding, inrush) ampere open one after another: all hold, the last starts."""
    holding = sum(hold for hold, _ in coils)
    starting = max((inrush - hold for hold, inrush in coils), default=0.0)
    return volt * (holding + max(starting, 0.0))

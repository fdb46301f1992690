"""Air: pressure, vapour and wind, as FAO-56 takes them.

Source of every formula here: Allen, Pereira, Raes, Smith (1998), *Crop evapotranspiration*, FAO
Irrigation and Drainage Paper 56, chapters 2 and 3; the equation's number stands beside each.
Temperatures are °C, pressures kPa, heights m.
"""

import math

from hydraulics.errors import HydraulicsError


class BadWeather(HydraulicsError):
    """A weather figure lies outside what the formulas hold for; the message says which."""


def air_pressure_kpa(altitude_m: float) -> float:
    """Mean pressure at a height above the sea, eq. 7. At 1800 m: 81.8 kPa."""
    return 101.3 * ((293 - 0.0065 * altitude_m) / 293) ** 5.26


def psychrometric_kpa_per_c(pressure_kpa: float) -> float:
    """Psychrometric constant, eq. 8. At 81.8 kPa: 0.054."""
    return 0.000665 * pressure_kpa


def saturation_kpa(air_c: float) -> float:
    """Vapour pressure of saturated air, eq. 11. At 24.5 °C: 3.075 kPa."""
    return 0.6108 * math.exp(17.27 * air_c / (air_c + 237.3))


def mean_saturation_kpa(low_c: float, high_c: float) -> float:
    """Mean of both ends, eq. 12: one value at the mean temperature would be too low."""
    return (saturation_kpa(low_c) + saturation_kpa(high_c)) / 2


def saturation_slope_kpa_per_c(air_c: float) -> float:
    """Slope of the saturation curve, eq. 13."""
    return 4098 * saturation_kpa(air_c) / (air_c + 237.3) ** 2


def vapour_from_humidity_kpa(low_c: float, high_c: float, driest_pct: float, dampest_pct: float) -> float:
    """Actual vapour pressure from the day's relative humidities, eq. 17.

    The dampest hour goes with the lowest temperature. 18 °C at 82 % and 25 °C at 54 %: 1.70 kPa.
    """
    if not 0 <= driest_pct <= dampest_pct <= 100:
        raise BadWeather("relative humidity must lie between 0 and 100 %, the driest below the dampest")
    return (saturation_kpa(low_c) * dampest_pct + saturation_kpa(high_c) * driest_pct) / 200


def vapour_from_mean_humidity_kpa(low_c: float, high_c: float, mean_pct: float) -> float:
    """Actual vapour pressure where only the mean humidity is known, eq. 19."""
    if not 0 <= mean_pct <= 100:
        raise BadWeather("relative humidity must lie between 0 and 100 %")
    return mean_pct / 100 * mean_saturation_kpa(low_c, high_c)


def wind_at_2_m(wind_mps: float, height_m: float) -> float:
    """Wind as a gauge 2 m above short grass would read it, eq. 47. 2.78 m/s at 10 m: 2.08 m/s.

    Holds for gauges above 0.5 m, where the logarithm stays well above zero.
    """
    if height_m < 0.5:
        raise BadWeather("the wind gauge must stand at least 0.5 m above the ground")
    return wind_mps * 4.87 / math.log(67.8 * height_m - 5.42)

"""Reference evapotranspiration: the water that a short, well watered grass gives to the air.

FAO Penman-Monteith for a day or for the mean day of a month, with every step kept, and
Hargreaves where only temperatures are known. Source: Allen, Pereira, Raes, Smith (1998), *Crop
evapotranspiration*, FAO Irrigation and Drainage Paper 56, eq. 6 (Penman-Monteith), 43 and 44
(soil heat), 52 (Hargreaves).
"""

import math
from dataclasses import dataclass

from hydraulics.watering.air import (
    BadWeather,
    air_pressure_kpa,
    mean_saturation_kpa,
    psychrometric_kpa_per_c,
    saturation_slope_kpa_per_c,
)
from hydraulics.watering.sunlight import (
    clear_sky,
    daylight_hours,
    extraterrestrial,
    net_long_wave,
    net_short_wave,
    solar,
)

# FAO-56, eq. 20: mm of water that 1 MJ/m2 turns to vapour
MM_PER_MJ = 0.408


@dataclass(frozen=True)
class Weather:
    """A day, or the mean day of a month, at one place.

    ``wind_mps`` is at 2 m above the ground. For a month ``day_of_year`` is its middle, and
    ``soil_heat_mj`` comes from ``monthly_soil_heat``; for a single day it is 0 (eq. 42).
    """

    latitude_deg: float
    altitude_m: float
    day_of_year: int
    low_c: float
    high_c: float
    vapour_kpa: float
    wind_mps: float
    sunshine_hours: float
    soil_heat_mj: float = 0.0

    def __post_init__(self) -> None:
        for name, least, most in _RANGES:
            value = getattr(self, name)
            if not (math.isfinite(value) and least <= value <= most):
                words = name.rpartition("_")[0].replace("_", " ")
                raise BadWeather(f"{words} of {value} is outside {least:g} to {most:g}")
        if self.low_c > self.high_c:
            raise BadWeather("the lowest temperature is above the highest; swap them")


# generous ends of what weather stations read; from memory
_RANGES = (
    ("latitude_deg", -90, 90), ("altitude_m", -450, 6000), ("day_of_year", 1, 366), ("low_c", -60, 60),
    ("high_c", -60, 60), ("vapour_kpa", 0, 8), ("wind_mps", 0, 40), ("sunshine_hours", 0, 24),
    ("soil_heat_mj", -20, 20),
)  # fmt: skip


@dataclass(frozen=True)
class ReferenceEt:
    """The result in mm a day with all steps. Radiation in MJ/m2 a day, pressures in kPa."""

    slope_kpa_per_c: float
    pressure_kpa: float
    psychrometric_kpa_per_c: float
    saturation_kpa: float
    vapour_kpa: float
    extraterrestrial_mj: float
    daylight_hours: float
    solar_mj: float
    clear_sky_mj: float
    net_short_wave_mj: float
    net_long_wave_mj: float
    soil_heat_mj: float
    mm_per_day: float

    @property
    def net_mj(self) -> float:
        return self.net_short_wave_mj - self.net_long_wave_mj


def reference_et(weather: Weather) -> ReferenceEt:
    """FAO Penman-Monteith, eq. 6; never below zero, since dew is no water to be applied."""
    mean_c = (weather.low_c + weather.high_c) / 2
    slope = saturation_slope_kpa_per_c(mean_c)
    pressure = air_pressure_kpa(weather.altitude_m)
    psychrometric = psychrometric_kpa_per_c(pressure)
    saturation = mean_saturation_kpa(weather.low_c, weather.high_c)
    top = extraterrestrial(weather.latitude_deg, weather.day_of_year)
    daylight = daylight_hours(weather.latitude_deg, weather.day_of_year)
    at_ground, clear = solar(top, weather.sunshine_hours, daylight), clear_sky(top, weather.altitude_m)
    short = net_short_wave(at_ground)
    long = net_long_wave((weather.low_c, weather.high_c), weather.vapour_kpa, at_ground, clear)
    energy = MM_PER_MJ * slope * (short - long - weather.soil_heat_mj)
    drying = saturation - weather.vapour_kpa
    wind = psychrometric * 900 / (mean_c + 273) * weather.wind_mps * drying
    mm = (energy + wind) / (slope + psychrometric * (1 + 0.34 * weather.wind_mps))
    return ReferenceEt(
        slope_kpa_per_c=slope,
        pressure_kpa=pressure,
        psychrometric_kpa_per_c=psychrometric,
        saturation_kpa=saturation,
        vapour_kpa=weather.vapour_kpa,
        extraterrestrial_mj=top,
        daylight_hours=daylight,
        solar_mj=at_ground,
        clear_sky_mj=clear,
        net_short_wave_mj=short,
        net_long_wave_mj=long,
        soil_heat_mj=weather.soil_heat_mj,
        mm_per_day=max(mm, 0.0),
    )


def monthly_soil_heat(before_c: float, after_c: float, after_is_this_month: bool = False) -> float:
    """Heat that the soil takes in over a month, MJ/m2 a day, from mean temperatures.

    ``before_c`` is of the month before, ``after_c`` of the month after (eq. 43), or of this month
    itself where the next is not known (eq. 44).
    """
    return (0.14 if after_is_this_month else 0.07) * (after_c - before_c)


def hargreaves_mm_per_day(low_c: float, high_c: float, latitude_deg: float, day_of_year: int) -> float:
    """Estimate from temperatures alone, eq. 52; holds to about a millimetre a day over ten days.

    FAO-56 asks that it be checked against Penman-Monteith where it is damp or windy.
    """
    if low_c > high_c:
        raise BadWeather("the lowest temperature is above the highest; swap them")
    mean_c = (low_c + high_c) / 2
    top_mm = MM_PER_MJ * extraterrestrial(latitude_deg, day_of_year)
    return max(0.0023 * (mean_c + 17.8) * math.sqrt(high_c - low_c) * top_mm, 0.0)

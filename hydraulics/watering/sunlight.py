"""Sun and sky: radiation at the top of the air, at the ground, and what is left of it.

Source of every formula here: FAO Irrigation and Drainage Paper 56 (Allen and others, 1998),
chapter 3; the equation's number stands beside each. Radiation is MJ/m2 a day, latitude degrees
(south negative), the day of the year counts from 1 on 1 January.
"""

import math

# FAO-56, eq. 28: 0.0820 MJ/m2 a minute
SOLAR_CONSTANT = 0.0820
# FAO-56, eq. 39, in MJ/K4 m2 a day
STEFAN_BOLTZMANN = 4.903e-9
# FAO-56, eq. 38: share that the reference grass throws back
ALBEDO = 0.23
# FAO-56, eq. 35: shares that reach the ground under cloud, and what a clear sky adds
CLOUDY_SHARE, CLEAR_SHARE = 0.25, 0.50


def sun_distance(day_of_year: int) -> float:
    """Inverse relative distance between earth and sun, eq. 23."""
    return 1 + 0.033 * math.cos(2 * math.pi / 365 * day_of_year)


def declination_rad(day_of_year: int) -> float:
    """Height of the sun over the equator, eq. 24."""
    return 0.409 * math.sin(2 * math.pi / 365 * day_of_year - 1.39)


def sunset_angle_rad(latitude_deg: float, day_of_year: int) -> float:
    """Hour angle at sunset, eq. 25; 0 where the sun does not rise, pi where it does not set."""
    product = math.tan(math.radians(latitude_deg)) * math.tan(declination_rad(day_of_year))
    return math.acos(min(max(-product, -1.0), 1.0))


def daylight_hours(latitude_deg: float, day_of_year: int) -> float:
    """Greatest possible hours of sunshine, eq. 34."""
    return 24 / math.pi * sunset_angle_rad(latitude_deg, day_of_year)


def extraterrestrial(latitude_deg: float, day_of_year: int) -> float:
    """Radiation at the top of the air, eq. 21. 20° south on 3 September: 32.2."""
    latitude, sun = math.radians(latitude_deg), declination_rad(day_of_year)
    sunset = sunset_angle_rad(latitude_deg, day_of_year)
    heights = sunset * math.sin(latitude) * math.sin(sun) + math.cos(latitude) * math.cos(sun) * math.sin(
        sunset
    )
    return 24 * 60 / math.pi * SOLAR_CONSTANT * sun_distance(day_of_year) * heights


def solar(top: float, sunshine_hours: float, daylight: float) -> float:
    """Radiation at the ground from hours of sunshine, eq. 35."""
    share = sunshine_hours / daylight if daylight > 0 else 0.0
    return (CLOUDY_SHARE + CLEAR_SHARE * min(max(share, 0.0), 1.0)) * top


def clear_sky(top: float, altitude_m: float) -> float:
    """Radiation at the ground under a clear sky, eq. 37."""
    return (0.75 + 2e-5 * altitude_m) * top


def net_short_wave(solar_mj: float) -> float:
    """What the grass keeps of it, eq. 38."""
    return (1 - ALBEDO) * solar_mj


def net_long_wave(
    air_c: tuple[float, float], vapour_kpa: float, solar_mj: float, clear_sky_mj: float
) -> float:
    """What the ground sends back to the sky, eq. 39; ``air_c`` is the day's least and greatest.

    The share of clear sky is held to 1, as FAO-56 asks; without any sun it is taken as 1 too.
    """
    warm = sum((air + 273.16) ** 4 for air in air_c) / 2
    clearness = min(solar_mj / clear_sky_mj, 1.0) if clear_sky_mj > 0 else 1.0
    return STEFAN_BOLTZMANN * warm * (0.34 - 0.14 * math.sqrt(vapour_kpa)) * (1.35 * clearness - 0.35)

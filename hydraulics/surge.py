"""Pressure rise when a valve shuts at once: Joukowsky's law with the wave speed of the pipe."""

import math

# common practice, no source: bulk modulus of water near 15 °C; 300,000 psi is 2.07 GPa
WATER_BULK_GPA = 2.18
WATER_KG_M3 = 1000.0
# speed of sound in open water that goes with the two
WATER_WAVE_MPS = math.sqrt(WATER_BULK_GPA * 1e9 / WATER_KG_M3)


def wave_speed_mps(
    bore_mm: float, wall_mm: float, modulus_gpa: float, bulk_gpa: float = WATER_BULK_GPA
) -> float:
    """Speed of a pressure wave: sqrt(K/rho) / sqrt(1 + K bore / (E wall)).

    PVC of 30.2 mm bore and 1.6 mm wall, E 2.76 GPa: 371 m/s.
    """
    free = math.sqrt(bulk_gpa * 1e9 / WATER_KG_M3)
    return free / math.sqrt(1 + bulk_gpa * bore_mm / (modulus_gpa * wall_mm))


def joukowsky_kpa(velocity_mps: float, wave_mps: float) -> float:
    """Rise in kPa when that velocity stops at once: rho a v."""
    return WATER_KG_M3 * wave_mps * abs(velocity_mps) / 1000


def critical_closure_s(length_m: float, wave_mps: float) -> float:
    """A closure quicker than 2L/a counts as sudden."""
    return 2 * length_m / wave_mps


def pipe_surge_kpa(velocity_mps: float, outside_mm: float, bore_mm: float, modulus_gpa: float) -> float:
    """Rise in a pipe given by its outside and bore diameters."""
    wave = wave_speed_mps(bore_mm, (outside_mm - bore_mm) / 2, modulus_gpa)
    return joukowsky_kpa(velocity_mps, wave)

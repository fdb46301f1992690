"""How far a head throws at the pressure that it gets. A throw is a radius, never a diameter."""

import math
from bisect import bisect_left
from dataclasses import dataclass
from typing import Literal

from hydraulics.catalogue import HeadPart
from hydraulics.emitters import head_law, precipitation_mm_per_hour


@dataclass(frozen=True)
class Throw:
    """``clamped`` says on which side of the rows the pressure lay; then the end row's throw is given."""

    throw_m: float
    clamped: Literal["", "low", "high"] = ""


def throw_at(part: HeadPart, pressure_kpa: float) -> Throw:
    """Throw by straight interpolation between the part's rows, never beyond them in silence."""
    rows = part.rising_rows
    pressure = min(pressure_kpa, part.regulated_kpa or pressure_kpa)
    if pressure < rows[0].pressure_kpa:
        return Throw(rows[0].throw_m, "low")
    if pressure > rows[-1].pressure_kpa:
        # a regulator that holds is the maker's own upper end, no guess of ours
        held = part.regulated_kpa is not None and pressure_kpa >= part.regulated_kpa
        return Throw(rows[-1].throw_m, "" if held else "high")
    upper = bisect_left([row.pressure_kpa for row in rows], pressure)
    if rows[upper].pressure_kpa == pressure:
        return Throw(rows[upper].throw_m)
    a, b = rows[upper - 1], rows[upper]
    share = (pressure - a.pressure_kpa) / (b.pressure_kpa - a.pressure_kpa)
    return Throw(a.throw_m + share * (b.throw_m - a.throw_m))


def reach_at(part: HeadPart, pressure_kpa: float, set_reach_m: float | None = None) -> float:
    """How far it wets: its throw, or less where it is set to less; never under its least throw."""
    return set_to(part, throw_at(part, pressure_kpa).throw_m, set_reach_m)


def set_to(part: HeadPart, throw_m: float, set_reach_m: float | None) -> float:
    """A throw as it is set: all of it, or the reach, between the part's least throw and the throw."""
    return throw_m if set_reach_m is None else min(max(set_reach_m, part.min_throw_m), throw_m)


def rate_by_arc_mm_per_hour(part: HeadPart, pressure_kpa: float, sweep_deg: float = 360.0) -> float | None:
    """Precipitation rate of one head over the sector that it wets at its full throw.

    A nozzle whose flow does not scale with its arc waters a quarter four times as fast as a
    circle; a matched one waters both alike. None for a throw that varies with bearing, whose
    ground only the plan tells.
    """
    if part.pattern == "by_bearing":
        return None
    sweep = 360.0 if part.pattern == "full_circle" else sweep_deg
    throw = throw_at(part, pressure_kpa).throw_m
    flow = head_law(part, sweep).flow_lpm(pressure_kpa)
    return precipitation_mm_per_hour(flow, math.pi * throw**2 * sweep / 360)

"""Which elbows a change of direction needs (common practice, no source)."""

import math
from itertools import pairwise

from hydraulics.catalogue import PipePart
from quoting.takeoff.graph import Line, deflection_deg, heading
from quoting.takeoff.quantities import TakeoffSettings


def elbows_for(deflection: float, leg_m: float, part: PipePart, settings: TakeoffSettings) -> tuple[str, ...]:
    """Roles of the elbows for a turn, with the shorter straight leg beside it.

    A coil turns without a fitting up to ``coil_bend_deg`` where its least bend radius fits in
    the legs. A gentle turn that needs a fitting takes 22½°, then 45°, 90°, and 90° with 45°.
    """
    if deflection < settings.straight_deg or _bends_by_hand(deflection, leg_m, part, settings):
        return ()
    if deflection < 30:
        return ("elbow_22",)
    if deflection < 60:
        return ("elbow_45",)
    return ("elbow_90",) if deflection <= 100 else ("elbow_90", "elbow_45")


def _bends_by_hand(deflection: float, leg_m: float, part: PipePart, settings: TakeoffSettings) -> bool:
    if part.supplied != "coil" or deflection > settings.coil_bend_deg:
        return False
    radius_m = settings.coil_bend_radius_od * part.outside_mm / 1000
    return radius_m * math.tan(math.radians(deflection) / 2) <= leg_m


def straights_and_bends(
    line: Line, settings: TakeoffSettings
) -> tuple[tuple[float, ...], tuple[tuple[str, ...], ...]]:
    """Straight lengths of a pipe between its elbows, and the elbows between them.

    The lengths sum to the measured length, which is longer than the path on a slope.
    """
    path = line.path
    drawn_m = sum(math.dist(a, b) for a, b in pairwise(path))
    stretch = line.measure.length_m / drawn_m if drawn_m else 1.0
    lengths, bends, run = [], [], math.dist(path[0], path[1]) if len(path) > 1 else 0.0
    for before, here, after in zip(path, path[1:], path[2:], strict=False):
        legs = math.dist(before, here), math.dist(here, after)
        turn = deflection_deg(heading(here, before), heading(here, after))
        elbows = elbows_for(turn, min(legs), line.part, settings)
        if elbows:
            lengths.append(run * stretch)
            bends.append(elbows)
            run = 0.0
        run += legs[1]
    return (*lengths, run * stretch if drawn_m else line.measure.length_m), tuple(bends)

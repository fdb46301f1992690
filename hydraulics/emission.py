"""How an outlet of a network enters the solution: as a power law, or as rows straight between points.

A power law goes in as it stands where its exponent lies between 0.05 and 1. Outlets that hold
their flow (exponent 0), or whose law is steeper at rest than any number, go in as rows that
miss their law by less than 0.05 % of flow.
"""

from dataclasses import replace

from hydraulics.network import Emitter

LEAST_EXPONENT, MOST_EXPONENT = 0.05, 1.0
# an outlet that holds its flow has all of it from this pressure up
HELD_FROM_KPA = 1.0
# next pressure over the last one, and the least pressure as a share of the highest
_STEP, _LEAST_SHARE = 1.04, 1e-3
ROOT = 0.5

Rows = tuple[tuple[float, float], ...]


def outlet_law(emitter: Emitter, highest_kpa: float) -> Emitter:
    """The same outlet as the solver works with it; rows reach up to twice ``highest_kpa``."""
    if emitter.rows or LEAST_EXPONENT <= emitter.exponent <= MOST_EXPONENT:
        return emitter
    if emitter.exponent == 0:
        held = min(HELD_FROM_KPA, emitter.regulated_kpa or HELD_FROM_KPA)
        return replace(
            emitter, coefficient=emitter.coefficient / held**ROOT, exponent=ROOT, regulated_kpa=held
        )
    return replace(emitter, rows=sampled(emitter, 2 * max(highest_kpa, emitter.regulated_kpa or 1.0)))


def unregulated_lpm(emitter: Emitter, pressure_kpa: float) -> float:
    """Flow at that pressure, without regard to the regulator."""
    if emitter.rows:
        return flow_by_rows(emitter.rows, pressure_kpa)
    return emitter.coefficient * max(pressure_kpa, 0.0) ** emitter.exponent


def sampled(emitter: Emitter, most_kpa: float) -> Rows:
    """Rows along the power law up to that pressure."""
    pressures, pressure = [], most_kpa
    while pressure > _LEAST_SHARE * most_kpa:
        pressures.append(pressure)
        pressure /= _STEP
    return tuple((emitter.coefficient * p**emitter.exponent, p) for p in reversed(pressures))


def flow_by_rows(rows: Rows, pressure_kpa: float) -> float:
    """Flow straight between the rows of (flow, kPa), from (0, 0) and on beyond the last."""
    points = ((0.0, 0.0), *rows)
    above = next((i for i, (_, kpa) in enumerate(points) if i and pressure_kpa <= kpa), len(points) - 1)
    (q1, p1), (q2, p2) = points[above - 1], points[above]
    return q1 + (max(pressure_kpa, 0.0) - p1) * (q2 - q1) / (p2 - p1) if p2 > p1 else q1

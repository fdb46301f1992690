"""Smooth laws sampled as rows of L/min and kPa, dense enough for 0.01 % of flow."""

from hydraulics.network import Emitter

# next flow over the last one; the chord then misses a square law by 6e-5 of the loss
STEP = 1.015
# smallest flow as a share of the largest
SMALLEST = 1e-4

Rows = tuple[tuple[float, float], ...]


def power_rows(coefficient: float, exponent: float, highest_kpa: float) -> Rows:
    """loss = coefficient * flow**exponent up to a loss of twice the highest pressure."""
    most = (2 * highest_kpa / coefficient) ** (1 / exponent)
    return tuple((flow, coefficient * flow**exponent) for flow in _flows(most))


def emission_rows(emitter: Emitter, highest_kpa: float) -> Rows:
    """Pressure by flow of an outlet: its own rows, or its law up to twice the highest pressure."""
    if emitter.rows:
        return emitter.rows
    most = emitter.coefficient * (2 * highest_kpa) ** emitter.exponent
    return tuple((flow, (flow / emitter.coefficient) ** (1 / emitter.exponent)) for flow in _flows(most))


def _flows(most: float) -> list[float]:
    flows, flow = [], most
    while flow > SMALLEST * most:
        flows.append(flow)
        flow /= STEP
    return flows[::-1]

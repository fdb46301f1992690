"""The signs for supply, controller, valves and heads; `unit` is their size, 1 at text size 12."""

from .shapes import XY, Circle, Line, Polygon, Shape


def head_shapes(at: XY, unit: float, number: int, *, own_valve: bool = False) -> list[Shape]:
    """A disc; one that carries its own valve sits in a diamond, the sign of a valve here."""
    disc: list[Shape] = [Circle(at, 4 * unit, f"head-{number}")]
    return [Polygon((_diamond(at, 7.5 * unit),), "valve"), *disc] if own_valve else disc


def drip_inlet_shapes(at: XY, unit: float, number: int) -> list[Shape]:
    x, y, half = at[0], at[1], 3.6 * unit
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return [Polygon((ring,), f"head-{number}")]


def supply_shapes(at: XY, unit: float) -> list[Shape]:
    x, y, size = at[0], at[1], 8 * unit
    house = (
        (x - size, y + size * 0.8),
        (x - size, y - size * 0.1),
        (x, y - size),
        (x + size, y - size * 0.1),
    )
    return [Polygon(((*house, (x + size, y + size * 0.8)),), "supply")]


def valve_shapes(at: XY, unit: float) -> list[Shape]:
    return [Polygon((_diamond(at, 6.5 * unit),), "valve"), Circle(at, 1.6 * unit, "junction")]


def _diamond(at: XY, half: float) -> tuple[XY, ...]:
    x, y = at
    return ((x, y - half), (x + half, y), (x, y + half), (x - half, y))


def controller_shapes(at: XY, unit: float) -> list[Shape]:
    x, y, half = at[0], at[1], 7 * unit
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    bars = (-0.45, 0.0, 0.45)
    lines = [
        Line(((x - half * 0.55, y + half * b), (x + half * 0.55, y + half * b)), "controller-bar")
        for b in bars
    ]
    return [Polygon((ring,), "controller"), *lines]

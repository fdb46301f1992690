"""Ranges in which a figure of a site visit is plausible, and beyond which it is impossible."""

from collections.abc import Iterator
from dataclasses import dataclass

from hydraulics.units import FACTORS, Kind, Quantity
from sites.figures import in_both
from sites.readings import Remark

# Units that a number may have been meant in: those on gauges, buckets and tapes.
LIKELY_UNITS: dict[Kind, tuple[str, ...]] = {
    "pressure": ("bar", "psi", "kPa"),
    "flow": ("L/min", "gpm", "L/s", "m3/h"),
    "volume": ("L", "gal"),
    "length": ("m", "ft"),
    "bore": ("mm", "in"),
    "time": ("s", "min"),
    "area": ("m2", "ft2"),
    "depth": ("mm", "in", "cm"),
}


@dataclass(frozen=True)
class Plausible:
    """In working units: usual from ``low`` to ``high``; impossible outside ``least`` to ``most``."""

    name: str
    kind: Kind
    low: float
    high: float
    least: float
    most: float


# All ranges: common practice, no source.
STATIC = Plausible("static pressure", "pressure", 200, 800, 10, 1600)
RESIDUAL = Plausible("residual pressure", "pressure", 0, 800, 0, 1600)
FLOW = Plausible("flow", "flow", 15, 120, 0.1, 2000)
VOLUME = Plausible("bucket", "volume", 9.5, 26, 0.5, 1000)
FILL = Plausible("time to fill", "time", 10, 90, 1, 3600)
BORE = Plausible("bore of a service pipe", "bore", 13, 41, 5.1, 199)
SERVICE_LENGTH = Plausible("length of a service pipe", "length", 3, 60, 0, 1000)
HEIGHT = Plausible("height above or below the tap", "length", -15, 15, -500, 500)


def judge(where: str, quantity: Quantity | None, usual: Plausible) -> Iterator[Remark]:
    """At most one remark: a refusal beyond what is possible, a question beyond what is usual."""
    if quantity is None or usual.low <= quantity.value_si <= usual.high:
        return
    value = quantity.value_si
    shown = in_both(value, usual.kind, quantity.unit)
    meant = _meant(quantity, usual)
    if not usual.least <= value <= usual.most:
        advice = meant or "Look at the figure and its unit again."
        yield Remark(where, f"{shown} cannot be a {usual.name}. {advice}")
        return
    side, limit = ("under", usual.low) if value < usual.low else ("over", usual.high)
    edge = in_both(limit, usual.kind, quantity.unit)
    text = f"{shown} is a rare {usual.name}: {side} {edge}. {meant}".strip()
    yield Remark(where, text, token(where, quantity, side))


def token(where: str, quantity: Quantity, doubt: str) -> str:
    """Names the doubt and the figure, so that another figure asks again."""
    return f"{where.split('-')[0]}.{where.split('-')[-1]}.{doubt}={quantity.value_si:.6g}"


def _meant(quantity: Quantity, usual: Plausible) -> str:
    """'Did you mean 60 psi?', where the same number in another unit would be usual."""
    factors = FACTORS[usual.kind]
    number = quantity.value_si / factors.get(quantity.unit, 1.0)
    for unit in LIKELY_UNITS[usual.kind]:
        other = number * factors[unit]
        if unit != quantity.unit and usual.low <= other <= usual.high and number != 0:
            return f"Did you mean {in_both(other, usual.kind, unit)}?"
    return ""

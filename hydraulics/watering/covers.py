"""What grows there: share of the reference evapotranspiration that it needs, and how deep it roots."""

from collections.abc import Mapping
from dataclasses import dataclass

from hydraulics.limits import PRACTICE


@dataclass(frozen=True)
class Cover:
    """``factor`` times the reference evapotranspiration is what the plants need, rain included.

    ``is_closed`` tells whether the ground is covered, so that drops do not seal the soil.
    """

    name: str
    factor: float
    roots_m: float
    is_closed: bool
    source: str


# Root depths: common practice, no source (the depth that is worth wetting, not the deepest root).
COVERS: Mapping[str, Cover] = {
    "turf": Cover(
        "turf",
        0.80,
        0.15,
        True,
        f"{PRACTICE}; FAO-56 table 12 has 0.95 for cool-season and 0.85 for warm-season turf (from memory)",
    ),
    "bed": Cover("bed", 0.50, 0.30, False, f"{PRACTICE}: mixed planting of moderate need"),
    "hedge": Cover("hedge", 0.50, 0.45, True, f"{PRACTICE}: established shrubs"),
    "vegetables": Cover("vegetables", 1.05, 0.20, False, "FAO-56 table 12, small vegetables (from memory)"),
    "pots": Cover("pots", 1.00, 0.15, False, f"{PRACTICE}: small root space, dries from all sides"),
}

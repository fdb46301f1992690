"""What the programme needs to know of a zone."""

from dataclasses import dataclass

from hydraulics.watering.covers import COVERS
from hydraulics.watering.cycles import CycleLimit, cycle_limit
from hydraulics.watering.need import NoRate
from hydraulics.watering.soil import SOILS, usable_mm


@dataclass(frozen=True)
class ZoneWater:
    """``du`` is DUlq as a share; ``du_is_assumed`` where nobody computed it.

    ``cover`` is a key of COVERS and ``soil`` of SOILS. Of several areas in a zone the thirstiest
    cover, the slowest soil and the steepest slope count; ``area_m2`` is all that it waters.
    """

    id: str
    label: str
    flow_lpm: float
    mm_per_hour: float
    du: float
    cover: str
    soil: str
    slope_pct: float
    area_m2: float
    du_is_assumed: bool = False
    covers: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.cover not in COVERS or self.soil not in SOILS:
            raise NoRate(f"zone {self.id} has a cover or a soil that is not in the tables")
        if not (self.flow_lpm > 0 and self.mm_per_hour > 0):
            raise NoRate(f"zone {self.id} has no flow or no precipitation rate")

    @property
    def name(self) -> str:
        return self.label or self.id

    @property
    def soil_name(self) -> str:
        return SOILS[self.soil].name

    @property
    def du_pct(self) -> float:
        return 100 * self.du

    @property
    def factor(self) -> float:
        return COVERS[self.cover].factor

    @property
    def cycle(self) -> CycleLimit:
        return cycle_limit(self.mm_per_hour, self.soil, self.slope_pct, COVERS[self.cover].is_closed)

    @property
    def usable_mm(self) -> float:
        """Most that one watering should bring."""
        return usable_mm(self.soil, COVERS[self.cover].roots_m)

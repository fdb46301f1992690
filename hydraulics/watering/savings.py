"""What a programme uses less than a baseline, and always which baseline that is."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Saving:
    """Litres over the same months; a saving below zero is more water, and said to be."""

    baseline: str
    baseline_l: float
    programme_l: float

    @property
    def saved_l(self) -> float:
        return self.baseline_l - self.programme_l

    @property
    def saved_pct(self) -> float | None:
        return 100 * self.saved_l / self.baseline_l if self.baseline_l > 0 else None

"""What each pipe of a plan may be: parts of its family that have a price and bear the pressure."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from design.document import Pipe
from design.site import Site
from hydraulics.catalogue import Catalogue, PipePart
from hydraulics.sizing import Candidate, SizingError
from hydraulics.supply import SupplyCurve
from hydraulics.surge import pipe_surge_kpa
from hydraulics.units import KPA_PER_M

Price = Decimal | float | int


@dataclass(frozen=True)
class LeftPipe:
    """A pipe that keeps its part, and why."""

    pipe: str
    part: str
    why: str


@dataclass(frozen=True)
class Choices:
    candidates: dict[str, tuple[Candidate, ...]]
    left: tuple[LeftPipe, ...]


def family_of(parts: Catalogue, part: PipePart) -> list[PipePart]:
    """Pipes of the same material, joint and form of supply whose code differs only behind its last hyphen."""
    return [other for other in parts.values() if isinstance(other, PipePart) and _kin(other) == _kin(part)]


def _kin(part: PipePart) -> tuple[str, str, str, str]:
    return part.material, part.joint, part.supplied, part.code.rpartition("-")[0]


@dataclass(frozen=True)
class Chooser:
    """Finds the candidates of each pipe. ``named`` holds part codes by pipe id, in place of its family."""

    site: Site
    supply: SupplyCurve
    prices: Mapping[str, Price]
    locked: frozenset[str]
    named: Mapping[str, Sequence[str]]

    def choices(self, idle: Iterable[str]) -> Choices:
        """``idle`` are pipes that carry water in no case."""
        dry = frozenset(idle)
        candidates, left = {}, []
        for pipe in self.site.plan.layout.pipes:
            why = self._why_left(pipe, dry)
            if why:
                left.append(LeftPipe(pipe.id, pipe.part, why))
            else:
                candidates[pipe.id] = self._candidates(pipe)
        return Choices(candidates, tuple(left))

    def _why_left(self, pipe: Pipe, dry: frozenset[str]) -> str:
        if pipe.id in self.locked:
            return "it is to stay as it is"
        if pipe.id in dry:
            return "it carries water in no case"
        if self.prices.get(pipe.part) is None:
            return f"there is no price for {pipe.part}"
        return ""

    def _candidates(self, pipe: Pipe) -> tuple[Candidate, ...]:
        present = self.site.parts.need(pipe.part, PipePart)
        allowed = [part for part in self._parts(pipe, present) if self.prices.get(part.code) is not None]
        static = self._static_kpa(pipe)
        standing = [p for p in allowed if p == present or static is None or self._bears(p, static)]
        found = [self._candidate(part, static) for part in standing or allowed]
        return tuple(sorted(found, key=lambda candidate: (candidate.bore_mm, candidate.cost_per_m)))

    def _parts(self, pipe: Pipe, present: PipePart) -> list[PipePart]:
        if pipe.id not in self.named:
            return family_of(self.site.parts, present)
        found = [self.site.parts.need(code, PipePart) for code in self.named[pipe.id]]
        if not any(self.prices.get(part.code) is not None for part in found):
            raise SizingError(f"none of the parts named for pipe {pipe.id} has a price")
        return found

    def _static_kpa(self, pipe: Pipe) -> float | None:
        """Pressure at rest at the lower end of a main; laterals stand open at their heads."""
        supply = self.site.topology.supply
        if supply is None or self.site.topology.roles[pipe.id] != "main":
            return None
        height = self.site.heights
        lower = min(height[pipe.from_], height[pipe.to])
        return self.supply.static_kpa + KPA_PER_M * (height[supply] - lower)

    def _bears(self, part: PipePart, static_kpa: float) -> bool:
        return static_kpa <= self.site.limits.static_share_of_rating * part.rating_kpa

    def _candidate(self, part: PipePart, static_kpa: float | None) -> Candidate:
        """With the velocity limit, or less where stopping the water would go beyond a main's rating."""
        most = self.site.limits.pipe_velocity_warn_mps
        if static_kpa is not None and part.rating_kpa > static_kpa:
            per_mps = pipe_surge_kpa(1.0, part.outside_mm, part.bore_mm, part.modulus_gpa)
            most = min(most, (part.rating_kpa - static_kpa) / per_mps if per_mps > 0 else math.inf)
        return Candidate(part.code, part.bore_mm, part.hazen_williams_c, float(self.prices[part.code]), most)

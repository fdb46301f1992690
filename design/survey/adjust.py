"""Least squares over more tapes than the points need, by damped Gauss–Newton.

Each distance counts with 1 / sigma². A distance that the others check has a standardised
residual v / (sigma · sqrt(r)), r being its redundancy; beyond 3.29 (one in a thousand) it is
taken for a blunder. Source of test and limit: Baarda's data snooping, from memory.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from design.report import XY
from design.stakeout import LEAST_ANGLE_DEG
from design.survey.readings import Distance, SurveyError, length_ok

Array = NDArray[np.floating[Any]]

BLUNDER_LIMIT = 3.29
# half axes of two tapes that meet at gamma are as 1 to tan(gamma / 2)
WEAK_RATIO = 1 / math.tan(math.radians(LEAST_ANGLE_DEG / 2))
# a distance with less of its own error left to see is checked by no other
LEAST_REDUNDANCY = 0.01
# two distances as suspicious as this share of the worst cannot be told apart
_ALIKE = 0.98
_STEPS = 100
_STRIDE_M = 5.0
_STILL_M = 1e-9
# of the stiffest way to move: beneath it nothing but rounding holds a point
_LOOSE = 1e-10


class NoFit(SurveyError):
    """No place can be settled on; ``distance`` is the tape to look at first."""

    def __init__(self, sentence: str, distance: Distance) -> None:
        self.distance = distance
        super().__init__(sentence)


@dataclass(frozen=True)
class Residual:
    """``residual_m`` is adjusted less measured; ``redundancy`` is 0 where no other tape checks it."""

    distance: Distance
    residual_m: float
    redundancy: float
    standardised: float

    @property
    def checked(self) -> bool:
        return self.redundancy >= LEAST_REDUNDANCY

    @property
    def blunder_m(self) -> float:
        """By how much the tape reads too long if it alone is wrong [m]; 0 where nothing checks it."""
        return -self.residual_m / self.redundancy if self.checked else 0.0


@dataclass(frozen=True)
class Adjusted:
    """A point with its error ellipse: half axes [m], and the bearing of the longer one [°]."""

    point: str
    at: XY
    half_axis_m: float
    short_half_axis_m: float
    bearing_deg: float

    @property
    def error_m(self) -> float:
        """Likely error [m]: the root of both half axes' squares, as for two tapes."""
        return math.hypot(self.half_axis_m, self.short_half_axis_m)

    @property
    def weak(self) -> bool:
        """Whether the ellipse is longer than that of two tapes meeting at 30° or 150°."""
        return self.half_axis_m > WEAK_RATIO * self.short_half_axis_m


@dataclass(frozen=True)
class Adjustment:
    """Points, residuals and suspects. ``sigma0`` near 1 where tapes were as good as was said.

    Without a spare distance ``sigma0`` is none and nothing is checked. ``covariance`` [m²] goes by
    east and north of each point in turn, scaled by ``sigma0`` where that is above 1.
    """

    marks: Mapping[str, XY]
    points: tuple[Adjusted, ...]
    residuals: tuple[Residual, ...]
    spare: int
    sigma0: float | None
    covariance: Array

    @property
    def places(self) -> dict[str, XY]:
        """Marks and points together."""
        return {**self.marks, **{point.point: point.at for point in self.points}}

    @property
    def scale(self) -> float:
        """By how much the tapes were worse than was said; never below 1."""
        return max(1.0, self.sigma0 or 1.0)

    @property
    def worst(self) -> Adjusted:
        return max(self.points, key=lambda point: point.error_m)

    @property
    def suspects(self) -> tuple[Residual, ...]:
        """The tape that is likely wrong, with all that the readings cannot tell from it; worst first."""
        ranked = sorted(self.residuals, key=lambda one: abs(one.standardised), reverse=True)
        worst = abs(ranked[0].standardised)
        if worst <= BLUNDER_LIMIT:
            return ()
        return tuple(one for one in ranked if abs(one.standardised) >= _ALIKE * worst)

    @property
    def blunder_sentence(self) -> str:
        """What to measure again; empty if nothing stands out."""
        suspects = self.suspects
        if not suspects:
            return ""
        if len(suspects) > 1:
            names = ", ".join(one.distance.name for one in suspects)
            return f"One of these tapes is wrong, and one more is needed to tell which: {names}."
        wrong = suspects[0]
        word = "long" if wrong.blunder_m > 0 else "short"
        return (
            f"The tape {wrong.distance.name} reads about {abs(wrong.blunder_m):.2f} m too {word}. "
            "Measure it again."
        )


def adjust(marks: Mapping[str, XY], start: Mapping[str, XY], distances: Sequence[Distance]) -> Adjustment:
    """The places that suit all distances best; marks stay, points set out from ``start``.

    Raises SurveyError for a point that the distances leave loose, for an unknown name, and where
    no place can be settled on.
    """
    names = [name for name in start if name not in marks]
    if not names or not distances:
        raise SurveyError("There is no point to place. Add a tape to a point that is not a mark.")
    net = _Net(marks, {name: start[name] for name in names}, distances)
    return net.result(net.settle())


class _Net:
    """Distances by the index of their ends; marks first, then points."""

    def __init__(
        self, marks: Mapping[str, XY], start: Mapping[str, XY], distances: Sequence[Distance]
    ) -> None:
        self.marks, self.names, self.distances = marks, list(start), distances
        self.start = np.array(list(start.values()), dtype=np.float64).ravel()
        self.fixed = np.array([marks[name] for name in marks], dtype=np.float64).reshape(-1, 2)
        index = {name: number for number, name in enumerate([*marks, *start])}
        self.ends = np.array([_ends(one, index) for one in distances], dtype=np.intp).reshape(-1, 2)
        self.lengths = np.array([one.length_m for one in distances], dtype=np.float64)
        self.sigmas = np.array([one.sigma_m for one in distances], dtype=np.float64)

    def settle(self) -> Array:
        """Gauss–Newton, damped as Levenberg and Marquardt do where a step would not lower the misfit."""
        places = self.start
        misfit, damping, still = self._misfit(places), 1e-9, False
        for _ in range(_STEPS):
            step = self._step(places, damping)
            reached = self._misfit(places + step)
            still = float(np.abs(step).max()) <= _STILL_M
            if reached <= misfit * (1 + 1e-12):
                places, misfit, damping = places + step, reached, damping / 10
            else:
                damping = max(damping * 10, 1e-6)
            if still:
                break
        self._refuse_loose(places)
        if still:
            return places
        raise self._gross()

    def _gross(self) -> NoFit:
        """Names the tape that misses most where long misses count by their size, not its square."""
        places = self.start
        for _ in range(_STEPS):
            slopes, gaps = self.slopes(places)
            trust = np.sqrt(1 / np.maximum(1.0, np.abs(gaps)))
            step = np.linalg.lstsq(slopes * trust[:, None], gaps * trust, rcond=None)[0]
            places = places + step * min(1.0, _STRIDE_M / max(float(np.abs(step).max()), _STILL_M))
        gaps = self.slopes(places)[1] * self.sigmas
        worst = int(np.argmax(np.abs(gaps)))
        word = "long" if gaps[worst] > 0 else "short"
        return NoFit(
            f"The distances fit no place. Look first at the tape {self.distances[worst].name}: about "
            f"{abs(float(gaps[worst])):.0f} m too {word}. Is its decimal point or its name wrong?",
            self.distances[worst],
        )

    def slopes(self, places: Array) -> tuple[Array, Array]:
        """Slopes by place, and gaps (measured less computed), both over sigma."""
        apart, lengths = self._apart(places)
        unit = apart / np.maximum(lengths, 1e-9)[:, None] / self.sigmas[:, None]
        wide = np.zeros((len(self.lengths), len(self.fixed) + len(self.names), 2))
        rows = np.arange(len(self.lengths))
        wide[rows, self.ends[:, 0]] -= unit
        wide[rows, self.ends[:, 1]] += unit
        slopes = wide[:, len(self.fixed) :].reshape(len(rows), -1)
        return slopes, (self.lengths - lengths) / self.sigmas

    def result(self, places: Array) -> Adjustment:
        slopes, gaps = self.slopes(places)
        inverse = np.linalg.inv(slopes.T @ slopes)
        spare = len(gaps) - slopes.shape[1]
        sigma0 = math.sqrt(float(gaps @ gaps) / spare) if spare else None
        covariance = inverse * max(1.0, sigma0 or 1.0) ** 2
        shares = 1 - np.sum((slopes @ inverse) * slopes, axis=1)
        residuals = [
            _residual(one, float(gap), float(share))
            for one, gap, share in zip(self.distances, gaps, shares, strict=True)
        ]
        points = [
            _adjusted(name, places[2 * k : 2 * k + 2], covariance[2 * k : 2 * k + 2, 2 * k : 2 * k + 2])
            for k, name in enumerate(self.names)
        ]
        return Adjustment(dict(self.marks), tuple(points), tuple(residuals), spare, sigma0, covariance)

    def _apart(self, places: Array) -> tuple[Array, Array]:
        everywhere = np.vstack([self.fixed, places.reshape(-1, 2)])
        apart = everywhere[self.ends[:, 1]] - everywhere[self.ends[:, 0]]
        return apart, np.hypot(apart[:, 0], apart[:, 1])

    def _step(self, places: Array, damping: float) -> Array:
        slopes, gaps = self.slopes(places)
        normal = slopes.T @ slopes
        weights = np.maximum(np.diag(normal), 1e-6)
        return np.linalg.solve(normal + np.diag(weights * max(damping, 1e-12)), slopes.T @ gaps)

    def _misfit(self, places: Array) -> float:
        gaps = (self.lengths - self._apart(places)[1]) / self.sigmas
        return float(gaps @ gaps)

    def _refuse_loose(self, places: Array) -> None:
        """Names the points that could move without any tape changing."""
        slopes, _ = self.slopes(places)
        sizes, ways = np.linalg.eigh(slopes.T @ slopes)
        free = ways[:, sizes <= _LOOSE * max(float(sizes[-1]), 1e-12)]
        if free.size:
            moves = np.abs(free).max(axis=1).reshape(-1, 2).max(axis=1)
            loose = ", ".join(name for name, move in zip(self.names, moves, strict=True) if move > 0.01)
            raise SurveyError(f"The tapes leave {loose} loose. Add a tape, best across the others.")


def _ends(distance: Distance, index: Mapping[str, int]) -> tuple[int, int]:
    length_ok(distance.length_m, f"The tape {distance.name}")
    length_ok(distance.sigma_m, f"The likely error of the tape {distance.name}")
    for name in (distance.first, distance.second):
        if name not in index:
            raise SurveyError(f"{name} has no place yet. Measure it from two marks first.")
    if distance.first == distance.second:
        raise SurveyError(f"A tape cannot run from {distance.first} to itself.")
    return index[distance.first], index[distance.second]


def _residual(distance: Distance, gap: float, redundancy: float) -> Residual:
    redundancy = min(1.0, max(0.0, redundancy))
    standardised = -gap / math.sqrt(redundancy) if redundancy >= LEAST_REDUNDANCY else 0.0
    return Residual(distance, -gap * distance.sigma_m, redundancy, standardised)


def _adjusted(name: str, at: Array, covariance: Array) -> Adjusted:
    sizes, ways = np.linalg.eigh(covariance)
    east, north = float(ways[0, 1]), float(ways[1, 1])
    bearing = math.degrees(math.atan2(east, north)) % 180
    short, long = (math.sqrt(max(0.0, float(size))) for size in sizes)
    return Adjusted(name, (float(at[0]), float(at[1])), long, short, bearing)

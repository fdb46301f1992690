"""Coverage of 1,000 m2 at 0.25 m by 40 heads, and the memory that 5,000 m2 take.

Medians, each beside its goal. Both ways of throwing are measured: fixed arcs, and a throw that
varies with bearing. Memory is what Python and numpy allocate at most, and how far the process grew.
"""

import resource
import statistics
import sys
import time
import tracemalloc
from collections.abc import Callable

import numpy as np
import shapely

from hydraulics.coverage import WettingHead, wetting
from hydraulics.coverage_beyond import Ground, water_beyond
from hydraulics.coverage_shade import Walls

ROUNDS = 41
GRID_M = 0.25
GOAL_FIXED_MS, GOAL_BEARING_MS, GOAL_MB = 20.0, 50.0, 100.0
HUMPED = ((0.0, 0.6), (0.5, 1.0), (0.8, 0.7), (1.0, 0.0))


def lawn(square_metres: float) -> list[tuple[float, float]]:
    length, width = (1.6 * square_metres) ** 0.5, (square_metres / 1.6) ** 0.5
    return [(0, 0), (length, 0), (length, width), (0, width)]


def heads(ring: list[tuple[float, float]], count: int, by_bearing: bool = False) -> list[WettingHead]:
    """Rows of eight, each throwing 7 m; arcs are half circles, as along edges."""
    length, width = ring[2]
    reaches = tuple((6.0 + np.sin(np.radians(np.arange(360)))).tolist()) if by_bearing else ()
    rows = count // 8
    return [
        WettingHead(
            ((place % 8 + 0.5) * length / 8, (place // 8 + 0.5) * width / rows),
            8.0, 7.0, 0.0, 180.0, reaches_m=reaches, profile_rows=HUMPED,
        )
        for place in range(count)
    ]  # fmt: skip


def house(ring: list[tuple[float, float]]) -> Walls:
    """A building of four sides in the middle of the lawn."""
    x, y = ring[2][0] / 2, ring[2][1] / 2
    corners = [(x - 4, y - 3), (x + 4, y - 3), (x + 4, y + 3), (x - 4, y + 3)]
    sides = [(*a, *b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]
    return Walls(np.array(sides), np.zeros(4, dtype=np.int16))


def median_ms(work: Callable[[], object]) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append(1000 * (time.perf_counter() - start))
    return statistics.median(times)


def speeds() -> bool:
    """Whether both goals are met."""
    ring = lawn(1000)
    walls = house(ring)
    fixed, looking = heads(ring, 40), heads(ring, 40, by_bearing=True)
    fixed_ms = median_ms(lambda: wetting([ring], fixed, GRID_M))
    bearing_ms = median_ms(lambda: wetting([ring], looking, GRID_M))
    shaded_ms = median_ms(lambda: wetting([ring], fixed, GRID_M, walls))
    ground = Ground(shapely.Polygon(ring), {}, walls, ("house",))
    beyond_ms = median_ms(lambda: water_beyond(fixed, ground, GRID_M))
    print(
        f"1,000 m2 at {GRID_M} m, 40 heads, fixed arcs: {fixed_ms:.1f} ms (goal: under {GOAL_FIXED_MS:.0f})"
    )
    print(f"  throw by bearing: {bearing_ms:.1f} ms (goal: under {GOAL_BEARING_MS:.0f})")
    print(f"  fixed arcs around a building: {shaded_ms:.1f} ms")
    print(f"  where the water beyond the areas lands, on top: {beyond_ms:.1f} ms")
    return fixed_ms < GOAL_FIXED_MS and bearing_ms < GOAL_BEARING_MS


def memory() -> bool:
    """Whether the goal is met."""
    ring = lawn(5000)
    many = heads(ring, 200)
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    tracemalloc.start()
    found = wetting([ring], many, GRID_M, house(ring))
    water_beyond(many, Ground(shapely.Polygon(ring), {}), GRID_M)
    peak_mb = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    grown_mb = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - grown) / 1e3
    cells = len(found.mm_per_hour)
    print(
        f"5,000 m2 at {GRID_M} m, 200 heads, {cells} cells: {peak_mb:.1f} MB at most, "
        f"the process grew by {grown_mb:.1f} MB (goal: under {GOAL_MB:.0f})"
    )
    return max(peak_mb, grown_mb) < GOAL_MB


def main() -> int:
    """Only memory fails the run: times depend on what else the machine does."""
    small = memory()
    quick = speeds()
    print("goals met" if small and quick else "a goal is missed")
    return int(not small)


if __name__ == "__main__":
    sys.exit(main())

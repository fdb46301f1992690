"""True sizes of pipe from the standards' tables: outside, wall and bore in mm.

One convention throughout: bore = outside diameter less twice the least wall. Tolerances make
real bores a little smaller; the standards' "minimum inside diameter" is not used.
"""

from dataclasses import dataclass

from hydraulics.errors import HydraulicsError

MM_PER_IN = 25.4


@dataclass(frozen=True)
class PipeSize:
    """``standard`` and ``size`` as the trade names them; lengths in mm."""

    standard: str
    size: str
    outside_mm: float
    wall_mm: float
    source: str

    @property
    def bore_mm(self) -> float:
        return round(self.outside_mm - 2 * self.wall_mm, 4)


_SIZES_IN = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")
_PVC_OUTSIDE_IN = (0.840, 1.050, 1.315, 1.660, 1.900, 2.375)
_COPPER_OUTSIDE_IN = (0.625, 0.875, 1.125, 1.375, 1.625, 2.125)

# outside and least wall in inches, by standard and size
_INCH_TABLES: dict[str, tuple[str, tuple[str, ...], tuple[float, ...], tuple[float, ...]]] = {
    "pvc-sch40": (
        "ASTM D1785, schedule 40 (3 in from memory)",
        (*_SIZES_IN, "3"),
        (*_PVC_OUTSIDE_IN, 3.500),
        (0.109, 0.113, 0.133, 0.140, 0.145, 0.154, 0.216),
    ),
    "pvc-sdr21": (
        "ASTM D2241, SDR 21 (from memory)",
        ("3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4"),
        (*_PVC_OUTSIDE_IN[1:], 2.875, 3.500, 4.500),
        (0.060, 0.063, 0.079, 0.090, 0.113, 0.137, 0.167, 0.214),
    ),
    "pe-cts-sdr9": (
        "ASTM D2737, copper tube sizes, SDR 9 (from memory)",
        _SIZES_IN,
        _COPPER_OUTSIDE_IN,
        (0.069, 0.097, 0.125, 0.153, 0.181, 0.236),
    ),
    "copper-k": (
        "ASTM B88, type K",
        _SIZES_IN,
        _COPPER_OUTSIDE_IN,
        (0.049, 0.065, 0.065, 0.065, 0.072, 0.083),
    ),
    "copper-l": (
        "ASTM B88, type L",
        _SIZES_IN,
        _COPPER_OUTSIDE_IN,
        (0.040, 0.045, 0.050, 0.055, 0.060, 0.070),
    ),
    "copper-m": (
        "ASTM B88, type M",
        _SIZES_IN,
        _COPPER_OUTSIDE_IN,
        (0.028, 0.032, 0.035, 0.042, 0.049, 0.058),
    ),
}
# ASTM D2239 fixes the bore instead: inside and least wall in inches
_SIDR15 = (
    "ASTM D2239, SIDR 15 (from memory)",
    (0.622, 0.824, 1.049, 1.380, 1.610, 2.067),
    (0.060, 0.060, 0.070, 0.092, 0.107, 0.138),
)
# outside and least wall in mm
_METRIC_TABLES: dict[str, tuple[str, dict[str, float]]] = {
    "pe100-sdr11": (
        "EN 12201-2, SDR 11, as in a pipe maker's table",
        {"20": 2.0, "25": 2.3, "32": 3.0, "40": 3.7, "50": 4.6, "63": 5.8},
    ),
    "pe100-sdr17": (
        "EN 12201-2, SDR 17, as in a pipe maker's table",
        {"32": 2.0, "40": 2.4, "50": 3.0, "63": 3.8},
    ),
}


def pipe_size(standard: str, size: str) -> PipeSize:
    """Size by standard, such as pipe_size("pe100-sdr11", "32"). Raises HydraulicsError by name."""
    found = TABLE.get((standard, size))
    if found is None:
        names = [known for name, known in TABLE if name == standard]
        advice = f"it has {', '.join(names)}" if names else f"known are {', '.join(standards())}"
        raise HydraulicsError(f"no pipe size “{size}” in “{standard}”; {advice}")
    return found


def standards() -> tuple[str, ...]:
    return tuple(dict.fromkeys(standard for standard, _ in TABLE))


def sizes_of(standard: str) -> tuple[PipeSize, ...]:
    return tuple(size for (name, _), size in TABLE.items() if name == standard)


def _all_sizes() -> dict[tuple[str, str], PipeSize]:
    rows = []
    for standard, (source, sizes, outsides, walls) in _INCH_TABLES.items():
        for size, outside, wall in zip(sizes, outsides, walls, strict=True):
            rows.append(_inch_size(standard, size, outside, wall, source))
    source, insides, walls = _SIDR15
    for size, inside, wall in zip(_SIZES_IN, insides, walls, strict=True):
        rows.append(_inch_size("pe-sidr15", size, inside + 2 * wall, wall, source))
    for standard, (source, walls_mm) in _METRIC_TABLES.items():
        rows += [PipeSize(standard, size, float(size), wall, source) for size, wall in walls_mm.items()]
    return {(row.standard, row.size): row for row in rows}


def _inch_size(standard: str, size: str, outside: float, wall: float, source: str) -> PipeSize:
    return PipeSize(standard, size, round(outside * MM_PER_IN, 4), round(wall * MM_PER_IN, 4), source)


TABLE = _all_sizes()

"""How much water falls where, as one raster over all areas: to be laid under a drawing.

The classes and the ramp are those of the picture. Dry ground is hatched, so that it is told
apart without colour.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from design.coverage_classes import DRY, EDGES
from design.coverage_picture import RAMP
from design.document import Area
from design.drawing.palette import ALERT, PAPER
from hydraulics.coverage import Wetting

MOST_PIXELS = 1_000  # of the longer side
PIXELS_A_CELL = 4
OPAQUE, NONE = 215, -2  # so that what is drawn below still shows; and where no area is
HATCH_PX, LINE_PX = 8, 2


@dataclass(frozen=True)
class Raster:
    """``rgba`` is rows by columns by four, the north row first; ``extent`` west, south, east, north [m]."""

    rgba: NDArray[np.uint8]
    extent: tuple[float, float, float, float]
    has_dry: bool


def depth_raster(wet: Sequence[tuple[Area, Wetting]]) -> Raster | None:
    """The raster of those areas; none where there is nothing on any of them."""
    wet = [(area, wetting) for area, wetting in wet if wetting.mm_per_hour.size]
    if not wet:
        return None
    corners = np.concatenate([_corners(wetting) for _, wetting in wet])
    west, south = corners.min(axis=0)
    width_m, height_m = corners.max(axis=0) - (west, south)
    finest_m = min(wetting.grid_m for _, wetting in wet) / PIXELS_A_CELL
    pixel_m = max(finest_m, float(max(width_m, height_m)) / MOST_PIXELS)
    columns, rows = (max(1, int(np.ceil(size / pixel_m - 1e-6))) for size in (width_m, height_m))
    x = west + (np.arange(columns) + 0.5) * pixel_m
    y = south + (np.arange(rows) + 0.5) * pixel_m
    classes = np.full((rows, columns), NONE, dtype=np.int8)
    for _, wetting in wet:
        _lay(classes, wetting, x, y)
    extent = (float(west), float(south), float(west + columns * pixel_m), float(south + rows * pixel_m))
    return Raster(_coloured(classes)[::-1], extent, bool((classes == DRY).any()))


def _corners(wet: Wetting) -> NDArray[np.float64]:
    half = wet.grid_m / 2
    return np.array([wet.centres.min(axis=0) - half, wet.centres.max(axis=0) + half])


def _lay(classes: NDArray[np.int8], wet: Wetting, x: NDArray[np.float64], y: NDArray[np.float64]) -> None:
    """Put the class of the cell that it lies in on every pixel that lies in one."""
    west, south = _corners(wet)[0]
    column, row = (((wet.centres - (west, south)) / wet.grid_m).astype(np.int64)).T
    cells = np.full((row.max() + 1, column.max() + 1), NONE, dtype=np.int8)
    share = wet.mm_per_hour / max(wet.mean_mm_per_hour, 1e-9)
    cells[row, column] = np.where(wet.dry, DRY, np.searchsorted(EDGES, share))
    at_x = np.floor((x - west) / wet.grid_m).astype(np.int64)
    at_y = np.floor((y - south) / wet.grid_m).astype(np.int64)
    in_x = np.flatnonzero((at_x >= 0) & (at_x < cells.shape[1]))
    in_y = np.flatnonzero((at_y >= 0) & (at_y < cells.shape[0]))
    block = cells[np.ix_(at_y[in_y], at_x[in_x])]
    place = np.ix_(in_y, in_x)
    classes[place] = np.where(block == NONE, classes[place], block)


def _coloured(classes: NDArray[np.int8]) -> NDArray[np.uint8]:
    palette = np.array([*map(_rgba, RAMP)], dtype=np.uint8)
    rgba = np.zeros((*classes.shape, 4), dtype=np.uint8)
    wet = classes >= 0
    rgba[wet] = palette[classes[wet]]
    row, column = np.indices(classes.shape)
    line = (row + column) % HATCH_PX < LINE_PX
    rgba[(classes == DRY) & line] = _rgba(ALERT)
    rgba[(classes == DRY) & ~line] = _rgba(PAPER)
    return rgba


def _rgba(colour: str) -> tuple[int, int, int, int]:
    """Of a colour such as '#12545f'."""
    red, green, blue = bytes.fromhex(colour.lstrip("#"))
    return red, green, blue, OPAQUE

"""Outlines that were drawn as single lines and arcs, put together where their ends meet."""

from collections.abc import Iterable

import shapely

from design.exchange.shapes import Path, Shape, across, open_or_ring

# Ends nearer than this share of all that is drawn on the layer are one point: 0.05 mm on 50 m.
_SAME_SHARE = 1e-6


def joined(pieces: Iterable[Shape]) -> list[Shape]:
    """Chains as long as they go without a branch; a chain that comes back is a ring."""
    by_layer: dict[str, list[Shape]] = {}
    for piece in pieces:
        by_layer.setdefault(piece.layer, []).append(piece)
    return [shape for layer, lines in by_layer.items() for shape in _joined_layer(layer, lines)]


def _joined_layer(layer: str, pieces: list[Shape]) -> list[Shape]:
    rings = [piece for piece in pieces if piece.closed]
    lines = [piece for piece in pieces if not piece.closed]
    grid = across(lines) * _SAME_SHARE
    snapped = [line for piece in lines if len(line := _on_grid(piece.points, grid)) > 1]
    if not snapped:
        return rings
    merged = shapely.line_merge(shapely.MultiLineString(snapped))
    chains = [
        tuple((x, y) for x, y in shapely.get_coordinates(line).tolist()) for line in shapely.get_parts(merged)
    ]
    found = (open_or_ring(layer, chain, closed=False) for chain in chains)
    return [*rings, *(shape for shape in found if shape is not None)]


def _on_grid(points: Path, grid: float) -> Path:
    """Ends on the grid, so that they are equal where they meet; what lies between stays."""
    if grid <= 0:
        return points
    ends = [(round(x / grid) * grid, round(y / grid) * grid) for x, y in (points[0], points[-1])]
    return points if ends[0] == ends[1] and len(points) == 2 else (ends[0], *points[1:-1], ends[1])

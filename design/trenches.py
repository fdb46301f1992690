"""The trench: where it runs, how it is dug, how deep, and what it meets.

It is the union of all routes: what shares a trench counts once. It is cut where the way
of digging changes. Depth is that of the deepest thing that lies in it.
"""

import itertools
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from design.geometry import XY, path_length, snap
from design.obstacles import Obstacle, Obstacles, cut_by_sides
from design.report import Method, TrenchRole, TrenchStretch
from design.runs import Piece
from design.topology import Role
from hydraulics.limits import Limits

SHORTEST_M = 0.002


@dataclass(frozen=True)
class _Run:
    """What lies in a straight piece of trench."""

    start: XY
    end: XY
    pipes: tuple[str, ...]
    cables: tuple[str, ...]
    role: TrenchRole


@dataclass(frozen=True)
class Dig:
    """A straight piece of trench, dug in one way."""

    start: XY
    end: XY
    pipes: tuple[str, ...]
    cables: tuple[str, ...]
    role: TrenchRole
    method: Method
    depth_m: float
    soil: str
    surface: str
    why: str
    inside: tuple[Obstacle, ...]

    @property
    def length_m(self) -> float:
        return path_length((self.start, self.end))

    @property
    def middle(self) -> XY:
        return ((self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2)


def dig_pieces(
    pieces: Iterable[Piece], roles: Mapping[str, Role], obstacles: Obstacles, limits: Limits
) -> list[Dig]:
    """Every piece, cut where what it passes changes, with its method and depth."""
    bare = _cut_pieces(list(pieces), obstacles)
    if not bare:
        return []
    middles = np.array([((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b, _ in bare])
    digs = []
    for (start, end, users), inside, middle in zip(bare, obstacles.insides(middles), middles, strict=True):
        pipes = tuple(sorted(user for user in users if user in roles))
        cables = tuple(sorted(users - set(pipes)))
        role: TrenchRole = (
            "cable" if not pipes else min((roles[pipe] for pipe in pipes), key=("main", "lateral").index)
        )
        soil = obstacles.soil_at((float(middle[0]), float(middle[1])), inside)
        digs.append(_dig(_Run(start, end, pipes, cables, role), tuple(inside), soil, limits))
    return digs


def base_depth_m(role: TrenchRole, limits: Limits) -> float:
    """Depth of an open trench by what lies in it [m]."""
    depths = {"main": limits.main_depth_m, "lateral": limits.lateral_depth_m, "cable": limits.cable_depth_m}
    return depths[role]


def _cut_pieces(pieces: list[Piece], obstacles: Obstacles) -> list[tuple[XY, XY, set[str]]]:
    starts = np.array([piece.start for piece in pieces]).reshape(-1, 2)
    ends = np.array([piece.end for piece in pieces]).reshape(-1, 2)
    cut = []
    for piece, shares in zip(pieces, cut_by_sides(starts, ends, obstacles.sides), strict=True):
        (x1, y1), (x2, y2) = piece.start, piece.end
        marks = [
            piece.start,
            *(snap((x1 + t * (x2 - x1), y1 + t * (y2 - y1))) for t in shares[1:-1]),
            piece.end,
        ]
        kept = [marks[0]]
        for mark in marks[1:-1]:
            if path_length((kept[-1], mark)) > SHORTEST_M and path_length((mark, piece.end)) > SHORTEST_M:
                kept.append(mark)
        kept.append(marks[-1])
        cut += [(a, b, piece.users) for a, b in itertools.pairwise(kept)]
    return cut


def _dig(run: _Run, inside: tuple[Obstacle, ...], soil: str, limits: Limits) -> Dig:
    depth = base_depth_m(run.role, limits)
    surface, reasons = "", []
    method: Method = "machine"
    for region in inside:
        if region.kind == "future_drain" and region.depth_m is not None:
            below = round(region.depth_m + limits.service_clearance_m, 3)
            if below > depth:
                depth = below
                reasons.append(f"{depth:.2f} m deep to pass below {named(region)}")
    paved = next((region for region in inside if region.kind == "paving"), None)
    if paved is not None:
        surface, method = paved.id, "bore"
        depth = max(depth, limits.under_paving_depth_m)
        reasons.append(f"bore or sleeve under {named(paved)}")
    hand = [region for region in inside if is_hand_dug(region)]
    if hand and method == "machine":
        method = "hand"
    reasons += [_hand_reason(region, depth, limits) for region in hand]
    why = "; ".join(reasons)
    return Dig(
        run.start, run.end, run.pipes, run.cables, run.role,
        method, depth, soil, surface, why[:1].upper() + why[1:], inside,
    )  # fmt: skip


def is_hand_dug(region: Obstacle) -> bool:
    """Whether no machine may dig there: near what is buried already, and among roots."""
    return (region.is_service and region.kind != "future_drain") or region.kind == "tree"


def _hand_reason(region: Obstacle, depth_m: float, limits: Limits) -> str:
    if region.kind == "tree":
        return f"dig by hand among the roots of {named(region)}"
    reason = f"dig by hand within {limits.hand_dig_margin_m:.2f} m of {named(region)}"
    if region.depth_m is None:
        return f"{reason}, whose depth nobody knows"
    return f"{reason}, which lies above the trench floor" if region.depth_m < depth_m else reason


def named(region: Obstacle) -> str:
    """How a sentence names a region."""
    return f"“{region.label}”" if region.label else f"{region.kind.replace('_', ' ')} {region.id}"


def is_in_building(dig: Dig) -> bool:
    """Whether a cable, or the main of a supply indoors, passes inside a building, where nobody digs."""
    inside = [region for region in dig.inside if region.kind == "building"]
    indoors = dig.role == "main" and any(region.holds_supply for region in inside)
    return bool(inside) and (indoors or not dig.pipes)


def stretches(digs: Iterable[Dig]) -> tuple[TrenchStretch, ...]:
    """Pieces that are alike and touch, joined into stretches, the main first."""
    groups: dict[tuple[object, ...], list[Dig]] = defaultdict(list)
    for dig in digs:
        if not is_in_building(dig):
            key = (dig.role, dig.method, dig.depth_m, dig.pipes, dig.cables, dig.soil, dig.surface, dig.why)
            groups[key].append(dig)
    joined = [(group[0], path) for group in groups.values() for path in chains(group)]
    joined.sort(key=lambda item: ("main", "lateral", "cable").index(item[0].role))
    return tuple(_stretch(f"trench-{place}", dig, path) for place, (dig, path) in enumerate(joined, 1))


def _stretch(name: str, dig: Dig, path: tuple[XY, ...]) -> TrenchStretch:
    return TrenchStretch(
        id=name,
        path=straightened(path),
        length_m=path_length(path),
        method=dig.method,
        depth_m=dig.depth_m,
        role=dig.role,
        pipes=dig.pipes,
        cables=dig.cables,
        soil=dig.soil,
        surface=dig.surface,
        why=dig.why,
    )


def chains(digs: list[Dig]) -> list[tuple[XY, ...]]:
    """Paths that together pass over every piece once."""
    if len(digs) == 1:
        return [(digs[0].start, digs[0].end)]
    at: dict[XY, list[Dig]] = defaultdict(list)
    for dig in digs:
        at[dig.start].append(dig)
        at[dig.end].append(dig)
    left = set(map(id, digs))
    paths = []
    for begin in sorted(digs, key=lambda dig: min(len(at[dig.start]), len(at[dig.end]))):
        if id(begin) in left:
            first = begin.start if len(at[begin.start]) != 2 or len(at[begin.end]) == 2 else begin.end
            paths.append(_walk(first, begin, at, left))
    return paths


def _walk(first: XY, dig: Dig, at: Mapping[XY, list[Dig]], left: set[int]) -> tuple[XY, ...]:
    path = [first]
    current: Dig | None = dig
    while current is not None:
        left.discard(id(current))
        path.append(current.end if current.start == path[-1] else current.start)
        here = at[path[-1]]
        current = next((other for other in here if id(other) in left), None) if len(here) == 2 else None
    return tuple(path)


def straightened(path: tuple[XY, ...]) -> tuple[XY, ...]:
    """The path without the points at which it does not bend."""
    if len(path) == 2:
        return path
    kept = list(path[:1])
    for here, there in itertools.pairwise(path):
        (x0, y0), (x1, y1), (x2, y2) = kept[-1], here, there
        if abs((x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)) > 0.002 * path_length((kept[-1], there)):
            kept.append(here)
    return (*kept, path[-1])

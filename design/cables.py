"""Control cables: the way that each takes from device to device, and how much of it is needed.

A drawn cable runs as drawn. Any other follows the trench, never the straight line; a device
beside the trench gets a trench of its own to the nearest point of it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from design.document import Cable, Plan
from design.geometry import XY, nearest_on_segment, path_length, snap
from design.report import CableResult
from design.runs import Piece, PieceKey, RunGraph, cut_routes
from design.trenches import Dig, base_depth_m, straightened
from hydraulics.catalogue import CablePart, Catalogue
from hydraulics.limits import Limits

ON_ROUTE_M = 0.002  # a device this close to a trench stands on it
LEG = "~leg "  # marks a route that is there for cables to follow, and is no cable


@dataclass(frozen=True)
class Runs:
    """All pieces of trench with who lies in them, and the way of each cable."""

    pieces: tuple[Piece, ...]
    cable_paths: dict[str, tuple[XY, ...]]
    legs_m: dict[str, float]  # by cable: own trench to the common one
    straight: tuple[str, ...]  # cables that no trench connects


def pipe_paths(plan: Plan) -> dict[str, tuple[XY, ...]]:
    """The route of every pipe, ends included."""
    at = {node.id: node.at for node in plan.layout.nodes}
    return {pipe.id: (at[pipe.from_], *pipe.via, at[pipe.to]) for pipe in plan.layout.pipes}


def lay_runs(plan: Plan) -> Runs:
    """Cut all routes into pieces and lead every cable along them."""
    at = {node.id: node.at for node in plan.layout.nodes}
    routes = {name: list(path) for name, path in pipe_paths(plan).items()}
    drawn = {c.id: (at[c.from_], *c.via, at[c.to]) for c in plan.layout.cables if c.via}
    routes |= {name: list(path) for name, path in drawn.items()}
    free = [cable for cable in plan.layout.cables if not cable.via]
    legs = _add_legs(free, at, routes)
    routes |= {LEG + name: path for name, path in legs.items()}
    pieces = cut_routes(routes)
    graph = RunGraph(pieces.values())
    ways = {cable.id: graph.way(at[cable.from_], at[cable.to]) for cable in free}
    lone = {c.id: (at[c.from_], at[c.to]) for c in free if ways[c.id] is None}
    if lone:
        pieces = cut_routes({**routes, **lone})
    paths = {name: straightened(tuple(way)) for name, way in ways.items() if way is not None}
    for name, way in ways.items():
        _mark(pieces, name, way or ())
    used = _without_legs(pieces)
    legs_m = {c.id: sum(path_length(legs[end]) for end in (c.from_, c.to) if end in legs) for c in free}
    return Runs(used, drawn | paths | lone, {k: v for k, v in legs_m.items() if v > 0}, tuple(lone))


def _add_legs(
    free: Sequence[Cable], at: Mapping[str, XY], routes: dict[str, list[XY]]
) -> dict[str, list[XY]]:
    """For each device beside the trench, a straight way to the nearest point of it.

    A device that stands on a route becomes a vertex of that route instead.
    """
    vertices = {snap(point) for path in routes.values() for point in path}
    legs = {}
    for device in dict.fromkeys(end for cable in free for end in (cable.from_, cable.to)):
        if snap(at[device]) in vertices or not routes:
            continue
        distance, foot, name, place = min(
            (*nearest_on_segment(at[device], a, b), name, place)
            for name, path in routes.items()
            for place, (a, b) in enumerate(pairwise(path), 1)
        )
        if distance > ON_ROUTE_M:
            legs[device] = [at[device], foot]
        else:
            routes[name].insert(place, at[device])
    return legs


def _mark(pieces: Mapping[PieceKey, Piece], cable: str, way: Sequence[XY]) -> None:
    for a, b in pairwise(way):
        pieces[(a, b) if a < b else (b, a)].users.add(cable)


def _without_legs(pieces: Mapping[PieceKey, Piece]) -> tuple[Piece, ...]:
    kept = []
    for piece in pieces.values():
        piece.users = {user for user in piece.users if not user.startswith(LEG)}
        if piece.users:
            kept.append(piece)
    return tuple(kept)


def measure_cables(
    plan: Plan, parts: Catalogue, runs: Runs, digs: Sequence[Dig], limits: Limits
) -> tuple[CableResult, ...]:
    """Length of every cable: along the trench, up from it at both ends, and the slack left there."""
    depth_at: dict[tuple[str, XY], float] = {}
    for dig in digs:
        for cable_id in dig.cables:
            for point in (dig.start, dig.end):
                depth_at[cable_id, point] = dig.depth_m
    results = []
    for cable in plan.layout.cables:
        path = runs.cable_paths[cable.id]
        default = base_depth_m("cable", limits)
        rise = sum(depth_at.get((cable.id, snap(end)), default) for end in (path[0], path[-1]))
        trench, slack = path_length(path), 2 * limits.cable_slack_m
        part = parts.need(cable.part, CablePart)
        results.append(
            CableResult(
                cable.id, cable.from_, cable.to, cable.part, path, trench, rise, slack,
                trench + rise + slack, part.limit_m or part.fixed_length_m,
            )
        )  # fmt: skip
    return tuple(results)

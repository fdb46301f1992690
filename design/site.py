"""All that is measured on a plan before its hydraulics are solved, in one place."""

import math
from dataclasses import dataclass
from functools import cached_property

from design.cables import Runs, lay_runs, measure_cables, pipe_paths
from design.document import HeadNode, Plan
from design.drip import DripLayout, lay_drip
from design.geometry import XY, path_length, ring_area
from design.levels import Levels
from design.obstacles import build_obstacles
from design.part_rules import check_parts, own_valve_heads
from design.problems import PlanInvalid, Problem
from design.report import CableResult, PipeMeasure, SleeveMeasure, TrenchStretch
from design.sleeves import measure_sleeves
from design.topology import Topology, build_topology
from design.trenches import Dig, dig_pieces, stretches
from hydraulics.catalogue import Catalogue, DripPart, PipePart
from hydraulics.limits import Limits


@dataclass(frozen=True)
class Site:
    """A plan with its parts and limits; what is measured on it is worked out when first asked for."""

    plan: Plan
    parts: Catalogue
    limits: Limits

    def __post_init__(self) -> None:
        problems = check_parts(self.plan, self.parts) or self._case_problems()
        if problems:
            raise PlanInvalid(problems)

    def _case_problems(self) -> list[Problem]:
        """Cases that name a head whose own valve lies behind another one."""
        behind = self.topology.zone_of_head()
        return [
            Problem(case.label, "open", f"{zone} lies behind {behind[zone]}; name that valve.")
            for case in self.plan.layout.cases
            for zone in case.open
            if zone not in self.topology.zones
        ]

    @cached_property
    def topology(self) -> Topology:
        return build_topology(self.plan, own_valve_heads(self.plan, self.parts))

    @cached_property
    def heads(self) -> dict[str, HeadNode]:
        return {node.id: node for node in self.plan.layout.nodes if isinstance(node, HeadNode)}

    @cached_property
    def heights(self) -> dict[str, float]:
        """Height of every node [m]."""
        return {name: self.levels.of_node(node) for name, node in self.topology.nodes.items()}

    @cached_property
    def levels(self) -> Levels:
        return Levels(self.plan.ground.levels)

    @cached_property
    def bore_mm(self) -> dict[str, float]:
        """True bore of every pipe of the plan [mm]."""
        return {pipe.id: self.parts.need(pipe.part, PipePart).bore_mm for pipe in self.plan.layout.pipes}

    @cached_property
    def paths(self) -> dict[str, tuple[XY, ...]]:
        return pipe_paths(self.plan)

    @cached_property
    def area_m2(self) -> dict[str, float]:
        """Size of every area without its holes [m2]."""
        return {
            area.id: ring_area(area.outline) - sum(map(ring_area, area.holes))
            for area in self.plan.ground.areas
        }

    @cached_property
    def drips(self) -> dict[str, DripLayout]:
        """Rows of drip line by inlet."""
        areas = {area.id: area for area in self.plan.ground.areas}
        found = {}
        for head in self.heads.values():
            part = self.parts[head.part]
            if isinstance(part, DripPart) and head.area is not None:
                found[head.id] = lay_drip(areas[head.area], part)
        return found

    @cached_property
    def pipe_m(self) -> dict[str, float]:
        """Length of every pipe [m], along the slope between its ends."""
        return {
            pipe.id: math.hypot(
                path_length(self.paths[pipe.id]), self.heights[pipe.to] - self.heights[pipe.from_]
            )
            for pipe in self.plan.layout.pipes
        }

    @cached_property
    def pipes(self) -> tuple[PipeMeasure, ...]:
        return tuple(
            PipeMeasure(
                pipe.id, pipe.part, self.topology.roles[pipe.id], self.paths[pipe.id],
                self.pipe_m[pipe.id],
            )
            for pipe in self.plan.layout.pipes
        )  # fmt: skip

    @cached_property
    def runs(self) -> Runs:
        return lay_runs(self.plan)

    @cached_property
    def digs(self) -> list[Dig]:
        supply = self.topology.supply
        supply_at = self.topology.nodes[supply].at if supply else None
        obstacles = build_obstacles(self.plan.ground, self.limits, supply_at)
        return dig_pieces(self.runs.pieces, self.topology.roles, obstacles, self.limits)

    @cached_property
    def trench(self) -> tuple[TrenchStretch, ...]:
        return stretches(self.digs)

    @cached_property
    def cables(self) -> tuple[CableResult, ...]:
        return measure_cables(self.plan, self.parts, self.runs, self.digs, self.limits)

    @cached_property
    def sleeves(self) -> tuple[SleeveMeasure, ...]:
        return measure_sleeves(self.digs, self.plan.layout.sleeves, self.limits)

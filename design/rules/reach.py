"""Rules on what heads reach, on shadows, and on water that lands elsewhere."""

from collections.abc import Iterator

from design.document import Area
from design.reach import nearest_edge_m, shadow_m2
from design.reaching import ReachingHead, area_of_head, heads_by_area, nearest_neighbours, rings_of
from design.report import CaseResult, HeadResult
from design.rules.finding import Measure, finding, listed, rule
from design.shading import DRAWN_INSIDE_M, buildings_of, depth_inside_m
from design.site import Site
from design.solving import Solved
from design.spill import spills
from design.visibility import shadow_bearings
from hydraulics.catalogue import HeadPart
from hydraulics.findings import Finding, Severity
from hydraulics.rules import HeadThrow, SpacedHead, head_spacing, head_throw, overspray, overspray_surface

STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE
TOLERANCE_SHARE = 1.005
# common practice, no source: a shadow smaller than this is wetted by drift
SHADOW_M2 = 0.1
# common practice, no source: less than this is the width of a drawn line, or a wet kerb
DRAWN_EDGE_PCT = 0.2
PAVED_PCT = 2.0

BEYOND = rule(
    "head.reach.beyond",
    (STOP, WARN),
    "The reach that a head is set to against what it can throw",
    "throw",
    "m",
)
SHADOW = rule("head.shadow", (WARN,), "Part of an area that its heads cannot see", f"{SHADOW_M2} m2", "m2")
NEAR = rule(
    "head.edge.near", (WARN,), "An edge nearer than the head's least throw is sprayed over",
    "min_throw_m of the part", "m",
)  # fmt: skip
INDOORS = rule(
    "head.indoors", (STOP,), "How far inside a building a head stands: no water comes out through the wall",
    f"{DRAWN_INSIDE_M} m", "m",
)  # fmt: skip
NO_AREA = rule("head.area.none", (WARN,), "A head that stands in no area and beside none", "0 heads", "heads")


def reach_findings(site: Site, solved: Solved, cases: tuple[CaseResult, ...]) -> Iterator[Finding]:
    """All findings on throw, spacing, shadow and spill."""
    seen: set[str] = set()
    for case in cases:
        for head in case.heads:
            if head.id not in seen and head.throw_m > 0:
                yield from _throw_findings(site, head)
            seen.add(head.id)
    heads = list(solved.reaching.values())
    for area_id, sharing in heads_by_area(heads, site.plan.ground.areas).items():
        area = next(area for area in site.plan.ground.areas if area.id == area_id)
        yield from _spacing_findings(site, [head for head in sharing if head.pattern != "by_bearing"])
        yield from _scanning_findings(site, [head for head in sharing if head.pattern == "by_bearing"], area)
    for lost in heads:
        if area_of_head(lost, site.plan.ground.areas) is None:
            sentence = f"{lost.id} stands in no area: name the area that it waters, or move it."
            yield finding(NO_AREA, WARN, Measure(1, 0, (lost.id,), lost.at), sentence)
    yield from _indoor_findings(site)
    yield from _spill_findings(site, heads)


def _indoor_findings(site: Site) -> Iterator[Finding]:
    sprinklers = [head for head in site.heads.values() if isinstance(site.parts[head.part], HeadPart)]
    for head in sprinklers:
        for building in buildings_of(site.plan.ground):
            depth = depth_inside_m(head.at, building)
            if depth > DRAWN_INSIDE_M:
                sentence = (
                    f"{head.id} stands {depth:.2f} m inside {building.label or building.id}: move it out."
                )
                measure = Measure(depth, DRAWN_INSIDE_M, (head.id, building.id), head.at)
                yield finding(INDOORS, STOP, measure, sentence)


def _throw_findings(site: Site, head: HeadResult) -> Iterator[Finding]:
    asked = [HeadThrow(head.id, head.case, head.reach_m, head.needed_m, head.needed_at)]
    yield from head_throw(asked, site.limits)
    at = site.heads[head.id].at
    wanted = site.heads[head.id].reach_m
    if wanted is not None and wanted > head.throw_m * TOLERANCE_SHARE:
        stop = wanted > 1.4 * head.throw_m
        hint = "is that a diameter? A reach is a radius" if stop else "set it to what it can throw"
        sentence = f"{head.id} is set to {wanted:.2f} m but throws {head.throw_m:.2f} m: {hint}."
        measure = Measure(wanted, head.throw_m, (head.id,), at, head.case)
        yield finding(BEYOND, STOP if stop else WARN, measure, sentence)


def _spacing_findings(site: Site, sharing: list[ReachingHead]) -> list[Finding]:
    nearest = nearest_neighbours(sharing)
    spaced = [
        SpacedHead(head.id, head.throw_m, *nearest[head.id], head.at)
        for head in sharing
        if head.id in nearest
    ]
    return head_spacing(spaced, site.limits)


def _scanning_findings(site: Site, sharing: list[ReachingHead], area: Area) -> Iterator[Finding]:
    if not sharing:
        return
    spans = {head.id: shadow_bearings(rings_of(area), head.at) for head in sharing}
    hidden = shadow_m2(sharing, area) if all(spans.values()) else 0.0
    if hidden > SHADOW_M2:
        ids = tuple(spans)
        first = sharing[0]
        turns = listed(f"{start:.1f}° to {end:.1f}°" for start, end in spans[first.id])
        sentence = (
            f"{hidden:.1f} m2 of {area.label or area.id} lie in the shadow of a corner for {listed(ids)} "
            f"(from {first.id}: {turns}): move a head, or add one."
        )
        yield finding(SHADOW, WARN, Measure(hidden, SHADOW_M2, (area.id, *ids), first.at), sentence)
    for head in sharing:
        part = site.parts.need(site.heads[head.id].part, HeadPart)
        edge = nearest_edge_m(head, area)
        if edge < part.min_throw_m:
            sentence = (
                f"{head.id} cannot throw less than {part.min_throw_m:.2f} m and stands {edge:.2f} "
                f"m from an edge: "
                "move it inward."
            )
            yield finding(NEAR, WARN, Measure(edge, part.min_throw_m, (head.id,), head.at), sentence)


def _spill_findings(site: Site, heads: list[ReachingHead]) -> Iterator[Finding]:
    kinds = {surface.id: surface.kind for surface in site.plan.ground.surfaces}
    for name, spill in spills(heads, site.plan.ground).items():
        for surface, share in spill.on_surface_pct.items():
            if share > (PAVED_PCT if kinds[surface] == "paving" else DRAWN_EDGE_PCT):
                yield from overspray_surface(name, surface, kinds[surface], share, site.limits)
        yield from overspray(name, spill.outside_pct, site.limits)

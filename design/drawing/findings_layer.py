"""A badge where the check says stop or warn, and the notes that someone left on the plan."""

from design.report import XY
from hydraulics.findings import Finding, Severity

from .labels import around
from .scene import Scene
from .shapes import Circle, Polygon, Shape, Text


def draw_findings(scene: Scene) -> None:
    places = _places(scene)
    drawn: set[XY] = set()
    findings = scene.report.findings if scene.report else ()
    ordered = sorted(findings, key=lambda f: f.severity != Severity.STOP)
    for finding in ordered:
        site = finding.at or next((places[i] for i in finding.where if i in places), None)
        if finding.severity == Severity.NOTE or site is None or site in drawn:
            continue
        drawn.add(site)
        scene.add(
            "findings", f"finding-{finding.severity}", "", finding.sentence, _badge(scene, finding, site)
        )


def _places(scene: Scene) -> dict[str, XY]:
    """A point for each entity that a finding may name."""
    places = {node.id: node.at for node in scene.plan.layout.nodes}
    places |= {m.id: m.path[len(m.path) // 2] for m in (scene.report.pipes if scene.report else ()) if m.path}
    places |= {t.id: t.path[0] for t in (scene.report.trench if scene.report else ()) if t.path}
    places |= {s.id: s.path[0] for s in scene.plan.ground.services}
    return places


def _badge(scene: Scene, finding: Finding, site: XY) -> list[Shape]:
    x, y = scene.frame.page(site)
    unit = scene.unit
    x, y = x + 8 * unit, y - 8 * unit
    style = f"finding-{finding.severity}"
    # An octagon for stop and a triangle for warn: the shape tells, not the colour alone.
    ring: tuple[XY, ...]
    if finding.severity == Severity.STOP:
        a, b = 7 * unit, 3 * unit
        ring = ((x - b, y - a), (x + b, y - a), (x + a, y - b), (x + a, y + b),
                (x + b, y + a), (x - b, y + a), (x - a, y + b), (x - a, y - b))  # fmt: skip
    else:
        ring = ((x, y - 8 * unit), (x + 8 * unit, y + 6 * unit), (x - 8 * unit, y + 6 * unit))
    mark = Text((x, y + 4 * unit), "!", f"finding-text-{finding.severity}", 10 * unit, "middle")
    return [Polygon((ring,), style), mark]


def draw_notes(scene: Scene) -> None:
    for note in scene.plan.layout.notes:
        if note.at is None:
            continue
        at = scene.frame.page(note.at)
        scene.add("notes", "note", "", note.text, [Circle(at, 4 * scene.unit, "note")])
        scene.space.block(at, 5 * scene.unit)
        words = note.text if len(note.text) <= 32 else note.text[:31] + "…"
        scene.label(scene.space.put(around(at, words, "label-faint", scene.size * 0.8, 7 * scene.unit)))

"""What the page of a plan revision shows: drawing, charts, findings and tables of the check."""

import re
from dataclasses import dataclass
from functools import cached_property

from django.utils.safestring import SafeString, mark_safe

from design.document import Plan
from design.drawing import (
    LAYERS,
    DrawingOptions,
    plan_drawing,
    pressure_path_chart,
    supply_chart,
    to_svg,
)
from design.drawing.options import Units
from design.report import CheckReport
from hydraulics.findings import Finding, Severity
from parts.services import catalogue
from sites.check import check_revision, plan_of
from sites.errors import CheckFailed
from sites.models import PlanRevision

LAYER_NAMES = {
    "wetting": "wetting", "services": "buried services", "trench": "trench", "pipes": "pipes",
    "cables": "cables", "marks": "marks", "labels": "labels", "notes": "notes", "findings": "findings",
}  # fmt: skip
SEVERITY_NAMES = {Severity.STOP: "stop", Severity.WARN: "decide", Severity.NOTE: "note"}


@dataclass(frozen=True)
class LayerLink:
    name: str
    is_shown: bool
    query: str  # that turns it over


@dataclass(frozen=True)
class FindingRow:
    finding: Finding
    word: str
    places: tuple[tuple[str, bool], ...]  # id, and whether the drawing has it


class PlanPage:
    """Drawing and check of a revision. ``hidden`` holds layers left out, ``marked`` ids to mark.

    ``id_prefix`` keeps the ids of two drawings on one page apart.
    """

    def __init__(
        self,
        revision: PlanRevision,
        hidden: frozenset[str] = frozenset(),
        marked: frozenset[str] = frozenset(),
        id_prefix: str = "e-",
    ) -> None:
        self.id_prefix = id_prefix
        self.revision, self.hidden, self.marked = revision, hidden & set(LAYER_NAMES), marked
        self.units: Units = "us" if revision.site.units == "us" else "metric"
        self.plan: Plan = plan_of(revision)
        self.report: CheckReport | None = None
        self.failure = ""
        try:
            self.report = check_revision(revision)
        except CheckFailed as failure:
            self.failure = str(failure)

    @cached_property
    def drawing(self) -> SafeString:
        """The plan as SVG; the drawing escapes all text in it."""
        options = DrawingOptions(
            layers=frozenset(LAYERS) - self.hidden,
            units=self.units,
            parts=catalogue(),
            highlight=self.marked,
            interactive=True,
            title=str(self.revision),
            id_prefix=self.id_prefix,
        )
        return mark_safe(to_svg(plan_drawing(self.plan, self.report, options)))  # noqa: S308

    @cached_property
    def layers(self) -> list[LayerLink]:
        return [
            LayerLink(
                name,
                layer not in self.hidden,
                "&".join(f"hide={item}" for item in sorted(self.hidden ^ {layer})),
            )
            for layer, name in LAYER_NAMES.items()
        ]

    @cached_property
    def supply_chart(self) -> SafeString:
        return self._chart("supply-") if self.report else SafeString("")

    @cached_property
    def path_charts(self) -> list[tuple[str, SafeString]]:
        """Pressure along the way to the worst head, by case."""
        found = []
        for place, case in enumerate(self.report.cases if self.report else ()):
            options = self._chart_options(f"path-{place}-", f"Pressure on the way to {case.worst_head}")
            drawing = (
                pressure_path_chart(self.plan, self.report, case.label, options) if self.report else None
            )
            if drawing is not None:
                found.append((case.label, mark_safe(to_svg(drawing))))  # noqa: S308
        return found

    @cached_property
    def findings(self) -> list[FindingRow]:
        drawn = set(re.findall(r'id="e-([^"]+)"', self.drawing))
        return [
            FindingRow(
                finding, SEVERITY_NAMES[finding.severity], tuple((i, i in drawn) for i in finding.where)
            )
            for finding in (self.report.findings if self.report else ())
        ]

    @cached_property
    def counts(self) -> dict[str, int]:
        found = [finding.severity for finding in (self.report.findings if self.report else ())]
        return {severity.value: found.count(severity) for severity in Severity}

    @property
    def pipe_length_m(self) -> float:
        return sum(pipe.length_m for pipe in self.report.pipes) if self.report else 0.0

    @property
    def trench_length_m(self) -> float:
        return sum(stretch.length_m for stretch in self.report.trench) if self.report else 0.0

    @cached_property
    def trench_sums(self) -> list[tuple[str, float, float]]:
        """Method, depth and metres in all, the most metres first."""
        sums: dict[tuple[str, float], float] = {}
        for stretch in self.report.trench if self.report else ():
            key = (stretch.method, round(stretch.depth_m, 2))
            sums[key] = sums.get(key, 0.0) + stretch.length_m
        rows = [(method, depth_m, length_m) for (method, depth_m), length_m in sums.items()]
        return sorted(rows, key=lambda row: -row[2])

    def _chart(self, prefix: str) -> SafeString:
        if self.report is None:
            return SafeString("")
        options = self._chart_options(prefix, "Water supply")
        return mark_safe(to_svg(supply_chart(self.plan, self.report, options)))  # noqa: S308

    def _chart_options(self, prefix: str, title: str) -> DrawingOptions:
        return DrawingOptions(width=560, units=self.units, title=title, id_prefix=prefix)


def _query(hidden: frozenset[str]) -> str:
    return "&".join(f"hide={layer}" for layer in sorted(hidden))

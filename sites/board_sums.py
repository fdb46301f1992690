"""Sums and supply of what is drawn, in the site's units."""

from collections import defaultdict
from typing import Any

from design.drawing.options import Units
from design.partial_check import PartialReport
from design.report import CheckReport
from hydraulics.sentences import in_units_of
from sites.figures import in_system

METHOD_NAMES = {"machine": "Trench by machine", "hand": "Trench by hand", "bore": "Bored under paving"}
NO_WATER = "Nothing can be said about water yet."


def sums_of(found: PartialReport, units: Units) -> list[dict[str, str]]:
    """How much of everything is drawn, as far as it is connected."""
    site = found.site
    trench: dict[str, float] = defaultdict(float)
    for stretch in site.trench:
        trench[stretch.method] += stretch.length_m
    rows = [
        ("Heads", str(len(site.heads) - len(site.drips))),
        ("Zones", str(len(site.topology.zones))),
        ("Pipe", in_system(sum(pipe.length_m for pipe in site.pipes), "length", units)),
        *(
            (name, in_system(trench[method], "length", units))
            for method, name in METHOD_NAMES.items()
            if trench[method] > 0
        ),
    ]
    if site.drips:
        rows.insert(1, ("Drip areas", str(len(site.drips))))
    if site.cables:
        rows.append(("Cable", in_system(sum(cable.length_m for cable in site.cables), "length", units)))
    if found.report and found.report.areas:
        watered = sum(area.watered_m2 for area in found.report.areas)
        whole = sum(site.area_m2.values())
        words = f"{in_system(watered, 'area', units)} of {in_system(whole, 'area', units)}"
        rows.append(("Area watered", words))
    return [{"label": label, "value": value} for label, value in rows]


def supply_of(report: CheckReport | None, units: Units) -> dict[str, Any]:
    """What the supply gives, in a sentence; and what is measured of it."""
    if report is None:
        return {"sentence": NO_WATER}
    supply = report.supply
    static = in_system(supply.static_kpa, "pressure", units)
    flow = in_system(supply.design_flow_lpm, "flow", units)
    sentence = f"{static} static at the connection; design for {flow} at the most."
    return {
        "sentence": sentence,
        "confidence": supply.confidence,
        "confidence_sentence": in_units_of(units, supply.confidence_sentence),
        "static": static,
        "design_flow": flow,
    }

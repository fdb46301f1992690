"""Heads for an area of what is drawn, as nodes that the board can take over."""

from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError

from design.document import Area
from design.placement import CannotPlace, Placement, place_heads
from design.problems import DesignError
from design.unfinished import entities_of, ids_of
from hydraulics.catalogue import DripPart, HeadPart
from hydraulics.sentences import in_units_of
from parts.services import catalogue
from sites.board_check import units_of
from sites.errors import SitesError
from sites.models import Site
from sites.typed_measure import MeasureRefused, read_measure


class NotPlaced(SitesError):
    """No heads were placed; the message says why."""


def place_answer(
    site: Site, document: dict[str, Any], area_id: str, part_code: str, spacing: str
) -> dict[str, Any]:
    """Nodes and a sentence. Raises NotPlaced."""
    part = catalogue().get(part_code)
    if not isinstance(part, HeadPart | DripPart):
        raise NotPlaced(f"There is no head or drip line “{part_code}” in the parts book; choose one from it.")
    area = _area(document, area_id)
    units = units_of(site)
    try:
        spacing_m = read_measure("length", spacing, site.units).value if spacing else None
    except MeasureRefused as refusal:
        raise NotPlaced(str(refusal)) from None
    if spacing_m is not None and spacing_m < 0.3:
        raise NotPlaced("Heads stand at least 0.3 m apart; type a larger spacing.")
    try:
        found = place_heads(area, part, spacing_m, _supply_at(document))
    except CannotPlace as refusal:
        raise NotPlaced(in_units_of(units, str(refusal))) from None
    except DesignError as error:
        raise NotPlaced(str(error)) from None
    nodes = [*_nodes(found, document, area.id, part.code)]
    return {"nodes": nodes, "sentence": in_units_of(units, found.sentence())}


def _area(document: dict[str, Any], area_id: str) -> Area:
    row = next((row for row in entities_of(document, "ground", "areas") if row.get("id") == area_id), None)
    if row is None:
        raise NotPlaced(f"There is no area “{area_id}”; draw one first.")
    try:
        return Area.model_validate(row)
    except ValidationError:
        raise NotPlaced("This area is not finished yet; complete its outline first.") from None


def _supply_at(document: dict[str, Any]) -> tuple[float, float] | None:
    """Where the pipes begin, if that is drawn."""
    for node in entities_of(document, "layout", "nodes"):
        at = node.get("at")
        if node.get("kind") == "supply" and isinstance(at, list) and len(at) == 2:
            x, y = at
            if isinstance(x, int | float) and isinstance(y, int | float) and abs(x) + abs(y) < 1e5:
                return float(x), float(y)
    return None


def _nodes(
    found: Placement, document: dict[str, Any], area_id: str, part_code: str
) -> Iterator[dict[str, Any]]:
    taken, number = ids_of(document), 0
    for head in found.heads:
        number += 1
        while f"H{number}" in taken:
            number += 1
        yield {
            "id": f"H{number}",
            "kind": "head",
            "at": [round(head.at[0], 3), round(head.at[1], 3)],
            "part": part_code,
            "from_deg": head.from_deg,
            "sweep_deg": head.sweep_deg,
            "area": area_id,
        }

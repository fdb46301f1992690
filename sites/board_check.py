"""The check of what is drawn on the board, worked out with the parts book and limits of now."""

from typing import Any

from design.drawing.options import Units
from design.partial_check import PartialReport, check_document
from parts.services import catalogue
from sites.board_answer import answer
from sites.board_moved import moved
from sites.limit_services import company_limits
from sites.models import Site


def check_drawing(site: Site, document: dict[str, Any], before: Any = None) -> dict[str, Any]:
    """The answer of the board's check; ``before`` is what the last one gave as its figures."""
    units = units_of(site)
    found = answer(report_on(document), units)
    return {**found, "moved": moved(before, found["figures"], units)}


def report_on(document: dict[str, Any]) -> PartialReport:
    return check_document(document, catalogue(), company_limits())


def units_of(site: Site) -> Units:
    return "us" if site.units == "us" else "metric"

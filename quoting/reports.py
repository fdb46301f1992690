"""The stored check of a quote, read back."""

from typing import Any

from pydantic import TypeAdapter

from design.document import Plan
from design.drawing.options import Units
from design.report import CheckReport
from parts.services import catalogue
from quoting.models import Quote
from quoting.scope_words import Subject

_REPORT: TypeAdapter[CheckReport] = TypeAdapter(CheckReport)


def report_of(stored: dict[str, Any]) -> CheckReport:
    """The report that ``report_to_dict`` wrote, through JSON or not."""
    return _REPORT.validate_python(stored)


def plan_of(quote: Quote) -> Plan:
    return Plan.model_validate(quote.plan.document)


def subject_of(quote: Quote) -> Subject:
    """Plan, check and parts of a quote, in the units of its site."""
    units: Units = "us" if quote.site.units == "us" else "metric"
    return Subject(plan_of(quote), report_of(quote.basis.report), catalogue(), units)

"""The check of a plan revision."""

from design.check import check
from design.document import Plan
from design.report import CheckReport
from parts.services import catalogue
from sites.models import PlanRevision


def check_revision(revision: PlanRevision) -> CheckReport:
    """Raises PlanInvalid or HydraulicsError."""
    return check(Plan.model_validate(revision.document), catalogue())

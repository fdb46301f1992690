"""The check of a stored plan revision, worked out once for each document, parts book and set of limits."""

from collections import OrderedDict
from threading import Lock

from design.check import check
from design.document import Plan
from design.problems import PlanInvalid
from design.report import CheckReport
from hydraulics.errors import HydraulicsError
from hydraulics.limits import Limits
from parts.services import catalogue, catalogue_stamp
from sites.errors import CheckFailed
from sites.limit_services import company_limits
from sites.models import PlanRevision

KEPT = 64
_reports: OrderedDict[tuple[str, str, Limits], CheckReport] = OrderedDict()
_lock = Lock()


def plan_of(revision: PlanRevision) -> Plan:
    """The document as typed model; it was judged when it was saved."""
    return Plan.model_validate(revision.document)


def check_revision(revision: PlanRevision, limits: Limits | None = None) -> CheckReport:
    """The report on a revision, with the parts book as it stands now. Raises CheckFailed.

    Without ``limits`` it is judged by the company's own.
    """
    limits = company_limits() if limits is None else limits
    key = (revision.digest, catalogue_stamp(), limits)
    with _lock:
        if key in _reports:
            _reports.move_to_end(key)
            return _reports[key]
    report = check_plan(plan_of(revision), limits)
    with _lock:
        _reports[key] = report
        while len(_reports) > KEPT:
            _reports.popitem(last=False)
    return report


def check_plan(plan: Plan, limits: Limits | None = None) -> CheckReport:
    """The report on a plan that need not be stored, by the company's limits if by no others.

    Raises CheckFailed with a sentence.
    """
    try:
        return check(plan, catalogue(), company_limits() if limits is None else limits)
    except PlanInvalid as error:
        raise CheckFailed(" ".join(str(problem) for problem in error.problems)) from None
    except HydraulicsError as error:
        raise CheckFailed(f"The plan cannot be solved: {error}.") from None

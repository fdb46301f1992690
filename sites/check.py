"""The check of a stored plan revision, worked out once for each document and state of the parts book."""

from collections import OrderedDict
from threading import Lock

from design.check import check
from design.document import Plan
from design.problems import PlanInvalid
from design.report import CheckReport
from hydraulics.errors import HydraulicsError
from hydraulics.limits import DEFAULT_LIMITS, Limits
from parts.services import catalogue, catalogue_stamp
from sites.errors import CheckFailed
from sites.models import PlanRevision

KEPT = 64
_reports: OrderedDict[tuple[str, str, int], CheckReport] = OrderedDict()
_lock = Lock()


def plan_of(revision: PlanRevision) -> Plan:
    """The document as typed model; it was judged when it was saved."""
    return Plan.model_validate(revision.document)


def check_revision(revision: PlanRevision, limits: Limits = DEFAULT_LIMITS) -> CheckReport:
    """The report on a revision, with the parts book as it stands now. Raises CheckFailed."""
    key = (revision.digest, catalogue_stamp(), hash(limits))
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


def check_plan(plan: Plan, limits: Limits = DEFAULT_LIMITS) -> CheckReport:
    """The report on a plan that need not be stored. Raises CheckFailed with a sentence."""
    try:
        return check(plan, catalogue(), limits)
    except PlanInvalid as error:
        raise CheckFailed(" ".join(str(problem) for problem in error.problems)) from None
    except HydraulicsError as error:
        raise CheckFailed(f"The plan cannot be solved: {error}.") from None

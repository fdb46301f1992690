"""The cheapest pipes for a stored plan revision. Nothing is written: keeping them is a new revision."""

from django.utils import timezone

from design.problems import PlanInvalid
from design.sizing import SizingOptions, SizingResult, size_pipes
from hydraulics.errors import HydraulicsError
from hydraulics.limits import Limits
from parts.services import catalogue
from sites.check import plan_of
from sites.errors import CheckFailed
from sites.limit_services import company_limits
from sites.models import PlanRevision
from sites.sizing_prices import metre_prices

# a page must not keep anybody waiting longer; what is not proven by then is shown as not proven
SECONDS = 8.0


def size_revision(
    revision: PlanRevision, keep: frozenset[str] = frozenset(), limits: Limits | None = None
) -> SizingResult:
    """Sizes at today's best prices; pipes in ``keep`` stay. Raises CheckFailed with a sentence."""
    parts = catalogue()
    prices = metre_prices(parts, timezone.localdate())
    try:
        options = SizingOptions(locked=keep, seconds=SECONDS)
        return size_pipes(plan_of(revision), parts, limits or company_limits(), prices, options)
    except PlanInvalid as error:
        raise CheckFailed(" ".join(str(problem) for problem in error.problems)) from None
    except HydraulicsError as error:
        sentence = str(error)
        raise CheckFailed(sentence[:1].upper() + sentence[1:].rstrip(".") + ".") from None


def unknown_pipes(revision: PlanRevision, named: frozenset[str]) -> list[str]:
    """Names that are no pipe of the plan, in order."""
    return sorted(named - {pipe["id"] for pipe in revision.document["layout"].get("pipes", ())})

"""Why a plan revision must stay as it is. Other apps know: each adds its reason when it is ready."""

from collections.abc import Callable

from sites.models import PlanRevision

Reason = Callable[[PlanRevision], str]
_reasons: list[Reason] = []


def add_frozen_reason(reason: Reason) -> None:
    """``reason(revision)`` gives words such as "Revision 3 is quoted in 2026-0007", or nothing."""
    _reasons.append(reason)


def frozen_words(revision: PlanRevision) -> str:
    """Every reason that holds; empty where the revision is free."""
    return "; ".join(words for reason in _reasons if (words := reason(revision)))

"""Which plan revisions stand in offers that went out."""

from quoting.models import Quote, Status
from sites.models import PlanRevision

MOST_NAMED = 3


def quoted_in(revision: PlanRevision) -> str:
    """Such as "Revision 3 is quoted in 2026-0007"; empty where no offer with it ever went out."""
    out = Quote.objects.filter(plan=revision).exclude(status=Status.DRAFT).order_by("pk")
    references = [quote.reference for quote in out.only("number_year", "number", "revision")]
    if not references:
        return ""
    more = len(references) - MOST_NAMED
    named = ", ".join(references[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
    return f"Revision {revision.number} is quoted in {named}"

"""What the daily page shows of sites."""

from datetime import timedelta

from django.db.models import Exists, OuterRef
from django.urls import reverse
from django.utils import timezone

from office.models import Person
from office.navigation import PanelRow
from sites.models import PlanRevision, Visit

SHOWN = 8
# common practice, no source: a quote that comes more than two days after the visit wins less often
HURRY_DAYS = 2


def visits_without_plan(person: Person) -> list[PanelRow]:
    """Visits after which no plan has been saved, the oldest first."""
    later_plan = PlanRevision.objects.filter(site=OuterRef("site"), made_at__date__gte=OuterRef("visited_on"))
    waiting = (
        Visit.objects.filter(~Exists(later_plan)).select_related("site__customer").order_by("visited_on")
    )
    urgent_before = timezone.localdate() - timedelta(days=HURRY_DAYS)
    return [
        PanelRow(
            str(visit.site),
            reverse("sites:visit", args=[visit.pk]),
            f"visited on {visit.visited_on:%Y-%m-%d}",
            visit.visited_on < urgent_before,
        )
        for visit in waiting[:SHOWN]
    ]

"""Who may open which quote. Missing and forbidden look the same: 404."""

from django.db.models import Count, Exists, OuterRef, Q, QuerySet
from django.http import Http404

from office.models import Person
from quoting.lifecycle import lapse_if_past
from quoting.models import Quote, QuoteLine
from sites.access import plans_for
from sites.models import PlanRevision


def quotes_for(person: Person) -> QuerySet[Quote]:
    """Quotes that this person may see: all of them in the office, none elsewhere."""
    everything = Quote.objects.select_related("site__customer")
    return everything if person.is_office else everything.none()


def get_quote_for(person: Person, pk: int) -> Quote:
    """The quote as it stands today: one whose time is over has lapsed."""
    quote = quotes_for(person).select_related("plan", "made_by", "basis").filter(pk=pk).first()
    if quote is None:
        raise Http404("no such quote")
    return lapse_if_past(quote)


def get_line_for(person: Person, quote_pk: int, pk: int) -> QuoteLine:
    lines = QuoteLine.objects.filter(quote__in=quotes_for(person), quote_id=quote_pk, pk=pk)
    line = lines.select_related("quote__site__customer", "quote__plan").first()
    if line is None:
        raise Http404("no such line")
    return line


def plans_to_quote(person: Person, words: str = "", site: int | None = None) -> QuerySet[PlanRevision]:
    """The newest revision of each site's plan, the latest first."""
    newer = PlanRevision.objects.filter(site=OuterRef("site"), number__gt=OuterRef("number"))
    latest = plans_for(person).filter(~Exists(newer))
    found = latest.annotate(quoted=Count("quotes")).order_by("-made_at", "-pk")
    if site is not None:
        found = found.filter(site_id=site)
    for word in words.replace("\x00", " ").split()[:6]:
        place = Q(site__name__icontains=word) | Q(site__town__icontains=word) | Q(name__icontains=word)
        found = found.filter(place | Q(site__customer__name__icontains=word))
    return found


def get_plan_revision_for(person: Person, pk: int) -> PlanRevision:
    plan = plans_for(person).filter(pk=pk).first()
    if plan is None:
        raise Http404("no such plan")
    return plan

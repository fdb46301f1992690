"""The parts book as the engineering packages want it, built once per process and change."""

from django.db.models import Count, Max, Sum

from hydraulics.catalogue import Catalogue
from parts.models import Part

_built: tuple[str, Catalogue] | None = None


def catalogue_stamp() -> str:
    """A text that changes whenever an active part is added, changed or put away. One cheap query."""
    seen = Part.objects.filter(active=True).aggregate(
        number=Count("pk"), last=Max("changed_at"), versions=Sum("version")
    )
    return f"{seen['number']}/{seen['last']}/{seen['versions']}"


def catalogue() -> Catalogue:
    """All active parts, by code."""
    global _built
    stamp = catalogue_stamp()
    if _built is None or _built[0] != stamp:
        rows = Part.objects.filter(active=True).values_list("data", flat=True)
        _built = (stamp, Catalogue.from_dicts(rows))
    return _built[1]

"""What every page's template knows."""

from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from office.company import get_company
from office.navigation import entries_for


def company(request: HttpRequest) -> dict[str, object]:
    user = getattr(request, "user", None)
    return {
        "company": SimpleLazyObject(get_company),
        "navigation": SimpleLazyObject(lambda: entries_for(user, request.path)),
    }

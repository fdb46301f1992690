"""Who may open what: decorators for pages."""

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, cast

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse, HttpResponseBase

from office.models import Person

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponseBase]


def _to_login(request: HttpRequest) -> HttpResponse:
    """The login, and afterwards back to the page that the person was looking at."""
    htmx = getattr(request, "htmx", None)
    if not htmx:
        return redirect_to_login(request.get_full_path())
    response = HttpResponse(status=401)
    response["HX-Redirect"] = redirect_to_login(htmx.current_url_abs_path or "/").url
    return response


def _guard(allowed: Callable[[Person], bool]) -> Callable[[View[P]], View[P]]:
    def decorate(view: View[P]) -> View[P]:
        @wraps(view)
        def guarded(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponseBase:
            if not request.user.is_authenticated:
                return _to_login(request)
            if not allowed(request.user):
                raise PermissionDenied
            return view(request, *args, **kwargs)

        return cast(View[P], guarded)

    return decorate


staff_only = _guard(lambda person: person.is_active)
"""Anyone who works here, installers included."""

office_only = _guard(lambda person: person.is_office)
"""Owner and office: pages with customers' money on them."""

owner_only = _guard(lambda person: person.is_owner)
"""The owner: people, company, margins."""


def person_of(request: HttpRequest) -> Person:
    """The logged-in person of a guarded view."""
    return cast(Person, request.user)

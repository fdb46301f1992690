"""A picture of a site, whole and small, for those who may open the site."""

from django.http import HttpRequest, HttpResponse
from django.utils.cache import patch_cache_control
from django.utils.http import quote_etag
from django.views.decorators.http import condition, require_safe

from office.access import office_only, person_of
from sites.access import get_picture_for
from sites.models import Picture


@require_safe
@office_only
def picture(request: HttpRequest, pk: int) -> HttpResponse:
    found = get_picture_for(person_of(request), pk)
    return _answer(request, found, "data")


@require_safe
@office_only
def picture_small(request: HttpRequest, pk: int) -> HttpResponse:
    found = get_picture_for(person_of(request), pk)
    return _answer(request, found, "small")


def _answer(request: HttpRequest, picture: Picture, column: str) -> HttpResponse:
    """The bytes, or that they are still those that the browser has."""
    tag = quote_etag(f"{picture.digest}-{column}")

    @condition(etag_func=lambda _: tag)
    def send(_: HttpRequest) -> HttpResponse:
        return HttpResponse(bytes(getattr(picture, column)), content_type=picture.media_type)

    answer: HttpResponse = send(request)
    # The browser may keep it for this person, but asks each time whether they may still see it.
    patch_cache_control(answer, private=True, no_cache=True)
    answer["X-Content-Type-Options"] = "nosniff"
    return answer

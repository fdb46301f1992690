"""Answers for addresses that lead nowhere and for failures: a page for people, JSON for the API."""

from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import render
from django.views import defaults

TOO_LARGE = "What was sent is too large. A plan file has at most 1 MB, a price book 5 MB, a page less."
TOO_MANY = "What was sent has too many fields or files for one page."
UNREADABLE = "What was sent cannot be read. Go back, reload the page and try again."


def _is_api(request: HttpRequest) -> bool:
    return request.path.startswith("/api/")


def not_found(request: HttpRequest, exception: Exception) -> HttpResponseBase:
    if _is_api(request):
        return JsonResponse({"detail": "There is nothing at this address."}, status=404)
    return defaults.page_not_found(request, exception)


def closed(request: HttpRequest, **kwargs: str) -> HttpResponse:
    """An address of a library's that this installation does not open."""
    raise Http404


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """What Django refused before a view saw it."""
    if isinstance(exception, RequestDataTooBig):
        return too_large(request)
    many = isinstance(exception, TooManyFieldsSent | TooManyFilesSent)
    return refusal(request, TOO_MANY if many else UNREADABLE, 400)


def too_large(request: HttpRequest) -> HttpResponse:
    return refusal(request, TOO_LARGE, 413)


def refusal(request: HttpRequest, sentence: str, status: int) -> HttpResponse:
    """A sentence on a page of its own, or as JSON where the API was asked."""
    if _is_api(request):
        return JsonResponse({"detail": sentence}, status=status)
    # Rendered without the request: nobody has been recognised yet, and the host may be a forged one.
    return render(None, "400.html", {"sentence": sentence}, status=status)


def server_error(request: HttpRequest) -> HttpResponse:
    if _is_api(request):
        return JsonResponse({"detail": "Something broke on our side; nothing was saved by half."}, status=500)
    return defaults.server_error(request)

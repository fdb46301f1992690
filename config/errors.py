"""Answers for addresses that lead nowhere and for failures: a page for people, JSON for the API."""

from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.views import defaults


def _is_api(request: HttpRequest) -> bool:
    return request.path.startswith("/api/")


def not_found(request: HttpRequest, exception: Exception) -> HttpResponseBase:
    if _is_api(request):
        return JsonResponse({"detail": "There is nothing at this address."}, status=404)
    return defaults.page_not_found(request, exception)


def server_error(request: HttpRequest) -> HttpResponse:
    if _is_api(request):
        return JsonResponse({"detail": "Something broke on our side; nothing was saved by half."}, status=500)
    return defaults.server_error(request)

"""Pages for people who are logged in stay out of every cache, unless a view says what may be kept."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponseBase
from django.utils.cache import patch_cache_control

Answer = Callable[[HttpRequest], HttpResponseBase]


class PrivatePages:
    """Stands inside the authentication, so that it knows whom an answer is for."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        response = self.get_response(request)
        if request.user.is_authenticated and not response.has_header("Cache-Control"):
            patch_cache_control(response, private=True, no_store=True)
        return response

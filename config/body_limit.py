"""No request is larger than the largest file that a page takes, and a little."""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponseBase

from config.errors import too_large

Answer = Callable[[HttpRequest], HttpResponseBase]


class BodyLimit:
    """Answers 413 by the announced length, before anything of the body is read or spooled to a disk."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        announced = request.META.get("CONTENT_LENGTH") or "0"
        if announced.isascii() and announced.isdecimal() and int(announced[:12]) > settings.MOST_BODY_BYTES:
            return too_large(request)
        return self.get_response(request)

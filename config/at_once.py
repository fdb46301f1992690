"""Two requests that met in the database: the later one is told so, and nothing of it is kept."""

import logging
from collections.abc import Callable

from django.db import IntegrityError, OperationalError
from django.http import HttpRequest, HttpResponse, HttpResponseBase

from config.errors import refusal

Answer = Callable[[HttpRequest], HttpResponseBase]
SAME = (
    "Somebody saved the same thing at the same moment. Go back, look at what stands there now, and try again."
)
BUSY = "The database is busy. Wait a moment and send it once more."

_log = logging.getLogger(__name__)


class AtOnce:
    """Services check first; this is for what another request did between the check and the save.

    The whole error goes into the log, so that one with another cause is found there.
    """

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if isinstance(exception, IntegrityError):
            sentence, status = SAME, 409
        elif isinstance(exception, OperationalError):
            sentence, status = BUSY, 503
        else:
            return None
        _log.error("%s %s", request.method, request.resolver_match, exc_info=exception)
        return refusal(request, sentence, status)

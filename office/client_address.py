"""The address that a request came from."""

import ipaddress

from django.conf import settings
from django.http import HttpRequest


def client_address(request: HttpRequest) -> str | None:
    """The caller's address, believing as many proxies as TRUSTED_PROXY_COUNT says; none if unreadable.

    Each trusted proxy appends the address that it was called from, so the caller stands that
    many places from the right; what stands further left could be anybody's invention.
    """
    raw = request.META.get("REMOTE_ADDR", "")
    count = settings.TRUSTED_PROXY_COUNT
    if count > 0:
        chain = [
            part.strip() for part in request.META.get("HTTP_X_FORWARDED_FOR", "").split(",") if part.strip()
        ]
        if chain:
            raw = chain[max(len(chain) - count, 0)]
    try:
        return str(ipaddress.ip_address(raw))
    except ValueError:
        return None

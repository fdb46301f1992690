"""Counting what one address sends to the customer's page."""

import hashlib

from django.core.cache import cache


def may_post(address: str | None, *, limit: int = 20, seconds: int = 600) -> bool:
    """Whether this address may send once more: at most ``limit`` in a row without a pause of ``seconds``."""
    key = "customer-post-" + hashlib.sha256((address or "unknown").encode()).hexdigest()[:32]
    if cache.add(key, 1, timeout=seconds):
        return True
    try:
        count = cache.incr(key)
        cache.touch(key, seconds)  # counting on shortens the stay to the cache's own
        return count <= limit
    except ValueError:  # it ran out between the two calls
        return True

"""Shapes between the upload and the choice, kept on the server for an hour.

Not in the page: a drawing of some hundred kB would travel back and forth, and past the limit of a
form. The cache is in the database, so every worker process finds it; its key holds the person and
the site, so that a token is of no use to anybody else.
"""

import re
import secrets
import zlib
from dataclasses import dataclass, field
from typing import Any

from django.core.cache import cache

from design.exchange.shapes import Shapes
from design.exchange.wire import from_wire, to_wire
from office.models import Person
from sites.models import Site

KEPT_SECONDS = 3600
_TOKEN = re.compile(r"[A-Za-z0-9_\-]{16}")


@dataclass(frozen=True)
class KeptFile:
    """``typed`` is what had been chosen before, when the file had to be posted again."""

    name: str
    shapes: Shapes
    typed: dict[str, str] = field(default_factory=dict)


def keep_file(person: Person, site: Site, kept: KeptFile) -> str:
    """Returns the token that finds it again."""
    token = secrets.token_urlsafe(12)
    entry = {"name": kept.name, "wire": zlib.compress(to_wire(kept.shapes).encode()), "typed": kept.typed}
    cache.set(_key(person, site, token), entry, KEPT_SECONDS)
    return token


def kept_file(person: Person, site: Site, token: str) -> KeptFile | None:
    """None when the hour is over, and for a token of somebody else or of another site."""
    if not _TOKEN.fullmatch(token):
        return None
    entry: dict[str, Any] | None = cache.get(_key(person, site, token))
    if entry is None:
        return None
    return KeptFile(entry["name"], from_wire(zlib.decompress(entry["wire"]).decode()), entry["typed"])


def forget_file(person: Person, site: Site, token: str) -> None:
    cache.delete(_key(person, site, token))


def _key(person: Person, site: Site, token: str) -> str:
    return f"ground-file:{person.pk}:{site.pk}:{token}"

"""Customer links: unguessable, signed, expiring, kept as a hash."""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from django.conf import settings
from django.core.signing import BadSignature, Signer
from django.db import transaction
from django.http import HttpRequest
from django.urls import reverse
from django.utils import timezone

from office import audit
from office.models import Person
from quoting.errors import MoveRefused
from quoting.models import CustomerLink, Quote, Status

_SIGNER = Signer(salt="quoting.customer-link", sep="~")
# After its last day of validity the page stays, so that it can say so, and an accepted one can be read.
DAYS_AFTER_VALIDITY = 60


class LinkUnknown(Exception):
    """No such link, or a forged one."""


class LinkOver(Exception):
    """There was such a link; it ran out or was taken back."""

    def __init__(self, link: CustomerLink) -> None:
        self.link = link
        super().__init__("this link is over")


@dataclass(frozen=True)
class NewLink:
    """The token is shown once; only its hash is kept."""

    link: CustomerLink
    token: str


@transaction.atomic
def make_link(*, quote: Quote, by: Person) -> NewLink:
    """A new link to an issued quote; links made before stop working."""
    stored = Quote.objects.select_for_update().get(pk=quote.pk)
    if stored.status not in (Status.ISSUED, Status.ACCEPTED):
        raise MoveRefused("Only an offer that is out has a link for the customer.")
    now = timezone.now()
    stored.links.filter(revoked_at=None).update(revoked_at=now)
    token = _SIGNER.sign(secrets.token_urlsafe(24))  # 192 bits
    link = CustomerLink.objects.create(
        quote=stored, token_hash=_hash(token), made_by=by, expires_at=_expiry(stored, now)
    )
    audit.record(
        by=by, verb="quote.link.made", subject=stored, detail={"expires": link.expires_at.isoformat()}
    )
    return NewLink(link, token)


@transaction.atomic
def revoke_links(*, quote: Quote, by: Person | None) -> int:
    """Take back every link of this quote; how many were alive."""
    count = quote.links.filter(revoked_at=None).update(revoked_at=timezone.now())
    if count:
        audit.record(by=by, verb="quote.link.revoked", subject=quote, detail={"count": count})
    return count


def address_of(token: str, request: HttpRequest) -> str:
    """What the customer types or taps: on the public address where one is set, else on this one."""
    path = reverse("quoting:offer", args=[token])
    return settings.PUBLIC_URL.rstrip("/") + path if settings.PUBLIC_URL else request.build_absolute_uri(path)


def open_link(token: str) -> CustomerLink:
    """The link of this token, with its quote. Raises LinkUnknown or LinkOver."""
    try:
        _SIGNER.unsign(token)
    except BadSignature:
        raise LinkUnknown from None
    query = CustomerLink.objects.select_related("quote__site__customer")
    link = query.filter(token_hash=_hash(token)).first()
    if link is None:
        raise LinkUnknown
    if link.revoked_at is not None or link.expires_at <= timezone.now():
        raise LinkOver(link)
    return link


def note_opened(link: CustomerLink) -> None:
    """Keep when the customer first looked."""
    opened = CustomerLink.objects.filter(pk=link.pk, first_opened_at=None)
    opened.update(first_opened_at=timezone.now())


def _expiry(quote: Quote, now: datetime) -> datetime:
    last_day = max(quote.valid_until or timezone.localdate(), timezone.localdate())
    end = datetime.combine(last_day + timedelta(days=DAYS_AFTER_VALIDITY + 1), time.min)
    return max(timezone.make_aware(end), now + timedelta(days=1))


def _hash(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()

"""What went out to the customer, byte for byte."""

import json
from typing import Any, NoReturn

from django.db import models

from quoting.errors import SealedForGood
from quoting.models.quote import Quote


class SealedQuerySet(models.QuerySet["SealedProposal"]):
    def update(self, **fields: object) -> NoReturn:
        raise SealedForGood()

    def delete(self) -> NoReturn:
        raise SealedForGood()

    def bulk_update(self, *args: object, **kwargs: object) -> NoReturn:
        raise SealedForGood()


class SealedProposal(models.Model):
    """``content`` is canonical JSON text, so that the digest is over the very bytes kept.

    Written once, by ``quoting.sealing.seal``. The database refuses an update by itself.
    """

    quote = models.OneToOneField(Quote, on_delete=models.PROTECT, related_name="sealed_proposal")
    content = models.TextField()
    pdf = models.BinaryField()
    pdf_sha256 = models.CharField(max_length=64)
    digest = models.CharField(max_length=64)  # over content and pdf_sha256
    sealed_at = models.DateTimeField()

    objects = SealedQuerySet.as_manager()

    def __str__(self) -> str:
        return f"sealed {self.quote_id}"

    @property
    def sealed(self) -> dict[str, Any]:
        return json.loads(self.content)

    def delete(self, *args: object, **kwargs: object) -> NoReturn:
        raise SealedForGood()

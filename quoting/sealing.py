"""Sealing: what went out is kept byte for byte, with a digest that shows any change."""

from dataclasses import dataclass
from typing import Any

from django.utils import timezone

from quoting.digests import canonical_json, seal_digest, sha256
from quoting.models import Quote, SealedProposal, Status


def seal(quote: Quote, content: dict[str, Any], pdf: bytes) -> SealedProposal:
    """Keep ``content`` and ``pdf`` for good. Runs inside the transaction that issues the quote."""
    text, pdf_digest = canonical_json(content), sha256(pdf)
    return SealedProposal.objects.create(
        quote=quote,
        content=text,
        pdf=pdf,
        pdf_sha256=pdf_digest,
        digest=seal_digest(text, pdf_digest),
        sealed_at=timezone.now(),
    )


@dataclass(frozen=True)
class SealCheck:
    """Verdict on one quote that is out; ``problems`` is empty when it is sound."""

    reference: str
    problems: tuple[str, ...]


def check_seal(quote: Quote) -> SealCheck:
    """Recompute the digests of one quote, and compare the quote's own figures with what was sealed."""
    sealed = quote.seal
    if sealed is None:
        return SealCheck(quote.reference, ("its sealed proposal is missing",))
    problems = []
    if sha256(bytes(sealed.pdf)) != sealed.pdf_sha256:
        problems.append("the PDF is not the one that was sealed")
    if seal_digest(sealed.content, sealed.pdf_sha256) != sealed.digest:
        problems.append("the sealed content is not what its digest says")
    else:
        problems += _mismatches(quote, sealed.sealed)
    return SealCheck(quote.reference, tuple(problems))


def _mismatches(quote: Quote, content: dict[str, Any]) -> list[str]:
    offer = content["offer"]
    pairs = [
        ("number", quote.reference, offer["reference"]),
        ("total", str(quote.total), offer["total"]),
        ("last day of validity", str(quote.valid_until), offer["valid_until"]),
        ("plan", quote.plan.digest, content["plan_digest"]),
    ]
    problems = [f"its {what} is {now}, sealed was {then}" for what, now, then in pairs if now != then]
    acceptance = getattr(quote, "acceptance", None)
    if acceptance and acceptance.pdf_sha256 != quote.seal.pdf_sha256:
        problems.append("what was accepted is another PDF")
    return problems


def missing_numbers() -> list[str]:
    """Numbers that no quote carries between the first and the last of each count."""
    numbers: dict[int, set[int]] = {}
    out = Quote.objects.exclude(number=None)
    for year, number in out.values_list("number_year", "number"):
        numbers.setdefault(year, set()).add(number or 0)
    return [
        f"{year}-{number:04d}" if year else f"{number:05d}"
        for year, used in sorted(numbers.items())
        for number in range(1, max(used) + 1)
        if number not in used
    ]


def quotes_out() -> Any:
    """Every quote that has been out, oldest first."""
    related = ("plan", "sealed_proposal", "acceptance")
    return Quote.objects.exclude(status=Status.DRAFT).select_related(*related).order_by("issued_at", "id")

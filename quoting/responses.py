"""Answers that carry a file."""

import re

from django.http import HttpResponse


def pdf_response(pdf: bytes, reference: str, *, download: bool = False) -> HttpResponse:
    """The bytes as they are, named after the quote; shown in the window, or kept as a file."""
    name = re.sub(r"[^A-Za-z0-9-]+", "-", reference)
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = f'{"attachment" if download else "inline"}; filename="offer-{name}.pdf"'
    response["X-Content-Type-Options"] = "nosniff"
    return response

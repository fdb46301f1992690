"""Reads back what a PDF says: its words, its metadata, its raw streams."""

import base64
import re
import zlib
from io import BytesIO

from pypdf import PdfReader


def reader_of(pdf: bytes) -> PdfReader:
    return PdfReader(BytesIO(pdf), strict=True)


def pages_of(pdf: bytes) -> list[str]:
    return [page.extract_text().replace("\u00a0", " ") for page in reader_of(pdf).pages]


def words_of(pdf: bytes) -> str:
    """All the text on one line with single blanks."""
    return re.sub(r"\s+", " ", " ".join(pages_of(pdf)))


def raw_of(pdf: bytes) -> bytes:
    """The file with each stream decoded as far as a PDF reader would."""
    parts = [pdf]
    for match in re.finditer(rb"stream\r?\n(.*?)\r?\nendstream", pdf, flags=re.S):
        body = match.group(1)
        for decode in (_from_base85, zlib.decompress):
            try:
                body = decode(body)
            except (ValueError, zlib.error):
                continue
        parts.append(body)
    return b"\n".join(parts)


def _from_base85(body: bytes) -> bytes:
    if not body.rstrip().endswith(b"~>"):
        raise ValueError("not base 85")
    return base64.a85decode(b"<~" + body.strip(), adobe=True)

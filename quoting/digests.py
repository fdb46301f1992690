"""Canonical text and digests of what is sealed."""

import hashlib
import json
from typing import Any


def canonical_json(value: Any) -> str:
    """One text for one value: sorted keys, no spaces, ASCII, no NaN."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=True, allow_nan=False)


def sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def seal_digest(content: str, pdf_sha256: str) -> str:
    """SHA-256 over the canonical content, a line end, and the digest of the PDF."""
    return sha256(f"{content}\n{pdf_sha256}".encode())

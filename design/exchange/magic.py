"""What a file is by its first bytes, where it is none of the kinds that are read."""

from design.exchange import limits
from design.exchange.refused import FileRefused

_WRAPPED = {
    b"PK\x03\x04": "a ZIP archive", b"PK\x05\x06": "a ZIP archive", b"\x1f\x8b": "compressed (gzip)",
    b"BZh": "compressed (bzip2)", b"\xfd7zXZ": "compressed (xz)", b"7z\xbc\xaf": "a 7z archive",
    b"Rar!": "a RAR archive",
}  # fmt: skip
_OTHERS = {b"%PDF": "a PDF", b"\x89PNG": "a picture", b"\xff\xd8\xff": "a picture", b"\x7fELF": "a program"}


def refuse_wrapped(data: bytes) -> None:
    """Raises FileRefused for an empty or too large file, an archive, and what is plainly something else."""
    if not data.strip():
        raise FileRefused("That file is empty.")
    if len(data) > limits.MAX_BYTES:
        raise FileRefused(
            f"That file is larger than {limits.MAX_BYTES // 1_000_000} MB. Leave out what is not the garden."
        )
    for start, name in _WRAPPED.items():
        if data.startswith(start):
            raise FileRefused(f"That file is {name}. Unpack it first and choose the file inside.")
    for start, name in _OTHERS.items():
        if data.startswith(start):
            raise FileRefused(
                f"That file is {name}, whatever its name says. Choose a GeoJSON, DXF or GPX file."
            )

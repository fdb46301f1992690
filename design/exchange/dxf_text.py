"""The text of a DXF file, in whichever of its two kinds of encoding it is written."""

import codecs
import re

from design.exchange import limits
from design.exchange.refused import FileRefused

_CODE_PAGE = re.compile(rb"\$DWGCODEPAGE\s+3\s+(?:ANSI|ansi)_(\d{3,5})")
_ENTITY = re.compile(r"\n *0\n *[A-Z3]")
_END = re.compile(r"(?:^|\n)\s*0\s*\n\s*EOF\s*$")


def dxf_text(data: bytes) -> str:
    """UTF-8 if it is that, else the code page that the header names, else Latin-1. Raises FileRefused."""
    if b"\x00" in data:
        raise FileRefused(
            "This is binary, and only a DXF written as text (ASCII) is read. Save it as text DXF."
        )
    text = _decoded(data).replace("\r\n", "\n").replace("\r", "\n")
    if not re.match(r"\s*(?:999\n|0\n)", text[:200].removeprefix("\ufeff")):
        raise FileRefused("This does not begin like a DXF file. Save the drawing as text (ASCII) DXF.")
    if not _END.search(text[-200:]):
        raise FileRefused("The drawing ends too early: its last line is not EOF. Was it copied to the end?")
    if sum(1 for _ in _ENTITY.finditer(text)) > limits.MAX_ENTITIES:
        raise FileRefused(
            f"The drawing has more than {limits.MAX_ENTITIES:,} entities. Leave out what is not the garden."
        )
    return text.removeprefix("\ufeff")


def _decoded(data: bytes) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        pass
    named = _CODE_PAGE.search(data[:20_000])
    name = f"cp{named[1].decode()}" if named else "latin-1"
    try:
        return data.decode(codecs.lookup(name).name, errors="replace")
    except LookupError:
        return data.decode("latin-1")

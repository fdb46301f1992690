"""Unpacks a WOFF file into the TrueType file that it wraps.

W3C Recommendation "WOFF File Format 1.0", sections 3 to 5: a header, a directory of tables,
each table zlib-compressed where that makes it shorter.
"""

import struct
import zlib

_HEADER = struct.Struct(">4s I I H H I H H I I I I I")
_ENTRY = struct.Struct(">4s I I I I")


class WoffError(ValueError):
    """The bytes are no WOFF 1.0 file."""


def truetype_from_woff(data: bytes) -> bytes:
    """The wrapped font file, its tables in the order of the directory."""
    if len(data) < _HEADER.size or data[:4] != b"wOFF":
        raise WoffError("not a WOFF 1.0 file")
    flavour, count = _HEADER.unpack_from(data)[1], _HEADER.unpack_from(data)[3]
    entries = [_ENTRY.unpack_from(data, _HEADER.size + i * _ENTRY.size) for i in range(count)]
    power = max(count.bit_length() - 1, 0)
    search = 16 << power
    parts = [struct.pack(">I H H H H", flavour, count, search, power, count * 16 - search)]
    bodies, offset = [], 12 + 16 * count
    for tag, start, packed, length, checksum in entries:
        body = data[start : start + packed]
        body = zlib.decompress(body) if packed < length else body
        parts.append(struct.pack(">4s I I I", tag, checksum, offset, length))
        bodies.append(body + b"\0" * (-length % 4))
        offset += len(bodies[-1])
    return b"".join(parts + bodies)

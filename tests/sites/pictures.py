"""Image files for the tests, among them those that nobody should send."""

import io
import struct
import zlib

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, ImageDraw


def encoded(image, kind="JPEG", **how):
    out = io.BytesIO()
    image.save(out, kind, **how)
    return out.getvalue()


def photo(width=640, height=480, shade=90):
    """A garden of two colours: sky above, lawn below, so that one sees which way is up."""
    image = Image.new("RGB", (width, height), (150, 200, 240))
    ImageDraw.Draw(image).rectangle((0, height // 2, width, height), fill=(40, shade, 30))
    return image


def upload(content=None, name="garden.jpg"):
    return SimpleUploadedFile(name, encoded(photo()) if content is None else content)


def png_chunk(kind, data):
    # PNG, third edition (W3C 2025), section 5.3: length, type, data, CRC of type and data
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png_declaring(width, height):
    """A PNG that says it is this large, with next to nothing inside."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + png_chunk(b"IHDR", head)
        + png_chunk(b"IDAT", zlib.compress(b"\x00" * 64))
        + png_chunk(b"IEND", b"")
    )

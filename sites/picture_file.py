"""What an uploaded image becomes: upright, no larger than needed, and nothing of what came with it.

Everything is drawn anew, so that no place, name of a camera, comment or foreign bytes stay in the file.
"""

import hashlib
import io
import struct
import warnings
import zlib
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from PIL import Image, ImageOps, UnidentifiedImageError

from sites.errors import PictureRefused

FORMATS = ("JPEG", "PNG", "WEBP")
MOST_BYTES = 10_000_000
# A JPEG is decoded at half or less where that will do; the others are unpacked whole.
MOST_PIXELS, MOST_WHOLE_PIXELS = 60_000_000, 30_000_000
LONG_SIDE_PX, SMALL_SIDE_PX = 2000, 400
LEAST_SIDE_PX = 8
# A drawing stays without loss up to this; a photo sent as PNG is larger and becomes a JPEG.
MOST_LOSSLESS_BYTES = 1_500_000
# A camera writes some ten; a file of many thousands keeps the decoder busy for minutes.
MOST_SCANS = 100
_START_OF_SCAN = b"\xff\xda"  # ITU-T T.81 (1992) table B.1
_EXIF_IFD, _TAKEN = 0x8769, 0x9003  # Exif 2.32 (CIPA DC-008), tables 4 and 8
# ISO/IEC 14496-12: a file type box and its brand begin the file; brands of the formats that phones write.
_PHONE_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1")
_UNREADABLE = (
    OSError, ValueError, SyntaxError, TypeError, KeyError, IndexError, OverflowError, EOFError, MemoryError,
    AttributeError, struct.error, zlib.error,
)  # fmt: skip


@dataclass(frozen=True)
class KeptImage:
    data: bytes
    small: bytes
    media_type: Literal["image/jpeg", "image/png"]
    width: int
    height: int

    @property
    def digest(self) -> str:
        """SHA-256 of the kept bytes, which are the same whenever the same file is sent."""
        return hashlib.sha256(self.data).hexdigest()


def read_image(content: bytes) -> KeptImage:
    """The image as it is to be kept. Raises PictureRefused with a sentence for whoever sent it."""
    _check_bytes(content)
    # Pillow only warns of many pixels; what is too many is judged here.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        try:
            is_drawing, image = _decoded(content)
            return _kept(image, is_drawing)
        except PictureRefused:
            raise
        except Image.DecompressionBombError:
            raise _too_many_pixels(MOST_PIXELS) from None
        except _UNREADABLE:
            raise PictureRefused(
                "This picture cannot be read: it is cut off or damaged. Send it again."
            ) from None


def _check_bytes(content: bytes) -> None:
    if not content:
        raise PictureRefused("The file is empty. Choose the picture again.")
    if len(content) > MOST_BYTES:
        raise PictureRefused(
            f"The picture is larger than {MOST_BYTES // 1_000_000} MB. Send a smaller version of it."
        )
    if content[4:8] == b"ftyp" and content[8:12] in _PHONE_BRANDS:
        raise PictureRefused(
            "HEIC pictures cannot be read here. Set the camera to JPEG (on some phones it is called"
            " “most compatible”), or share the picture as a JPEG."
        )


def _decoded(content: bytes) -> tuple[bool, Image.Image]:
    """Whether it is a drawing to keep without loss, and the first frame, upright, in eight bits on white."""
    image = _opened(content)
    width, height = image.size
    is_jpeg = image.format in ("JPEG", "MPO")
    most = MOST_PIXELS if is_jpeg else MOST_WHOLE_PIXELS
    if width * height > most:
        raise _too_many_pixels(most)
    if min(width, height) < LEAST_SIDE_PX:
        raise PictureRefused(f"The picture is {width} by {height} pixels, too small to show anything.")
    if is_jpeg and content.count(_START_OF_SCAN) > MOST_SCANS:
        raise PictureRefused("This JPEG is built in too many steps. Save it anew, then send it.")
    is_drawing = image.format == "PNG"
    image.draft("RGB", (LONG_SIDE_PX, LONG_SIDE_PX))
    image.load()
    upright = _upright(_with_shades(image))
    upright.thumbnail((LONG_SIDE_PX, LONG_SIDE_PX), reducing_gap=3.0)
    return is_drawing, _on_white(upright)


def _opened(content: bytes) -> Image.Image:
    """Judged by the bytes, whatever the file's name says."""
    try:
        return Image.open(io.BytesIO(content), formats=FORMATS)
    except UnidentifiedImageError:
        raise PictureRefused("This is no picture that can be read here. Send a JPEG, PNG or WebP.") from None


def _with_shades(image: Image.Image) -> Image.Image:
    """A palette or plain black and white, in which nothing can be shrunk smoothly, as colours or greys."""
    return image.convert({"P": "RGBA", "PA": "RGBA", "1": "L"}.get(image.mode, image.mode))


def _upright(image: Image.Image) -> Image.Image:
    try:
        return ImageOps.exif_transpose(image) or image
    except _UNREADABLE:
        return image  # what the camera wrote about the picture is broken; the picture is not


def _on_white(image: Image.Image) -> Image.Image:
    """A new image of plain RGB, which carries nothing of the old one but its colours."""
    if image.mode.startswith("I"):  # sixteen bits to a sample
        image = image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    with_alpha = image.convert("RGBA")
    plain = Image.new("RGB", image.size, "white")
    plain.paste(with_alpha, mask=with_alpha.getchannel("A"))
    return plain


def _kept(image: Image.Image, is_drawing: bool) -> KeptImage:
    small = image.copy()
    small.thumbnail((SMALL_SIDE_PX, SMALL_SIDE_PX))
    lossless = _encoded(image, "PNG") if is_drawing else b""
    if is_drawing and len(lossless) <= MOST_LOSSLESS_BYTES:
        return KeptImage(lossless, _encoded(small, "PNG"), "image/png", *image.size)
    return KeptImage(_encoded(image, "JPEG"), _encoded(small, "JPEG"), "image/jpeg", *image.size)


def _encoded(image: Image.Image, kind: str) -> bytes:
    out = io.BytesIO()
    how = {"optimize": True} if kind == "PNG" else {"quality": 85}
    image.save(out, kind, **how)
    return out.getvalue()


def _too_many_pixels(most: int) -> PictureRefused:
    return PictureRefused(
        f"The picture has more than {most // 1_000_000} million pixels. Send a smaller version of it."
    )


def taken_at(content: bytes) -> datetime | None:
    """When the camera says that it took the picture, by its own clock; None where it does not say."""
    try:
        written = Image.open(io.BytesIO(content), formats=FORMATS).getexif().get_ifd(_EXIF_IFD)
        return datetime.strptime(str(written[_TAKEN]), "%Y:%m:%d %H:%M:%S")
    except (*_UNREADABLE, Image.DecompressionBombError):
        return None

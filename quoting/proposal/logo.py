"""The company's logo, small and without the file's metadata."""

from io import BytesIO

from PIL import Image as PillowImage
from PIL import UnidentifiedImageError
from reportlab.platypus import Image

_MOST_PIXELS = 480
_HEIGHT, _MOST_WIDTH = 40.0, 150.0


def logo_flowable(data: bytes | None) -> Image | None:
    """None for no logo and for bytes that are no picture: a proposal goes out without it."""
    if not data:
        return None
    try:
        with PillowImage.open(BytesIO(data)) as opened:
            picture = opened.convert("RGBA")
    except (UnidentifiedImageError, OSError, ValueError, PillowImage.DecompressionBombError):
        return None
    picture.thumbnail((_MOST_PIXELS, _MOST_PIXELS))
    # Pixels only: the copy keeps no camera, no place and no file name.
    copy = BytesIO()
    picture.save(copy, "PNG")
    copy.seek(0)
    width, height = picture.size
    scale = min(_HEIGHT / height, _MOST_WIDTH / width)
    return Image(copy, width * scale, height * scale)

"""Pictures: what is taken in, what is refused with a sentence, and what is left of an upload."""

import io
import tracemalloc

import pytest
from django.urls import reverse
from PIL import Image, ImageChops

from office.models import AuditEvent
from sites.models import Picture
from sites.picture_file import MOST_BYTES, read_image
from sites.picture_services import PictureRefused, keep_picture
from tests.sites.makers import make_site
from tests.sites.pictures import encoded, photo, png_chunk, png_declaring, upload

GPS_IFD, ORIENTATION, MAKER = 0x8825, 0x0112, 0x010F  # Exif 2.32 (CIPA DC-008), tables 4 and 15


def shown(kept):
    return Image.open(io.BytesIO(kept.data))


def test_a_photo_becomes_a_jpeg_of_at_most_2000_px_with_a_small_one_beside():
    kept = read_image(encoded(photo(4000, 3000)))
    assert (kept.media_type, kept.width, kept.height) == ("image/jpeg", 2000, 1500)
    assert shown(kept).size == (2000, 1500)
    assert Image.open(io.BytesIO(kept.small)).size == (400, 300)


def test_what_is_small_already_is_not_blown_up():
    assert shown(read_image(encoded(photo(300, 200)))).size == (300, 200)


@pytest.mark.parametrize(("tag", "turned"), [(3, 180), (6, 270), (8, 90)])
def test_it_stands_upright_by_what_the_camera_wrote(tag, turned):
    """Exif 2.32, tag 0x0112: 3 is upside down, at 6 the first row is the right side, at 8 the left."""
    exif = Image.Exif()
    exif[ORIENTATION] = tag
    content = encoded(photo(), exif=exif.tobytes(), quality=95)
    expected = photo().rotate(turned, expand=True)
    kept = shown(read_image(content))
    assert kept.size == expected.size
    difference = ImageChops.difference(kept, expected)
    assert sum(difference.resize((1, 1), Image.Resampling.BOX).getpixel((0, 0))) < 12


def test_no_place_no_camera_and_no_comment_stay():
    exif = Image.Exif()
    exif[MAKER] = "SECRETCAM"
    exif.get_ifd(GPS_IFD)[1] = "N"
    exif.get_ifd(GPS_IFD)[2] = (52.0, 30.0, 11.0)
    content = encoded(photo(), exif=exif.tobytes(), comment=b"SECRETWORDS", icc_profile=b"SECRETICC" * 20)
    assert b"SECRETCAM" in content
    kept = read_image(content)
    for data in (kept.data, kept.small):
        assert b"SECRET" not in data
        assert b"Exif" not in data
        assert not Image.open(io.BytesIO(data)).getexif()


def test_words_in_a_png_do_not_stay():
    plain = encoded(photo(), "PNG")
    kept = read_image(plain[:33] + png_chunk(b"tEXt", b"Comment\x00SECRET") + plain[33:])
    assert kept.media_type == "image/png"
    assert b"SECRET" not in kept.data + kept.small


def test_a_drawing_stays_without_loss_and_a_photo_sent_as_png_does_not():
    drawing = read_image(encoded(photo(), "PNG"))
    assert ImageChops.difference(shown(drawing), photo()).getbbox() is None
    noise = Image.effect_noise((1500, 1500), 90).convert("RGB")
    assert read_image(encoded(noise, "PNG")).media_type == "image/jpeg"


def test_what_is_see_through_lies_on_white():
    image = Image.new("RGBA", (40, 40), (255, 0, 0, 0))
    assert shown(read_image(encoded(image, "PNG"))).getpixel((5, 5)) == (255, 255, 255)


def test_a_palette_with_a_see_through_colour():
    image = Image.new("P", (40, 40), 1)
    image.putpalette([0, 0, 0, 200, 30, 30])
    image.paste(0, (0, 0, 20, 40))
    kept = shown(read_image(encoded(image, "PNG", transparency=0)))
    assert kept.getpixel((5, 5)) == (255, 255, 255)
    assert kept.getpixel((30, 5)) == (200, 30, 30)


@pytest.mark.parametrize("mode", ["P", "1"])
def test_fine_lines_of_a_plan_shrink_to_greys_and_do_not_vanish(mode):
    """Every other column black: halved, each pixel is the mean of one black and one white, 128 of 255."""
    image = Image.new("L", (4000, 40), 255)
    for x in range(0, 4000, 2):
        image.paste(0, (x, 0, x + 1, 40))
    shades = shown(read_image(encoded(image.convert(mode), "PNG"))).convert("L")
    assert shades.width == 2000
    assert shades.getpixel((1000, 10)) == pytest.approx(128, abs=25)


def test_sixteen_bits_keep_their_shade():
    """40,000 of 65,535 is 156 of 255."""
    image = Image.new("I;16", (40, 40), 40_000)
    red, green, blue = shown(read_image(encoded(image, "PNG"))).getpixel((5, 5))
    assert red == green == blue
    assert red == pytest.approx(156, abs=1)


def test_the_printers_colours_come_out_as_seen():
    image = Image.new("CMYK", (64, 64), (0, 255, 255, 0))  # magenta and yellow make red
    red, green, blue = shown(read_image(encoded(image))).getpixel((30, 30))
    assert red > 200
    assert green < 60
    assert blue < 60


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_of_a_moving_picture_the_first_frame_is_kept(kind):
    frames = [photo(shade=shade) for shade in (90, 200, 20)]
    content = encoded(frames[0], kind, save_all=True, append_images=frames[1:], lossless=True)
    kept = shown(read_image(content))
    assert getattr(kept, "n_frames", 1) == 1
    assert kept.getpixel((10, 400))[1] == pytest.approx(90, abs=6)


def test_webp():
    assert read_image(encoded(photo(), "WEBP")).media_type == "image/jpeg"


def test_what_hangs_behind_a_picture_is_gone():
    """A file that is a picture and a page, or a picture and an archive."""
    page = b"<html><script>alert(2)</script>PK\x03\x04"
    content = encoded(photo(), comment=b"<script>alert(1)</script>") + page
    kept = read_image(content)
    assert b"<script" not in kept.data
    assert b"PK\x03\x04" not in kept.data


REFUSED = {
    "nothing": (b"", "empty"),
    "an SVG named .jpg": (b'<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>', "JPEG, PNG or WebP"),
    "a page": (b"<!doctype html><p>GIF89a", "JPEG, PNG or WebP"),
    "a GIF": (encoded(photo(), "GIF"), "JPEG, PNG or WebP"),
    "a TIFF": (encoded(photo(), "TIFF"), "JPEG, PNG or WebP"),
    "cut off": (encoded(photo())[:2000], "cut off"),
    "cut off in its head": (encoded(photo(), "PNG")[:20], "cut off"),
    "a PNG cut off": (encoded(photo(), "PNG")[:700], "cut off"),
    "a WebP cut off": (encoded(photo(), "WEBP")[:300], "cut off"),
    "damaged inside": (encoded(photo(), "PNG")[:60] + b"\xff" * 900, "cut off"),
    "a bomb": (png_declaring(12_000, 12_000), "30 million pixels"),
    "a bomb that Pillow refuses itself": (png_declaring(60_000, 60_000), "60 million pixels"),
    "just over the limit": (png_declaring(5_478, 5_478), "30 million pixels"),
    "the widest": (png_declaring(2**31 - 1, 9), "million pixels"),
    "0 by 0": (png_declaring(0, 0), "no picture"),
    "0 wide": (png_declaring(0, 500), "no picture"),
    "a dot": (encoded(Image.new("RGB", (1, 1)), "PNG"), "too small"),
    "too many bytes": (encoded(photo()) + b"\x00" * MOST_BYTES, "10 MB"),
    "HEIC": (b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic", "HEIC"),
    "thousands of scans": (encoded(photo(), progressive=True) + b"\xff\xda" * 4000, "too many steps"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refused_with_a_sentence(name):
    content, word = REFUSED[name]
    with pytest.raises(PictureRefused) as refusal:
        read_image(content)
    assert word in str(refusal.value)
    assert str(refusal.value).endswith(".")


def test_a_bomb_is_refused_before_it_is_unpacked():
    """20,000 by 20,000 in RGB would take 1.2 GB."""
    tracemalloc.start()
    with pytest.raises(PictureRefused):
        read_image(png_declaring(20_000, 20_000))
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 5_000_000


def test_every_prefix_of_a_file_is_read_or_refused():
    for content in (encoded(photo(64, 48)), encoded(photo(64, 48), "PNG"), encoded(photo(64, 48), "WEBP")):
        for length in range(0, len(content), 7):
            try:
                read_image(content[:length])
            except PictureRefused:
                continue


def test_the_same_picture_twice_is_one_on_a_site_and_two_on_two(site, clerk):
    first = keep_picture(site=site, upload=upload(), by=clerk)
    again = keep_picture(site=site, upload=upload(name="another-name.png"), by=None)
    elsewhere = keep_picture(site=make_site(), upload=upload(), by=clerk)
    assert first.pk == again.pk != elsewhere.pk
    assert Picture.objects.count() == 2
    assert AuditEvent.objects.filter(verb="picture.added", subject=f"picture:{first.pk}").count() == 1


@pytest.fixture
def kept(site, clerk):
    return keep_picture(site=site, upload=upload(), by=clerk)


def test_who_sees_a_picture(kept, clerk_client, owner_client, installer_client, client):
    address = reverse("sites:picture", args=[kept.pk])
    assert clerk_client.get(address).status_code == owner_client.get(address).status_code == 200
    assert installer_client.get(address).status_code == 403
    assert client.get(address).status_code == 302
    assert clerk_client.post(address).status_code == 405
    assert clerk_client.get(reverse("sites:picture", args=[kept.pk + 1])).status_code == 404


@pytest.mark.parametrize(("name", "column"), [("picture", "data"), ("picture-small", "small")])
def test_how_it_is_sent(kept, clerk_client, name, column):
    address = reverse(f"sites:{name}", args=[kept.pk])
    answer = clerk_client.get(address)
    assert answer.content == bytes(getattr(kept, column))
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert "private" in answer["Cache-Control"]
    again = clerk_client.get(address, headers={"If-None-Match": answer["ETag"]})
    assert (again.status_code, again.content) == (304, b"")


def test_whole_and_small_have_tags_of_their_own(kept, clerk_client):
    names = ("sites:picture", "sites:picture-small")
    assert len({clerk_client.get(reverse(name, args=[kept.pk]))["ETag"] for name in names}) == 2

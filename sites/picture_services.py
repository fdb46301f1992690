"""Keeping the pictures of a site."""

from django.core.files import File
from django.db import transaction

from office.audit import record
from office.models import Person
from sites.errors import PictureRefused
from sites.models import Picture, Site
from sites.picture_file import MOST_BYTES, KeptImage, read_image

__all__ = ["PictureRefused", "keep_picture", "store_picture"]


def keep_picture(*, site: Site, upload: File, by: Person | None) -> Picture:
    """The upload as a picture of the site; the one that is there already where it was sent before.

    Raises PictureRefused with a sentence to show beside the file's field.
    """
    return store_picture(site=site, image=read_image(upload.read(MOST_BYTES + 1)), by=by)


@transaction.atomic
def store_picture(*, site: Site, image: KeptImage, by: Person | None) -> Picture:
    """An image that was read before, so that nobody waits for the database while it is."""
    Site.objects.select_for_update().get(pk=site.pk)  # the same picture sent twice at once is kept once
    known = Picture.objects.filter(site=site, digest=image.digest).first()
    if known is not None:
        return known
    picture = Picture(
        site=site, data=image.data, small=image.small, media_type=image.media_type,
        width=image.width, height=image.height, digest=image.digest, made_by=by,
    )  # fmt: skip
    picture.full_clean()
    picture.save()
    record(by=by, verb="picture.added", subject=picture, detail={"site": site.pk})
    return picture

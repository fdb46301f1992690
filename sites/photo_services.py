"""Photos of a visit: taken in, described, placed on the plan, taken out."""

from typing import Any

from django.core.files import File
from django.db import transaction
from django.db.models import QuerySet
from django.urls import reverse
from django.utils import timezone

from office.audit import record
from office.models import Person
from office.versions import save_version
from sites.errors import PictureRefused
from sites.models import GroundSurvey, Picture, Site, SitePhoto, Visit
from sites.picture_file import MOST_BYTES, read_image, taken_at
from sites.picture_services import store_picture


def photos_of(visit: Visit) -> QuerySet[SitePhoto]:
    """The visit's photos, their bytes not read."""
    return visit.photos.select_related("picture").defer("picture__data", "picture__small")


def add_photo(
    *, visit: Visit, upload: File, by: Person | None, about: str = "", caption: str = ""
) -> SitePhoto:
    """Keep a photo. The same one sent twice is kept once. Raises PictureRefused with a sentence."""
    content = upload.read(MOST_BYTES + 1)
    image, clock = read_image(content), taken_at(content)
    with transaction.atomic():
        picture = store_picture(site=visit.site, image=image, by=by)
        known = SitePhoto.objects.filter(picture=picture).select_related("visit").first()
        if known is not None:
            return _same_place(known, visit, about)
        photo = SitePhoto(
            visit=visit, picture=picture, about=about, caption=caption,
            taken_at=timezone.make_aware(clock) if clock else None,
        )  # fmt: skip
        photo.full_clean()
        photo.save()
        record(by=by, verb="photo.added", subject=photo, detail={"visit": visit.pk, "about": about})
    return photo


def _same_place(known: SitePhoto, visit: Visit, about: str) -> SitePhoto:
    if known.visit_id != visit.pk:
        raise PictureRefused(
            f"This photo is here already, with the visit of {known.visit.visited_on}: {known}."
        )
    if known.about != about:
        raise PictureRefused(f"This photo is here already, with another line: {known}. Take another one.")
    return known


@transaction.atomic
def change_photo(
    photo: SitePhoto, *, began_from: int, by: Person | None, fields: dict[str, Any]
) -> SitePhoto:
    """Save caption, line, place or direction; office.versions.Clash where somebody saved since."""
    saved = save_version(photo, began_from=began_from, fields=fields)
    record(by=by, verb="photo.changed", subject=saved, detail={"visit": saved.visit_id})
    return saved


@transaction.atomic
def remove_photo(photo: SitePhoto, *, by: Person | None) -> None:
    """Take the photo out, and its picture too where nothing is traced over it."""
    picture, visit = photo.picture, photo.visit
    record(
        by=by, verb="photo.removed", subject=visit,
        detail={"photo": photo.pk, "caption": photo.caption, "digest": picture.digest},
    )  # fmt: skip
    photo.delete()
    if not _is_traced(picture):
        picture.delete()


def photos_on_plan(site: Site) -> list[dict[str, Any]]:
    """Photos of the site that have a place on the plan, for the drawing."""
    placed = SitePhoto.objects.filter(visit__site=site, east_m__isnull=False)
    return [
        {
            "id": photo.pk,
            "at": [photo.east_m, photo.north_m],
            "caption": photo.caption,
            "looks_deg": photo.looks_deg,
            "small_url": reverse("sites:picture-small", args=[photo.picture_id]),
            "url": reverse("sites:picture", args=[photo.picture_id]),
        }
        for photo in placed
    ]


def _is_traced(picture: Picture) -> bool:
    surveys = GroundSurvey.objects.filter(visit__site_id=picture.site_id)
    return any(
        trace["picture"] == picture.pk for survey in surveys for trace in survey.traces.get("traces", [])
    )

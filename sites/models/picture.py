"""Pictures of a site, kept in the database so that one backup and any number of machines have them."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from office.models import Versioned
from sites.models.customer import Site
from sites.models.visit import Visit


class Picture(models.Model):
    """An image as it is kept: upright, shrunk, without what the camera wrote into it."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="pictures")
    data = models.BinaryField()
    small = models.BinaryField()  # for lists and for the plan
    media_type = models.CharField(max_length=20)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    digest = models.CharField(max_length=64)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        ordering = ["site", "pk"]

    def __str__(self) -> str:
        return f"{self.site}, picture {self.pk}"


class SitePhoto(Versioned):
    """A photo with its caption, the line of the sheet that it belongs to, and its place on the plan."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="photos")
    picture = models.OneToOneField(Picture, on_delete=models.PROTECT, related_name="photo")
    caption = models.CharField(max_length=200, blank=True)
    about = models.SlugField(max_length=40, blank=True)  # key of a line of the sheet
    # Where on the plan it was taken, and which way it looks, clockwise from north.
    east_m = models.FloatField(null=True, blank=True)
    north_m = models.FloatField(null=True, blank=True)
    looks_deg = models.FloatField(null=True, blank=True)
    taken_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["visit", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(east_m__isnull=True, north_m__isnull=True)
                | Q(east_m__isnull=False, north_m__isnull=False),
                name="photo_place_is_a_pair",
            )
        ]

    def __str__(self) -> str:
        return self.caption or f"Photo {self.pk}"

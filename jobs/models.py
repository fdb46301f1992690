"""Jobs: what an accepted quote becomes."""

from django.conf import settings
from django.db import models

from office.models import Versioned
from quoting.models import Quote


class Job(Versioned):
    quote = models.OneToOneField(Quote, on_delete=models.PROTECT, related_name="job")
    made_at = models.DateTimeField(auto_now_add=True)
    crew = models.ManyToManyField(settings.AUTH_USER_MODEL, blank=True, related_name="jobs")
    start_on = models.DateField(null=True, blank=True)

"""The counter that quote numbers come from."""

from django.db import models


class NumberCounter(models.Model):
    """The last number given, by year; year 0 counts where numbers run on over the years."""

    year = models.PositiveSmallIntegerField(unique=True)
    last = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return f"{self.year or 'all years'}: {self.last}"

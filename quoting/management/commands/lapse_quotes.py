"""Lapse the offers whose time is over; run it daily, such as from cron."""

from typing import Any

from django.core.management.base import BaseCommand

from quoting.services import lapse_all_past


class Command(BaseCommand):
    help = "Lapse every issued quote whose last day of validity is over."

    def handle(self, *args: Any, **options: Any) -> None:
        count = lapse_all_past()
        self.stdout.write(f"{count} quote{'' if count == 1 else 's'} lapsed.")

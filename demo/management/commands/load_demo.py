"""``manage.py load_demo``: fill an empty installation with the invented company."""

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from demo.loading import is_loaded, load_demo


class Command(BaseCommand):
    help = "Load the invented company into an empty installation; where people exist, change nothing."

    def handle(self, *args: object, **options: object) -> None:
        if not settings.PLAIN_HTTP:
            raise CommandError(
                "The demo's passwords stand in its source, so it is for a machine of your own:"
                " set TRENCHBOOK_PLAIN_HTTP=yes, or use make demo."
            )
        if is_loaded():
            self.stdout.write("The data of the last run are kept.")
            return
        load_demo()
        self.stdout.write("Loaded an invented company with three customers.")

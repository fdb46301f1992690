"""``manage.py load_demo``: fill an empty installation with the invented company."""

from django.core.management.base import BaseCommand

from demo.loading import is_loaded, load_demo


class Command(BaseCommand):
    help = "Load the invented company into an empty installation; where people exist, change nothing."

    def handle(self, *args: object, **options: object) -> None:
        if is_loaded():
            self.stdout.write("The data of the last run are kept.")
            return
        load_demo()
        self.stdout.write("Loaded an invented company with three customers.")

"""App configuration."""

from django.apps import AppConfig

from office.navigation import add_entry


class PartsConfig(AppConfig):
    name = "parts"

    def ready(self) -> None:
        add_entry("Parts book", "parts:list", order=60)

"""App configuration."""

from django.apps import AppConfig

from office.navigation import add_entry


class OfficeConfig(AppConfig):
    name = "office"

    def ready(self) -> None:
        add_entry("Today", "office:day", audience="is_active", order=0)
        add_entry("Company", "office:company", audience="is_owner", order=90)
        add_entry("People", "office:people", audience="is_owner", order=91)

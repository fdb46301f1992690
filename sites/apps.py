"""App configuration."""

from django.apps import AppConfig

from office.navigation import add_entry, add_panel


class SitesConfig(AppConfig):
    name = "sites"

    def ready(self) -> None:
        from sites.day_panels import visits_without_plan

        add_entry("Customers", "sites:customers", order=10)
        add_entry("Limits", "sites:limits", audience="is_owner", order=75)
        add_panel(
            "Visits waiting for a plan", visits_without_plan, empty="Every visit has its plan.", order=20
        )

"""App configuration."""

from django.apps import AppConfig

from office.navigation import add_entry, add_panel, add_setting, add_start


class SitesConfig(AppConfig):
    name = "sites"

    def ready(self) -> None:
        from sites.day_panels import visits_without_plan

        add_entry("Customers", "sites:customers", order=10)
        add_start("Find", "sites:customers", searches="Customer: name, phone, street or town")
        add_start("Add a customer", "sites:customer-add")
        add_setting("Limits of the check", "sites:limits")
        add_panel(
            "Visits waiting for a plan", visits_without_plan, empty="Every visit has its plan.", order=20
        )

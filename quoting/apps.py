"""App configuration."""

from django.apps import AppConfig

from office.navigation import add_entry, add_panel


class QuotingConfig(AppConfig):
    name = "quoting"

    def ready(self) -> None:
        from quoting.frozen_plans import quoted_in
        from quoting.panels import drafts, fresh_answers, new_quote_of_site, quotes_of_site, waiting_offers
        from quoting.plan_prices import price_differences
        from sites.comparison_panels import add_comparison_panel
        from sites.frozen import add_frozen_reason
        from sites.panels import add_site_panel

        add_entry("Quotes", "quoting:list", order=30)
        add_entry("Pricing", "quoting:policy", audience="is_owner", order=70)
        add_panel("Answers", fresh_answers, order=15, empty="No customer has answered in the last days.")
        add_panel("Offers that are out", waiting_offers, order=30, empty="No offer is out.")
        add_panel("Drafts", drafts, order=35, empty="No draft waits.")
        add_site_panel("Quotes", quotes_of_site, order=20, empty="No quote yet.", action=new_quote_of_site)
        add_comparison_panel("Price", price_differences)
        add_frozen_reason(quoted_in)

"""A site with the demo's parts book around it, as for the sites app."""

from tests.sites.conftest import customer, parts_book, plan, site, us_site

__all__ = ["customer", "parts_book", "plan", "site", "us_site"]

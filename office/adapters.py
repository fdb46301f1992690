"""Login rules: the owner adds people, nobody signs up."""

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest

from office.client_address import client_address


class ClosedAccountAdapter(DefaultAccountAdapter):
    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def get_client_ip(self, request: HttpRequest) -> str:
        """Failed logins are counted by the address that the customer's page counts by as well."""
        return client_address(request) or "unknown"

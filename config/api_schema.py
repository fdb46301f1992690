"""The API's own document."""

from drf_spectacular.views import SpectacularAPIView
from rest_framework.request import Request


class ApiDocument(SpectacularAPIView):
    """This document, as YAML or, with ``format=json``, as JSON."""

    # There is one version; what a caller types as another would go into a header as it stands.
    def _get_version_parameter(self, request: Request) -> None:
        return None

"""The API's addresses, gathered from the apps."""

from django.urls import include, path
from drf_spectacular.views import SpectacularAPIView

urlpatterns = [
    path("schema/", SpectacularAPIView.as_view(), name="api-schema"),
    path("", include("sites.api_urls")),
    path("", include("parts.api_urls")),
    path("", include("quoting.api_urls")),
    path("", include("jobs.api_urls")),
]

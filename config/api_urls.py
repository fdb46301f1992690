"""The API's addresses, gathered from the apps."""

from django.urls import include, path

from config.api_schema import ApiDocument

urlpatterns = [
    path("schema/", ApiDocument.as_view(), name="api-schema"),
    path("", include("sites.api_urls")),
    path("", include("parts.api_urls")),
    path("", include("quoting.api_urls")),
    path("", include("jobs.api_urls")),
]

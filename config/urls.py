"""All addresses; each app names its own."""

from django.urls import include, path

from config.health import health

urlpatterns = [
    path("health/", health, name="health"),
    path("account/", include("allauth.urls")),
    path("", include("office.urls")),
    path("", include("sites.urls")),
    path("parts/", include("parts.urls")),
    path("", include("quoting.urls")),
    path("", include("jobs.urls")),
    path("api/", include("config.api_urls")),
]

handler404 = "config.errors.not_found"
handler500 = "config.errors.server_error"

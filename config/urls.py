"""All addresses; each app names its own."""

from django.urls import include, path

from config.errors import closed
from config.health import health

urlpatterns = [
    path("health/", health, name="health"),
    # A login's e-mail is the owner's to set: these pages would let anybody change their own.
    path("account/email/", closed, name="closed-email"),
    path("account/confirm-email/", closed, name="closed-confirm"),
    path("account/confirm-email/<str:key>/", closed, name="closed-confirm-key"),
    path("account/", include("allauth.urls")),
    path("", include("office.urls")),
    path("", include("sites.urls")),
    path("parts/", include("parts.urls")),
    path("", include("quoting.urls")),
    path("", include("jobs.urls")),
    path("api/", include("config.api_urls")),
]

handler400 = "config.errors.bad_request"
handler404 = "config.errors.not_found"
handler500 = "config.errors.server_error"

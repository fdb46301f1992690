"""Addresses of the quoting API."""

from rest_framework.routers import SimpleRouter

from quoting.api import QuoteViewSet

router = SimpleRouter()
router.register("quotes", QuoteViewSet, basename="api-quote")
urlpatterns = router.urls

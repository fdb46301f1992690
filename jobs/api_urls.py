"""Addresses of the jobs API."""

from rest_framework.routers import SimpleRouter

from jobs.api import JobViewSet

router = SimpleRouter()
router.register("jobs", JobViewSet, basename="job")
urlpatterns = router.urls

"""Addresses of the parts API."""

from rest_framework.routers import SimpleRouter

from parts.api import PartViewSet, SupplierViewSet

router = SimpleRouter()
router.register("parts", PartViewSet, basename="api-part")
router.register("suppliers", SupplierViewSet, basename="api-supplier")
urlpatterns = router.urls

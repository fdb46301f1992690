"""Addresses of the sites API."""

from django.urls import path
from rest_framework.routers import SimpleRouter

from sites.api import CustomerViewSet, SiteViewSet, VisitViewSet
from sites.api_plans import PlanViewSet
from sites.sizing_api import SizesView
from sites.watering_api import WateringView

router = SimpleRouter(use_regex_path=False)
router.register("customers", CustomerViewSet, basename="api-customer")
router.register("sites", SiteViewSet, basename="api-site")
router.register("sites/<int:site_pk>/visits", VisitViewSet, basename="api-visit")
router.register("sites/<int:site_pk>/plans", PlanViewSet, basename="api-plan")
urlpatterns = [
    path("sites/<int:site_pk>/plans/<int:number>/watering/", WateringView.as_view(), name="api-watering"),
    path("sites/<int:site_pk>/plans/<int:number>/sizes/", SizesView.as_view(), name="api-sizes"),
    *router.urls,
]

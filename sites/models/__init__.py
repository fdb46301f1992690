"""Customers, their sites, what a visit measured, and the plans drawn for them."""

from sites.models.customer import Customer, Site
from sites.models.limit import LimitSetting
from sites.models.picture import Picture, SitePhoto
from sites.models.plan import PlanDraft, PlanRevision
from sites.models.sheet import Confidence, SheetEntry
from sites.models.survey import GroundSurvey
from sites.models.visit import FlowTest, HeightReading, Visit
from sites.models.watering import ClimateMonth, SiteClimate, WateringRules

__all__ = [
    "ClimateMonth", "Confidence", "Customer", "FlowTest", "GroundSurvey", "HeightReading", "LimitSetting",
    "Picture", "PlanDraft", "PlanRevision", "SheetEntry", "Site", "SiteClimate", "SitePhoto", "Visit",
    "WateringRules",
]  # fmt: skip

"""Customers, their sites, what a visit measured, and the plans drawn for them."""

from sites.models.customer import Customer, Site
from sites.models.limit import LimitSetting
from sites.models.plan import PlanRevision
from sites.models.visit import FlowTest, HeightReading, Visit
from sites.models.watering import ClimateMonth, SiteClimate, WateringRules

__all__ = [
    "ClimateMonth", "Customer", "FlowTest", "HeightReading", "LimitSetting", "PlanRevision", "Site",
    "SiteClimate", "Visit", "WateringRules",
]  # fmt: skip

"""The measured ground of a visit, each reading as it was typed."""

from django.db import models

from office.models import Versioned
from sites.models.visit import Visit


class GroundSurvey(Versioned):
    """Three documents of ``design.survey.document``: PlaneSurvey, LevelSurvey and TraceSurvey."""

    visit = models.OneToOneField(Visit, on_delete=models.PROTECT, related_name="survey")
    plane = models.JSONField(default=dict, blank=True)
    levels = models.JSONField(default=dict, blank=True)
    traces = models.JSONField(default=dict, blank=True)

    def __str__(self) -> str:
        return f"Ground measured on the {self.visit}"

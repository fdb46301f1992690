"""Keeping what was measured on the ground: made, changed, clashing, refused."""

import pytest

from office.models import AuditEvent
from office.versions import Clash
from sites.errors import SurveyRefused
from sites.models import GroundSurvey
from sites.survey_services import save_survey, survey_of
from tests.sites.makers import make_visit

PLANE = {"marks": [{"name": "A"}, {"name": "B", "off": "A", "distance": {"text": "16 m", "m": 16}}]}
LEVELS = {"spots": [{"point": "A", "height": {"text": "0.2 m", "m": 0.2}}]}


@pytest.fixture
def visit(site):
    return make_visit(site)


def save(visit, **fields):
    return save_survey(
        **{"visit": visit, "part": "plane", "document": PLANE, "began_from": 0, "by": None, **fields}
    )


def test_nothing_measured_is_none(visit):
    assert survey_of(visit) is None


def test_the_first_save_makes_the_row_and_each_further_one_a_version(visit, clerk):
    first = save(visit, by=clerk)
    second = save(visit, part="levels", document=LEVELS, began_from=first.version, by=clerk)
    assert (first.version, second.version) == (1, 2)
    assert survey_of(visit).plane == PLANE
    assert survey_of(visit).levels == LEVELS
    assert AuditEvent.objects.filter(verb="ground.measured", person=clerk).count() == 2


@pytest.mark.parametrize("began_from", [0, 2, 10**30])
def test_a_save_from_another_version_clashes_and_keeps_what_stands(visit, began_from):
    save(visit)
    with pytest.raises(Clash) as clash:
        save(visit, document={}, began_from=began_from)
    assert clash.value.current.plane == PLANE
    assert GroundSurvey.objects.get().version == 1


@pytest.mark.parametrize(
    "document",
    [
        {"marks": 3},
        {"hedges": []},
        {"marks": [{"name": "A\x00"}]},
        {"marks": [{"name": "A", "label": "a\x00b"}]},
        {"marks": [{"name": "A", "east": {"text": "1", "m": float("nan")}}]},
        {"marks": [{"name": "A", "east": {"text": "1", "m": 1e300}}]},
        {"marks": [{"name": "A", "label": "\ud800"}]},
        {"marks": [{"name": f"A{n}"} for n in range(401)]},
        {"marks": [{"name": "A", "label": "x" * 600_000}]},
    ],
)
def test_what_is_no_survey_is_refused_with_a_sentence(visit, document):
    with pytest.raises(SurveyRefused) as refusal:
        save(visit, document=document)
    assert refusal.value.problems[0].sentence
    assert not GroundSurvey.objects.exists()


def test_what_is_nested_too_deeply_is_refused(visit):
    deep: dict = {}
    for _ in range(100_000):
        deep = {"marks": deep}
    with pytest.raises(SurveyRefused):
        save(visit, document=deep)

"""The demo's measured ground agrees with the plan that was drawn from it."""

import pytest

from demo.loading import load_demo
from design.survey.reduce import reduce_plane
from sites.models import Site
from sites.survey_page import plane_of
from sites.walk_round.services import missing_lines


@pytest.fixture
def visit(db):
    load_demo()
    return Site.objects.get(name="Quince House").visits.get()


def test_its_tapes_give_the_lawn_of_the_plan(visit):
    """27 m x 18 m, tapes read to a centimetre and 0.02 m good."""
    result = reduce_plane(plane_of(visit.survey))
    assert result.problems == ()
    (lawn,) = result.outlines.values()
    drawn = Site.objects.get(name="Quince House").plans.first().document["ground"]["areas"][0]
    assert drawn["id"] == lawn.id
    for measured, planned in zip(lawn.points, drawn["outline"], strict=True):
        assert measured == pytest.approx(planned, abs=0.05)
    assert lawn.area_m2 == pytest.approx(486, abs=2)
    assert lawn.wheel.accepted
    assert not result.suspects


def test_its_sheet_still_lacks_something(visit):
    missing = {line.key for line in missing_lines(visit)}
    assert "stop_valve" in missing
    assert not missing & {"soil", "gate", "future_works", "private_buried", "wheel"}

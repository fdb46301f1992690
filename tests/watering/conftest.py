"""A site with a plan, the demo's parts book around it, and its climate typed in."""

import pytest

from tests.sites.makers import make_plan, make_site, take_in_parts
from tests.watering.pages import keep_climate


@pytest.fixture
def site(db):
    return make_site()


@pytest.fixture
def plan(site):
    take_in_parts()
    return make_plan(site)


@pytest.fixture
def climate(site):
    return keep_climate(site)

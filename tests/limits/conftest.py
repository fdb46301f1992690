"""A site with a plan and the demo's parts book."""

import pytest

from tests.sites.makers import make_plan, make_site, take_in_parts


@pytest.fixture
def plan(db):
    take_in_parts()
    return make_plan(make_site())

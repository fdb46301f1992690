"""Quotes in each state; the parts book of the demo behind them."""

import pytest

from tests.quoting import factories


@pytest.fixture
def draft(clerk):
    return factories.make_draft(clerk)


@pytest.fixture
def issued(clerk):
    return factories.make_issued(clerk)


@pytest.fixture
def accepted(clerk):
    return factories.make_accepted(clerk)

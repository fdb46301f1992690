"""A job to work on."""

import pytest

from tests.jobs.makers import make_job, make_locate


@pytest.fixture
def job(db):
    return make_job()


@pytest.fixture
def open_job(job, clerk):
    """A job on which digging is allowed today."""
    make_locate(job, clerk)
    return job

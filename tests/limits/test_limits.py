"""Limits: what each says of itself, what is refused, what a moved one changes."""

import dataclasses
import math
import re
from pathlib import Path

import pytest

from design.check import check
from design.report import report_to_dict
from design.report_text import report_text
from hydraulics.limits import (
    DEFAULT_LIMITS,
    ORDERED,
    BadLimit,
    Limits,
    MovedLimit,
    check_limit,
    limit_facts,
    limits_with,
    moved_limits,
)
from tests.design.plans import CATALOGUE, make_plan, one_zone

ROOT = Path(__file__).resolve().parents[2]


def test_every_limit_says_what_it_is_and_its_usual_value_may_be_typed():
    for facts in limit_facts():
        assert facts.label[0].isupper()
        assert facts.unit
        assert facts.source
        assert facts.low < facts.high
        assert check_limit(facts.name, facts.usual) is None
    assert len({facts.label for facts in limit_facts()}) == len(limit_facts())


def test_every_limit_is_asked_by_something():
    """A limit that nothing reads would be moved in vain."""
    code = "\n".join(
        path.read_text(encoding="utf-8")
        for folder in ("hydraulics", "design")
        for path in (ROOT / folder).rglob("*.py")
        if path.name != "limits.py"
    )
    idle = [f.name for f in limit_facts() if not re.search(rf"limits\.{f.name}\b", code)]
    assert idle == []


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, -1.0, 1e9])
@pytest.mark.parametrize("name", ["pipe_velocity_stop_mps", "main_depth_m", "coverage_grid_m"])
def test_a_value_that_cannot_be_is_refused_in_a_sentence(name, value):
    with pytest.raises(BadLimit, match=r"may be .* cannot be meant\.$"):
        check_limit(name, value)


def test_an_unknown_limit_is_refused():
    with pytest.raises(BadLimit, match="no limit"):
        limits_with({"gravity": 9.8})


@pytest.mark.parametrize(("lower", "upper"), ORDERED)
def test_a_warning_cannot_lie_above_its_stop(lower, upper):
    stop = getattr(DEFAULT_LIMITS, upper)
    assert getattr(limits_with({lower: stop}), lower) == stop
    with pytest.raises(BadLimit, match="would lie above"):
        limits_with({lower: stop + 0.01})


def test_protection_of_trenches_may_be_asked_earlier_but_not_later_than_the_law():
    # 29 CFR 1926.652(a)(1): from 5 ft
    assert limits_with({"trench_protection_m": 1.2}).trench_protection_m == 1.2
    with pytest.raises(BadLimit):
        limits_with({"trench_protection_m": 1.6})


def test_usual_limits_are_not_said_to_be_moved():
    assert moved_limits(Limits()) == ()
    assert moved_limits(limits_with({"pipe_velocity_stop_mps": 2.1})) == ()


def test_a_moved_limit_stands_in_the_report_and_changes_it():
    layout = one_zone()
    plan = make_plan(layout=layout)
    usual = check(plan, CATALOGUE)
    fast = max(pipe.velocity_mps for case in usual.cases for pipe in case.pipes)
    assert usual.moved_limits == ()
    assert "LIMITS" not in report_text(usual)
    own = dataclasses.replace(DEFAULT_LIMITS, pipe_velocity_warn_mps=fast / 2)
    moved = check(plan, CATALOGUE, own)
    assert [row.name for row in moved.moved_limits] == ["pipe_velocity_warn_mps"]
    assert moved.moved_limits[0] == MovedLimit(
        "pipe_velocity_warn_mps", "Velocity in a pipe, to be judged above", 1.5, fast / 2, "m/s"
    )
    assert "pipe.velocity.high" not in {finding.code for finding in usual.findings}
    assert "pipe.velocity.high" in {finding.code for finding in moved.findings}
    text = report_text(moved)
    assert "LIMITS THAT THE COMPANY HAS MOVED" in text
    assert f"Velocity in a pipe, to be judged above: {fast / 2:g} m/s, usually 1.5 m/s" in text
    assert report_to_dict(moved)["moved_limits"][0]["usual"] == 1.5

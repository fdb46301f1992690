"""Readings outside what is plausible ask, impossible ones are refused with a sentence.

All ranges: common practice, no source.
"""

from datetime import date

import pytest

from hydraulics.units import parse_quantity
from sites.plausibility import judge_visit
from sites.readings import Bucket, Gauge, Height, VisitData

TODAY = date(2026, 5, 6)


def q(text, kind):
    return parse_quantity(
        text, kind, {"pressure": "bar", "flow": "L/min", "volume": "L", "time": "s"}.get(kind, "m")
    )


def judged(**fields):
    data = {"visited_on": date(2026, 5, 4), "measured_by": "Ola", **fields}
    return judge_visit(VisitData(**data), TODAY)


def buckets(*runs):
    return tuple(Bucket(q(volume, "volume"), q(fill, "time")) for volume, fill in runs)


def gauges(*runs):
    return tuple(Gauge(q(flow, "flow"), q(residual, "pressure")) for flow, residual in runs)


def test_usual_readings_pass_in_silence():
    found = judged(
        static=q("4.5 bar", "pressure"),
        buckets=buckets(("20", "30"), ("20", "30.5")),
        gauges=gauges(("40", "3.4")),
        service_bore=q("26 mm", "bore"),
        heights=(Height("lawn", q("-1.1", "length")),),
    )
    assert found.refusals == found.questions == ()


@pytest.mark.parametrize(
    ("fields", "where", "words"),
    [
        ({"static": "60 bar"}, "static", "Did you mean 60.0 psi (4.14 bar)?"),
        ({"static": "0.05 bar"}, "static", "cannot be a static pressure"),
        ({"bucket": ("20", "0.5")}, "bucket-0-fill", "cannot be a time to fill"),
        ({"bucket": ("0", "30")}, "bucket-0-volume", "cannot be a bucket"),
        ({"bucket": ("1 m3", "1")}, "bucket-0-fill", "more than any tap gives"),
        ({"static": "3 bar", "gauge": ("40", "3.4")}, "gauge-0-residual", "is not below the static"),
        ({"gauge": ("40", "3.4")}, "static", "only beside the static"),
        ({"bucket": ("20", "30"), "bore": "15 mm"}, "service_bore", "impossible, or the wrong bore"),
        ({"bore": "0.1 mm"}, "service_bore", "cannot be a bore"),
        ({"visited_on": date(2026, 6, 1)}, "visited_on", "lies ahead"),
    ],
)  # fmt: skip
def test_the_impossible_is_refused(fields, where, words):
    found = judged(**spelled(fields))
    assert [remark.where for remark in found.refusals] == [where]
    assert words in found.refusals[0].sentence
    assert found.refusals[0].token == ""


@pytest.mark.parametrize(
    ("fields", "where", "words"),
    [
        ({"static": "9.5 bar"}, "static", "9.50 bar (137.8 psi) is a rare static pressure: over 8.00 bar"),
        ({"static": "1.5 bar"}, "static", "under 2.00 bar"),
        ({"static": "45 psi", "bucket": ("20", "9")}, "bucket-0-fill", "under 10 s"),
        ({"bucket": ("20", "100")}, "bucket-0-fill", "over 90 s"),
        ({"bucket": ("5", "20")}, "bucket-0-volume", "Did you mean 5.00 US gal (18.9 L)?"),
        ({"bucket": ("20", "88")}, "bucket-0-fill", "little for a tap"),
        ({"static": "5 bar", "gauge": ("20", "0.5")}, "gauge-0-residual", "10% of the static is left"),
        ({"static": "5 bar", "gauge": ("20", "4.9")}, "gauge-0-residual", "which is much"),
        ({"static": "5 bar", "gauge": ("8", "4")}, "gauge-0-flow", "rare flow"),
        ({"bucket": ("20", "30"), "bore": "18 mm"}, "service_bore", "at 2.6 m/s (9 ft/s), which is fast"),
        ({"bore": "60 mm"}, "service_bore", "rare bore"),
        ({"length": "80 m"}, "service_length", "rare length"),
        ({"z": "20 m"}, "connection_z", "rare height"),
    ],
)
def test_the_unusual_asks_and_a_tick_answers(fields, where, words):
    found = judged(**spelled(fields))
    assert found.refusals == ()
    asked = [remark for remark in found.questions if remark.where == where]
    assert any(words in remark.sentence for remark in asked), found.questions
    assert found.open_questions({remark.token for remark in found.questions}) == ()


def test_another_figure_asks_again():
    first, second = judged(**spelled({"static": "9.5 bar"})), judged(**spelled({"static": "9.6 bar"}))
    assert second.open_questions({first.questions[0].token}) == second.questions


def test_bucket_runs_that_differ_ask_at_the_last():
    # 20 L in 30 and 32 s: 40.0 and 37.5 L/min, 6.5 % apart; in 30 and 34 s: 12.5 % apart
    six = judged(buckets=buckets(("20", "30"), ("20", "32"))).questions
    assert (six[0].where, "differ by 6%. Repeat" in six[0].sentence) == ("bucket-1-fill", True)
    twelve = judged(buckets=buckets(("20", "30"), ("20", "34"))).questions
    assert "One of them is wrong" in twelve[0].sentence
    assert judged(buckets=buckets(("20", "30"), ("20", "31"))).questions == ()


def test_runs_at_different_taps_may_differ():
    first, second = buckets(("20", "30"), ("20", "60"))
    assert judged(buckets=(first, Bucket(second.volume, second.fill, "back tap"))).questions == ()


def test_gauge_readings_that_contradict_each_other_are_refused():
    found = judged(static=q("5", "pressure"), gauges=gauges(("20", "3"), ("40", "4")))
    assert "the residual rises" in found.refusals[0].sentence.lower()


def spelled(fields):
    """The short names of the tables above as fields of VisitData."""
    found = {}
    for name, value in fields.items():
        if name == "static":
            found["static"] = q(value, "pressure")
        elif name == "bucket":
            found["buckets"] = buckets(value)
        elif name == "gauge":
            found["gauges"] = gauges(value)
        elif name == "bore":
            found["service_bore"] = parse_quantity(value, "bore", "mm")
        elif name == "length":
            found["service_length"] = q(value, "length")
        elif name == "z":
            found["connection_z"] = q(value, "length")
        else:
            found[name] = value
    return found

"""Metric sentences written for people who think in US customary units.

Factors: NIST SP 811 appendix B (1 psi = 6.894757 kPa, 1 US gal = 3.785412 L, 1 ft = 0.3048 m).
"""

import pytest

from hydraulics.sentences import in_units_of


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("75% of the 25.8 L/min that the open tap gave is 19.4 L/min.",
         "75% of the 6.82 US gal/min that the open tap gave is 5.12 US gal/min."),
        ("Bore and draw in a sleeve, 2.20 m long.", "Bore and draw in a sleeve, 7.2 ft long."),
        ("The service pipe of 19.9 mm bore", "The service pipe of 0.78 in bore"),
        ("It holds 413.7 kPa, at most 2.00 m/s.", "It holds 60.0 psi, at most 6.6 ft/s."),
        ("25.4 mm/h on 92.9 m2", "1.00 in/h on 1000 ft2"),
        ("-1.5 m below", "-4.9 ft below"),
        ("85.3 m at 30 m/h", "279.9 ft at 98 ft/h"),
        ("26.9 m2 at 10 m2/h", "290 ft2 at 108 ft2/h"),
    ],
)  # fmt: skip
def test_each_figure_is_turned(metric, us):
    assert in_units_of("us", metric) == us
    assert in_units_of("metric", metric) == metric


@pytest.mark.parametrize(
    "sentence",
    ["Move H12 m away", "pe-32 m", "5 minutes", "3 mains", "no figure here", "p(q) = 430 - 2 q", ""],
)
def test_what_is_no_metric_figure_stays(sentence):
    assert in_units_of("us", sentence) == sentence

"""The field of every figure: the unit that was typed, SI kept, the text completed."""

import pytest
from django.core.exceptions import ValidationError

from sites.figures import in_both, in_system, written
from sites.quantity_field import QuantityField


@pytest.mark.parametrize(
    ("kind", "system", "text", "value_si", "kept"),
    [
        # NIST SP 811 appendix B: 1 psi = 6.894757 kPa; 1 US gal = 3.785411784 L; 1 ft = 0.3048 m
        ("pressure", "metric", "65 psi", 448.159, "65 psi"),
        ("pressure", "metric", "4,5 bar", 450, "4,5 bar"),
        ("pressure", "metric", "4.5", 450, "4.5 bar"),
        ("pressure", "us", "58", 399.896, "58 psi"),
        ("pressure", "us", " 430   kPa ", 430, "430 kPa"),
        ("flow", "us", "8", 30.2833, "8 gpm"),
        ("flow", "metric", "0.5 L/s", 30, "0.5 L/s"),
        ("length", "us", "3 ft 4 in", 1.016, "3 ft 4 in"),
        ("length", "us", "-2", -0.6096, "-2 ft"),
        ("length", "metric", "1.2", 1.2, "1.2 m"),
        ("volume", "us", "5", 18.9271, "5 gal"),
        ("bore", "us", "3/4", 19.05, "3/4 in"),
        ("time", "metric", "45", 45, "45 s"),
    ],
)
def test_a_figure_is_kept_in_si_and_as_typed(kind, system, text, value_si, kept):
    found = QuantityField(kind=kind, system=system).clean(text)
    assert found.value_si == pytest.approx(value_si, rel=1e-5)
    assert found.text == kept


@pytest.mark.parametrize(
    "text",
    ["NaN", "inf", "soon", "4.5 stones", "1e400", "--3", "9" * 39, "1/0", "4..5", "=1+1"],
)
def test_what_is_no_figure_gets_a_sentence(text):
    with pytest.raises(ValidationError) as refusal:
        QuantityField(kind="pressure").clean(text)
    assert refusal.value.messages[0].endswith((".", "?"))


def test_a_pressure_cannot_be_negative_and_a_text_not_endless():
    field = QuantityField(kind="pressure")
    with pytest.raises(ValidationError, match="cannot be negative"):
        field.clean("-4 bar")
    with pytest.raises(ValidationError, match="at most 40"):
        field.clean("4" * 41)
    with pytest.raises(ValidationError, match="Null characters"):
        field.clean("4\x00")


def test_left_empty_is_not_zero():
    assert QuantityField(kind="pressure", required=False).clean("  ") is None


def test_figures_are_written_in_both_systems():
    # common practice, no source: 5 US gal in 45 s is 6.67 US gal/min
    assert in_both(25.2361, "flow", "gpm") == "6.67 US gal/min (25.2 L/min)"
    assert in_both(450, "pressure", "bar") == "4.50 bar (65.3 psi)"
    assert written(37.5, "time", "s") == "37.5 s"
    assert written(45.0, "time", "s") == "45 s"
    assert in_system(1.016, "length", "us") == "3 ft 4 in"

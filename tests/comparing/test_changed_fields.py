"""What differs in a field, in words: feet and inches for a site in US units, none of the document's names."""

import pytest

from hydraulics.catalogue import Catalogue
from sites.changed_fields import field_words
from tests.design import plans

PARTS = Catalogue.from_dicts(plans.PARTS)


@pytest.mark.parametrize(
    ("field", "metric", "us"),
    [
        # 0.3048 m is a foot (NIST SP 811, appendix B.9)
        (("reach_m", 3.048, 6.096), "throw 3.05 m → 6.10 m", "throw 10 ft 0 in → 20 ft 0 in"),
        (("z_m", None, -1e-9), "height nothing → 0.00 m", "height nothing → 0 ft 0 in"),
        (("from_deg", 90, 180.5), "arc from 90° → 180.5°", "arc from 90° → 180.5°"),
        (("label", "", "Old <wall>"), "label nothing → Old <wall>", "label nothing → Old <wall>"),
        (("existing", False, True), "existing no → yes", "existing no → yes"),
        (("open", ["Z1"], ["Z1", "Z2"]), "runs Z1 → Z1, Z2", "runs Z1 → Z1, Z2"),
        (("tests", [{"kind": "static"}], []), "tests changed", "tests changed"),
        (("static_kpa", 1e300, {"a": 1}), "static changed", "static changed"),
    ],
)
def test_a_field_is_said_in_the_site_s_units(field, metric, us):
    assert field_words(field, PARTS, "metric") == metric
    assert field_words(field, PARTS, "us") == us


def test_a_depth_is_said_as_in_the_drawing():
    assert field_words(("depth_m", 0.3, 0.45), PARTS, "us") == "depth 12 in → 18 in"


def test_parts_are_said_by_their_label_and_long_texts_cut():
    code = next(iter(PARTS))
    assert field_words(("part", code, "x" * 99), PARTS, "us") == f"part {PARTS[code].label} → {'x' * 59}…"

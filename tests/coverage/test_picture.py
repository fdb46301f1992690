"""The picture of depth: what it shows, in which colours, and what it says in words."""

import itertools
import re
import xml.etree.ElementTree as ElementTree

import pytest
import shapely

from design.check import check
from design.coverage_classes import DRY, EDGES, class_words, patches
from design.coverage_picture import RAMP, coverage_drawing
from design.drawing import DrawingOptions, to_svg
from design.drawing.palette import ALERT
from design.site import Site
from hydraulics.coverage import WettingHead, wetting
from hydraulics.limits import DEFAULT_LIMITS
from tests.coverage.test_plans import ODD, plan_of
from tests.design.plans import CATALOGUE, ODD_LAWN, make_plan, one_zone
from tests.design_drawing.eyes import BLINDNESS, apart

LAWN = shapely.Polygon([(0, 0), (20, 0), (20, 8), (0, 8)])


def drawn(plan, units="metric"):
    site = Site(plan, CATALOGUE, DEFAULT_LIMITS)
    return coverage_drawing(
        site, check(plan, CATALOGUE), DrawingOptions(width=480, units=units, title="Water")
    )


def test_patches_fill_the_area_once_and_dry_ground_is_a_class_of_its_own():
    wet = wetting([list(LAWN.exterior.coords)[:-1]], [WettingHead((5, 4), 12.0, 6.0)], 0.25)
    found = patches(wet, LAWN)
    assert sum(ground.area for ground in found.values()) == pytest.approx(LAWN.area, rel=1e-6)
    assert found[DRY].area == pytest.approx(LAWN.area - wet.reached_m2(), rel=0.02)
    assert found[DRY].contains(shapely.Point(18, 4))
    # a cone has its most at the head
    assert found[len(EDGES)].contains(shapely.Point(5, 4))
    assert max(found) == len(EDGES)


def test_an_even_lawn_is_all_as_meant():
    heads = [WettingHead((10, 4), 12.0, 20.0, profile="uniform")]
    found = patches(wetting([list(LAWN.exterior.coords)[:-1]], heads, 0.25), LAWN)
    assert list(found) == [3]
    assert class_words()[3] == "85 to 115 %"


def lightness(colour):
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_the_ramp_grows_darker_step_by_step_so_that_hue_is_not_needed():
    shades = [lightness(colour) for colour in RAMP]
    ratios = [(pale + 0.05) / (dark + 0.05) for pale, dark in itertools.pairwise(shades)]
    assert min(ratios) > 1.25
    assert (shades[0] + 0.05) / (shades[-1] + 0.05) > 7


@pytest.mark.parametrize("eyes", BLINDNESS)
def test_classes_side_by_side_stay_apart_for_every_eye(eyes):
    # 2.3 units of L*a*b* are just noticed (Mahy and others 1994; from memory). The patches touch,
    # so that four times as much is plain; the red of the hatch is far from all of them.
    assert min(apart(eyes, one, other) for one, other in itertools.pairwise(RAMP)) > 10
    assert min(apart(eyes, ALERT, shade) for shade in RAMP) > 20


def test_the_picture_is_one_sound_svg_with_legend_and_words():
    svg = to_svg(drawn(plan_of(ODD, [15, 5], "scan-10")))
    root = ElementTree.fromstring(svg)
    words = " ".join("".join(element.itertext()) for element in root.iter() if element.tag.endswith("text"))
    assert "share of each area's mean" in words
    assert "no head reaches it" in words
    assert re.search(r"dry 6\d\.\d m²", words)
    description = next(element for element in root.iter() if element.tag.endswith("desc"))
    assert "64.2 m² dry" in description.text
    assert "style=" not in svg
    assert len(svg) < 60_000


def test_units_follow_the_site():
    svg = to_svg(drawn(plan_of(ODD, [8, 6], "scan-10"), "us"))
    assert "in/h" in svg
    assert "mm/h" not in svg


def test_a_label_cannot_break_the_picture():
    ground = {"areas": [{"id": "lawn", "label": "<b>&\"'", "outline": ODD_LAWN}]}
    ElementTree.fromstring(to_svg(drawn(plan_of(ground, [8, 6], "scan-10"))))


def test_a_plan_without_heads_has_no_picture():
    layout = one_zone()
    layout["nodes"] = layout["nodes"][:2]
    layout["pipes"] = layout["pipes"][:1]
    assert drawn(make_plan(layout=layout, ground=ODD)) is None


def test_a_large_lawn_stays_a_small_picture():
    wide = {"areas": [{"id": "lawn", "outline": [[-80, -80], [90, -80], [90, 90], [-80, 90]]}]}
    assert len(to_svg(drawn(plan_of(wide, [8, 6])))) < 60_000

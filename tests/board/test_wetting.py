"""The wetting as a picture: where it lies, what its colours say, what tells dry ground apart."""

import base64
import io
from itertools import pairwise

import numpy as np
import pytest
from PIL import Image

from design.coverage_areas import wetting_of
from design.coverage_picture import RAMP
from design.coverage_raster import depth_raster
from design.partial_check import check_document
from hydraulics.limits import DEFAULT_LIMITS
from tests.design.book import BOOK
from tests.sites.makers import plan_document


def raster_of(document):
    found = check_document(document, BOOK, DEFAULT_LIMITS)
    return depth_raster(wetting_of(found.site, found.report))


def test_it_lies_on_the_area():
    raster = raster_of(plan_document())
    assert raster.extent == pytest.approx((0, 0, 24, 12), abs=0.26)
    rows, columns, _ = raster.rgba.shape
    assert columns / rows == pytest.approx(2, rel=0.03)


def test_ground_beyond_the_heads_is_hatched():
    document = plan_document()
    whole = raster_of(document)
    lawn = document["ground"]["areas"][0]
    lawn["outline"] = [[0, 0], [30, 0], [30, 12], [0, 12]]
    dry = raster_of(document)
    assert dry.has_dry
    assert not whole.has_dry
    here = dry.rgba[:24, -24:, :3].reshape(-1, 3)
    assert len(np.unique(here, axis=0)) == 2  # paper and the lines of the hatch


def test_lightness_falls_from_class_to_class():
    """Relative luminance, WCAG 2.2, definition: so that the order is seen without colour."""

    def luminance(colour):
        parts = [value / 255 for value in bytes.fromhex(colour[1:])]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    shades = [luminance(colour) for colour in RAMP]
    assert all(a > 1.25 * b for a, b in pairwise(shades))


def test_the_address_gives_a_picture_with_its_legend(send, plan):
    found = send("wetting", {"document": plan.document}).json()
    kind, _, data = found["image"].partition(",")
    assert kind == "data:image/png;base64"
    assert Image.open(io.BytesIO(base64.b64decode(data))).mode == "RGBA"
    assert all("mm/h" in row["text"] for row in found["legend"][: len(RAMP)])


def test_in_us_units(send, us_site):
    found = send("wetting", {"document": plan_document()}, place=us_site).json()
    assert "in/h" in found["legend"][0]["text"]


def test_nothing_to_show_is_said(send):
    answer = send("wetting", {"document": {}})
    assert answer.status_code == 422
    assert "no wetting" in answer.json()["detail"]


def test_areas_far_apart_stay_a_small_picture():
    document = plan_document()
    document["ground"]["areas"].append(
        {"id": "far", "outline": [[4000, 4000], [4010, 4000], [4010, 4010], [4000, 4010]]}
    )
    document["layout"]["nodes"].append({"id": "HF", "kind": "head", "at": [4005, 4005], "part": "rotary-6"})
    document["layout"]["pipes"].append({"id": "PF", "from": "A1", "to": "HF", "part": "pvc-25"})
    raster = raster_of(document)
    assert max(raster.rgba.shape) <= 1001

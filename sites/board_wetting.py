"""The wetting of what is drawn, as a picture to lay over the plan, with its legend in the site's units."""

import base64
import io
from itertools import pairwise
from typing import Any

from PIL import Image

from design.coverage_areas import wetting_of
from design.coverage_classes import EDGES, class_words
from design.coverage_picture import NO_HEAD, RAMP
from design.coverage_raster import Raster, depth_raster
from design.drawing.options import Units
from design.drawing.palette import ALERT
from sites.board_check import report_on, units_of
from sites.errors import SitesError
from sites.figures import in_system
from sites.models import Site

NOTHING = "No connected sprinkler runs yet, so there is no wetting to show."


class NoWetting(SitesError):
    """There is nothing to show; the message says why."""


def wetting_answer(site: Site, document: dict[str, Any]) -> dict[str, Any]:
    """Extent, image and legend. Raises NoWetting."""
    found = report_on(document)
    if found.report is None:
        raise NoWetting(f"{NOTHING} {found.problems[0].sentence}" if found.problems else NOTHING)
    wet = wetting_of(found.site, found.report)
    raster = depth_raster(wet)
    if raster is None:
        raise NoWetting(NOTHING)
    means = {round(wetting.mean_mm_per_hour, 3) for _, wetting in wet}
    mean = means.pop() if len(means) == 1 else None
    return {
        "extent": [round(side, 3) for side in raster.extent],
        "image": f"data:image/png;base64,{base64.b64encode(_png(raster)).decode()}",
        "legend": _legend(raster, mean, units_of(site)),
    }


def _png(raster: Raster) -> bytes:
    kept = io.BytesIO()
    Image.fromarray(raster.rgba).save(kept, format="PNG", compress_level=3)
    return kept.getvalue()


def _legend(raster: Raster, mean_mm_per_hour: float | None, units: Units) -> list[dict[str, str]]:
    """A row for each class; with its rate where all areas have one mean."""
    rows = []
    rates = _rates(mean_mm_per_hour, units) if mean_mm_per_hour else [""] * len(RAMP)
    for colour, words, rate in zip(RAMP, class_words(), rates, strict=True):
        rows.append({"colour": colour, "text": f"{words} of the area's mean{rate}"})
    if raster.has_dry:
        rows.append({"colour": ALERT, "text": f"hatched: {NO_HEAD}"})
    return rows


def _rates(mean_mm_per_hour: float, units: Units) -> list[str]:
    ends = [in_system(edge * mean_mm_per_hour, "rate", units) for edge in EDGES]
    between = [f", {low.split()[0]} to {high}" for low, high in pairwise(ends)]
    return [f", under {ends[0]}", *between, f", over {ends[-1]}"]

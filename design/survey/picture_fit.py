"""From pixels of a picture to site metres: by two points, or by four and more where it is slanted.

Two points give a similarity (scale, turn, shift). A picture taken at a slant needs a projective
fit, x' = (a x + b y + c) / (g x + h y + 1) and likewise y', by least squares over four points or
more. Source: direct linear transformation with normalised coordinates, textbook
photogrammetry, from memory.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from design.report import XY
from design.survey.readings import SurveyError

Array = NDArray[np.floating[Any]]

LEAST_KNOWN = 4
# nearer together than this, two places of a picture fix no scale
_LEAST_APART_PX = 2.0
# three points this near to one line (share of their spread) hold no plane
_ON_A_LINE = 0.02
_REFINING_STEPS = 20


@dataclass(frozen=True)
class PictureFit:
    """``matrix`` takes (right, down, 1) in pixels to ground metres times a common factor."""

    matrix: tuple[tuple[float, float, float], ...]
    slanted: bool

    def ground(self, pixel: XY) -> XY:
        """Where a pixel lies [m]. Raises SurveyError beyond the picture's horizon."""
        (a, b, c), (d, e, f), (g, h, i) = self.matrix
        x, y = pixel
        below = g * x + h * y + i
        if below < 1e-9:
            raise SurveyError("That corner lies beyond the horizon of the slanted picture.")
        return ((a * x + b * y + c) / below, (d * x + e * y + f) / below)

    def metres_per_pixel(self, pixel: XY) -> float:
        """Metres that one pixel stands for there, the longer way."""
        here = self.ground(pixel)
        x, y = pixel
        return max(math.dist(here, self.ground(near)) for near in ((x + 1, y), (x, y + 1)))


def fit_two(pixels: tuple[XY, XY], ground: tuple[XY, XY]) -> PictureFit:
    """The similarity that takes two pixels to two places [m]; up in the picture turns with it.

    Raises SurveyError where either pair lies on one spot.
    """
    apart_px = math.dist(*pixels)
    if apart_px < _LEAST_APART_PX or math.dist(*ground) < 1e-6:
        raise SurveyError("The two known points lie on one spot. Take two that lie far apart.")
    # with the picture's y turned over: ground = turn · (x − i y) + shift
    first, second = (complex(x, -y) for x, y in pixels)
    start, end = (complex(*place) for place in ground)
    turn = (end - start) / (second - first)
    shift = start - turn * first
    rows = ((turn.real, turn.imag, shift.real), (turn.imag, -turn.real, shift.imag), (0.0, 0.0, 1.0))
    return PictureFit(rows, slanted=False)


def fit_slanted(pixels: Sequence[XY], ground: Sequence[XY]) -> PictureFit:
    """The projective fit of least squares over four known points or more; exact with four.

    Raises SurveyError for fewer, or where three of four lie on one line.
    """
    if len(pixels) < LEAST_KNOWN:
        raise SurveyError(f"A slanted picture needs four known points; there are {len(pixels)}.")
    _refuse_line(pixels)
    _refuse_line(ground)
    to_unit, from_ground = _to_unit(pixels), _to_unit(ground)
    matrix = _linear(_applied(to_unit, pixels), _applied(from_ground, ground))
    whole: Array = np.linalg.inv(from_ground) @ matrix @ to_unit
    whole = _refined(_scaled(whole, np.array(pixels)), np.array(pixels), np.array(ground))
    rows = tuple((float(a), float(b), float(c)) for a, b, c in whole)
    fit = PictureFit(rows, slanted=True)
    for pixel in pixels:
        fit.ground(pixel)
    return fit


def _scaled(whole: Array, pixels: Array) -> Array:
    """With the middle of the known points one far away. Raises SurveyError where the horizon meets them."""
    flat = np.column_stack([pixels, np.ones(len(pixels))])
    depths = flat @ whole[2]
    middle = float(depths.mean())
    if not abs(middle) > 1e-9 * float(np.abs(depths).max()) or not np.all(np.abs(depths / middle) > 1e-9):
        raise SurveyError("The known points fit no picture of flat ground. Look at each of them again.")
    return whole / middle


def misses_m(fit: PictureFit, pixels: Sequence[XY], ground: Sequence[XY]) -> list[float]:
    """How far each known point of the picture falls from its place [m]."""
    return [math.dist(fit.ground(pixel), place) for pixel, place in zip(pixels, ground, strict=True)]


def _refuse_line(points: Sequence[XY]) -> None:
    """Refuses points of which no four span a plane: some three of every four on one line."""
    spread = max(math.dist(a, b) for a, b in itertools.combinations(points, 2))
    if spread > 0:
        for four in itertools.islice(itertools.combinations(points, LEAST_KNOWN), 5000):
            if all(_height(*three) > _ON_A_LINE * spread for three in itertools.combinations(four, 3)):
                return
    raise SurveyError("Three of the four known points lie on one line. Take four that make a wide figure.")


def _height(a: XY, b: XY, c: XY) -> float:
    """Height of the triangle over its longest side."""
    longest = max(math.dist(a, b), math.dist(b, c), math.dist(c, a))
    twice = abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
    return twice / longest if longest else 0.0


def _to_unit(points: Sequence[XY]) -> Array:
    """Moves the points' middle to the origin and their usual distance from it to √2."""
    rows = np.array(points, dtype=np.float64)
    middle = rows.mean(axis=0)
    scale = math.sqrt(2) / float(np.hypot(*(rows - middle).T).mean())
    return np.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1]])


def _applied(matrix: Array, points: Sequence[XY]) -> Array:
    rows = np.column_stack([np.array(points, dtype=np.float64), np.ones(len(points))]) @ matrix.T
    return rows[:, :2] / rows[:, 2:]


def _linear(pixels: Array, ground: Array) -> Array:
    """The matrix whose algebraic misfit is least: the last right singular vector."""
    rows = []
    for (x, y), (u, v) in zip(pixels, ground, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y, -u])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y, -v])
    return np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)


def _refined(matrix: Array, pixels: Array, ground: Array) -> Array:
    """Gauss–Newton on the misses in metres, of which the sum of squares is to be least."""
    if len(pixels) == LEAST_KNOWN:
        return matrix
    flat = np.column_stack([pixels, np.ones(len(pixels))])
    for _ in range(_REFINING_STEPS):
        images = flat @ matrix.T
        places = images[:, :2] / images[:, 2:]
        gaps = (ground - places).ravel()
        slopes = np.zeros((2 * len(pixels), 9))
        unit = flat / images[:, 2:]
        slopes[0::2, 0:3] = slopes[1::2, 3:6] = unit
        slopes[0::2, 6:9], slopes[1::2, 6:9] = -unit * places[:, :1], -unit * places[:, 1:]
        scales = np.abs(slopes).max(axis=0)
        step = np.linalg.lstsq(slopes / scales, gaps, rcond=1e-12)[0] / scales
        tried = matrix + step.reshape(3, 3)
        reached = flat @ tried.T
        if np.any(reached[:, 2] <= 0) or _squares(reached, ground) > _squares(images, ground):
            break
        matrix = tried
    return matrix


def _squares(images: Array, ground: Array) -> float:
    return float(np.sum((images[:, :2] / images[:, 2:] - ground) ** 2))

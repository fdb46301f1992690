"""Puts labels where they cover neither each other nor a symbol."""

from collections.abc import Iterable
from itertools import pairwise
from math import atan2, ceil, cos, degrees, hypot, radians, sin

from .shapes import XY, Anchor, Text

_EM = 0.56  # mean width of a character, in text sizes
Box = tuple[float, float, float, float]


def text_width(text: str, size: float) -> float:
    """An estimate; wide scripts count double."""
    return sum(1.0 if ord(c) > 0x2E80 else _EM for c in text) * size


class LabelSpace:
    """Remembers the boxes that are taken."""

    def __init__(self, width: float, height: float, left: float = 0) -> None:
        self._page = (left, 0.0, width, height)
        self._taken: list[Box] = []

    def block(self, centre: XY, radius: float) -> None:
        x, y = centre
        self._taken.append((x - radius, y - radius, x + radius, y + radius))

    def is_clear(self, centre: XY, radius: float) -> bool:
        x, y = centre
        return self._are_free([(x - radius, y - radius, x + radius, y + radius)])

    def put(self, candidates: Iterable[Text]) -> Text | None:
        """The first candidate that is free, or none."""
        return next(iter(self.put_together([text] for text in candidates)), None)

    def put_together(self, candidates: Iterable[list[Text]]) -> list[Text]:
        """The first group of lines of which each is free, or none."""
        for lines in candidates:
            boxes = [box for text in lines for box in _boxes(text)]
            if self._are_free(boxes):
                self._taken += boxes
                return lines
        return []

    def put_anyway(self, candidates: list[Text]) -> Text:
        """As ``put``, but the first candidate when none is free."""
        return self.put(candidates) or candidates[0]

    def _are_free(self, boxes: list[Box]) -> bool:
        west, north = min(b[0] for b in boxes), min(b[1] for b in boxes)
        east, south = max(b[2] for b in boxes), max(b[3] for b in boxes)
        left, top, right, bottom = self._page
        if west < left or north < top or east > right or south > bottom:
            return False
        near = [b for b in self._taken if b[2] > west and b[0] < east and b[3] > north and b[1] < south]
        return not any(_meet(box, other) for other in near for box in boxes)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and one[2] > other[0] and one[1] < other[3] and one[3] > other[1]


def _boxes(text: Text) -> list[Box]:
    """Square boxes along the run of the text, so that turned text is measured well."""
    width = text_width(text.text, text.size)
    before = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * width
    turn, half = radians(text.angle_deg), text.size * 0.55
    count = max(1, ceil(width / text.size))
    boxes = []
    for i in range(count):
        along = (i + 0.5) * width / count - before
        x = text.at[0] + along * cos(turn) + text.size * 0.35 * sin(turn)
        y = text.at[1] + along * sin(turn) - text.size * 0.35 * cos(turn)
        boxes.append((x - half, y - half, x + half, y + half))
    return boxes


def around(at: XY, text: str, style: str, size: float, gap: float) -> list[Text]:
    """Candidates beside a symbol: right, left, above, below, then the four corners, then farther."""
    candidates = []
    for distance in (gap, gap * 1.8, gap * 3):
        diagonal = distance * 0.75
        middle = size * 0.35
        places: list[tuple[float, float, Anchor]] = [
            (distance, middle, "start"),
            (-distance, middle, "end"),
            (0, -distance, "middle"),
            (0, distance + size * 0.75, "middle"),
            (diagonal, -diagonal, "start"),
            (-diagonal, -diagonal, "end"),
            (diagonal, diagonal + size * 0.7, "start"),
            (-diagonal, diagonal + size * 0.7, "end"),
        ]
        candidates += [Text((at[0] + dx, at[1] + dy), text, style, size, a) for dx, dy, a in places]
    return candidates


def along(points: tuple[XY, ...], text: str, style: str, size: float, gap: float) -> list[Text]:
    """Candidates beside the longer stretches of a line, reading left to right."""
    stretches = sorted(pairwise(points), key=lambda s: -_length(s))
    wanted = text_width(text, size)
    candidates = []
    for start, end in stretches[:4]:
        if _length((start, end)) < wanted + size:
            break
        if end[0] < start[0] or (end[0] == start[0] and end[1] > start[1]):
            start, end = end, start
        turn = atan2(end[1] - start[1], end[0] - start[0])
        for share in (0.5, 0.32, 0.68):
            x, y = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
            for off in (-gap, gap + size * 0.7):
                at = (x - off * sin(turn), y + off * cos(turn))
                candidates.append(Text(at, text, style, size, "middle", degrees(turn)))
    return candidates


def _length(stretch: tuple[XY, XY]) -> float:
    (x0, y0), (x1, y1) = stretch
    return hypot(x1 - x0, y1 - y0)

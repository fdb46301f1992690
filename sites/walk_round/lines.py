"""All lines of the sheet in walking order."""

from collections.abc import Mapping

from sites.walk_round.line import Line, Place
from sites.walk_round.lines_ground import BOUNDARY, GROUND, HOUSE, LAWN, LEAVING
from sites.walk_round.lines_water import DESK, METER, TAP

LINES: tuple[Line, ...] = (*DESK, *METER, *TAP, *HOUSE, *BOUNDARY, *LAWN, *GROUND, *LEAVING)
BY_KEY: Mapping[str, Line] = {line.key: line for line in LINES}


def lines_at(place: Place) -> tuple[Line, ...]:
    return tuple(line for line in LINES if line.place is place)

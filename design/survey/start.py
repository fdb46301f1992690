"""A rough place for every point, from which least squares sets out."""

from collections.abc import Iterable, Mapping

from design.report import XY
from design.survey.offsets import place_offset
from design.survey.readings import Distance, Offset, SurveyError, Tie, apart, off_line
from design.survey.ties import TapesDoNotMeet, place_tie


def rough_places(
    marks: Mapping[str, XY], ties: Iterable[Tie] = (), offsets: Iterable[Offset] = ()
) -> dict[str, XY]:
    """Places of all points that ties and offsets reach, from marks or from points placed before.

    The first reading of a point counts. Tapes that do not meet put it on the line between their
    marks: the adjustment then shows which one is wrong. Raises SurveyError for a point out of reach.
    """
    places = dict(marks)
    waiting: list[Tie | Offset] = [*ties, *offsets]
    while waiting:
        ready = [reading for reading in waiting if all(end in places for end in _ends(reading))]
        if not ready:
            names = ", ".join(dict.fromkeys(reading.point for reading in waiting))
            raise SurveyError(f"Nothing ties {names} to a mark. Measure from two marks to one of them.")
        for reading in ready:
            if reading.point not in places:
                places[reading.point] = _roughly(reading, places)
        waiting = [reading for reading in waiting if reading.point not in places]
    return {name: at for name, at in places.items() if name not in marks}


def distances_of(ties: Iterable[Tie], sigma_m: float) -> list[Distance]:
    """The two tapes of each tie, as least squares takes them."""
    return [
        Distance(mark, tie.point, length_m, sigma_m)
        for tie in ties
        for mark, length_m in ((tie.first, tie.first_m), (tie.second, tie.second_m))
    ]


def _ends(reading: Tie | Offset) -> tuple[str, str]:
    return (reading.first, reading.second) if isinstance(reading, Tie) else (reading.start, reading.end)


def _roughly(reading: Tie | Offset, places: Mapping[str, XY]) -> XY:
    if isinstance(reading, Offset):
        return place_offset(reading, places).at
    try:
        return place_tie(reading, places).at
    except TapesDoNotMeet:
        first, second, base_m = apart(places, reading.first, reading.second)
        share = reading.first_m / (reading.first_m + reading.second_m)
        # a little off the line, to the side named: on it, the side would be lost
        aside_m = 0.05 * base_m * (1 if reading.side == "left" else -1)
        return off_line(first, second, share * base_m, aside_m)

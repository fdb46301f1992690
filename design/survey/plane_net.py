"""The net of ties and further tapes: rough places, then least squares, piece by piece.

Points that no tape joins are adjusted apart, so that a blunder in one piece leaves the other as it is.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from design.report import XY
from design.survey.adjust import Adjusted, Adjustment, NoFit, adjust
from design.survey.readings import TAPE_SIGMA_M, Distance, Placed, SurveyError, Tie, apart, off_line
from design.survey.ties import TapesDoNotMeet, grazing_error_m, place_tie

# tapes that miss each other by less may still be right: three times the error of their sum
GRAZE_M = 3 * TAPE_SIGMA_M * math.sqrt(2)
# common practice, no source: beyond this a figure slipped, and would only pull the others away
GROSS_M = 20.0
# with three tapes and more the others can say which one is wrong
_ENOUGH = 3


@dataclass(frozen=True)
class TieReading:
    """A tie with its row in the document, such as ties.2."""

    row: str
    tie: Tie


@dataclass(frozen=True)
class Taped:
    """One tape with its place in the document, such as ties.2.first_tape, and its row."""

    path: str
    distance: Distance

    @property
    def row(self) -> str:
        return ".".join(self.path.split(".")[:2])


@dataclass(frozen=True)
class Piece:
    """Points that were adjusted together, with the tapes in the order of the residuals."""

    adjustment: Adjustment
    taped: tuple[Taped, ...]


@dataclass(frozen=True)
class NetResult:
    points: tuple[Placed, ...]
    pieces: tuple[Piece, ...]
    problems: tuple[tuple[str, str], ...]


def tapes_of(reading: TieReading) -> tuple[Taped, Taped]:
    tie = reading.tie
    return (
        Taped(f"{reading.row}.first_tape", Distance(tie.first, tie.point, tie.first_m)),
        Taped(f"{reading.row}.second_tape", Distance(tie.second, tie.point, tie.second_m)),
    )


class Net:
    """Ties whose marks have places, and all tapes that touch their points."""

    def __init__(
        self, known: Mapping[str, Placed], ties: Sequence[TieReading], taped: Sequence[Taped]
    ) -> None:
        self.known, self.ties, self.taped = known, list(ties), list(taped)
        self.places: dict[str, XY] = {name: point.at for name, point in known.items()}
        self.rough: dict[str, Placed] = {}
        self.first: dict[str, TieReading] = {}
        self.used: list[TieReading] = []
        self.strained: dict[str, tuple[str, str]] = {}
        self.problems: list[tuple[str, str]] = []

    def solve(self) -> NetResult:
        """All points that the ties reach, as good as they can be known."""
        self._set_out()
        grazing = [name for name in self.rough if self._grazes(name)]
        points = [self.rough[name] for name in grazing]
        pieces = []
        for names in self._pieces([name for name in self.rough if name not in grazing]):
            piece, placed = self._settle(names)
            points += placed
            pieces += [piece] if piece else []
        problems = [*self.problems, *(said for name, said in self.strained.items() if said)]
        return NetResult(tuple(points), tuple(pieces), tuple(dict.fromkeys(problems)))

    def _set_out(self) -> None:
        waiting = list(self.ties)
        while waiting:
            ready = [one for one in waiting if {one.tie.first, one.tie.second} <= self.places.keys()]
            if not ready:
                return
            for reading in ready:
                self._set_one(reading)
            waiting = [one for one in waiting if one not in ready]

    def _set_one(self, reading: TieReading) -> None:
        tie = reading.tie
        try:
            placed = place_tie(tie, self.places)
        except TapesDoNotMeet as error:
            found = self._strained(reading, error)
            if found is None:
                return
            placed = found
        except SurveyError as error:
            self.problems.append((reading.row, str(error)))
            return
        self.used.append(reading)
        if tie.point not in self.rough and tie.point not in self.known:
            self.rough[tie.point], self.first[tie.point] = placed, reading
            self.places[tie.point] = placed.at

    def _strained(self, reading: TieReading, error: TapesDoNotMeet) -> Placed | None:
        """A place on the line of the marks, where the gap is small or other tapes can decide."""
        near = error.gap_m <= GRAZE_M
        if not near:
            self.problems.append((reading.row, str(error)))
            if error.gap_m > GROSS_M or len(self._ends_taped_to(reading.tie.point)) < _ENOUGH:
                return None
            self.strained[reading.tie.point] = (reading.row, str(error))
        return _on_line(reading.tie, self.places, aside=not near)

    def _ends_taped_to(self, name: str) -> set[str]:
        from_ties = {
            end for one in self.ties if one.tie.point == name for end in (one.tie.first, one.tie.second)
        }
        others = {
            one.distance.second if one.distance.first == name else one.distance.first
            for one in self.taped
            if name in (one.distance.first, one.distance.second)
        }
        return from_ties | others

    def _grazes(self, name: str) -> bool:
        """Whether the two tapes that place the point lie along each other, and no third one helps."""
        tie = self.first[name].tie
        return len(self._ends_taped_to(name)) < _ENOUGH and tie.first_m * tie.second_m > 0 and (
            self.rough[name].error_m >= 0.99 * grazing_error_m(tie.first_m, tie.second_m, self._base(tie))
        )  # fmt: skip

    def _base(self, tie: Tie) -> float:
        return math.dist(self.places[tie.first], self.places[tie.second])

    def _distances(self) -> list[Taped]:
        from_ties = [taped for reading in self.used for taped in tapes_of(reading)]
        return [*from_ties, *self.taped]

    def _pieces(self, names: list[str]) -> Iterable[list[str]]:
        """Points joined by tapes, in groups."""
        group = {name: name for name in names}

        def head(name: str) -> str:
            while group[name] != name:
                name = group[name]
            return name

        for taped in self._distances():
            first, second = taped.distance.first, taped.distance.second
            if first in group and second in group:
                group[head(first)] = head(second)
        heads = dict.fromkeys(head(name) for name in names)
        return [[name for name in names if head(name) == one] for one in heads]

    def _settle(self, names: list[str]) -> tuple[Piece | None, list[Placed]]:
        inside = set(names)
        grazing = {name: self.rough[name].at for name in self.rough if name not in inside}
        fixed = {name: point.at for name, point in self.known.items()} | grazing
        taped = [one for one in self._distances() if _touches(one, inside, fixed)]
        start = {name: self.rough[name].at for name in names}
        try:
            found = adjust(fixed, start, [one.distance for one in taped])
        except NoFit as error:
            row = next(one.row for one in taped if one.distance is error.distance)
            self.problems.append((row, str(error)))
            return None, self._unsettled(names)
        except SurveyError as error:
            self.problems.append((self.first[names[0]].row, str(error)))
            return None, self._unsettled(names)
        base_m = max((self._known_error(one, inside) for one in taped), default=0.0)
        return Piece(found, tuple(taped)), [self._placed(point, base_m) for point in found.points]

    def _known_error(self, taped: Taped, inside: set[str]) -> float:
        ends = (taped.distance.first, taped.distance.second)
        return max(
            (self.known[end].error_m for end in ends if end not in inside and end in self.known), default=0
        )

    def _unsettled(self, names: list[str]) -> list[Placed]:
        doubt = "The tapes to {} do not fit together: this is where the first two of them meet."
        return [
            replace(self.rough[name], caution=doubt.format(name))
            for name in names
            if name not in self.strained
        ]

    def _placed(self, point: Adjusted, base_m: float) -> Placed:
        own = [one for one in self.used if one.tie.point == point.point]
        caution = self.rough[point.point].caution if len(own) == 1 and point.weak else ""
        if point.weak and not caution:
            caution = (
                f"The tapes to {point.point} meet at a poor angle: it may lie "
                f"{point.half_axis_m:.2f} m off, "
                f"along {point.bearing_deg:.0f}°. Take one more tape from that direction."
            )
        return Placed(point.point, point.at, math.hypot(point.error_m, base_m), caution, "ties")


def _touches(taped: Taped, inside: set[str], fixed: Mapping[str, XY]) -> bool:
    ends = {taped.distance.first, taped.distance.second}
    return bool(ends & inside) and ends <= inside | fixed.keys() and len(ends) == 2


def _on_line(tie: Tie, places: Mapping[str, XY], *, aside: bool) -> Placed:
    """On the line through the marks, sharing the gap out; a little aside where the side must not be lost."""
    first, second, base_m = apart(places, tie.first, tie.second)
    both_m = tie.first_m + tie.second_m
    if both_m < base_m:
        along_m = base_m * (tie.first_m / both_m if both_m > 0 else 0.5)
    else:
        beyond = 1 if tie.first_m > tie.second_m else -1
        along_m = (tie.first_m * beyond + base_m + tie.second_m * beyond) / 2
    aside_m = 0.05 * base_m * (1 if tie.side == "left" else -1) if aside else 0.0
    error_m = max(TAPE_SIGMA_M, grazing_error_m(tie.first_m, tie.second_m, base_m))
    doubt = f"The tapes to {tie.point} lie along each other: it is unsure across the line by {error_m:.2f} m."
    return Placed(tie.point, off_line(first, second, along_m, aside_m), error_m, doubt, "ties")

"""From the typed readings of a plane survey to points, misclosures, residuals and outlines.

Ties and further tapes go together into least squares. Walks and offsets start from what is placed; what
they place can carry further ties. A point that ties reach is never placed by a walk or an offset. What is
wrong with one row is said beside it, and hides no other.
"""

import math
from dataclasses import dataclass, replace

from design.report import XY
from design.survey.adjust import BLUNDER_LIMIT, Residual
from design.survey.document import PlaneSurvey
from design.survey.extra_tape import best_extra_tape
from design.survey.offsets import WEAK_OFFSET_ERROR_M, place_offset
from design.survey.plane_marks import place_marks
from design.survey.plane_net import Net, Piece, Taped, TieReading, tapes_of
from design.survey.plane_outlines import Outline, outlines_of
from design.survey.plane_readings import bearings_of, readings_of, with_reading
from design.survey.plane_walks import WalkResult, WalkSetting, walk_document
from design.survey.readings import Distance, Offset, Placed, SurveyError, Tie, length_ok
from design.survey.wheel import Calibration, calibrate

__all__ = ["PlaneResult", "ReadResidual", "bearings_of", "readings_of", "reduce_plane", "with_reading"]

Problem = tuple[str, str]
# of more places only tapes to the weakest point are tried: all pairs would take long
_MANY = 30


@dataclass(frozen=True)
class ReadResidual:
    """How far a tape is from what all say together; ``path`` is its place in the document."""

    path: str
    residual: Residual
    is_suspect: bool = False


@dataclass(frozen=True)
class PlaneResult:
    """All that the readings give. ``problems`` pair a row, such as ties.2, with a sentence.

    ``sigma0`` near 1: the tapes were as good as was said; none without a spare one. ``suspects`` and
    ``extra_tape`` are sentences, empty where nothing is to be said.
    """

    points: dict[str, Placed]
    marks: dict[str, XY]
    walks: dict[int, WalkResult]
    residuals: tuple[ReadResidual, ...]
    sigma0: float | None
    suspects: str
    extra_tape: str
    outlines: dict[int, Outline]
    wheel: Calibration | None
    problems: tuple[Problem, ...]

    @property
    def places(self) -> dict[str, XY]:
        """Marks and points together."""
        return {**self.marks, **{name: point.at for name, point in self.points.items()}}

    @property
    def weak(self) -> tuple[Placed, ...]:
        return tuple(point for point in self.points.values() if point.weak)

    def problems_at(self, row: str) -> list[str]:
        """The sentences about that row, or about something within it."""
        return [said for where, said in self.problems if where == row or where.startswith(row + ".")]


def reduce_plane(survey: PlaneSurvey) -> PlaneResult:
    """What the readings say together. Never raises for a reading: see ``problems``."""
    return _Reduction(survey).result()


class _Reduction:
    def __init__(self, survey: PlaneSurvey) -> None:
        self.survey = survey
        self.marks, problems = place_marks(survey.marks)
        self.problems: list[Problem] = list(problems)
        self.known = {name: Placed(name, at, 0.0, "", "mark") for name, at in self.marks.items()}
        self.wheel = self._calibrate()
        self.ties = [TieReading(f"ties.{n}", tie) for n, tie in enumerate(self._ties())]
        self.taped = self._taped()
        self.open_walks = dict(enumerate(survey.walks))
        self.open_offsets = dict(enumerate(self._offsets()))
        self.pieces: list[Piece] = []
        self.walks: dict[int, WalkResult] = {}

    def result(self) -> PlaneResult:
        while self._round(patient=True) or self._round(patient=False):
            pass
        self._say_what_is_left()
        outlines, problems = outlines_of(self.survey, {n: p.at for n, p in self.known.items()}, self._factor)
        self.problems += problems
        points = {name: _doubted(point) for name, point in self.known.items() if name not in self.marks}
        residuals = self._residuals()
        return PlaneResult(
            points=points,
            marks=self.marks,
            walks=self.walks,
            residuals=residuals,
            sigma0=self._sigma0(),
            suspects=self._suspects(residuals),
            extra_tape=self._extra_tape(points),
            outlines=outlines,
            wheel=self.wheel,
            problems=tuple(self.problems),
        )

    @property
    def _factor(self) -> float:
        return self.wheel.factor if self.wheel else 1.0

    def _calibrate(self) -> Calibration | None:
        row = self.survey.wheel
        if row is None or row.taped is None or row.shown is None:
            return None
        try:
            found = calibrate(row.shown.m, row.taped.m)
        except SurveyError as error:
            self.problems.append(("wheel", str(error)))
            return None
        if found.caution:
            self.problems.append(("wheel", found.caution))
        return found

    def _ties(self) -> list[Tie]:
        return [
            Tie(row.point, row.first, row.second, row.first_tape.m, row.second_tape.m, row.side)
            for row in self.survey.ties
        ]

    def _offsets(self) -> list[Offset]:
        return [
            Offset(row.point, row.start, row.end, row.chainage.m, row.offset.m, row.side)
            for row in self.survey.offsets
        ]

    def _taped(self) -> list[Taped]:
        found = []
        for place, row in enumerate(self.survey.tapes):
            try:
                length_ok(row.tape.m, f"The tape {row.first} to {row.second}")
                if row.first == row.second:
                    raise SurveyError(f"A tape cannot run from {row.first} to itself.")
                found.append(Taped(f"tapes.{place}.tape", Distance(row.first, row.second, row.tape.m)))
            except SurveyError as error:
                self.problems.append((f"tapes.{place}", str(error)))
        return found

    def _round(self, *, patient: bool) -> bool:
        """One turn of ties, walks and offsets; whether any of them found a place."""
        before = len(self.known), len(self.open_walks), len(self.open_offsets)
        self._tie()
        for place in list(self.open_walks):
            self._walk(place, patient=patient)
        for place in list(self.open_offsets):
            self._offset(place, patient=patient)
        return before != (len(self.known), len(self.open_walks), len(self.open_offsets))

    def _tie(self) -> None:
        ready = [one for one in self.ties if one.tie.point not in self.known]
        net = Net(self.known, ready, self.taped)
        found = net.solve()
        self.known |= {point.point: point for point in found.points}
        self.pieces += found.pieces
        self.problems += found.problems
        tried = {row for row, _ in found.problems}
        self.ties = [one for one in self.ties if one.row not in tried or one.tie.point in self.known]

    def _awaited(self) -> set[str]:
        return {one.tie.point for one in self.ties if one.tie.point not in self.known}

    def _walk(self, place: int, *, patient: bool) -> None:
        row = self.open_walks[place]
        if row.start not in self.known or (patient and {row.start, row.closes_on} & self._awaited()):
            return
        if row.closes_on and row.closes_on not in self.known and patient:
            return
        del self.open_walks[place]
        try:
            found, points, problems = walk_document(row, WalkSetting(self.known, self._factor))
        except SurveyError as error:
            self.problems.append((f"walks.{place}", str(error)))
            return
        self.problems += [(f"walks.{place}.legs.{leg}", said) for leg, said in problems.items()]
        if found:
            self.walks[place] = found
        self._keep(points)

    def _offset(self, place: int, *, patient: bool) -> None:
        row = self.open_offsets[place]
        if not {row.start, row.end} <= self.known.keys() or (patient and row.point in self._awaited()):
            return
        del self.open_offsets[place]
        places = {name: point.at for name, point in self.known.items()}
        try:
            found = place_offset(row, places)
        except SurveyError as error:
            self.problems.append((f"offsets.{place}", str(error)))
            return
        base_m = max(self.known[row.start].error_m, self.known[row.end].error_m)
        self._keep([replace(found, error_m=math.hypot(found.error_m, base_m))])

    def _keep(self, points: list[Placed]) -> None:
        awaited = self._awaited()
        for point in points:
            if point.point not in self.known and point.point not in awaited:
                self.known[point.point] = point

    def _say_what_is_left(self) -> None:
        said = {row for row, _ in self.problems}
        wanted: list[tuple[str, tuple[str, ...]]] = [
            (one.row, (one.tie.first, one.tie.second)) for one in self.ties
        ]
        wanted += [(f"walks.{n}", (row.start,)) for n, row in self.open_walks.items()]
        wanted += [(f"offsets.{n}", (row.start, row.end)) for n, row in self.open_offsets.items()]
        wanted += [(one.row, (one.distance.first, one.distance.second)) for one in self.taped]
        for row, names in wanted:
            missing = " and ".join(dict.fromkeys(name for name in names if name not in self.known))
            if missing and row not in said:
                has = "have" if " and " in missing else "has"
                self.problems.append((row, f"{missing} {has} no place yet. Measure it from two marks first."))

    def _residuals(self) -> tuple[ReadResidual, ...]:
        found = []
        for piece in self.pieces:
            suspects = piece.adjustment.suspects
            for taped, residual in zip(piece.taped, piece.adjustment.residuals, strict=True):
                found.append(ReadResidual(taped.path, residual, residual in suspects))
        return (*found, *self._checks({one.path for one in found}))

    def _checks(self, told: set[str]) -> list[ReadResidual]:
        """Tapes between two places that they do not move: marks, or points by walk and offset."""
        every = [*(one for reading in self.ties for one in tapes_of(reading)), *self.taped]
        return [
            self._check(one)
            for one in every
            if one.path not in told and {one.distance.first, one.distance.second} <= self.known.keys()
        ]

    def _check(self, taped: Taped) -> ReadResidual:
        first, second = (self.known[name] for name in (taped.distance.first, taped.distance.second))
        missed_m = math.dist(first.at, second.at) - taped.distance.length_m
        sigma_m = math.hypot(taped.distance.sigma_m, first.error_m, second.error_m)
        residual = Residual(taped.distance, missed_m, 1.0, missed_m / sigma_m)
        return ReadResidual(taped.path, residual, abs(residual.standardised) > BLUNDER_LIMIT)

    def _sigma0(self) -> float | None:
        spare = sum(piece.adjustment.spare for piece in self.pieces)
        squares = sum((one.adjustment.sigma0 or 0) ** 2 * one.adjustment.spare for one in self.pieces)
        return math.sqrt(squares / spare) if spare else None

    def _suspects(self, residuals: tuple[ReadResidual, ...]) -> str:
        in_pieces = {id(one) for piece in self.pieces for one in piece.adjustment.residuals}
        said = [piece.adjustment.blunder_sentence for piece in self.pieces]
        said += [
            f"The tape {one.residual.distance.name} reads {abs(one.residual.residual_m):.2f} m too "
            f"{'long' if one.residual.residual_m < 0 else 'short'} for where both stand. Measure it again."
            for one in residuals
            if one.is_suspect and id(one.residual) not in in_pieces
        ]
        return " ".join(sentence for sentence in said if sentence)

    def _extra_tape(self, points: dict[str, Placed]) -> str:
        """For the weakest of the pieces that hold a weak point."""
        pieces = [one for one in self.pieces if any(points[p.point].weak for p in one.adjustment.points)]
        if not pieces:
            return ""
        worst = max(pieces, key=lambda one: one.adjustment.worst.error_m)
        places, weakest = worst.adjustment.places, worst.adjustment.worst.point
        near = [(name, weakest) for name in places if name != weakest] if len(places) > _MANY else None
        best = best_extra_tape(worst.adjustment, near)
        return best.sentence if best else ""


def _doubted(point: Placed) -> Placed:
    """The point, weak as well where its likely error alone is too much."""
    if point.caution or point.error_m <= WEAK_OFFSET_ERROR_M:
        return point
    advice = "Its tapes disagree." if point.how == "ties" else "Tie it by two tapes from marks."
    return replace(point, caution=f"{point.point} is unsure by {point.error_m:.2f} m. {advice}")

"""Slips of the pen in readings of the ground: feet read as metres, a decimal point that moved."""

from collections.abc import Iterator

from design.survey.document import PlaneSurvey
from design.survey.plane_readings import Reading, readings_of, with_reading
from design.survey.reduce import PlaneResult, reduce_plane
from hydraulics.units import Quantity
from sites.figures import in_system
from sites.plausible_ranges import token
from sites.readings import Remark

# common practice, no source: the longest tape that is carried
LONGEST_TAPE_M = 100.0
# what a figure is multiplied by where its unit or its decimal point slipped
_SLIPS = (
    (0.3048, "read as feet"),
    (1 / 0.3048, "read as metres"),
    (0.1, "with the decimal point moved"),
    (10.0, "with the decimal point moved"),
)
_MOST_TRIED = 12


def doubts_about(survey: PlaneSurvey, result: PlaneResult, system: str) -> list[Remark]:
    """At most one question a figure; what fits the other readings is not asked about."""
    readings = {one.path: one for one in readings_of(survey)}
    asked = {}
    for path in _in_trouble(survey, result)[:_MOST_TRIED]:
        if path in readings and (remark := _slip(survey, result, readings[path], system)):
            asked[path] = remark
    for reading in readings.values():
        if reading.path not in asked and _is_taped(reading) and reading.value_m > LONGEST_TAPE_M:
            asked[reading.path] = _remark(
                reading, "long", f"{in_system(reading.value_m, 'length', system)} is longer than any tape "
                "that is carried. Look at the figure and its unit."
            )  # fmt: skip
    return list(asked.values())


def _in_trouble(survey: PlaneSurvey, result: PlaneResult) -> list[str]:
    """Readings in rows that cannot be, that stand out, or of a walk that does not close."""
    rows = [row for row, _ in result.problems]
    paths = [
        f"{row}.{name}" for row in rows if row.startswith("ties.") for name in ("first_tape", "second_tape")
    ]
    paths += [f"{row}.tape" for row in rows if row.startswith("tapes.")]
    paths += [one.path for one in result.residuals if one.is_suspect]
    for number, walk in result.walks.items():
        if walk.raw.verdict == "walk again":
            paths += [f"walks.{number}.legs.{n}.length" for n in range(len(survey.walks[number].legs))]
    paths += [f"offsets.{n}.{name}" for n, name in _odd_offsets(survey, result)]
    return list(dict.fromkeys(paths))


def _odd_offsets(survey: PlaneSurvey, result: PlaneResult) -> Iterator[tuple[int, str]]:
    for number, row in enumerate(survey.offsets):
        placed = result.points.get(row.point)
        if placed and placed.how == "offset" and placed.weak:
            yield number, "chainage" if "beyond a baseline" in placed.caution else "offset"


def _slip(survey: PlaneSurvey, result: PlaneResult, reading: Reading, system: str) -> Remark | None:
    """The first slip that would take a trouble away and bring no other."""
    before = _troubles(survey, result)
    for factor, words in _SLIPS:
        meant_m = reading.value_m * factor
        if not 0 < meant_m <= 5000:
            continue
        changed = with_reading(survey, reading.path, meant_m)
        if _troubles(changed, reduce_plane(changed)) < before:
            shown = in_system(reading.value_m, "length", system)
            meant = in_system(meant_m, "length", system)
            text = f"{shown} does not fit the other readings; {words} it would be {meant}, which does."
            return _remark(reading, "slip", text)
    return None


def _troubles(survey: PlaneSurvey, result: PlaneResult) -> int:
    bad_walks = sum(walk.raw.verdict == "walk again" for walk in result.walks.values())
    odd = sum(1 for _ in _odd_offsets(survey, result))
    return len(result.problems) + sum(one.is_suspect for one in result.residuals) + bad_walks + odd


def _is_taped(reading: Reading) -> bool:
    return not reading.path.startswith("walks.")


def _remark(reading: Reading, doubt: str, text: str) -> Remark:
    mark = token(reading.path.replace(".", "-"), Quantity(reading.value_m, "m", ""), doubt)
    return Remark(reading.path, text, mark)

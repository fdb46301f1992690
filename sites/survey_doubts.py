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
# each try reduces the whole survey again: fewer of them where it is large
_MOST_TRIED, _EFFORT = 12, 240


def doubts_about(survey: PlaneSurvey, result: PlaneResult, system: str) -> list[Remark]:
    """At most one question a row; what fits the other readings is not asked about."""
    readings = {one.path: one for one in readings_of(survey)}
    asked: dict[str, Remark] = {}
    for path in _in_trouble(survey, result)[: max(1, min(_MOST_TRIED, _EFFORT // max(1, len(readings))))]:
        row = path.rpartition(".")[0]
        if (
            path in readings
            and row not in asked
            and (remark := _slip(survey, result, readings[path], system))
        ):
            asked[row] = remark
    for reading in readings.values():
        row = reading.path.rpartition(".")[0]
        if row not in asked and _is_taped(reading) and reading.value_m > LONGEST_TAPE_M:
            asked[row] = _remark(
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
    """The first slip that would take the reading's own trouble away, wholly, and bring no other."""
    for factor, words in _SLIPS:
        meant_m = reading.value_m * factor
        if not 0 < meant_m <= LONGEST_TAPE_M:
            continue
        changed = with_reading(survey, reading.path, meant_m)
        if _is_cured(reading.path, (survey, result), (changed, reduce_plane(changed))):
            shown = in_system(reading.value_m, "length", system)
            meant = in_system(meant_m, "length", system)
            text = f"{shown} does not fit the other readings; {words} it would be {meant}, which does."
            return _remark(reading, "slip", text)
    return None


def _is_cured(
    path: str, before: tuple[PlaneSurvey, PlaneResult], after: tuple[PlaneSurvey, PlaneResult]
) -> bool:
    old, new = _troubles(*before), _troubles(*after)
    own = path.rpartition(".")[0]
    if path.startswith("walks."):
        own = ".".join(path.split(".")[:2])
    # where tapes stand out against each other, one slip must explain all of them
    is_rid = (
        not any(row.startswith(("ties.", "tapes.")) for row in new) if "suspect" in old.values() else True
    )
    return own not in new and is_rid and len(new) < len(old)


def _troubles(survey: PlaneSurvey, result: PlaneResult) -> dict[str, str]:
    """Rows that something is wrong with, and what."""
    found = {row: "problem" for row, _ in result.problems}
    found |= {one.path.rpartition(".")[0]: "suspect" for one in result.residuals if one.is_suspect}
    bad = [number for number, walk in result.walks.items() if walk.raw.verdict == "walk again"]
    found |= {f"walks.{number}": "open" for number in bad}
    return found | {f"offsets.{number}": "far" for number, _ in _odd_offsets(survey, result)}


def _is_taped(reading: Reading) -> bool:
    return not reading.path.startswith("walks.")


def _remark(reading: Reading, doubt: str, text: str) -> Remark:
    mark = token(reading.path.replace(".", "-"), Quantity(reading.value_m, "m", ""), doubt)
    return Remark(reading.path, text, mark)

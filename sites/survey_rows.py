"""What stands in the rows of the ground's page: stored readings as typed, and what fresh rows begin with."""

from collections.abc import Mapping, Sequence
from typing import Any

from design.survey.document import Angle, Length, PlaneSurvey
from sites.survey_fields import in_short

# kind of row on the page -> list in the document; walks hold legs and are read apart
LISTS: Mapping[str, str] = {
    "mark": "marks", "tie": "ties", "offset": "offsets", "tape": "tapes", "outline": "outlines",
}  # fmt: skip
Initial = dict[str, Any]
_FRESH: Mapping[str, list[Initial]] = {
    "mark": [{"name": "A"}, {"name": "B", "off": "A"}],
    "tie": [{"point": "1", "first": "A", "second": "B", "side": "right"}],
    "offset": [{"start": "A", "end": "B", "side": "right"}],
    "outline": [{"becomes": "area:turf"}],
    "walk": [{"start": "A", "by_wheel": True}],
}
# what the row after one begins with: what was chosen last, and no figure
_CARRIED: Mapping[str, tuple[str, ...]] = {
    "mark": ("off",), "tie": ("first", "second", "side"), "offset": ("start", "end", "side"),
    "outline": (), "tape": (), "leg": (), "walk": ("by_wheel", "compass_rule"),
}  # fmt: skip


def initial_rows(kind: str, source: PlaneSurvey | Sequence[Any]) -> list[Initial]:
    """Stored rows as their forms show them; ``source`` is the survey, or the legs of one walk."""
    if isinstance(source, PlaneSurvey):
        rows: Sequence[Any] = getattr(source, LISTS.get(kind, "walks"))
    else:
        rows = source
    return [_initial(kind, row) for row in rows]


def fresh_rows(kind: str) -> list[Initial]:
    return [dict(row) for row in _FRESH.get(kind, [{}])]


def new_row(kind: str, last: Initial | None) -> Initial:
    """What one more row begins with, below ``last``."""
    following = next_rows(kind, [last]) if last else []
    return following[0] if following else fresh_rows(kind)[0]


def next_rows(kind: str, rows: list[Initial]) -> list[Initial]:
    """One empty row below the stored ones."""
    if kind == "walk":
        return []
    carried = {name: rows[-1].get(name, "") for name in _CARRIED[kind]}
    named = {"mark": "name", "tie": "point", "offset": "point", "leg": "point"}.get(kind)
    if kind == "mark":
        carried["off"] = rows[0].get("name", "")
        return [carried]
    return [{**carried, named: _after(str(rows[-1].get(named, "")))} if named else carried]


def _after(name: str) -> str:
    """The name that follows: 5 after 4, P5 after P4."""
    stem = name.rstrip("0123456789")
    digits = name[len(stem) :]
    return f"{stem}{int(digits) + 1}" if digits and len(name) < 20 else ""


def _initial(kind: str, row: Any) -> Initial:
    found = {name: _shown(getattr(row, name)) for name in type(row).model_fields if name != "legs"}
    if kind == "leg":
        found["way"] = found.pop("bearing") or found.pop("turn", "")
    if kind == "outline":
        found["becomes"] = f"{row.becomes}:{row.kind}"
        found["points"] = in_short(row.points)
    return found


def _shown(value: Any) -> Any:
    return value.text if isinstance(value, Length | Angle) else "" if value is None else value

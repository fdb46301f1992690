"""What an edit moved: the check of now beside the figures of the check before.

Those come back from the browser, so whatever is not of their shape is passed over.
"""

from dataclasses import dataclass
from math import isfinite
from typing import Any

from design.drawing.options import Units
from sites.figures import in_system

# common practice, no source: less than a gauge shows, and less than anyone sets a nozzle by
NOTICED_KPA, NOTICED_M = 5.0, 0.1
MOST_ENTRIES, MOST_LETTERS = 3_000, 600
MOST_SAID = 8


@dataclass(frozen=True)
class _Before:
    findings: dict[str, tuple[str, str]]
    heads: dict[str, tuple[float, float]]


def moved(before: Any, now: dict[str, Any], units: Units) -> dict[str, Any] | None:
    """New and gone findings, and heads whose pressure or reach changed so that it shows.

    ``before`` and ``now`` are "figures" of an answer; none where ``before`` is no such thing.
    """
    if not isinstance(before, dict):
        return None
    was, is_now = _read(before), _read(now)
    heads = {
        name: (old, is_now.heads[name])
        for name, old in was.heads.items()
        if name in is_now.heads and _noticed(old, is_now.heads[name])
    }
    order = sorted(heads, key=lambda name: -_size(*heads[name]))
    said = [f"{name}: {_change(*heads[name], units)}" for name in order[:MOST_SAID]]
    more = len(order) - MOST_SAID
    if more > 0:
        said.append(f"and {more} more {'heads' if more > 1 else 'head'}, by less")
    gone = [was.findings[key] for key in was.findings if key not in is_now.findings]
    return {
        "sentences": said,
        "findings_new": [key for key in is_now.findings if key not in was.findings],
        "findings_gone": [{"code": code, "sentence": sentence} for code, sentence in gone],
        "heads": order,
    }


def _read(figures: dict[str, Any]) -> _Before:
    findings = {
        key: (row[0], row[1])
        for key, row in _rows(figures, "findings")
        if all(isinstance(text, str) and len(text) <= MOST_LETTERS for text in row)
    }
    heads = {name: (row[0], row[1]) for name, row in _rows(figures, "heads") if all(map(_is_figure, row))}
    return _Before(findings, heads)


def _rows(figures: dict[str, Any], name: str) -> list[tuple[str, list[Any]]]:
    rows = figures.get(name)
    if not isinstance(rows, dict) or len(rows) > MOST_ENTRIES:
        return []
    return [
        (key, row)
        for key, row in rows.items()
        if len(key) <= MOST_LETTERS and isinstance(row, list) and len(row) == 2
    ]


def _is_figure(value: Any) -> bool:
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return is_number and abs(value) < 1e6 and isfinite(value)


def _noticed(old: tuple[float, float], new: tuple[float, float]) -> bool:
    return abs(new[0] - old[0]) >= NOTICED_KPA or abs(new[1] - old[1]) >= NOTICED_M


def _size(old: tuple[float, float], new: tuple[float, float]) -> float:
    return abs(new[0] - old[0]) / NOTICED_KPA + abs(new[1] - old[1]) / NOTICED_M


def _change(old: tuple[float, float], new: tuple[float, float], units: Units) -> str:
    words = []
    if abs(new[0] - old[0]) >= NOTICED_KPA:
        words.append(_from_to(in_system(old[0], "pressure", units), in_system(new[0], "pressure", units)))
    if abs(new[1] - old[1]) >= NOTICED_M:
        words.append(
            f"throws {_from_to(in_system(old[1], 'length', units), in_system(new[1], 'length', units))}"
        )
    return ", ".join(words)


def _from_to(old: str, new: str) -> str:
    """'2.90 → 2.60 bar', the unit once where both have the same after one number."""
    number, _, unit = old.partition(" ")
    return f"{number} → {new}" if new.partition(" ")[2] == unit else f"{old} → {new}"

"""A field of a plan that differs between two versions, said in words and in the site's units."""

from collections.abc import Callable
from typing import Any

from design.drawing.measures import depth_words
from design.drawing.options import Units
from hydraulics.catalogue import Catalogue
from sites.figures import in_system

LONGEST = 60
_NAMES = {
    "z_m": "height", "from_deg": "arc from", "sweep_deg": "arc of", "reach_m": "throw", "from": "begins at",
    "to": "ends at", "open": "runs",
}  # fmt: skip
_AMOUNTS: dict[str, Callable[[float, Units], str]] = {
    "_m": lambda value, units: in_system(value, "length", units),
    "_mm": lambda value, units: in_system(value, "bore", units),
    "_kpa": lambda value, units: in_system(value, "pressure", units),
    "_lpm": lambda value, units: in_system(value, "flow", units),
    "_deg": lambda value, _: f"{value:z.4g}°",
    "_pct": lambda value, _: f"{value:z.3g} %",
}


def field_words(field: tuple[str, Any, Any], parts: Catalogue, units: Units) -> str:
    """Such as 'depth 0.30 m → 0.45 m'; where two values cannot be told in a few words, that it changed."""
    key, *values = field
    before, after = (_said(key, value, parts, units) for value in values)
    name = _NAMES.get(key) or key.removesuffix(_suffix(key)).replace("_", " ")
    if before is None or after is None or before == after:
        return f"{name} changed"
    return f"{name} {_short(before)} → {_short(after)}"


def _said(key: str, value: Any, parts: Catalogue, units: Units) -> str | None:
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _amount(key, value, units)
    if isinstance(value, str):
        return parts[value].label if value in parts else value
    if isinstance(value, list) and all(isinstance(one, str) for one in value):
        return ", ".join(value) or "nothing"
    return None


def _amount(key: str, value: float, units: Units) -> str:
    if abs(value) >= 1e9:  # a draft may hold any number
        return f"{value:g}"
    if key == "depth_m":
        return depth_words(value, units)
    write = _AMOUNTS.get(_suffix(key))
    return write(value, units) if write else f"{value:z.6g}"


def _suffix(key: str) -> str:
    _, mark, unit = key.rpartition("_")
    return f"_{unit}" if mark and f"_{unit}" in _AMOUNTS else ""


def _short(text: str) -> str:
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"

"""The fields of a technical sheet, read off the catalogue's models: name, label, unit, kind of entry."""

from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic_core import PydanticUndefined

from hydraulics import catalogue

Entry = Literal["text", "number", "whole", "yes_no", "choice", "numbers", "rows"]

MODELS: dict[str, type[BaseModel]] = {
    model.model_fields["kind"].default: model for model in get_args(get_args(catalogue.Part)[0])
}
# ending of a field's name -> unit beside its label
UNITS = {
    "_mm2": "mm²", "_mm": "mm", "_kpa": "kPa", "_m": "m", "_lpm": "L/min", "_lph": "L/h",
    "_amp": "A", "_volt": "V", "_va": "VA", "_gpa": "GPa", "volt": "V",
}  # fmt: skip
LABELS = {
    "mm_per_hour": "Precipitation rate (mm/h)",
    "ohm_per_km": "Resistance of one conductor (Ω/km)",
    "hazen_williams_c": "Hazen–Williams C",
    "stock_m": "Lengths sold (m)",
    "min_throw_m": "Least throw (m)",
    "min_kpa": "Least pressure (kPa)",
    "max_kpa": "Greatest pressure (kPa)",
    "min_height_m": "Height above the highest outlet or the ground, at least (m)",
    "flow_scales_with_arc": "Rows hold the flow of a full circle (matched precipitation)",
    "own_valve": "Carries its own valve",
    "regulated_kpa": "Pressure that its regulator holds (kPa)",
    "check_height_m": "Height that its check valve holds back (m)",
    "popup_m": "Rise when it pops up (m)",
    "limit_m": "Longest run from device to device (m)",
    "fixed_length_m": "Made up to one length (m)",
    "rows": "Performance: pressure (kPa), flow (L/min), throw as a radius (m)",
    "profile_rows": "Measured profile: distance as a share of the throw (0 to 1), relative depth",
    "loss": "Pressure loss: flow (L/min), loss (kPa)",
    "valve_loss": "Loss of its valve: flow (L/min), loss (kPa)",
    "sockets": "Openings: joint, size",
    "yield_per_unit": "One unit serves (joints, valves, metres)",
    "safe_max_lpm": "Safe greatest flow (L/min)",
}


@dataclass(frozen=True)
class SheetField:
    """``choices`` are set for a choice, ``columns`` for rows."""

    name: str
    label: str
    entry: Entry
    needed: bool
    default: Any
    choices: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()


def sheet_fields(kind: str) -> list[SheetField]:
    """Every field of that kind of part but ``kind`` itself, code and label first."""
    fields = MODELS[kind].model_fields
    return [_field(name, info) for name, info in fields.items() if name != "kind"]


def label_of(name: str) -> str:
    if name in LABELS:
        return LABELS[name]
    for ending, unit in UNITS.items():
        if name.endswith(ending):
            return f"{_words(name.removesuffix(ending))} ({unit})"
    return _words(name)


def _field(name: str, info: Any) -> SheetField:
    annotation = _without_none(info.annotation)
    default = None if info.default is PydanticUndefined else info.default
    entry, choices, columns = _entry(annotation)
    return SheetField(name, label_of(name), entry, info.is_required(), default, choices, columns)


def _entry(annotation: Any) -> tuple[Entry, tuple[str, ...], tuple[str, ...]]:
    plain: dict[Any, Entry] = {str: "text", float: "number", int: "whole", bool: "yes_no"}
    if annotation in plain:
        return plain[annotation], (), ()
    if get_origin(annotation) is Literal:
        return "choice", get_args(annotation), ()
    inner = get_args(annotation)[0]  # tuples are the only other shape in the catalogue
    if inner is float:
        return "numbers", (), ()
    return "rows", (), tuple(inner.model_fields)


def _without_none(annotation: Any) -> Any:
    choices = [choice for choice in get_args(annotation) if choice is not type(None)]
    return choices[0] if type(None) in get_args(annotation) and len(choices) == 1 else annotation


def _words(name: str) -> str:
    return name.replace("_", " ").strip().capitalize()

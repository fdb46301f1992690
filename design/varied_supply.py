"""The readings of a supply, each varied by what gauge, bucket and dial are good for."""

from collections.abc import Iterator
from typing import Any

from design.fragile import Document, Unit, Varied
from hydraulics.limits import Limits


def supply_readings(document: Document, limits: Limits) -> Iterator[Varied]:
    """Static, residual and flow of every test that the document's supply holds."""
    supply = document.get("supply") or {}
    if supply.get("static_kpa"):
        gauge = limits.gauge_tolerance_kpa
        yield _varied(document, ("static_kpa",), "static pressure", supply["static_kpa"], gauge, "kPa")
    for place, test in enumerate(supply.get("tests") or []):
        yield from _of_test(document, place, test, limits)


def _of_test(document: Document, place: int, test: dict[str, Any], limits: Limits) -> Iterator[Varied]:
    where, tap = ("tests", place), f" at {test['tap']}" if test.get("tap") else ""
    gauge, share = limits.gauge_tolerance_kpa, limits.flow_tolerance_share
    if test["kind"] == "gauge":
        name = f"pressure while {test['flow_lpm']:g} L/min ran{tap}"
        yield _varied(document, (*where, "residual_kpa"), name, test["residual_kpa"], gauge, "kPa")
        name, flow = f"flow that ran{tap}", test["flow_lpm"]
        yield _varied(document, (*where, "flow_lpm"), name, flow, share * flow, "L/min")
    elif test["kind"] == "static":
        name = f"static pressure{tap}"
        yield _varied(document, (*where, "pressure_kpa"), name, test["pressure_kpa"], gauge, "kPa")
    else:
        # the mark and the watch together: a share of the flow, put into the seconds
        flow = 60 * test["litres"] / test["seconds"]
        name = f"bucket of {test['litres']:g} L in {test['seconds']:g} s{tap}"
        seconds = [test["seconds"] / (1 + sign * share) for sign in (-1, 1)]
        yield Varied(
            _key((*where, "seconds")), name, share * flow, "L/min",
            lambda: [_with(document, (*where, "seconds"), value) for value in seconds],
        )  # fmt: skip


def _varied(
    document: Document, where: tuple[str | int, ...], name: str, value: float, error: float, unit: Unit
) -> Varied:
    values = [value + sign * error for sign in (-1, 1)]
    return Varied(
        _key(where),
        name,
        error,
        unit,
        lambda: [_with(document, where, value) for value in values if value > 0],
    )


def _key(where: tuple[str | int, ...]) -> str:
    return ".".join(("supply", *(str(step) for step in where)))


def _with(document: Document, where: tuple[str | int, ...], value: float) -> Document:
    """The document with one figure of its supply replaced."""
    return {**document, "supply": _replaced(document["supply"], where, value)}


def _replaced(block: Any, where: tuple[str | int, ...], value: float) -> Any:
    if not where:
        return value
    step, rest = where[0], where[1:]
    if isinstance(step, int):
        return [_replaced(row, rest, value) if place == step else row for place, row in enumerate(block)]
    return {**block, step: _replaced(block[step], rest, value)}

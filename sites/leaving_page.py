"""What the page before leaving the site says of each fragile reading, in the site's units."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from design.fragile import Flip, Fragile
from hydraulics.sentences import in_units_of
from hydraulics.units import Kind
from sites.figures import in_system
from sites.models import Visit

MOST_FLIPS = 3  # sentences told of one reading; the others are counted
_KINDS: dict[str, Kind] = {"m": "length", "kPa": "pressure", "L/min": "flow"}


@dataclass(frozen=True)
class FragileRow:
    """``what`` tells what the error does, ``more`` counts what is left out, ``url`` leads to the figure."""

    name: str
    error: str
    headline: str
    what: tuple[str, ...]
    more: int
    is_heavy: bool
    url: str


def fragile_rows(found: Iterable[Fragile], visit: Visit) -> list[FragileRow]:
    return [_row(one, visit) for one in found]


def _row(one: Fragile, visit: Visit) -> FragileRow:
    units = visit.site.units
    lines = [*_moves(one, units), *_flips(one.flips, units)]
    name = in_units_of(units, one.name)
    page = "sites:survey" if one.key.startswith("ground.") else "sites:visit-edit"
    return FragileRow(
        name=name[:1].upper() + name[1:],
        error=_amount(one.error, one.unit, units),
        headline=_headline(one),
        what=tuple(lines[:MOST_FLIPS]),
        more=max(0, len(lines) - MOST_FLIPS),
        is_heavy=one.weight[0] > 0,
        url=reverse(page, args=[visit.pk]),
    )


def _headline(one: Fragile) -> str:
    """In a few words: what would change."""
    parts = []
    if one.breaks:
        parts.append("the plan can no longer be checked")
    count = len(one.devices)
    if one.flips:
        parts.append(f"{count} {'place changes its' if count == 1 else 'places change their'} verdict")
    if one.moved:
        parts.append(f"{one.moved} moves")
    if not parts:
        parts.append("the figure changes by more than it may")
    return ", ".join(parts)


def _moves(one: Fragile, units: str) -> list[str]:
    found = [in_units_of(units, one.breaks)] if one.breaks else []
    if one.moved:
        found.append(f"{one.moved} moves by {_amount(one.moved_m, 'm', units)}.")
    if one.area_share >= 0.05:
        found.append(f"An area changes by {one.area_share:.0%}.")
    if one.flow_share >= 0.10:
        found.append(f"The flow to design for changes by {one.flow_share:.0%}.")
    return found


def _flips(flips: Iterable[Flip], units: str) -> list[str]:
    return [
        f"{'Would come' if flip.comes else 'Would go'}: {in_units_of(units, flip.finding.sentence)}"
        for flip in sorted(flips, key=lambda flip: not flip.comes)
    ]


def _amount(value: float, unit: str, units: str) -> str:
    return f"{value:.1f}°" if unit == "deg" else in_system(value, _KINDS[unit], units)

"""Figures in templates: in the site's units, and with what is asked beside a field."""

from collections.abc import Iterable
from typing import Any

from django import template
from django.utils.html import format_html

from hydraulics.friction import FLOW_EXPONENT
from hydraulics.sentences import in_units_of
from hydraulics.units import KPA_PER_PSI, L_PER_US_GAL, M_PER_FT, Kind
from sites.figures import in_both, in_system
from sites.limit_page import written as limit_written

register = template.Library()


@register.simple_tag
def measure(value: float | None, kind: Kind, system: str) -> str:
    """The figure in the site's units; a dash where there is none."""
    return "—" if value is None else in_system(value, kind, system)


@register.simple_tag
def measure_both(value: float | None, kind: Kind, unit: str) -> str:
    """The figure in that unit and in the other system's."""
    return "—" if value is None else in_both(value, kind, unit)


@register.simple_tag
def speed(value_mps: float, system: str) -> str:
    return f"{value_mps / M_PER_FT:.1f} ft/s" if system == "us" else f"{value_mps:.2f} m/s"


@register.simple_tag
def loss(value_kpa: float, system: str) -> str:
    """A pressure difference, finer than a pressure is shown."""
    return f"{value_kpa / KPA_PER_PSI:.2f} psi" if system == "us" else f"{value_kpa:.2f} kPa"


@register.simple_tag
def supply_law(static_kpa: float, loss_coefficient: float, system: str) -> str:
    """The fitted curve, in kPa and L/min or in psi and US gal/min."""
    power = format_html("q<sup>{}</sup>", FLOW_EXPONENT)
    if system == "us":
        static = static_kpa / KPA_PER_PSI
        loss = loss_coefficient * L_PER_US_GAL**FLOW_EXPONENT / KPA_PER_PSI
        return format_html("p(q) = {} psi − {} {}, q in US gal/min.", f"{static:.1f}", f"{loss:.4f}", power)
    return format_html(
        "p(q) = {} kPa − {} {}, q in L/min.", f"{static_kpa:.0f}", f"{loss_coefficient:.5f}", power
    )


@register.filter
def in_units(sentence: str, system: str) -> str:
    """A sentence of the check in the site's units."""
    return in_units_of(system, sentence)


@register.simple_tag
def limit_value(value: float, unit: str, system: str) -> str:
    """A limit with its unit, and in US units behind it where the site works in them."""
    return limit_written(value, unit, system == "us")


@register.filter
def item(mapping: Any, key: Any) -> Any:
    """The mapping's value, or nothing where there is no mapping or no such key."""
    return mapping.get(key, "") if isinstance(mapping, dict) else ""


@register.filter
def questions(field: Any) -> Iterable[Any]:
    """What is asked about the field's figure, each with whether it is ticked."""
    return getattr(field, "questions", ())


@register.filter
def splitwords(text: str) -> list[str]:
    return text.split()


@register.filter
def bound(form: Any, name: str) -> Any:
    """The form's field of that name, ready to be shown."""
    return form[name]


@register.filter
def cut_underscores(text: str) -> str:
    return text.replace("_", " ")

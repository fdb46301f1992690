"""What the page of limits shows: each with its usual value, its source, and the company's own."""

from dataclasses import dataclass

from hydraulics.limits import LimitFacts, limit_facts
from hydraulics.units import KPA_PER_PSI, M_PER_FT
from office.company import get_company
from sites.models import LimitSetting

# unit of a limit -> how many of it make one of the US unit, and that unit
US_UNITS = {
    "kPa": (KPA_PER_PSI, "psi"),
    "m": (M_PER_FT, "ft"),
    "m/s": (M_PER_FT, "ft/s"),
    "m²": (M_PER_FT**2, "ft²"),
    "mm": (25.4, "in"),
}


@dataclass(frozen=True)
class LimitRow:
    """``setting`` is none where the limit was never moved."""

    facts: LimitFacts
    setting: LimitSetting | None
    in_us: bool

    @property
    def is_moved(self) -> bool:
        return self.setting is not None and self.setting.value is not None

    @property
    def version(self) -> int:
        return self.setting.version if self.setting else 0

    @property
    def usual(self) -> str:
        return written(self.facts.usual, self.facts.unit, self.in_us)

    @property
    def own(self) -> str:
        value = self.setting.value if self.setting else None
        return "" if value is None else written(value, self.facts.unit, self.in_us)

    @property
    def within(self) -> str:
        return f"{self.facts.low:g} to {written(self.facts.high, self.facts.unit, False)}"


def limit_rows() -> list[LimitRow]:
    """Every limit, in the order in which the program knows them."""
    moved = {row.name: row for row in LimitSetting.objects.select_related("changed_by")}
    in_us = get_company().units == "us"
    return [LimitRow(facts, moved.get(facts.name), in_us) for facts in limit_facts()]


def limit_row(name: str) -> LimitRow | None:
    return next((row for row in limit_rows() if row.facts.name == name), None)


def written(value: float, unit: str, in_us: bool) -> str:
    """The figure with its unit, and where the company works in US units with that behind it."""
    text = f"{value:g} {unit}" if unit not in ("share", "ratio") else f"{value:g}"
    if in_us and unit in US_UNITS:
        size, name = US_UNITS[unit]
        return f"{text} ({value / size:.3g} {name})"
    return text

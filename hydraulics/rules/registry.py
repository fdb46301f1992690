"""Every rule that may speak, and the page that lists them."""

from hydraulics.rules import (
    area_coverage,
    control,
    drainage,
    flows,
    pipe_rating,
    pressures,
    protection,
    supply_reading,
    throws,
    velocities,
    zone_balance,
)
from hydraulics.rules.rule import Rule

_MODULES = (
    supply_reading, flows, velocities, pipe_rating, pressures, throws, zone_balance,
    drainage, area_coverage, protection, control,
)  # fmt: skip
RULES: tuple[Rule, ...] = tuple(
    value for module in _MODULES for value in vars(module).values() if isinstance(value, Rule)
)
_HEADER = """# The hydraulic rules

Each finding carries one of these codes, a severity, what was measured and the limit. The
limits are the usual ones; a company may move those that its settings show. Local codes and
licensed practice come first.

| code | judges | usual limit | severity | unit | source |
| --- | --- | --- | --- | --- | --- |
"""


def rules_markdown() -> str:
    """The text of docs/rules.md."""
    return _HEADER + "".join(_line(rule) for rule in RULES)


def _line(rule: Rule) -> str:
    severities = ", ".join(severity.value for severity in rule.severities)
    cells = (f"`{rule.code}`", rule.judges, rule.limit, severities, rule.unit, rule.source)
    return f"| {' | '.join(cells)} |\n"

"""Every rule on water that may speak, and its part of the page that lists all."""

from hydraulics.rules import (
    area_coverage,
    control,
    drainage,
    drip,
    flows,
    high_points,
    pipe_rating,
    pressures,
    protection,
    spacing,
    supply_reading,
    throws,
    velocities,
    zone_balance,
)
from hydraulics.rules.rule import Rule
from hydraulics.watering import rules as watering

_MODULES = (
    supply_reading, flows, velocities, pipe_rating, pressures, throws, spacing, zone_balance,
    drip, drainage, high_points, area_coverage, protection, control, watering,
)  # fmt: skip
RULES: tuple[Rule, ...] = tuple(
    value for module in _MODULES for value in vars(module).values() if isinstance(value, Rule)
)
_HEADER = """# The rules of the check

Each finding carries one of these codes, a severity, what was measured and the limit. The
limits are the usual ones; those at the end of this page a company may move. Local codes and
licensed practice come first.

## Water

| code | judges | usual limit | severity | unit | source |
| --- | --- | --- | --- | --- | --- |
"""


def rules_markdown() -> str:
    """The part of docs/rules.md on water; design.rules.registry writes the whole page."""
    return _HEADER + "".join(rule_line(rule) for rule in RULES)


def rule_line(rule: Rule) -> str:
    """A row of the table."""
    severities = ", ".join(severity.value for severity in rule.severities)
    cells = (f"`{rule.code}`", rule.judges, rule.limit, severities, rule.unit, rule.source)
    return f"| {' | '.join(cells)} |\n"

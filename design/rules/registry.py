"""Every rule of the check and every limit that may be moved, and the page that lists them.

``python -m design.rules.registry`` writes it to docs/rules.md.
"""

from collections.abc import Iterator
from pathlib import Path

from design.rules import control, depth, ground, layout, reach
from hydraulics.limits import limit_facts
from hydraulics.rules.registry import RULES as WATER_RULES
from hydraulics.rules.registry import rule_line, rules_markdown
from hydraulics.rules.rule import Rule

PAGE = Path(__file__).resolve().parents[2] / "docs" / "rules.md"
RULES: tuple[Rule, ...] = tuple(
    value
    for module in (layout, reach, ground, depth, control)
    for value in vars(module).values()
    if isinstance(value, Rule)
)
ALL_RULES: tuple[Rule, ...] = (*WATER_RULES, *RULES)
GROUND_HEADER = """
## Layout and ground

Have buried services located before anyone digs; local codes and licensed practice come first.

| code | judges | usual limit | severity | unit | source |
| --- | --- | --- | --- | --- | --- |
"""
LIMITS_HEADER = """
## Limits that a company may move

The owner sets its own under Limits, with the reason; every report then lists what was moved. A
value outside the range is refused.

| limit | what it is | usual | unit | range | source |
| --- | --- | --- | --- | --- | --- |
"""


def page_markdown() -> str:
    """The text of docs/rules.md."""
    ground_lines = "".join(rule_line(rule) for rule in RULES)
    return rules_markdown() + GROUND_HEADER + ground_lines + LIMITS_HEADER + "".join(_limit_lines())


def _limit_lines() -> Iterator[str]:
    for facts in limit_facts():
        within = f"{facts.low:g} to {facts.high:g}"
        cells = (f"`{facts.name}`", facts.label, f"{facts.usual:g}", facts.unit, within, facts.source)
        yield f"| {' | '.join(cells)} |\n"


if __name__ == "__main__":
    PAGE.write_text(page_markdown(), encoding="utf-8")

"""Every rule on layout and ground, and the page that lists them.

``python -m design.rules.registry`` writes it to docs/.
"""

from pathlib import Path

from design.rules import control, ground, layout, reach
from hydraulics.rules.rule import Rule

PAGE = Path(__file__).resolve().parents[2] / "docs" / "layout-rules.md"
RULES: tuple[Rule, ...] = tuple(
    value
    for module in (layout, reach, ground, control)
    for value in vars(module).values()
    if isinstance(value, Rule)
)
HEADER = """# The rules on layout and ground

Beside the hydraulic rules in rules.md, the check asks these. Each finding carries the code, a
severity, what was measured and the limit. Have buried services located before anyone digs; local
codes and licensed practice come first.

| code | judges | usual limit | severity | unit | source |
| --- | --- | --- | --- | --- | --- |
"""


def rules_markdown() -> str:
    """The text of docs/layout-rules.md."""
    return HEADER + "".join(_line(rule) for rule in RULES)


def _line(rule: Rule) -> str:
    severities = ", ".join(severity.value for severity in rule.severities)
    cells = (f"`{rule.code}`", rule.judges, rule.limit, severities, rule.unit, rule.source)
    return f"| {' | '.join(cells)} |\n"


if __name__ == "__main__":
    PAGE.write_text(rules_markdown(), encoding="utf-8")

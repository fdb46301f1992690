from pathlib import Path

from hydraulics.rules.registry import RULES, rules_markdown

PAGE = Path(__file__).parents[2] / "docs" / "rules.md"


def test_the_page_of_rules_is_current():
    """It begins with the rules on water; ``python -m design.rules.registry`` writes the whole page."""
    assert PAGE.read_text(encoding="utf-8").startswith(rules_markdown() + "\n## ")


def test_every_code_is_its_own_and_every_rule_names_a_source():
    codes = [rule.code for rule in RULES]
    assert len(codes) == len(set(codes))
    assert len(codes) >= 25
    assert all(rule.source and rule.limit and rule.severities for rule in RULES)

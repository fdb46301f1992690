"""The page of the rules on layout and ground, and their codes."""

from design.rules.registry import PAGE, RULES, rules_markdown
from hydraulics.rules.registry import RULES as HYDRAULIC_RULES


def test_the_page_is_current():
    assert PAGE.read_text(encoding="utf-8") == rules_markdown(), "run: python -m design.rules.registry"


def test_each_code_is_used_once_in_both_packages_and_names_its_source():
    codes = [rule.code for rule in (*RULES, *HYDRAULIC_RULES)]
    assert len(codes) == len(set(codes))
    assert all(rule.source and rule.limit and rule.judges and rule.severities for rule in RULES)

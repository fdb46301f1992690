"""The one page of all rules and limits, and their codes."""

import importlib
import pkgutil

import design.rules
import hydraulics.rules
import hydraulics.watering
from design.rules.registry import ALL_RULES, PAGE, RULES, page_markdown
from hydraulics.limits import limit_facts
from hydraulics.rules.registry import RULES as HYDRAULIC_RULES
from hydraulics.rules.rule import Rule


def test_the_page_is_current():
    assert PAGE.read_text(encoding="utf-8") == page_markdown(), "run: python -m design.rules.registry"


def test_each_code_is_used_once_in_both_packages_and_names_its_source():
    codes = [rule.code for rule in (*RULES, *HYDRAULIC_RULES)]
    assert len(codes) == len(set(codes))
    assert all(rule.source and rule.limit and rule.judges and rule.severities for rule in RULES)


def test_every_rule_and_every_limit_has_its_row():
    """Found by looking through the modules, not by asking the registry."""
    text = PAGE.read_text(encoding="utf-8")
    declared = {
        value.code
        for package in (design.rules, hydraulics.rules, hydraulics.watering)
        for module in pkgutil.iter_modules(package.__path__)
        for value in vars(importlib.import_module(f"{package.__name__}.{module.name}")).values()
        if isinstance(value, Rule)
    }
    assert len(declared) > 50
    assert declared == {rule.code for rule in ALL_RULES}
    assert [code for code in declared if text.count(f"| `{code}` |") != 1] == []
    assert [f.name for f in limit_facts() if text.count(f"| `{f.name}` |") != 1] == []

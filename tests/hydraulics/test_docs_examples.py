"""The worked examples in the document are run as they stand."""

import doctest
from pathlib import Path

PAGE = Path(__file__).resolve().parents[2] / "docs" / "hydraulics.md"


def test_every_example_on_the_page_gives_what_it_says():
    found = doctest.testfile(str(PAGE), module_relative=False, encoding="utf-8")
    assert found.failed == 0
    assert found.attempted > 25


def test_every_part_with_a_formula_has_an_example():
    parts = PAGE.read_text(encoding="utf-8").split("\n## ")[1:]
    for part in parts:
        if "**Formula.**" in part:
            assert ">>>" in part, part.splitlines()[0]

"""The published schema is that of the model."""

import json

from design.check import check
from design.document import Plan
from design.loading import load_plan
from design.part_rules import check_parts
from design.schema import SCHEMA_PATH, schema_text
from tests.design.book import BOOK


def test_the_schema_in_docs_is_current():
    assert SCHEMA_PATH.read_text(encoding="utf-8") == schema_text(), "run: python -m design.schema"


def test_the_schema_says_from_and_not_its_name_in_the_code():
    definitions = json.loads(schema_text())["$defs"]
    assert "from" in definitions["Pipe"]["properties"]
    assert set(Plan.model_fields) == set(json.loads(schema_text())["properties"])


def test_the_example_of_the_format_page_loads_and_its_parts_exist():
    page = (SCHEMA_PATH.parent / "plan-format.md").read_text(encoding="utf-8")
    plan = load_plan(page.split("```json\n")[1].split("```")[0])
    assert check_parts(plan, BOOK) == []
    assert [zone.id for zone in check(plan, BOOK).zones] == ["V1"]

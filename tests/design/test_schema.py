"""The published schema is that of the model."""

import json

from design.document import Plan
from design.schema import SCHEMA_PATH, schema_text


def test_the_schema_in_docs_is_current():
    assert SCHEMA_PATH.read_text(encoding="utf-8") == schema_text(), "run: python -m design.schema"


def test_the_schema_says_from_and_not_its_name_in_the_code():
    definitions = json.loads(schema_text())["$defs"]
    assert "from" in definitions["Pipe"]["properties"]
    assert set(Plan.model_fields) == set(json.loads(schema_text())["properties"])

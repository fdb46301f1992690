"""The JSON Schema of the plan document. ``python -m design.schema`` writes it to docs/."""

import json
from pathlib import Path

from design.document import Plan

SCHEMA_PATH = Path(__file__).resolve().parent.parent / "docs" / "plan.schema.json"


def schema_text() -> str:
    """JSON Schema (draft 2020-12) of format plan/1, as text."""
    schema = Plan.model_json_schema(by_alias=True)
    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SCHEMA_PATH.write_text(schema_text(), encoding="utf-8")

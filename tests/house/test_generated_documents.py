"""What ``make docs`` writes is what stands in docs/."""

from pathlib import Path

from config.management.commands.write_docs import openapi_text
from design.schema import schema_text

DOCS = Path(__file__).resolve().parents[2] / "docs"


def test_the_plan_schema_is_current():
    assert (DOCS / "plan.schema.json").read_text(encoding="utf-8") == schema_text()


def test_the_api_document_is_current():
    """As SQLite, the embedded default, bounds its whole numbers."""
    assert (DOCS / "openapi.yaml").read_text(encoding="utf-8") == openapi_text()

"""``manage.py write_docs``: the documents that are generated from code."""

from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand
from drf_spectacular.generators import SchemaGenerator
from drf_spectacular.renderers import OpenApiYamlRenderer

from design.rules.registry import page_markdown
from design.schema import schema_text


def openapi_text() -> str:
    """The API document, as the server would give it."""
    schema = SchemaGenerator().get_schema(request=None, public=True)
    return OpenApiYamlRenderer().render(schema, renderer_context={}).decode()


class Command(BaseCommand):
    help = "Write docs/plan.schema.json, docs/rules.md and docs/openapi.yaml from code."

    def handle(self, *args: object, **options: object) -> None:
        docs = Path(settings.BASE_DIR) / "docs"
        (docs / "plan.schema.json").write_text(schema_text(), encoding="utf-8")
        (docs / "rules.md").write_text(page_markdown(), encoding="utf-8")
        (docs / "openapi.yaml").write_text(openapi_text(), encoding="utf-8")
        self.stdout.write("docs/plan.schema.json, docs/rules.md and docs/openapi.yaml are up to date")

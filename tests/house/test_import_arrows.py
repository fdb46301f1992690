"""The design's arrows: pure packages know no Django, apps import one way only."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
APPS = ["jobs", "quoting", "sites", "parts", "office"]  # each may import those after it
PURE_IN_QUOTING = ["money.py", "labour.py", "pricing.py", "takeoff", "proposal"]
WEB = {"django", "rest_framework", "allauth", "config", "demo", *APPS}


def imported_packages(path: Path) -> set[str]:
    """First names of all that a module imports, at any depth of nesting."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            found.add(node.module.split(".")[0])
    return found


def modules(folder: str) -> list[Path]:
    path = ROOT / folder
    return [path] if path.is_file() else sorted(p for p in path.rglob("*.py") if "migrations" not in p.parts)


def offenders(folder: str, forbidden: set[str]) -> list[str]:
    return [
        f"{path.relative_to(ROOT)} imports {', '.join(sorted(bad))}"
        for path in modules(folder)
        if (bad := imported_packages(path) & forbidden)
    ]


def test_hydraulics_imports_nothing_of_ours_and_no_django():
    assert offenders("hydraulics", WEB | {"design"}) == []


def test_design_imports_no_django_and_no_app():
    assert offenders("design", WEB) == []


@pytest.mark.parametrize("name", PURE_IN_QUOTING)
def test_the_pure_part_of_quoting_imports_no_django(name):
    assert modules(f"quoting/{name}"), f"quoting/{name} is gone: correct this list"
    assert offenders(f"quoting/{name}", WEB - {"quoting"}) == []


@pytest.mark.parametrize("app", APPS)
def test_an_app_imports_only_what_stands_below_it(app):
    above = set(APPS[: APPS.index(app)])
    assert offenders(app, above | {"demo"}) == []


def test_the_reader_sees_an_import_inside_a_function(tmp_path):
    module = tmp_path / "late.py"
    module.write_text("def f():\n    from jobs.models import Job\n    return Job\n")
    assert imported_packages(module) == {"jobs"}

"""The map library is served from node_modules: exactly the files that pages use, nothing beside them."""

from pathlib import Path

import pytest
from django.contrib.staticfiles import finders

from config.finders import FILES, PackageFinder

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("name", FILES)
def test_each_listed_file_is_found_and_collected(name):
    finder = PackageFinder()
    assert Path(finder.find(name)).read_bytes()
    assert name in [listed for listed, _ in finder.list(None)]
    with dict(finder.list(None))[name].open(name) as file:
        assert file.read(10)


@pytest.mark.parametrize("name", ["vendor/ol/package.json", "vendor/../../manage.py", "ol/dist/ol.js", ""])
def test_nothing_else_of_the_packages_is_served(name):
    assert not PackageFinder().find(name)


def test_a_missing_file_is_told_with_the_command_that_brings_it(settings, tmp_path):
    settings.BASE_DIR = tmp_path
    (error,) = PackageFinder().check()
    assert "ol/dist/ol.js" in error.msg
    assert "make setup" in error.hint


def test_the_files_are_those_that_pages_ask_for():
    asked = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "templates").rglob("*.html"))
    for name in FILES:
        assert name in asked or name.endswith(".map"), name
        assert finders.find(name)

"""The journeys' browser finder says in one line what to do."""

import pytest

from tests.support import chromium


def test_a_browser_named_by_the_caller_is_taken(monkeypatch, tmp_path):
    program = tmp_path / "browser"
    program.touch()
    monkeypatch.setenv("TRENCHBOOK_CHROMIUM", str(program))
    assert chromium.find_chromium() == str(program)


def test_without_browser_and_without_root_one_line_says_how_to_get_it(monkeypatch):
    monkeypatch.delenv("TRENCHBOOK_CHROMIUM", raising=False)
    monkeypatch.setattr(chromium.shutil, "which", lambda name: None)
    monkeypatch.setattr(chromium.os, "geteuid", lambda: 1000)
    with pytest.raises(chromium.NoChromium, match=chromium.OPT_OUT) as reason:
        chromium.find_chromium()
    assert "\n" not in str(reason.value)

"""Colours can be read, and told apart without hue."""

import re
from pathlib import Path

import pytest

from design.drawing import palette
from design.drawing.palette import STYLES

ROOT = Path(__file__).resolve().parents[2]


def luminance(colour: str) -> float:
    """Relative luminance, by its definition in WCAG 2.2."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("name", [n for n in STYLES if "text" in n or n.startswith("label")])
def test_words_are_readable_on_what_they_stand_on(name):
    # WCAG 2.2, success criterion 1.4.3: 4.5 to 1. Words on the map have a white halo.
    behind = palette.ALERT if name == "finding-text-stop" else palette.PAPER
    assert contrast(STYLES[name].fill, behind) >= 4.5


@pytest.mark.parametrize(
    "name",
    [
        "pipe-main",
        "pipe-lateral",
        "cable",
        "trench-machine",
        "trench-hand-tick",
        "trench-bore",
        "supply",
        "surface-fence",
    ],
)
def test_symbols_and_lines_stand_out(name):
    # WCAG 2.2, success criterion 1.4.11: 3 to 1 for graphics.
    style = STYLES[name]
    assert contrast(style.fill or style.stroke, palette.PAPER) >= 3


def test_lines_that_could_be_confused_differ_in_more_than_colour():
    assert STYLES["cable"].dash != STYLES["pipe-lateral"].dash
    letters = [letter for _, letter in palette.SERVICE_INKS.values()]
    assert len(letters) == len(set(letters))


def test_the_page_style_sheet_names_only_classes_that_the_drawing_has():
    sheet = (ROOT / "static/css/plan.css").read_text(encoding="utf-8")
    sheet = re.sub(r"/\*.*?\*/", "", sheet, flags=re.S)
    classes = set(re.findall(r"\.([a-z][a-z-]+)", sheet))
    known = {"plan-drawing", "is-marked", "is-wide", "kind-wetting", *STYLES}
    from design.drawing import LAYERS

    assert classes <= known | {f"layer-{layer}" for layer in LAYERS}

"""A company's own colour, made safe to read on white and to write on."""

import re

from reportlab.lib.colors import Color, HexColor

from .data import DEFAULT_ACCENT

_HEX = re.compile(r"#[0-9a-fA-F]{6}")
# WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1 for text.
_CONTRAST = 4.5


def accent_colour(wanted: str) -> Color:
    """The colour as asked, or ours when it is no ``#rrggbb``."""
    return HexColor(wanted if _HEX.fullmatch(wanted) else DEFAULT_ACCENT)


def luminance(colour: Color) -> float:
    """Relative luminance by the definition of WCAG 2.2."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour.rgb()]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Color, other: Color) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def readable_on_white(colour: Color) -> Color:
    """The same hue, darkened until text in it can be read on white."""
    white, share = Color(1, 1, 1), 1.0
    while share > 0:
        darker = Color(*(c * share for c in colour.rgb()))
        if contrast(darker, white) >= _CONTRAST:
            return darker
        share -= 0.05
    return Color(0, 0, 0)


def tint(colour: Color, share: float) -> Color:
    """Mixed with white: 0 is white, 1 the colour itself."""
    return Color(*(1 - (1 - c) * share for c in colour.rgb()))

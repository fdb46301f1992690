"""Makes any user's text safe and visible on paper: escaped, in reading order, in a font that has it."""

import re
import unicodedata
from itertools import groupby
from xml.sax.saxutils import escape

from bidi.algorithm import get_display  # type: ignore[import-untyped]

from .arabic import joined
from .fonts import Faces, faces

_RIGHT_TO_LEFT = {"R", "AL"}
_STRETCH = 60  # characters of right-to-left text that stay on one line
_SPACES = re.compile(r"[^\S\u00a0\u202f]+")
_FIRM_SPACES = re.compile(r"[\u00a0\u202f]+")  # no line ends at one: a price stays one piece


def clean(text: str) -> str:
    """One line, composed, without control, format and half characters."""
    composed = unicodedata.normalize("NFC", _FIRM_SPACES.sub("\u00a0", _SPACES.sub(" ", text)))
    return "".join(c for c in composed if unicodedata.category(c) not in {"Cc", "Cf", "Cs"}).strip()


def in_reading_order(text: str) -> str:
    """Right-to-left stretches joined and turned to the order in which they stand on paper."""
    if not any(_is_right_to_left(c) for c in text):
        return text
    words = text.split(" ")
    out: list[str] = []
    for has, group in groupby(_spans(words), key=lambda span: span[1]):
        for span, _ in group:
            out.append(_turned(span) if has else span)
    return " ".join(out)


def _spans(words: list[str]) -> list[tuple[str, bool]]:
    """Runs of words of one direction; a word without letters goes with the run it stands inside."""
    spans: list[tuple[str, bool]] = []
    for index, word in enumerate(words):
        turned = any(_is_right_to_left(c) for c in word)
        inside = (
            not any(c.isalpha() for c in word)
            and bool(spans)
            and spans[-1][1]
            and any(_is_right_to_left(c) for c in " ".join(words[index + 1 : index + 2]))
        )
        same = bool(spans) and spans[-1][1] == (turned or inside)
        if same and len(spans[-1][0]) + len(word) < _STRETCH:
            spans[-1] = (f"{spans[-1][0]} {word}", spans[-1][1])
        else:
            spans.append((word, turned or inside))
    return spans


def _turned(span: str) -> str:
    tail = re.search(r"[,.;:]*$", span)
    end = tail.group() if tail else ""
    body = span[: len(span) - len(end)]
    shown = get_display(joined(body), base_dir="R")
    return str(shown).replace(" ", "\u00a0") + end


def _is_right_to_left(letter: str) -> bool:
    return unicodedata.bidirectional(letter) in _RIGHT_TO_LEFT


def runs(text: str, bold: bool = False) -> list[tuple[str, str]]:
    """(font name, words) from left to right; a character without a glyph becomes a box."""
    known = faces()
    placed = [_placed(letter, known, bold) for letter in in_reading_order(clean(text))]
    return [(font, "".join(c for _, c in group)) for font, group in groupby(placed, key=lambda p: p[0])]


def _placed(letter: str, known: Faces, bold: bool) -> tuple[str, str]:
    main = known.main.bold if bold else known.main.regular
    if letter in " \u00a0":
        return main, letter
    font = known.font_for(letter, bold=bold)
    return (font, letter) if font else (main, known.box)


def markup(text: str, *, bold: bool = False) -> str:
    """The text as markup for a reportlab paragraph: nothing in it is read as a tag."""
    parts = []
    main = faces().main
    usual = main.bold if bold else main.regular
    for font, words in runs(text, bold):
        safe = escape(words)
        parts.append(safe if font == usual else f'<font name="{font}">{safe}</font>')
    return "".join(parts)

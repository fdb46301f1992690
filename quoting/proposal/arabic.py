"""Joins Arabic letters: each letter takes the form that its neighbours ask for.

The forms are those of Unicode's Arabic Presentation Forms-A and -B, read from Python's own
Unicode data, so there is no table here to go stale. Rules: The Unicode Standard, section 9.2.
"""

import unicodedata
from functools import cache

_BLOCKS = (range(0xFB50, 0xFDD0), range(0xFE70, 0xFEFD))
_FORMS = {"<isolated>", "<final>", "<initial>", "<medial>"}
_TATWEEL = "\u0640"


@cache
def _table() -> dict[str, dict[str, str]]:
    """From letters (one, or the pair of a lam-alef ligature) to their form by name."""
    table: dict[str, dict[str, str]] = {}
    for block in _BLOCKS:
        for code in block:
            kind, *letters = unicodedata.decomposition(chr(code)).split() or ("",)
            source = "".join(chr(int(letter, 16)) for letter in letters)
            if kind in _FORMS and (len(source) == 1 or _is_lam_alef(source)):
                table.setdefault(source, {})[kind[1:-1]] = chr(code)
    return table


def _is_lam_alef(source: str) -> bool:
    return len(source) == 2 and source[0] == "\u0644" and source[1] in "\u0622\u0623\u0625\u0627"


def joined(text: str) -> str:
    """The same text, in logical order, with each Arabic letter in its joining form."""
    table, letters = _table(), _clusters(text)
    out = []
    for i, cluster in enumerate(letters):
        forms = table.get(cluster)
        if forms is None:
            out.append(cluster)
            continue
        before = _joins_after(_neighbour(letters, i, -1)) and ("final" in forms or "medial" in forms)
        after = ("initial" in forms or "medial" in forms) and _joins_before(_neighbour(letters, i, 1))
        wanted = {(0, 0): "isolated", (1, 0): "final", (0, 1): "initial", (1, 1): "medial"}[before, after]
        out.append(forms.get(wanted, forms.get("isolated", cluster)))
    return "".join(out)


def _clusters(text: str) -> list[str]:
    """Letters one by one, lam and alef together."""
    clusters: list[str] = []
    for letter in text:
        if clusters and _is_lam_alef(clusters[-1] + letter):
            clusters[-1] += letter
        else:
            clusters.append(letter)
    return clusters


def _neighbour(letters: list[str], index: int, step: int) -> str:
    """The next letter that way, past marks that sit on a letter."""
    index += step
    while 0 <= index < len(letters) and unicodedata.category(letters[index][0]) == "Mn":
        index += step
    return letters[index] if 0 <= index < len(letters) else ""


def _joins_after(letter: str) -> bool:
    forms = _table().get(letter, {})
    return letter == _TATWEEL or "initial" in forms or "medial" in forms


def _joins_before(letter: str) -> bool:
    forms = _table().get(letter, {})
    return letter == _TATWEEL or "final" in forms or "medial" in forms

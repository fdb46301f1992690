"""The open fonts that a proposal embeds, and which of them has a glyph for a character.

They come with npm (DejaVu for Latin, Greek, Cyrillic, Hebrew, Arabic and more; UnifontEX for
every other script of the basic plane) and are never committed. ``TRENCHBOOK_FONT_DIR`` names a
folder of further TrueType files, tried after DejaVu in the order of their names: put a face for
Chinese or Thai there that suits the company. Without any of them, Vera, which reportlab carries.
"""

import os
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from .woff import truetype_from_woff

ROOT = Path(__file__).resolve().parents[2]
FONT_DIR_VARIABLE = "TRENCHBOOK_FONT_DIR"
_DEJAVU = "node_modules/dejavu-fonts-ttf/ttf"
_EVERYTHING = "node_modules/@fontsource/unifontex/files/unifontex-latin-400-normal.woff"
# Beyond it reportlab 5.1 writes a text map that PDF readers refuse.
_BASIC_PLANE_END = 0xFFFF
_BOXES = "\u25a1\u25ca?"  # the first that the regular face has


@dataclass(frozen=True)
class Face:
    """One family: registered names and the characters that its regular face has."""

    regular: str
    bold: str
    covers: frozenset[int]


@dataclass(frozen=True)
class Faces:
    """Tried in order; ``box`` stands for a character that none of them has."""

    main: Face
    others: tuple[Face, ...]
    last_resort: Path | None
    box: str

    def font_for(self, letter: str, *, bold: bool) -> str | None:
        """Registered name of the first face with that letter, or none."""
        code = ord(letter)
        if code > _BASIC_PLANE_END:
            return None
        for face in (self.main, *self.others):
            if code in face.covers:
                return face.bold if bold else face.regular
        everything = _last_resort(self.last_resort) if self.last_resort else None
        return everything.regular if everything and code in everything.covers else None


def faces() -> Faces:
    """The faces of this machine, registered once per process and folder."""
    return _faces(os.environ.get(FONT_DIR_VARIABLE, ""), ROOT)


@cache
def _faces(extra: str, root: Path) -> Faces:
    main = _dejavu(root / _DEJAVU) or _vera()
    others = tuple(_extra_faces(Path(extra))) if extra else ()
    last = root / _EVERYTHING
    box = next(c for c in _BOXES if ord(c) in main.covers)
    return Faces(main, others, last if last.is_file() else None, box)


def _dejavu(folder: Path) -> Face | None:
    regular, bold = folder / "DejaVuSans.ttf", folder / "DejaVuSans-Bold.ttf"
    if not (regular.is_file() and bold.is_file()):
        return None
    return _family("Trenchbook", str(regular), str(bold))


def _vera() -> Face:
    return _family("TrenchbookVera", "Vera.ttf", "VeraBd.ttf")


def _family(name: str, regular: str, bold: str) -> Face:
    face = _registered(name, regular)
    _registered(f"{name}-Bold", bold)
    pdfmetrics.registerFontFamily(name, name, f"{name}-Bold", name, f"{name}-Bold")
    return Face(name, f"{name}-Bold", face)


def _registered(name: str, source: str | BytesIO) -> frozenset[int]:
    font = TTFont(name, source)
    pdfmetrics.registerFont(font)
    return frozenset(font.face.charToGlyph)


def _extra_faces(folder: Path) -> list[Face]:
    """Every TrueType file that can be read; a file that cannot is passed over."""
    found = []
    paths = sorted(folder.glob("*.tt[fc]")) if folder.is_dir() else []
    for number, path in enumerate(paths, start=1):
        name = f"TrenchbookExtra{number}"
        try:
            found.append(Face(name, name, _registered(name, str(path))))
        except (TTFError, OSError):
            continue
        pdfmetrics.registerFontFamily(name, name, name, name, name)
    return found


@cache
def _last_resort(path: Path) -> Face:
    """Loaded only when a character asks for it: it is large."""
    name = "TrenchbookEverything"
    covers = _registered(name, BytesIO(truetype_from_woff(path.read_bytes())))
    pdfmetrics.registerFontFamily(name, name, name, name, name)
    return Face(name, name, covers)

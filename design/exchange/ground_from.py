"""From shapes in site metres to the ground of a plan."""

import re
import unicodedata
import zlib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from design.canonical import dump_plan
from design.document import Ground, Plan
from design.exchange.becomes import BY_CODE, LEAVE, SAME, Becoming
from design.exchange.outlines import outline_of, path_of
from design.exchange.refused import FileRefused
from design.exchange.shapes import Shape, Shapes, all_points
from design.loading import list_length_problems

Json = dict[str, Any]
FARTHEST_M = 5000.0
DECIMALS = 3  # a millimetre
STEM = 12  # letters of the file's name in an id
_GROUPS = ("areas", "surfaces", "services", "marks", "levels")


@dataclass(frozen=True)
class GroundFrom:
    """The ground as plain JSON, how many entities there are, and what was left out or changed."""

    ground: Json
    count: int
    notes: tuple[str, ...]


def ground_from(shapes: Shapes, becomes: Mapping[str, str], file_name: str) -> GroundFrom:
    """``becomes`` gives each layer's code of ``becomes.ALL``; a layer without one is left out.

    The same file gives the same ids again, so that a corrected file replaces what it brought before.
    Raises FileRefused when nothing is left, or the ground is more than a plan takes.
    """
    wanted = shapes.only(layer for layer, code in becomes.items() if code != LEAVE)
    _refuse_far(wanted)
    builder = _Builder(file_name)
    for shape in wanted.shapes:
        builder.take(shape, BY_CODE[becomes[shape.layer]])
    count = sum(len(rows) for rows in builder.ground.values())
    if not count:
        raise FileRefused(f"Nothing would be put on the board. {' '.join(builder.notes)}".strip())
    if problems := list_length_problems({"ground": builder.ground}):
        raise FileRefused(
            " ".join(f"{problem.field or 'ground'}: {problem.sentence}" for problem in problems)
        )
    return GroundFrom(_judged(builder.ground), count, tuple(builder.notes))


def _refuse_far(shapes: Shapes) -> None:
    farthest_m = max((max(abs(x), abs(y)) for x, y in all_points(shapes.shapes)), default=0.0)
    if farthest_m > FARTHEST_M:
        raise FileRefused(
            f"Something lies {farthest_m / 1000:,.1f} km from the site's zero; a plan reaches "
            f"{FARTHEST_M / 1000:.0f} km. Move the lower left corner to 0, 0, or leave out the layer "
            "that is far off."
        )


def _judged(ground: Json) -> Json:
    try:
        judged = Ground.model_validate(ground)
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"])
        raise FileRefused(f"The file says of something that it is what no plan has: {place}.") from None
    supply = {"at": (0, 0), "static_kpa": 1}  # only to write the ground in its canonical form
    whole = Plan.model_validate({"format": "plan/1", "ground": judged, "supply": supply})
    canonical = dump_plan(whole)["ground"]
    return {
        name: [_only(row, given) for row, given in zip(canonical[name], ground[name], strict=True)]
        for name in canonical
        if canonical[name]
    }


def _only(row: Json, given: Json) -> Json:
    """Without what the file does not say, so that what the board says of it can stay."""
    return {name: value for name, value in row.items() if name in given}


class _Builder:
    def __init__(self, file_name: str) -> None:
        self.ground: Json = {name: [] for name in _GROUPS}
        self._stem = _stem(file_name)
        self._numbers: Counter[str] = Counter()
        self._ids: set[str] = set()
        self._notes: Counter[str] = Counter()

    @property
    def notes(self) -> list[str]:
        return [f"{count} × {text}" for text, count in self._notes.items()]

    def take(self, shape: Shape, becoming: Becoming) -> None:
        group = str(shape.own.get("group", "")) if becoming.code == SAME else becoming.group
        if group not in _GROUPS:
            self._notes["pipe, head or the like of the layer left out: only the ground is taken in."] += 1
            return
        own: Json = dict(shape.own["plan"]) if becoming.code == SAME else {}
        geometry = self._geometry(shape, group, becoming.kind, exact=bool(own))
        if geometry is None:
            return
        row = {**(own or self._fields(shape, group, becoming.kind)), **geometry}
        if group != "levels" or "id" in row:
            row["id"] = self._free_id(str(row.get("id") or ""), shape.layer)
        self.ground[group].append(row)

    def _fields(self, shape: Shape, group: str, kind: str) -> Json:
        if group == "levels":
            return {"id": ""}
        named = {"areas": {"cover": kind}, "surfaces": {"kind": kind}, "services": {"kind": kind}}
        return {"id": "", "label": shape.label, **named.get(group, {})}

    def _geometry(self, shape: Shape, group: str, kind: str, *, exact: bool) -> Json | None:
        if group in ("marks", "levels"):
            return self._point(shape, group)
        if group == "services":
            path, note = path_of(shape, exact=exact)
            self._note(note)
            return {"path": _rounded(path)} if path else None
        outline, holes, note = outline_of(shape, kind, exact=exact)
        self._note(note)
        if not outline:
            return None
        found: Json = {"outline": _rounded(outline)}
        return {**found, "holes": [_rounded(hole) for hole in holes]} if group == "areas" else found

    def _point(self, shape: Shape, group: str) -> Json | None:
        if shape.kind != "point":
            self._note(
                f"line or outline left out: {'a mark' if group == 'marks' else 'a height'} is a point."
            )
            return None
        at = _rounded(shape.points)[0]
        if group == "marks":
            return {"at": at}
        if shape.z is None or abs(shape.z) > 500:
            self._note("point without a height, or with one beyond 500 m, left out.")
            return None
        return {"at": at, "z_m": round(shape.z, DECIMALS)}

    def _note(self, text: str) -> None:
        if text:
            self._notes[text] += 1

    def _free_id(self, wanted: str, layer: str) -> str:
        if not wanted or wanted in self._ids:
            start = f"{self._stem}-{_slug(layer, 16) or 'layer'}"
            while not wanted or wanted in self._ids:
                self._numbers[start] += 1
                wanted = f"{start}-{self._numbers[start]}"
        self._ids.add(wanted)
        return wanted


def _rounded(points: Any) -> list[tuple[float, float]]:
    return [(round(x, DECIMALS), round(y, DECIMALS)) for x, y in points]


def _stem(file_name: str) -> str:
    """What its ids begin with; where the name is cut or loses letters, told apart from the like by a sum."""
    name = file_name.rsplit(".", 1)[0]
    whole = _slug(name, len(name) * 4)
    if whole and len(whole) <= STEM and name.isascii():
        return whole
    return f"{_slug(name, STEM - 5) or 'file'}-{zlib.crc32(name.encode()) & 0xFFFF:04x}"


def _slug(text: str, longest: int) -> str:
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^A-Za-z0-9]+", "-", plain).strip("-").lower()[:longest].strip("-")

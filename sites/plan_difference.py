"""What differs between two plan documents, entity by entity and line by line."""

import difflib
import json
from collections.abc import Iterator
from typing import Any

MAX_SHOWN = 200
NAMES = {
    "marks": "mark", "areas": "area", "surfaces": "surface", "services": "service", "levels": "level",
    "nodes": "device", "pipes": "pipe", "cables": "cable", "cases": "case", "sleeves": "sleeve",
    "notes": "note",
}  # fmt: skip


def differences(before: dict[str, Any], after: dict[str, Any]) -> list[str]:
    """Plain lines such as 'pipe P3 added' or 'device H1: reach_m 8 → 9', at most 200."""
    found = [
        *_fields("supply", before.get("supply", {}), after.get("supply", {})),
        *(
            line
            for block in ("ground", "layout")
            for name in NAMES
            for line in _entities(
                name, before.get(block, {}).get(name, []), after.get(block, {}).get(name, [])
            )
        ),
    ]
    more = len(found) - MAX_SHOWN
    return [*found[:MAX_SHOWN], f"and {more} more"] if more > 0 else found


def line_differences(before: dict[str, Any], after: dict[str, Any]) -> str:
    """The same as a unified difference of the indented texts."""
    theirs, mine = _lines(before), _lines(after)
    changed = difflib.unified_diff(theirs, mine, "saved by them", "typed by you", n=2, lineterm="")
    return "\n".join(changed)


def _lines(document: dict[str, Any]) -> list[str]:
    return json.dumps(document, indent=1, ensure_ascii=False).splitlines()


def _entities(name: str, before: list[Any], after: list[Any]) -> Iterator[str]:
    old, new = _by_key(before), _by_key(after)
    for key in new.keys() - old.keys():
        yield f"{NAMES[name]} {key} added"
    for key in old.keys() - new.keys():
        yield f"{NAMES[name]} {key} removed"
    for key in new:
        if key in old:
            yield from _fields(f"{NAMES[name]} {key}", old[key], new[key])


def _by_key(rows: list[Any]) -> dict[str, Any]:
    return {str(row.get("id") or row.get("label") or place + 1): row for place, row in enumerate(rows)}


def _fields(name: str, before: dict[str, Any], after: dict[str, Any]) -> Iterator[str]:
    for key in sorted(before.keys() | after.keys()):
        if before.get(key) != after.get(key):
            yield f"{name}: {key} {_short(before.get(key))} → {_short(after.get(key))}"


def _short(value: Any) -> str:
    text = "nothing" if value is None else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:59] + "…"

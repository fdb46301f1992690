"""A plan document as text that a person can edit: one entity a line, as far as lines go."""

import json
from typing import Any

WIDTH = 140
SHORT = 24


def editable_text(document: dict[str, Any]) -> str:
    """JSON with line breaks only where a line would grow longer than 140 characters.

    Keys of a plan are plain names, so they need no escaping.
    """
    return _write(document, 0, WIDTH) + "\n"


def _write(value: Any, indent: int, width: int) -> str:
    flat = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, dict | list) or not value or len(flat) + indent <= width:
        return flat
    inner = " " * (indent + 2)
    if isinstance(value, dict):
        rows = [f'"{key}": {_write(item, indent + 2, width)}' for key, item in value.items()]
        opening, closing = "{", "}"
    else:
        rows = _filled([_write(item, indent + 2, width) for item in value], width - indent - 2)
        opening, closing = "[", "]"
    body = ",\n".join(inner + row for row in rows)
    return f"{opening}\n{body}\n{' ' * indent}{closing}"


def _filled(rows: list[str], width: int) -> list[str]:
    """Short entries, such as the points of an outline, several to a line."""
    if any(len(row) > SHORT for row in rows):
        return rows
    lines = [""]
    for row in rows:
        joined = f"{lines[-1]}, {row}" if lines[-1] else row
        if len(joined) <= width:
            lines[-1] = joined
        else:
            lines.append(row)
    return lines

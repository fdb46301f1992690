"""A plan document as text that a person can edit: one entity a line, as far as lines go."""

import json
from typing import Any

WIDTH = 140


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
        rows = [_write(item, indent + 2, width) for item in value]
        opening, closing = "[", "]"
    body = ",\n".join(inner + row for row in rows)
    return f"{opening}\n{body}\n{' ' * indent}{closing}"

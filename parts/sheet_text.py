"""Values of a technical sheet as people read and type them."""

from typing import Any

from parts.sheet_fields import SheetField


def shown(field: SheetField, value: Any) -> str:
    """The value as text for a page or for the field that it is edited in."""
    if value is None:
        return ""
    if field.entry == "yes_no":
        return "yes" if value else "no"
    if field.entry == "numbers":
        return "  ".join(_number(item) for item in value)
    if field.entry == "rows":
        return "\n".join("  ".join(_number(row[name]) for name in field.columns) for row in value)
    return _number(value)


def read(field: SheetField, value: Any) -> str:
    """The value as a person reads it on the part's page."""
    return shown(field, value).replace("_", " ") if field.entry == "choice" else shown(field, value)


def typed(field: SheetField, text: str) -> Any:
    """What was typed as a JSON value; what cannot be read stays text, for the model to refuse."""
    text = text.strip()
    if field.entry in ("text", "choice"):
        return text
    if field.entry in ("number", "whole"):
        return _as_number(text)
    if field.entry == "numbers":
        return [_as_number(item) for item in text.replace(";", " ").split()]
    return [_row(field.columns, line) for line in text.splitlines() if line.strip()]


def _row(columns: tuple[str, ...], line: str) -> dict[str, Any]:
    items = line.replace(";", " ").split(maxsplit=len(columns) - 1)
    if columns[0] != "joint":
        return {name: _as_number(item) for name, item in zip(columns, items, strict=False)}
    return dict(zip(columns, items, strict=False))


def _as_number(text: str) -> Any:
    """Decimal point or comma. Text that is no number is handed on as it is."""
    plain = text.strip().replace(",", ".")
    try:
        number = float(plain)
    except ValueError:
        return text
    return int(number) if number.is_integer() and abs(number) < 1e15 and "e" not in plain.lower() else number


def _number(value: Any) -> str:
    return f"{value:.10g}" if isinstance(value, float | int) and not isinstance(value, bool) else str(value)

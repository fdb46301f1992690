"""New ground put into a plan's lists: by id in the place of what was there, the rest after it."""

from collections.abc import Callable
from typing import Any

Row = dict[str, Any]


def put_rows(rows: list[Row], new: list[Row], outdated: Callable[[str], bool] = lambda _: False) -> list[Row]:
    """What a row says and its successor does not, such as an area's soil, stays; so does a name.

    A row whose id is ``outdated`` goes unless a new one has it.
    """
    by_id = {str(row["id"]): row for row in new if row.get("id") is not None}
    known = {str(row["id"]) for row in rows if row.get("id") is not None}
    kept = [_over(row, by_id.get(str(row.get("id")))) for row in rows if not _goes(row, by_id, outdated)]
    without_id = [row for row in new if row.get("id") is None]
    return [*kept, *(row for key, row in by_id.items() if key not in known), *without_id]


def _goes(row: Row, by_id: dict[str, Row], outdated: Callable[[str], bool]) -> bool:
    name = row.get("id")
    return name is not None and str(name) not in by_id and outdated(str(name))


def _over(row: Row, new: Row | None) -> Row:
    if new is None:
        return row
    return {**row, **new, **({"label": row["label"]} if row.get("label") and not new.get("label") else {})}

"""The canonical form of a plan: what is stored, exported and digested."""

import hashlib
import json
from typing import Any

from design.document import Plan


def dump_plan(plan: Plan) -> dict[str, Any]:
    """The plan as plain JSON values; ``load_plan`` of it gives the same plan again.

    Fields that hold nothing are left out, whole numbers are written without a fraction.
    """
    dumped = plan.model_dump(mode="json", by_alias=True, exclude_none=True)
    return {key: _tidy(value) for key, value in dumped.items()}


def plan_text(plan: Plan) -> str:
    """The plan as indented JSON text, with a line end."""
    return json.dumps(dump_plan(plan), indent=2, ensure_ascii=False) + "\n"


def plan_digest(plan: Plan) -> str:
    """SHA-256, in hexadecimal, of the canonical form with sorted keys and no spaces."""
    text = json.dumps(dump_plan(plan), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _tidy(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _tidy(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_tidy(item) for item in value]
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value

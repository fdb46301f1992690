"""Showing two versions of the same thing side by side, where two people saved at once."""

from dataclasses import dataclass
from typing import Any

from django import forms


@dataclass(frozen=True)
class ClashRow:
    label: str
    stored: str
    typed: str


def clash_rows(typed: forms.BaseForm, stored: forms.BaseForm) -> list[ClashRow]:
    """The fields in which what was typed differs from what stands now.

    ``stored`` is the same form, unbound, over the row as it stands.
    """
    rows = []
    for name, field in typed.fields.items():
        if field.widget.is_hidden:
            continue
        mine, theirs = _shown(typed[name]), _shown(stored[name])
        if mine != theirs:
            rows.append(ClashRow(str(field.label or stored[name].label), theirs, mine))
    return rows


def _shown(bound: forms.BoundField) -> str:
    value: Any = bound.value()
    choices = dict(getattr(bound.field, "choices", ()))
    value = choices.get(value, value)
    if value in (None, "", False):
        return "—"
    return "yes" if value is True else str(value).strip()

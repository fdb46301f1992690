"""The company's own limits: reading them for every check, and moving one."""

from django.db import IntegrityError, transaction

from hydraulics.limits import BadLimit, Limits, check_limit, limits_with
from office.audit import record
from office.models import Person
from office.versions import Clash, save_version
from sites.models import LimitSetting


def company_limits() -> Limits:
    """The usual limits with what the company has moved. One small query."""
    rows = LimitSetting.objects.values_list("name", "value")
    return _limits({name: own for name, own in rows if own is not None and _still_stands(name, own)})


def _limits(own: dict[str, float]) -> Limits:
    try:
        return limits_with(own)
    except BadLimit:  # a pair that a newer version of the program refuses: no check must fail for it
        return Limits(**own)


def _still_stands(name: str, value: float) -> bool:
    """Not what an older version knew, or allowed, and this one does not."""
    try:
        check_limit(name, value)
    except BadLimit:
        return False
    return True


@transaction.atomic
def move_limit(
    *, name: str, value: float | None, reason: str, began_from: int, by: Person | None
) -> LimitSetting:
    """Set a limit, or with ``value`` none put it back to the usual one.

    ``began_from`` is the version that was looked at, 0 where the limit had never been moved.
    Raises BadLimit with a sentence, or Clash.
    """
    rows = {row.name: row for row in LimitSetting.objects.select_for_update().order_by("pk")}
    own = {row.name: row.value for row in rows.values() if row.value is not None}
    own.pop(name, None)
    own = {other: known for other, known in own.items() if _still_stands(other, known)}
    if value is not None:
        check_limit(name, value)
        own[name] = value
    limits_with(own)
    fields: dict[str, object] = {"value": value, "reason": reason, "changed_by": by}
    before = rows[name].value if name in rows else None
    saved = _saved(rows.get(name), name, began_from, fields)
    detail = {"limit": name, "from": before, "to": value, "reason": reason}
    record(by=by, verb="limit.moved" if value is not None else "limit.put_back", subject=saved, detail=detail)
    return saved


def _saved(row: LimitSetting | None, name: str, began_from: int, fields: dict[str, object]) -> LimitSetting:
    if row is not None:
        return save_version(row, began_from=began_from, fields=fields)
    fresh = LimitSetting(name=name, **fields)
    fresh.full_clean(validate_unique=False)
    try:
        with transaction.atomic():
            fresh.save()
    except IntegrityError:  # somebody moved it for the first time just now
        raise Clash(LimitSetting.objects.get(name=name)) from None
    return fresh

"""Quote numbers without a gap, whoever asks at the same time."""

from django.db import transaction

from quoting.models import NumberCounter


def take_number(year: int) -> int:
    """The next number of ``year`` (0: of all years).

    Runs in the caller's transaction, which must be the one that stores the number: when that
    is rolled back, so is the counter, and nobody else gets past the locked row until it ends.
    """
    if not transaction.get_connection().in_atomic_block:
        raise RuntimeError("a number is taken inside the transaction that uses it")
    NumberCounter.objects.get_or_create(year=year)
    counter = NumberCounter.objects.select_for_update().get(year=year)
    counter.last += 1
    counter.save(update_fields=["last"])
    return counter.last

"""The list of 10,000 quotes: filtered, searched, paged; medians, and the ratio to a list of 50.

The whole request is measured, from address to HTML, in a database of its own.
"""

import statistics
import sys
import time
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal

GOAL_MS, MANY, FEW, TIMES = 100.0, 10_000, 50, 15
CASES = (
    ("first page", ""),
    ("one status", "?status=accepted"),
    ("customer", "?q=featherstone"),
    ("town and status", "?q=Town13&status=issued"),
    ("number", "?q=2025-4321"),
    ("nothing fits", "?q=zzzz"),
    ("last page", "?page=200"),
)


def make_quotes(first: int, last: int) -> None:
    """Quotes of many customers, over three years, in every state."""
    from django.utils import timezone

    from quoting.models import Quote, Status
    from sites.models import Customer, PlanRevision, Site

    numbers = range(first, last)
    names = ("Featherstone", "Quillan", "Marrowby", "Ashgrove", "Thornley")
    customers = Customer.objects.bulk_create(
        Customer(name=f"{names[n % 5]} {n}", town=f"Town{n % 60}") for n in numbers
    )
    sites = Site.objects.bulk_create(Site(customer=c, name="House", town=c.town) for c in customers)
    plans = PlanRevision.objects.bulk_create(
        PlanRevision(site=s, number=1, document={}, digest="") for s in sites
    )
    now, today = timezone.now(), timezone.localdate()
    states = list(Status)
    Quote.objects.bulk_create(
        Quote(
            site=site, plan=plan, status=states[n % len(states)], number_year=2024 + n % 3, number=n,
            title="Lawn and beds", issued_at=now, valid_until=today + timedelta(days=20),
            net=Decimal(4000 + n), tax=Decimal(320), total=Decimal(4320 + n),
        )
        for n, site, plan in zip(numbers, sites, plans, strict=True)
    )  # fmt: skip


def median_ms(ask: Callable[[], object]) -> float:
    ask()
    times = []
    for _ in range(TIMES):
        start = time.perf_counter()
        ask()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def measure() -> int:
    from django.db import connection
    from django.test import Client
    from django.test.utils import CaptureQueriesContext

    from office.models import Person

    clerk = Person.objects.create_user("bench@example.test", "long enough pass", name="Bench", role="office")
    client = Client()
    client.force_login(clerk, backend="allauth.account.auth_backends.AuthenticationBackend")
    make_quotes(1, FEW + 1)
    few = median_ms(lambda: client.get("/quotes/"))
    make_quotes(FEW + 1, MANY + 1)
    slow, counts = [], set()
    for name, query in CASES:
        with CaptureQueriesContext(connection) as queries:
            found = client.get(f"/quotes/{query}")
        assert found.status_code == 200
        count = len(queries)
        if name != "nothing fits":  # an empty list asks for no rows
            counts.add(count)
        took = median_ms(lambda query=query: client.get(f"/quotes/{query}"))
        slow += [name] if took >= GOAL_MS else []
        print(f"  {name:16} {took:6.1f} ms, {count} queries, {took / few:4.1f} x a list of {FEW}")
    print(f"list of {MANY} quotes on {connection.vendor}: goal {GOAL_MS:.0f} ms, {few:.1f} ms with {FEW}")
    return int(bool(slow) or len(counts) > 1)


def main() -> int:
    import django
    from django.test.utils import get_runner, setup_test_environment, teardown_test_environment

    django.setup()
    from django.conf import settings

    settings.DEBUG = False
    runner = get_runner(settings)(verbosity=0)
    setup_test_environment(debug=False)
    databases = runner.setup_databases()
    try:
        return measure()
    finally:
        runner.teardown_databases(databases)
        teardown_test_environment()


if __name__ == "__main__":
    sys.exit(main())

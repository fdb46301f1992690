"""Running things at the same moment, each in a thread with a connection of its own."""

import threading
from collections.abc import Callable, Sequence
from typing import Any

from django.db import connection


def together(jobs: Sequence[Callable[[], Any]]) -> tuple[list[Any], list[Exception]]:
    """What the jobs gave back, and what the others raised."""
    barrier = threading.Barrier(len(jobs))
    results: list[Any] = []
    errors: list[Exception] = []

    def run(job: Callable[[], Any]) -> None:
        try:
            barrier.wait(timeout=60)
            results.append(job())
        except Exception as error:
            errors.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(job,)) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=120)
    return results, errors

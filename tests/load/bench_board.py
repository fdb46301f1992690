"""What the drawing board's check takes beside the plain check of the same plan.

From the JSON body as the browser sends it to the JSON answer, for an eight-zone, 40-head plan
and for the same with its last zone cut off; medians of one run, taken in turn.
"""

import copy
import json
import statistics
import sys
import time
from collections.abc import Callable

import django

django.setup()

from design.canonical import dump_plan  # noqa: E402
from design.check import check  # noqa: E402
from design.loading import parse_object  # noqa: E402
from design.partial_check import check_document  # noqa: E402
from design.unfinished import load_unfinished  # noqa: E402
from hydraulics.limits import DEFAULT_LIMITS  # noqa: E402
from sites.board_answer import answer  # noqa: E402
from sites.board_moved import moved  # noqa: E402
from tests.load.eight_zones import PARTS, eight_zones  # noqa: E402

ROUNDS, GOAL_MS = 30, 150


def answered(body: bytes) -> str:
    """All that the address does, but for the database's two small queries."""
    sent = parse_object(body)
    found = answer(check_document(load_unfinished(sent["document"]), PARTS, DEFAULT_LIMITS), "metric")
    return json.dumps({**found, "moved": moved(sent["before"], found["figures"], "metric")})


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - start)


def main() -> int:
    plan = eight_zones()
    document = dump_plan(plan)
    cut = copy.deepcopy(document)
    cut["layout"]["pipes"] = [pipe for pipe in cut["layout"]["pipes"] if pipe["id"] != "N7"]
    figures = json.loads(answered(json.dumps({"document": document, "before": None}).encode()))["figures"]
    bodies = {
        "whole plan": json.dumps({"document": document, "before": figures}).encode(),
        "one zone cut off": json.dumps({"document": cut, "before": figures}).encode(),
    }
    plain: list[float] = []
    board: dict[str, list[float]] = {name: [] for name in bodies}
    for _ in range(ROUNDS):
        plain.append(milliseconds(lambda: check(plan, PARTS)))
        for name, body in bodies.items():
            board[name].append(milliseconds(lambda body=body: answered(body)))
    base = statistics.median(plain)
    print(f"check of 8 zones, 40 heads, with coverage: {base:.1f} ms")
    slow = False
    for name, times in board.items():
        middle = statistics.median(times)
        slow = slow or middle > GOAL_MS
        size = len(answered(bodies[name])) / 1000
        print(f"  board, {name}: {middle:.1f} ms, ratio {middle / base:.2f}, answer {size:.0f} kB")
    print(f"  goal: at most {GOAL_MS} ms")
    return int(slow)


if __name__ == "__main__":
    sys.exit(main())

"""A plan as large as one may be: nearly a thousand nodes whose throws overlap many times over."""

from typing import Any

from tests.design.plans import make_document

SIDE, GAP_M, VALVES = 30, 3.3, 45


def largest_document() -> dict[str, Any]:
    nodes: list[dict[str, Any]] = [{"id": "S", "kind": "supply", "at": [-1, 0]}]
    pipes: list[dict[str, Any]] = []

    def join(start: str, end: str) -> None:
        pipes.append({"id": f"P{len(pipes)}", "from": start, "to": end, "part": "pvc-25"})

    for valve in range(VALVES):
        nodes.append({"id": f"V{valve}", "kind": "valve", "at": [-2 - valve, -1], "part": "valve-25"})
        join("S", f"V{valve}")
    for place in range(SIDE * SIDE):
        at = [place % SIDE * GAP_M, place // SIDE * GAP_M]
        nodes.append({"id": f"H{place}", "kind": "head", "at": at, "part": "rotary-6"})
        per_zone = SIDE * SIDE // VALVES
        join(f"V{place // per_zone}" if place % per_zone == 0 else f"H{place - 1}", f"H{place}")
    end = SIDE * GAP_M
    lawn = {"id": "lawn", "outline": [[-1, -1], [end, -1], [end, end], [-1, end]]}
    gas = [{"id": f"G{n}", "kind": "gas", "path": [[-1, n], [end, n + 0.5]]} for n in range(100)]
    houses = [
        {"id": f"B{n}", "kind": "building", "outline": [[x, 1], [x + 1, 1], [x + 1, 2], [x, 2]]}
        for n in range(99) for x in (n + 0.2,)
    ]  # fmt: skip
    ground = {"areas": [lawn], "services": gas, "surfaces": houses}
    return make_document(ground=ground, layout={"nodes": nodes, "pipes": pipes})

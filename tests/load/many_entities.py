"""A plan document with as many entities as wanted: rows of heads on lawns, each row behind its valve."""

from typing import Any

from design.loading import MAX_BY_LIST, MAX_ENTRIES

COLUMNS, SPACING_M = 20, 6.0
# Nothing to take in but nodes and pipes would be the same work again and again.
GROUND_SHARE = 0.1

Document = dict[str, Any]


def many_entities(count: int) -> Document:
    """A document of ``count`` entities. Raises ValueError where a plan may not hold as many."""
    ground = _ground(max(4, int(count * GROUND_SHARE)))
    nodes, pipes = _layout(count - sum(len(entities) for entities in ground.values()))
    for name, entities in {**ground, "nodes": nodes, "pipes": pipes}.items():
        if len(entities) > MAX_BY_LIST.get(name, MAX_ENTRIES):
            raise ValueError(f"{len(entities)} {name} are more than a plan may hold.")
    return {
        "format": "plan/1",
        "ground": ground,
        "supply": {"at": [-8, 0], "static_kpa": 500, "tests": [
            {"kind": "gauge", "flow_lpm": 60, "residual_kpa": 420}]},
        "layout": {"nodes": nodes, "pipes": pipes},
    }  # fmt: skip


def _ground(count: int) -> dict[str, list[Document]]:
    """A lawn, and levels, marks, paving and services in equal shares."""
    share = (count - 1) // 4
    wide = COLUMNS * SPACING_M
    lawn = {"id": "lawn", "label": "Lawn", "outline": [[-3, -3], [wide, -3], [wide, 400], [-3, 400]]}
    spots = [(wide + 5 + 3.0 * (n % 5), 4.0 * n) for n in range(share)]
    return {
        "areas": [lawn],
        "levels": [{"at": [x, y], "z_m": 0.1} for x, y in spots],
        "marks": [{"id": f"A{n}", "at": [x - 1, y + 1]} for n, (x, y) in enumerate(spots)],
        "surfaces": [
            {"id": f"F{n}", "kind": "paving", "outline": [[x, y], [x + 2, y], [x + 2, y + 2], [x, y + 2]]}
            for n, (x, y) in enumerate(spots)
        ],
        "services": [
            {"id": f"G{n}", "kind": "electric", "path": [[x, y], [x + 2, y + 3]], "depth_m": 0.6}
            for n, (x, y) in enumerate(spots)
        ],
    }


def _layout(count: int) -> tuple[list[Document], list[Document]]:
    nodes: list[Document] = [{"id": "S", "kind": "supply", "at": [-8, 0]}]
    pipes: list[Document] = []
    row, before = 0, "S"
    while len(nodes) + len(pipes) < count:
        y, junction, upstream = row * SPACING_M, f"J{row}", f"V{row}"
        nodes += [
            {"id": junction, "kind": "junction", "at": [-8, y + 2]},
            {"id": upstream, "kind": "valve", "at": [-4, y], "part": "valve-25"},
        ]
        pipes += [
            {"id": f"M{row}", "from": before, "to": junction, "part": "pe-40"},
            {"id": f"N{row}", "from": junction, "to": upstream, "part": "pe-40"},
        ]
        before = junction
        for column in range(COLUMNS):
            if len(nodes) + len(pipes) >= count:
                break
            head = f"H{row}-{column}"
            nodes.append({"id": head, "kind": "head", "at": [column * SPACING_M, y], "part": "rotary-6",
                          "from_deg": 270, "sweep_deg": 180})  # fmt: skip
            pipes.append({"id": f"P{row}-{column}", "from": upstream, "to": head, "part": "pe-32"})
            upstream = head
        row += 1
    return nodes, pipes

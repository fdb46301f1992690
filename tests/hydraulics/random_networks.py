"""Random networks by seed, of garden size, with everything that a network may hold."""

import random

from hydraulics.network import (
    CurveLink,
    Emitter,
    Link,
    Network,
    Node,
    PipeLink,
    PowerLink,
    PressureRegulator,
    Source,
)

BORES_MM = (16.0, 20.4, 26.0, 32.6, 40.8)


def random_network(
    seed: int, loops: int, regulators: int = 0, plain: bool = False, most_nodes: int = 24
) -> Network:
    """A tree from n0 with that many more links closing loops; regulators stand on links of the tree.

    ``plain`` leaves out what other engines have no element for: other exponents, rows, held flows.
    """
    rng = random.Random(seed)
    count = rng.randint(4, most_nodes)
    nodes = [Node("n0")] + [Node(f"n{i}", rng.uniform(-3, 5)) for i in range(1, count)]
    links: list[Link] = []
    regulated = set(rng.sample(range(1, count), min(regulators, count - 1)))
    for i in range(1, count):
        before = f"n{rng.randint(max(0, i - 5), i - 1)}"
        if i in regulated:
            nodes.append(Node(f"m{i}", nodes[i].elevation_m))
            links.append(_random_link(rng, f"t{i}", before, f"m{i}"))
            links.append(PressureRegulator(f"r{i}", f"m{i}", f"n{i}", rng.uniform(60, 450)))
        else:
            links.append(_random_link(rng, f"t{i}", before, f"n{i}"))
    for number in range(loops):
        a, b = rng.sample(range(count), 2)
        links.append(PipeLink(f"x{number}", f"n{a}", f"n{b}", rng.uniform(0.3, 40), rng.choice(BORES_MM)))
    outlets = rng.sample(range(1, count), rng.randint(1, count - 1))
    emitters = tuple(_random_emitter(rng, f"h{i}", f"n{i}", plain) for i in sorted(outlets))
    source = Source("main", "n0", rng.uniform(200, 600), rng.choice([0.0, 0.02, 0.1, 0.4]))
    return Network(tuple(nodes), (source,), tuple(links), emitters)


def _random_link(rng: random.Random, name: str, a: str, b: str) -> Link:
    kind = rng.choice(["pipe"] * 7 + ["curve", "square", "check"])
    if kind == "curve":
        first = rng.uniform(0.2, 40)
        rows = ((rng.uniform(5, 20), first), (rng.uniform(25, 60), first + rng.uniform(0.2, 40)))
        return CurveLink(name, a, b, rows)
    if kind == "square":
        return PowerLink(name, a, b, rng.uniform(0.001, 0.05), 2.0)
    ends = (a, b) if kind == "check" or rng.random() < 0.5 else (b, a)
    minor = rng.choice([0.0, 0.5, 4.0])
    return PipeLink(name, *ends, rng.uniform(0.3, 40), rng.choice(BORES_MM), 150.0, minor, kind == "check")


def _random_emitter(rng: random.Random, name: str, node: str, plain: bool) -> Emitter:
    if plain:
        return Emitter(name, node, rng.uniform(0.5, 15) / 250**0.5)
    exponent = rng.choice([0.5, 0.5, 0.5, 0.42, 0.6, 0.1, 1.0])
    flow = rng.uniform(0.5, 15)
    rows = ()
    if rng.random() < 0.15:
        rows = ((0.7 * flow, 130.0), (flow, 250.0), (1.1 * flow, 380.0))
    regulated = rng.choice([None, None, 100.0, 210.0])
    return Emitter(name, node, flow / 250**exponent, exponent, regulated, rows)

"""Networks that several tests solve."""

from hypothesis import strategies as st

from hydraulics.network import CurveLink, Emitter, Link, Network, Node, PipeLink, PowerLink, Source
from hydraulics.units import KPA_PER_M

LOOPED_LEVELS_M = {"R": 0, "A": 0, "B": 0.5, "C": 1, "D": 0.2, "E": 0.7, "F": 1.2}
_LOOPED_PIPES = [
    ("R", "A", 20, 40.8), ("A", "B", 15, 32.6), ("B", "C", 15, 26), ("A", "D", 12, 32.6),
    ("B", "E", 12, 26), ("C", "F", 12, 26), ("D", "E", 15, 26), ("E", "F", 15, 26),
]  # fmt: skip


def looped_network() -> Network:
    """Reservoir of 35 m, two loops, five emitters of 0.05 L/s at 1 m, C 150."""
    coefficient = 0.05 * 60 / KPA_PER_M**0.5
    return Network(
        nodes=tuple(Node(name, level) for name, level in LOOPED_LEVELS_M.items()),
        sources=(Source("S", "R", 35 * KPA_PER_M),),
        links=tuple(PipeLink(f"{a}-{b}", a, b, length, bore) for a, b, length, bore in _LOOPED_PIPES),
        emitters=tuple(Emitter(f"out-{node}", node, coefficient) for node in "BCDEF"),
    )


@st.composite
def networks(draw: st.DrawFn, plain: bool = False, most_nodes: int = 14) -> Network:
    """A tree of pipes with a few loops, levels, outlets and, unless ``plain``, valves and regulators.

    Sizes are those of gardens, so that EPANET solves them as well.
    """
    count = draw(st.integers(2, most_nodes))
    level = st.floats(-3, 5)
    nodes = [Node("n0", 0.0)] + [Node(f"n{i}", draw(level)) for i in range(1, count)]
    links: list[Link] = []
    for i in range(1, count):
        links.append(_link(draw, f"t{i}", f"n{draw(st.integers(0, i - 1))}", f"n{i}", plain))
    for number in range(draw(st.integers(0, 3))):
        a, b = draw(st.integers(0, count - 1)), draw(st.integers(0, count - 1))
        if a != b:
            links.append(_link(draw, f"x{number}", f"n{a}", f"n{b}", plain=True))
    outlets = draw(st.sets(st.integers(1, count - 1), min_size=1))
    emitters = tuple(_emitter(draw, f"h{i}", f"n{i}", plain) for i in sorted(outlets))
    loss = draw(st.sampled_from([0.0, 0.02, 0.1, 0.4]))
    source = Source("main", "n0", draw(st.floats(150, 600)), loss)
    return Network(tuple(nodes), (source,), tuple(links), emitters)


def _link(draw: st.DrawFn, name: str, a: str, b: str, plain: bool) -> Link:
    ends = (a, b) if draw(st.booleans()) else (b, a)
    kind = "pipe" if plain else draw(st.sampled_from(["pipe"] * 6 + ["curve", "square"]))
    if kind == "curve":
        step = st.floats(0.2, 40)
        flows = (draw(st.floats(5, 20)), draw(st.floats(25, 60)))
        first = draw(step)
        return CurveLink(name, *ends, ((flows[0], first), (flows[1], first + draw(step))))
    if kind == "square":
        return PowerLink(name, *ends, draw(st.floats(0.001, 0.05)), 2.0)
    bore = draw(st.sampled_from([16.0, 20.4, 26.0, 32.6, 40.8]))
    return PipeLink(
        name, *ends, draw(st.floats(0.3, 40)), bore, 150.0, draw(st.sampled_from([0.0, 0.5, 4.0]))
    )


def _emitter(draw: st.DrawFn, name: str, node: str, plain: bool) -> Emitter:
    exponent = 0.5 if plain else draw(st.sampled_from([0.5, 0.5, 0.5, 0.42, 0.6]))
    regulated = None if plain else draw(st.sampled_from([None, None, 100.0, 210.0]))
    flow_at_250 = draw(st.floats(0.5, 15))
    return Emitter(name, node, flow_at_250 / 250**exponent, exponent, regulated)

"""Networks that several tests solve."""

from hydraulics.network import Emitter, Network, Node, PipeLink, Source
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

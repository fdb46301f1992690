"""Random branched and looped networks by seed against EPANET 2.3 (owa-epanet): 0.1 %."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from hydraulics.inp import to_inp
from hydraulics.network import Network, Solution
from hydraulics.solver import solve
from hydraulics.units import KPA_PER_M
from tests.hydraulics.engine import EngineStuck, run_engine
from tests.hydraulics.random_networks import random_network

SHARE = 1e-3
# a hundredth of a litre per minute and a centimetre of water: what no gauge tells
LEAST_LPM, LEAST_M = 0.01, 0.01
SEEDS = range(120)


def differences(network: Network, folder: Path) -> list[tuple[str, float, float]]:
    """What differs by more than 0.1 %: name, ours, the engine's. Raises EngineStuck."""
    ours, engine = solve(network), run_engine(to_inp(network), folder)
    moving = nodes_with_flow(network, ours)
    pairs = [
        (node, ours.node_kpa[node] / KPA_PER_M, m, LEAST_M)
        for node, m in engine["node_m"].items()
        if node in moving
    ]
    pairs += [(link, ours.link_lpm[link], q, LEAST_LPM) for link, q in engine["link_lpm"].items()]
    pairs += [(head, ours.emitter_lpm[head], q, LEAST_LPM) for head, q in engine["emitter_lpm"].items()]
    return [
        (name, mine, theirs)
        for name, mine, theirs, least in pairs
        if mine != pytest.approx(theirs, rel=SHARE, abs=least)
    ]


def nodes_with_flow(network: Network, found: Solution) -> set[str]:
    """Between a shut check valve and a closed regulator any pressure is right."""
    fixed = {source.node for source in network.sources if source.loss_coefficient == 0}
    ends = {
        end
        for link in network.links
        if abs(found.link_lpm[link.id]) > LEAST_LPM
        for end in (link.start, link.end)
    }
    return ends - fixed


def compared(loops: int, regulators: int, seeds: range) -> int:
    """How many networks EPANET could solve; all of those must agree."""
    count, apart = 0, {}
    with TemporaryDirectory() as folder:
        for seed in seeds:
            network = random_network(seed, loops, regulators, plain=True)
            try:
                found = differences(network, Path(folder))
            except EngineStuck:
                continue
            count += 1
            if found:
                apart[seed] = found
    assert not apart
    return count


@pytest.mark.parametrize(
    ("loops", "least"),
    # some random networks are beyond EPANET; each number of loops must leave a hundred
    [(0, 100), (1, 100), (3, 100)],
)
def test_three_hundred_random_networks(loops, least):
    assert compared(loops, 0, SEEDS) >= least


def test_random_networks_with_a_pressure_regulator():
    assert compared(0, 1, SEEDS) >= 80

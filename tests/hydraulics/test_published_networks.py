"""Published example networks against EPANET 2.3 (owa-epanet): 0.1 %.

Net1, Net2 and Net3 are EPANET's own examples; Net6, ky4 and ky10 (Kentucky systems) and the
six-node network of Todini (2000) come with the wntr package, which ships them all. What was
replaced by its solved state in each is in ``published_networks``.
"""

import pytest

from hydraulics.solver import solve
from hydraulics.units import KPA_PER_M
from tests.hydraulics.published_networks import LOWER_M, read_published

SHARE = 1e-3
# near rest both solvers straighten the law of a pipe, each in its own way
LEAST_SHARE_OF_LARGEST = 2e-5

# file, nodes that are solved, pressure regulators that hold
NETWORKS = [
    ("Net1", 11, 0), ("Net2", 36, 0), ("Net3", 97, 0), ("Net6", 3356, 1), ("ky4", 964, 0),
    ("ky10", 933, 3), ("skeletonize", 35, 0), ("Todini_Fig2_optCost_CMH", 7, 0),
    ("Todini_Fig2_solA_CMH", 7, 0),
]  # fmt: skip


@pytest.mark.parametrize(("name", "nodes", "holding"), NETWORKS)
def test_pressures_and_flows_are_epanets(name, nodes, holding, tmp_path):
    published = read_published(name, tmp_path)
    found = solve(published.network())
    assert len(found.node_kpa) == nodes
    assert list(found.regulators.values()) == ["active"] * holding
    for node, kpa in found.node_kpa.items():
        metres = published.node_m[node] - LOWER_M
        assert kpa / KPA_PER_M - LOWER_M == pytest.approx(metres, rel=SHARE, abs=0.01), node
    least = LEAST_SHARE_OF_LARGEST * max(map(abs, published.link_lpm.values()))
    for link, flow in found.link_lpm.items():
        assert flow == pytest.approx(published.link_lpm[link], rel=SHARE, abs=least), link


# Net1 at time zero, psi at the nodes, worked out with EPANET
NET1_PSI = {
    "10": 127.5407, "11": 119.2573, "12": 117.0213, "13": 118.6690, "21": 117.6612, "22": 118.7582,
    "23": 120.7370, "31": 115.8608, "32": 110.7902,
}  # fmt: skip


def test_net1_in_psi(tmp_path):
    found = solve(read_published("Net1", tmp_path).network())
    for node, psi in NET1_PSI.items():
        feet = (found.node_kpa[node] / KPA_PER_M - LOWER_M) / 0.3048
        # EPANET has 0.4333 psi per foot
        assert feet * 0.4333 == pytest.approx(psi, rel=1e-4)

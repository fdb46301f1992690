import dataclasses

import numpy as np
import pytest

from hydraulics.errors import NetworkError
from hydraulics.network import Case, Network, Node, PipeLink
from hydraulics.solver import ALL_OPEN, solve
from hydraulics.whatif import Variants, solve_variants
from tests.hydraulics.networks import looped_network
from tests.hydraulics.test_inp_against_epanet import branched_network

RUNS = 25


def varied(network: Network, seed: int) -> Variants:
    """Every figure moved at random; seed given so that a failure comes back."""
    rng = np.random.default_rng(seed)
    return Variants(
        static_kpa=rng.uniform(-120, 80, RUNS),
        loss_factor=rng.uniform(0.5, 2, RUNS),
        pipe_factor=rng.uniform(0.8, 1.3, RUNS),
        raise_m=rng.uniform(-2, 2, (RUNS, len(network.nodes))),
        emitter_factor=rng.uniform(0.7, 1.4, (RUNS, len(network.emitters))),
    )


def one_run(network: Network, variants: Variants, run: int) -> Network:
    """The same change made by hand on the plain data; pipes by their length."""
    v = variants
    nodes = tuple(Node(n.id, n.elevation_m + v.raise_m[run, i]) for i, n in enumerate(network.nodes))
    sources = tuple(
        dataclasses.replace(
            s,
            static_kpa=s.static_kpa + v.static_kpa[run],
            loss_coefficient=s.loss_coefficient * v.loss_factor[run],
        )
        for s in network.sources
    )
    links = tuple(
        dataclasses.replace(link, length_m=link.length_m * v.pipe_factor[run])
        if isinstance(link, PipeLink)
        else link
        for link in network.links
    )
    emitters = tuple(
        dataclasses.replace(e, coefficient=e.coefficient * v.emitter_factor[run, i])
        for i, e in enumerate(network.emitters)
    )
    return Network(nodes, sources, links, emitters)


@pytest.mark.parametrize("network", [looped_network(), branched_network()])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_every_run_is_the_case_solved_by_itself(network, seed):
    variants = varied(network, seed)
    results = solve_variants(network, ALL_OPEN, variants)
    assert results.node_kpa.shape == (RUNS, len(results.nodes))
    for run in range(RUNS):
        alone = solve(one_run(network, variants, run))
        assert dict(zip(results.nodes, results.node_kpa[run], strict=True)) == pytest.approx(
            alone.node_kpa, abs=1e-4
        )
        assert dict(zip(results.emitters, results.emitter_lpm[run], strict=True)) == pytest.approx(
            alone.emitter_lpm, abs=1e-4
        )


def test_a_shut_zone_stays_out():
    network = branched_network()
    results = solve_variants(
        network, Case("x", frozenset({"V2~valve"})), Variants(static_kpa=np.array([-50.0, 0.0]))
    )
    assert "D1" not in results.emitters
    assert results.node_kpa[0, results.nodes.index("H1")] < results.node_kpa[1, results.nodes.index("H1")]


@pytest.mark.parametrize("variants", [Variants(), Variants(static_kpa=np.zeros(2), loss_factor=np.ones(3))])
def test_figures_that_do_not_fit_are_refused(variants):
    with pytest.raises(NetworkError, match="same number of runs"):
        solve_variants(looped_network(), ALL_OPEN, variants)

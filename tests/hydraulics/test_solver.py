import pytest

from hydraulics.errors import DisconnectedNodes, NetworkError, SolverStuck
from hydraulics.friction import hazen_williams_kpa
from hydraulics.network import (
    Case,
    CurveLink,
    Emitter,
    Network,
    Node,
    PipeLink,
    PowerLink,
    Source,
)
from hydraulics.solver import solve, solve_cases
from hydraulics.units import KPA_PER_M
from tests.hydraulics.networks import LOOPED_LEVELS_M, looped_network

# computed with EPANET 2.3 and with an independent solve: heads in m, flows in L/s
LOOPED_HEADS_M = {
    "A": 34.365195, "B": 33.887310, "C": 33.630916, "D": 34.111967, "E": 33.802778, "F": 33.628417,
}  # fmt: skip
LOOPED_FLOWS_LPS = {
    "R-A": 1.438101, "A-B": 0.798691, "B-C": 0.314753, "A-D": 0.639410,
    "B-E": 0.195029, "C-F": 0.029136, "D-E": 0.348240, "E-F": 0.255594,
}  # fmt: skip


def line(*links, emitters=(), levels=None, static_kpa=400.0, loss=0.0):
    """Nodes S, a, b, ... in a row along the links."""
    names = list(dict.fromkeys(name for link in links for name in (link.start, link.end)))
    nodes = tuple(Node(name, (levels or {}).get(name, 0.0)) for name in names)
    return Network(nodes, (Source("main", "S", static_kpa, loss),), links, tuple(emitters))


def test_looped_network_with_emitters():
    found = solve(looped_network())
    for node, head in LOOPED_HEADS_M.items():
        assert found.node_kpa[node] / KPA_PER_M + LOOPED_LEVELS_M[node] == pytest.approx(head, abs=2e-6)
    for pipe, flow in LOOPED_FLOWS_LPS.items():
        assert found.link_lpm[pipe] / 60 == pytest.approx(flow, abs=1e-6)
    assert found.source_lpm["S"] / 60 == pytest.approx(1.438101, abs=1e-6)


# E. Maurer, "hydraulics" vignette section 7 (Hardy Cross, three loops): K of h = K Q2 in m and
# m3/s, first and last node by the loops that the pipe closes, and the flow fully converged
MAURER_PIPES = {
    1: (159.7828, 0.03823), 2: (535.9666, 0.03823), 3: (669.9582, 0.02315), 4: (669.9582, -0.02565),
    5: (535.9666, -0.04177), 6: (2430.5356, 0.00880), 7: (207.7883, 0.00387), 8: (2430.5356, -0.01613),
    9: (2430.5356, 0.01508), 10: (207.7883, -0.00492),
}  # fmt: skip
MAURER_ENDS = {
    1: ("n1", "n2"), 2: ("n2", "n3"), 3: ("n3", "n4"), 4: ("n4", "n5"), 5: ("n5", "n1"),
    6: ("n4", "n6"), 7: ("n6", "n7"), 8: ("n7", "n5"), 9: ("n3", "n8"), 10: ("n8", "n6"),
}  # fmt: skip


# by the example's first guess: 0.08 m3/s enter at n1, and leave here
MAURER_DRAWS_M3S = {"n4": 0.04, "n7": 0.02, "n8": 0.02}


def test_three_loops_of_the_hardy_cross_example():
    per_lpm2 = KPA_PER_M / 60000**2
    links = tuple(PowerLink(str(i), *MAURER_ENDS[i], k * per_lpm2, 2.0) for i, (k, _) in MAURER_PIPES.items())
    nodes = tuple(Node(f"n{i}") for i in range(1, 9))
    # a regulator far below the node's pressure holds the draw
    draws = tuple(Emitter(f"draw-{n}", n, q * 60000, 0.5, 1.0) for n, q in MAURER_DRAWS_M3S.items())
    found = solve(Network(nodes, (Source("in", "n1", 300.0),), links, draws))
    for number, (_, flow) in MAURER_PIPES.items():
        assert found.link_lpm[str(number)] / 60000 == pytest.approx(flow, abs=6e-6)


def test_one_pipe_to_one_outlet_by_hand():
    found = solve(line(PipeLink("p", "S", "a", 30, 26.0), emitters=[Emitter("e", "a", 2.0)]))
    flow, pressure = found.emitter_lpm["e"], found.node_kpa["a"]
    assert flow == pytest.approx(2.0 * pressure**0.5, rel=1e-9)
    assert 400 - pressure == pytest.approx(hazen_williams_kpa(flow, 30, 26.0, 150), rel=1e-9)


def test_the_supply_curve_drops_the_pressure_at_its_node():
    found = solve(line(PipeLink("p", "S", "a", 1, 26.0), emitters=[Emitter("e", "a", 2.0)], loss=0.1))
    assert found.node_kpa["S"] == pytest.approx(400 - 0.1 * found.source_lpm["main"] ** 1.852, rel=1e-9)
    assert found.source_lpm["main"] == pytest.approx(found.emitter_lpm["e"])


def test_a_loss_curve_is_straight_between_its_rows_and_beyond():
    valve = CurveLink("v", "S", "a", ((20, 10), (40, 30)))
    for coefficient in (0.5, 1.5, 3.0):
        found = solve(line(valve, emitters=[Emitter("e", "a", coefficient)]))
        flow = found.link_lpm["v"]
        by_hand = flow * 0.5 if flow <= 20 else 10 + (flow - 20)
        assert found.link_loss_kpa["v"] == pytest.approx(by_hand, rel=1e-6)
        assert found.node_kpa["a"] == pytest.approx(400 - by_hand, rel=1e-6)


def test_a_level_loss_curve_still_solves():
    found = solve(line(CurveLink("v", "S", "a", ((5, 80), (60, 80))), emitters=[Emitter("e", "a", 1.0)]))
    assert found.node_kpa["a"] == pytest.approx(320, abs=1e-4)


def test_a_regulated_outlet_holds_its_flow():
    held = Emitter("e", "a", 2.0, 0.5, 200.0)
    for static in (250, 400, 900):
        found = solve(line(PipeLink("p", "S", "a", 30, 26.0), emitters=[held], static_kpa=static))
        assert found.emitter_lpm["e"] == pytest.approx(2.0 * 200**0.5)
    found = solve(line(PipeLink("p", "S", "a", 30, 26.0), emitters=[held], static_kpa=150))
    assert found.emitter_lpm["e"] == pytest.approx(2.0 * found.node_kpa["a"] ** 0.5)


def test_an_outlet_above_the_head_of_water_gives_nothing_and_takes_nothing():
    net = line(
        PipeLink("p", "S", "a", 30, 26.0), PipeLink("q", "a", "b", 30, 26.0),
        emitters=[Emitter("low", "a", 2.0), Emitter("high", "b", 2.0)], levels={"b": 60}, static_kpa=400,
    )  # fmt: skip
    found = solve(net)
    assert found.emitter_lpm["high"] == 0.0
    assert found.node_kpa["b"] < 0 < found.node_kpa["a"]
    assert found.link_lpm["q"] == pytest.approx(0, abs=1e-5)


def test_each_case_runs_alone_and_a_shut_zone_is_left_out():
    net = line(
        PipeLink("main", "S", "m", 10, 32.0),
        CurveLink("v1", "m", "z1", ((30, 20),)), CurveLink("v2", "m", "z2", ((30, 20),)),
        emitters=[Emitter("h1", "z1", 1.0), Emitter("h2", "z2", 2.0)],
    )  # fmt: skip
    one, two, both = solve_cases(
        net, (Case("one", frozenset({"v2"})), Case("two", frozenset({"v1"})), Case("both"))
    )
    assert set(one.emitter_lpm) == {"h1"}
    assert "z2" not in one.node_kpa
    assert set(two.emitter_lpm) == {"h2"}
    assert both.link_lpm["main"] == pytest.approx(both.emitter_lpm["h1"] + both.emitter_lpm["h2"])
    assert solve(net, Case("one", frozenset({"v2"}))).node_kpa == pytest.approx(one.node_kpa)


def test_a_dead_end_has_the_pressure_of_where_it_hangs():
    net = line(
        PipeLink("p", "S", "a", 30, 26.0), PipeLink("q", "a", "b", 30, 26.0),
        PipeLink("r", "b", "c", 5, 26.0),
        emitters=[Emitter("e", "a", 2.0)], levels={"c": 2.0},
    )  # fmt: skip
    found = solve(net)
    assert found.node_kpa["b"] == pytest.approx(found.node_kpa["a"])
    assert found.node_kpa["c"] == pytest.approx(found.node_kpa["a"] - 2 * KPA_PER_M)
    assert found.link_lpm["r"] == 0.0


def test_nothing_open_leaves_the_static_pressure():
    net = line(PipeLink("p", "S", "a", 30, 26.0), emitters=[Emitter("e", "a", 2.0)], loss=0.1)
    found = solve(net, Case("shut", frozenset({"e"})))
    assert found.node_kpa == pytest.approx({"S": 400, "a": 400})
    assert found.source_lpm == {"main": 0.0}


def test_two_supplies_share():
    net = Network(
        (Node("S"), Node("T"), Node("a")),
        (Source("s", "S", 400, 0.1), Source("t", "T", 380)),
        (PipeLink("p", "S", "a", 30, 26.0), PipeLink("q", "T", "a", 30, 26.0)),
        (Emitter("e", "a", 3.0),),
    )
    found = solve(net)
    assert found.source_lpm["s"] + found.source_lpm["t"] == pytest.approx(found.emitter_lpm["e"])


def test_a_case_that_shuts_what_is_not_there_is_refused():
    with pytest.raises(NetworkError, match="shuts “v9”"):
        solve(line(PipeLink("p", "S", "a", 30, 26.0)), Case("x", frozenset({"v9"})))


def test_nodes_that_nothing_reaches_are_named():
    net = line(PipeLink("p", "S", "a", 30, 26.0))
    net = Network((*net.nodes, Node("lone"), Node("lost")), net.sources, net.links)
    with pytest.raises(DisconnectedNodes, match="lone, lost"):
        solve(net)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"sources": ()}, "no supply"),
        ({"links": (PipeLink("p", "S", "x", 1, 26),)}, "node “x”, which does not exist"),
        ({"links": (PipeLink("p", "S", "S", 1, 26),)}, "same node"),
        ({"links": (PipeLink("p", "S", "a", 0, 26),)}, "above zero"),
        ({"links": (PipeLink("p", "S", "a", 1, float("nan")),)}, "above zero"),
        ({"links": (CurveLink("p", "S", "a", ((20, 10), (10, 20))),)}, "must rise"),
        ({"links": (CurveLink("p", "S", "a", ()),)}, "must rise"),
        ({"links": (PowerLink("p", "S", "a", 1.0, 0.5),)}, "exponent of 1"),
        ({"links": (PipeLink("p", "S", "a", 1, 26), PipeLink("p", "S", "a", 1, 26))}, "used twice"),
        ({"nodes": (Node("S"), Node("a"), Node("a"))}, "used twice"),
        ({"emitters": (Emitter("e", "x", 1.0),)}, "“e” sits on node “x”"),
        ({"emitters": (Emitter("e", "a", 0.0),)}, "coefficient above zero"),
        ({"sources": (Source("s", "S", float("inf")),)}, "static pressure"),
        ({"nodes": (Node("S"), Node("a", float("nan")))}, "needs a level"),
    ],
)
def test_bad_networks_are_refused_by_name(changes, says):
    parts = {
        "nodes": (Node("S"), Node("a")), "sources": (Source("s", "S", 400),),
        "links": (PipeLink("p", "S", "a", 1, 26),), "emitters": (),
    } | changes  # fmt: skip
    with pytest.raises(NetworkError, match=says):
        solve(Network(**parts))


def test_figures_beyond_all_reason_end_in_a_sentence_that_names_a_place():
    absurd = line(
        PowerLink("p", "S", "a", 1e300, 9.0), CurveLink("v", "a", "b", ((1e-9, 1e200),)),
        emitters=[Emitter("e", "b", 1e-9, 0.05)],
    )  # fmt: skip
    with pytest.raises(SolverStuck, match="did not settle near"):
        solve(absurd)


def test_five_thousand_nodes_are_solved():
    """A comb of 50 mains of 100 nodes; beyond a few hundred unknowns the matrix is sparse."""
    names = ["S", *(f"n{i}" for i in range(5000))]
    links = tuple(
        PipeLink(f"p{i}", "S" if i % 100 == 0 else f"n{i - 1}", f"n{i}", 2.0, 100.0) for i in range(5000)
    )
    outlets = tuple(Emitter(f"e{i}", f"n{i}", 0.05) for i in range(9, 5000, 10))
    network = Network(tuple(map(Node, names)), (Source("main", "S", 400.0),), links, outlets)
    found = solve(network)
    assert len(found.node_kpa) == 5001
    assert found.source_lpm["main"] == pytest.approx(sum(found.emitter_lpm.values()))
    # all mains are alike, and small ones are solved by the dense matrix
    one = Network(tuple(map(Node, names[:101])), network.sources, links[:100], outlets[:10])
    assert found.node_kpa["n4999"] == pytest.approx(solve(one).node_kpa["n99"], rel=1e-9)

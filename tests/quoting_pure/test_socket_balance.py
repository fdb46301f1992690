"""Every pipe end meets exactly one socket, and every threaded outlet one device.

The ends are counted here from the drawing alone: two per pipe, two more per sharp bend and per
coupling, none where two pipes of one part run on straight. Rule of the trade: common practice,
no source; the balance itself is arithmetic.
"""

import math
from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from design.document import Plan
from hydraulics.catalogue import Catalogue, FittingPart, PipePart, Socket
from quoting.takeoff import TakeOff, TakeoffSettings, take_off
from quoting.takeoff.fittings import FitOut, fit_out
from quoting.takeoff.graph import LayoutGraph
from tests.quoting_pure.builders import load_book, make_plan, make_report

DEMO = load_book()
SOLVENT_SIZES = ("25", "32", "40", "50")
GENTLE = [
    FittingPart(
        code=f"elbow-22-{joint}-{size}",
        label=f"Elbow 22½° {joint} {size}",
        role="elbow_22",
        sockets=(Socket(joint=joint, size=size), Socket(joint=joint, size=size)),
    )
    for joint in ("solvent", "compression")
    for size in SOLVENT_SIZES
]
BOOK = Catalogue([*DEMO.values(), *GENTLE])
STRAIGHT_DEG = 10


def turn_deg(before: Any, here: Any, after: Any) -> float:
    one = math.atan2(here[1] - before[1], here[0] - before[0])
    two = math.atan2(after[1] - here[1], after[0] - here[0])
    return abs(math.degrees((two - one + math.pi) % (2 * math.pi) - math.pi))


def path_of(plan: Plan, pipe: Any) -> list[Any]:
    at = {node.id: node.at for node in plan.layout.nodes}
    return [at[pipe.from_], *pipe.via, at[pipe.to]]


def straight_on(plan: Plan, node: Any) -> bool:
    """A junction of two pipes of one part, in line: the pipe is not cut there."""
    pipes = [pipe for pipe in plan.layout.pipes if node.id in (pipe.from_, pipe.to)]
    if node.kind != "junction" or len(pipes) != 2 or pipes[0].part != pipes[1].part:
        return False
    ways = []
    for pipe in pipes:
        path = path_of(plan, pipe)
        ways.append(path if pipe.from_ == node.id else path[::-1])
    return turn_deg(ways[0][1], ways[0][0], ways[1][1]) < STRAIGHT_DEG


def ends_from_the_drawing(plan: Plan, sizes: dict[str, tuple[str, str]]) -> Counter[tuple[str, str]]:
    ends: Counter[tuple[str, str]] = Counter()
    for pipe in plan.layout.pipes:
        path = path_of(plan, pipe)
        sharp = [t for t in zip(path, path[1:], path[2:], strict=False) if turn_deg(*t) >= STRAIGHT_DEG]
        # two elbows where the pipe turns by more than 100 degrees: their nipple is counted apart
        ends[sizes[pipe.part]] += 2 + 2 * len(sharp)
    for node in plan.layout.nodes:
        if straight_on(plan, node):
            part = next(p.part for p in plan.layout.pipes if node.id in (p.from_, p.to))
            ends[sizes[part]] -= 2
    return ends


def sockets_bought(takeoff: TakeOff) -> Counter[tuple[str, str]]:
    found: Counter[tuple[str, str]] = Counter()
    for quantity in takeoff.quantities:
        part = BOOK.get(quantity.part or "")
        if isinstance(part, FittingPart) and part.role != "swing_joint":
            for socket in part.sockets:
                found[socket.joint, socket.size] += int(quantity.net)
    return found


def pieces_of(plan: Plan, takeoff: TakeOff, out: FitOut) -> Counter[tuple[str, str]]:
    """Ends of short pieces, of sticks joined by couplings, and of a main cut for its valve."""
    ends: Counter[tuple[str, str]] = Counter()
    for code, _ in out.nipples:
        pipe = BOOK.need(code, PipePart)
        ends[pipe.joint, pipe.size] += 2
    for quantity in takeoff.of("coupling"):
        coupling = BOOK.need(quantity.part or "", FittingPart)
        ends[coupling.sockets[0].joint, coupling.sockets[0].size] += 2 * int(quantity.net)
    for pipe_id in isolated_pipes(plan, takeoff):
        part = next(p.part for p in plan.layout.pipes if p.id == pipe_id)
        pipe = BOOK.need(part, PipePart)
        ends[pipe.joint, pipe.size] += 2
    return ends


def isolated_pipes(plan: Plan, takeoff: TakeOff) -> list[str]:
    """The pipe of the main that arrives at the valve of each isolated group."""
    feeding = {pipe.to: pipe.id for pipe in plan.layout.pipes if pipe.part == MAIN}
    return [feeding[place] for q in takeoff.of("isolation_valve") for place in q.where]


MAIN = "pvc-40"
LATERALS = ("pvc-25", "pvc-32")


@st.composite
def plans(draw: Any, lateral_parts: tuple[str, ...] = LATERALS, loops: bool = True) -> Plan:
    """A supply, a valve, and behind it a random tree of heads and junctions, with loops at will."""
    count = draw(st.integers(2, 9))
    spots = draw(
        st.lists(
            st.tuples(st.integers(1, 12), st.integers(-12, 12)), min_size=count, max_size=count, unique=True
        )
    )
    nodes: list[dict[str, Any]] = [
        {"id": "S", "kind": "supply", "at": [-20, 0]},
        {"id": "V", "kind": "valve", "at": [-10, 0], "part": "valve-25"},
    ]
    pipes: list[dict[str, Any]] = [{"id": "M", "from": "S", "to": "V", "part": MAIN}]
    names = ["V"]
    for index, (x, y) in enumerate(spots):
        kind = draw(st.sampled_from(["head", "junction"]))
        node = {"id": f"N{index}", "kind": kind, "at": [3 * x, 3 * y]}
        nodes.append({**node, "part": "rotor-9"} if kind == "head" else node)
        parent = "V" if index == 0 else draw(st.sampled_from(names[1:]))
        names.append(node["id"])
        pipes.append(draw(pipe_between(parent, node["id"], lateral_parts)))
    extra = draw(st.integers(0, 2)) if loops else 0
    pairs = [(a, b) for i, a in enumerate(names[1:]) for b in names[i + 2 :] if not joined(pipes, a, b)]
    for a, b in draw(st.permutations(pairs))[:extra]:
        pipes.append(draw(pipe_between(a, b, lateral_parts)))
    for number, pipe in enumerate(pipes):
        pipe["id"] = f"P{number}"
    return make_plan(nodes=nodes, pipes=pipes)


@st.composite
def pipe_between(draw: Any, start: str, end: str, parts: tuple[str, ...]) -> dict[str, Any]:
    bend = st.tuples(st.integers(100, 140), st.integers(-40, 40)).map(list)
    via = draw(st.lists(bend, max_size=2, unique_by=tuple))
    return {"id": "", "from": start, "to": end, "part": draw(st.sampled_from(parts)), "via": via}


def joined(pipes: list[dict[str, Any]], a: str, b: str) -> bool:
    return any({pipe["from"], pipe["to"]} == {a, b} for pipe in pipes)


def taken_off(plan: Plan, **changes: Any) -> tuple[TakeOff, FitOut]:
    report = make_report(plan)
    choices = TakeoffSettings(**changes)
    return take_off(plan, report, BOOK, choices), fit_out(LayoutGraph(plan, report, BOOK), choices)


@settings(max_examples=80, deadline=None)
@given(plans())
def test_every_pipe_end_meets_one_socket(plan: Plan) -> None:
    takeoff, out = taken_off(plan)
    assert takeoff.missing == ()
    sizes = {
        code: (BOOK.need(code, PipePart).joint, BOOK.need(code, PipePart).size) for code in (MAIN, *LATERALS)
    }
    sockets = sockets_bought(takeoff)
    spigots = Counter({("solvent", size): n for (joint, size), n in sockets.items() if joint == "spigot"})
    ends = ends_from_the_drawing(plan, sizes) + pieces_of(plan, takeoff, out) + spigots
    pipes_only = Counter({opening: n for opening, n in sockets.items() if opening[0] == "solvent"})
    assert pipes_only == +ends


@settings(max_examples=60, deadline=None)
@given(plans())
def test_every_thread_meets_one_device(plan: Plan) -> None:
    takeoff, _ = taken_off(plan)
    threads = {size: n for (joint, size), n in sockets_bought(takeoff).items() if joint == "thread"}
    heads = int(takeoff.net("head"))
    # two at the valve of 25; one at the connection and two at the isolation valve, both of the main's 40
    expected = {"20": heads, "25": 2, "40": 3}
    assert threads == {size: n for size, n in expected.items() if n}


@settings(max_examples=60, deadline=None)
@given(plans(lateral_parts=("pvc-25",)))
def test_tees_follow_from_the_number_of_ports(plan: Plan) -> None:
    """A place with n pipe ends and head outlets takes n - 2 tees, whatever their angles."""
    takeoff, _ = taken_off(plan)
    ports = Counter(end for pipe in plan.layout.pipes for end in (pipe.from_, pipe.to))
    behind = [node for node in plan.layout.nodes if node.kind in ("head", "junction")]
    expected = sum(max(0, ports[node.id] + (node.kind == "head") - 2) for node in behind)
    assert takeoff.net("tee", "threaded_tee") == expected
    leaves = [node.kind for node in behind if ports[node.id] == 1]
    assert takeoff.net("cap") == leaves.count("junction")
    assert takeoff.net("threaded_elbow") == leaves.count("head")


@settings(max_examples=60, deadline=None)
@given(plans(lateral_parts=("pe-insert-25", "pvc-25", "pe-32")))
def test_unlike_joints_balance_too_and_nothing_is_dropped(plan: Plan) -> None:
    """Each pipe end is met even where materials change; what the book lacks is on the list."""
    report = make_report(plan)
    graph = LayoutGraph(plan, report, BOOK)
    choices = TakeoffSettings(coil_bend_deg=0)
    out = fit_out(graph, choices)
    openings = Counter(o for fitted in out.fitted for o in fitted.placed.openings if o[0] != "thread")
    parts = {code: BOOK.need(code, PipePart) for code in (MAIN, "pe-insert-25", "pvc-25", "pe-32")}
    sizes = {code: (part.joint, part.size) for code, part in parts.items()}
    ends = ends_from_the_drawing(plan, sizes)
    for code, _ in out.nipples:
        ends[sizes[code]] += 2
    for (joint, size), count in list(openings.items()):
        if joint == "spigot":
            ends["solvent", size] += count
            del openings[joint, size]
    assert openings == +ends
    takeoff = take_off(plan, report, BOOK, choices)
    listed = {q.role for q in takeoff.missing}
    assert {f.placed.role for f in out.fitted if f.placed.part is None} <= listed


@settings(max_examples=40, deadline=None)
@given(plans(loops=False))
def test_couplings_join_the_sticks_of_each_straight_run(plan: Plan) -> None:
    takeoff, _ = taken_off(plan)
    stick = 6.0
    runs = []
    for pipe in plan.layout.pipes:
        path = path_of(plan, pipe)
        lengths = [0.0]
        for before, here in pairwise(path):
            lengths[-1] += math.dist(before, here)
            after = path[path.index(here) + 1] if here is not path[-1] else None
            if after is not None and turn_deg(before, here, after) >= STRAIGHT_DEG:
                lengths.append(0.0)
        runs.append(lengths)
    if any(straight_on(plan, node) for node in plan.layout.nodes):
        return  # runs go on through a node; the examples below count these by hand
    expected = sum(max(0, math.ceil(m / stick - 1e-9) - 1) for lengths in runs for m in lengths)
    assert takeoff.net("coupling") == expected


@pytest.mark.parametrize(("closing", "caps", "elbows"), [(False, 0, 2), (True, 0, 4)])
def test_a_loop_has_no_end_cap_and_keeps_its_closing_edge(closing: bool, caps: int, elbows: int) -> None:
    """A square ring: E - V + 1 = 1 loop, four corners and the inlet; open, it ends in two heads."""
    nodes: list[dict[str, Any]] = [
        {"id": "S", "kind": "supply", "at": [-20, 3]},
        {"id": "V", "kind": "valve", "at": [-10, 3], "part": "valve-25"},
        {"id": "I", "kind": "junction", "at": [0, 3]},
        {"id": "A", "kind": "junction", "at": [0, 0]},
        {"id": "B", "kind": "junction", "at": [6, 0]},
        {"id": "C", "kind": "junction", "at": [6, 6]},
        {"id": "D", "kind": "junction", "at": [0, 6]},
    ]
    if not closing:
        nodes[4] = {"id": "B", "kind": "head", "at": [6, 0], "part": "rotor-9"}
        nodes[5] = {"id": "C", "kind": "head", "at": [6, 6], "part": "rotor-9"}
    edges = [("S", "V"), ("V", "I"), ("I", "A"), ("A", "B"), ("D", "C"), ("I", "D")]
    edges += [("B", "C")] if closing else []
    pipes = [{"id": a + b, "from": a, "to": b, "part": MAIN if a == "S" else "pvc-25"} for a, b in edges]
    takeoff, _ = taken_off(make_plan(nodes=nodes, pipes=pipes))
    assert takeoff.net("cap") == caps
    assert takeoff.net("elbow_90") == elbows
    assert takeoff.net("tee") == 1
    assert takeoff.net("threaded_elbow") == (0 if closing else 2)

"""Published example networks, from EPANET input files to our own plain data at time zero.

What this package has no element for is put in its solved state, which EPANET gives: a tank or
reservoir is a fixed head; a pump is a draw at its inlet and a fixed head at its outlet; a demand
is an outlet that holds its flow. Pipes, check valves and pressure-reducing valves are solved.
"""

import warnings
from dataclasses import dataclass, field
from importlib.util import find_spec
from pathlib import Path

from epanet import toolkit as en

from hydraulics.network import Emitter, Link, Network, Node, PipeLink, PressureRegulator, Source
from hydraulics.units import KPA_PER_M

HELD_KPA = 0.01  # of the outlets that stand for demands
# all levels are taken this much lower, so that demands are met where there is suction as well
LOWER_M = 200.0


@dataclass
class Published:
    """Our network, and what EPANET found: heads of water over each lowered node in m, flows in L/min."""

    nodes: list[Node] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)
    draws: dict[str, float] = field(default_factory=dict)
    node_m: dict[str, float] = field(default_factory=dict)
    link_lpm: dict[str, float] = field(default_factory=dict)
    replaced: list[str] = field(default_factory=list)

    def network(self) -> Network:
        """What open links join to a fixed head; a part that stands alone is left out."""
        joined = {source.node for source in self.sources}
        while more := {
            end
            for link in self.links
            for end in (link.start, link.end)
            if (link.start in joined) != (link.end in joined) and end not in joined
        }:
            joined |= more
        nodes = tuple(node for node in self.nodes if node.id in joined)
        links = tuple(link for link in self.links if link.start in joined)
        draws = tuple(
            Emitter(f"draw {node}", node, flow / HELD_KPA**0.5, 0.5, HELD_KPA)
            for node, flow in self.draws.items()
            if flow > 0 and node in joined
        )
        return Network(nodes, tuple(self.sources), links, draws)


def published_file(name: str) -> Path:
    """The file in the wntr package, which is not imported for it."""
    spec = find_spec("wntr")
    assert spec is not None
    assert spec.submodule_search_locations
    root = Path(spec.submodule_search_locations[0])
    return next(root.rglob(f"{name}.inp"))


def read_published(name: str, folder: Path) -> Published:
    """Solve the file with EPANET at time zero and take over all it holds."""
    project = en.createproject()
    en.open(project, str(published_file(name)), str(folder / "published.rpt"), "")
    try:
        en.setflowunits(project, en.LPS)
        en.setoption(project, en.PRESS_UNITS, en.METERS)
        en.setoption(project, en.ACCURACY, 1e-8)
        en.setoption(project, en.TRIALS, 200)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            en.openH(project)
            en.initH(project, en.NOSAVE)
            en.runH(project)
        found = Published()
        for at in range(1, en.getcount(project, en.NODECOUNT) + 1):
            _take_node(project, at, found)
        for at in range(1, en.getcount(project, en.LINKCOUNT) + 1):
            _take_link(project, at, found)
        return found
    finally:
        en.close(project)
        en.deleteproject(project)


def _take_node(project, at: int, found: Published) -> None:
    name = en.getnodeid(project, at)
    level = en.getnodevalue(project, at, en.ELEVATION)
    found.nodes.append(Node(name, level - LOWER_M))
    found.node_m[name] = en.getnodevalue(project, at, en.HEAD) - level + LOWER_M
    if en.getnodetype(project, at) != en.JUNCTION:
        _fix(found, name)
        return
    assert en.getnodevalue(project, at, en.EMITTER) == 0
    demand = 60 * en.getnodevalue(project, at, en.DEMAND)
    if demand < 0:  # water that is fed in
        _fix(found, name)
    else:
        found.draws[name] = found.draws.get(name, 0.0) + demand


def _fix(found: Published, name: str) -> None:
    if all(source.node != name for source in found.sources):
        found.sources.append(Source(f"head {name}", name, found.node_m[name] * KPA_PER_M))
        found.replaced.append(f"{name}: fixed head")


def _take_link(project, at: int, found: Published) -> None:
    name, kind = en.getlinkid(project, at), en.getlinktype(project, at)
    start, end = (en.getnodeid(project, node) for node in en.getlinknodes(project, at))
    flow = 60 * en.getlinkvalue(project, at, en.FLOW)
    if en.getlinkvalue(project, at, en.STATUS) == 0 and kind != en.CVPIPE:
        return
    if kind in (en.PIPE, en.CVPIPE):
        length, bore, c, minor = (
            en.getlinkvalue(project, at, what)
            for what in (en.LENGTH, en.DIAMETER, en.ROUGHNESS, en.MINORLOSS)
        )
        found.links.append(PipeLink(name, start, end, length, bore, c, minor, kind == en.CVPIPE))
        found.link_lpm[name] = flow
    elif kind == en.PRV:
        setting_m = en.getlinkvalue(project, at, en.SETTING) + LOWER_M
        found.links.append(PressureRegulator(name, start, end, KPA_PER_M * setting_m))
        found.link_lpm[name] = flow
    else:  # a pump, or a valve that we have no element for: in its solved state
        found.draws[start] = found.draws.get(start, 0.0) + flow
        _fix(found, end)
        found.replaced.append(f"{name}: draw at {start}, fixed head at {end}")

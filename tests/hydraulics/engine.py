"""Run an input file through EPANET (owa-epanet, in memory) and read back what it found."""

import warnings
from pathlib import Path

from epanet import toolkit as en

from hydraulics.inp import InpFile


class EngineStuck(Exception):
    """EPANET itself found no balance."""


def run_engine(inp: InpFile, folder: Path) -> dict[str, dict[str, float]]:
    """Heads of water over each node in m, flows in L/min, by the network's own ids."""
    path = folder / "case.inp"
    path.write_text(inp.text, encoding="utf-8")
    project = en.createproject()
    en.open(project, str(path), str(folder / "case.rpt"), "")
    try:
        with warnings.catch_warnings():
            # it warns of pressures below zero, which are meant in some tests
            warnings.simplefilter("ignore")
            en.openH(project)
            en.initH(project, en.NOSAVE)
            en.runH(project)
        if en.getstatistic(project, en.ITERATIONS) > en.getoption(project, en.TRIALS):
            raise EngineStuck
        return {
            "node_m": {id_: _node(project, name, en.PRESSURE) for id_, name in inp.nodes.items()},
            "link_lpm": {id_: _link(project, name) for id_, name in inp.links.items()},
            "emitter_lpm": {id_: _outflow(project, *at) for id_, at in inp.emitters.items()},
        }
    finally:
        en.close(project)
        en.deleteproject(project)


def _node(project, name, what):
    return en.getnodevalue(project, en.getnodeindex(project, name), what)


def _link(project, name):
    return 60 * en.getlinkvalue(project, en.getlinkindex(project, name), en.FLOW)


def _outflow(project, kind, name):
    return _link(project, name) if kind == "link" else 60 * _node(project, name, en.EMITTERFLOW)

"""Run an exported case through EPANET (owa-epanet) and read it back by the plan's own ids."""

from dataclasses import dataclass
from pathlib import Path

from epanet import toolkit as en

from hydraulics.inp import InpFile
from hydraulics.units import KPA_PER_M


@dataclass(frozen=True)
class EngineRun:
    node_kpa: dict[str, float]
    link_lpm: dict[str, float]
    emitter_lpm: dict[str, float]


def run_inp(inp: InpFile, folder: Path) -> EngineRun:
    """Solve the file as it stands, as anyone who opens it would."""
    path = folder / "case.inp"
    path.write_text(inp.text, encoding="utf-8")
    project = en.createproject()
    en.open(project, str(path), str(folder / "case.rpt"), "")
    try:
        en.solveH(project)
        return EngineRun(
            {name: _node(project, there, en.PRESSURE) * KPA_PER_M for name, there in inp.nodes.items()},
            {name: _link(project, there) for name, there in inp.links.items()},
            {name: _outflow(project, *at) for name, at in inp.emitters.items()},
        )
    finally:
        en.close(project)
        en.deleteproject(project)


def _node(project, name, what):
    return en.getnodevalue(project, en.getnodeindex(project, name), what)


def _link(project, name):
    return 60 * en.getlinkvalue(project, en.getlinkindex(project, name), en.FLOW)


def _outflow(project, kind, name):
    return _link(project, name) if kind == "link" else 60 * _node(project, name, en.EMITTERFLOW)

"""What the electrical rules have to say: stations, voltage at the coils, load on the transformer."""

from collections.abc import Iterator, Mapping

from design.control import Feed, controllers, feeds
from design.document import ControllerNode, ValveNode
from design.report import CaseResult
from design.site import Site
from hydraulics.catalogue import CablePart, ControllerPart, ValvePart
from hydraulics.electrics import WireLeg, at_temperature, coil_volt, transformer_load_va
from hydraulics.findings import Finding
from hydraulics.rules import CoilVolt, coil_voltage, stations, transformer


def electric_findings(site: Site, cases: tuple[CaseResult, ...]) -> Iterator[Finding]:
    """All findings on electricity. A head's own valve counts as a station; nothing is known of its coil."""
    fed, ohms = feeds(site), _cables(site)
    for controller in controllers(site):
        part = _controller(site, controller)
        zones = [zone.id for zone in site.topology.zones.values() if zone.heads]
        wired = [zone for zone in zones if zone in fed and fed[zone].controller == controller]
        yield from stations(controller, len(wired), part.stations)
        for case in cases:
            opened = [zone for zone in case.zones if zone in wired and _is_valve(site, zone)]
            coils = {zone: _valve(site, zone) for zone in opened}
            pairs = [(coil.coil_amp, coil.coil_inrush_amp) for coil in coils.values()]
            load = transformer_load_va(part.volt, pairs)
            yield from transformer(controller, case.label, load, part.transformer_va, site.limits)
            yield from coil_voltage(_coil_volts(case.label, part.volt, coils, fed, ohms), site.limits)


def _cables(site: Site) -> dict[str, tuple[float, float]]:
    """Length [m], and resistance of one conductor at the temperature of the limits [ohm/km], by cable."""
    warmth = at_temperature(1.0, site.limits.conductor_temperature_c)
    return {
        cable.id: (cable.length_m, warmth * site.parts.need(cable.part, CablePart).ohm_per_km)
        for cable in site.cables
    }


def _coil_volts(
    case: str,
    volt: float,
    coils: Mapping[str, ValvePart],
    fed: Mapping[str, Feed],
    cables: Mapping[str, tuple[float, float]],
) -> Iterator[CoilVolt]:
    """A cable carries the current of every open coil that is fed over it."""
    current: dict[str, float] = {}
    for zone, coil in coils.items():
        for cable in fed[zone].cables:
            current[cable] = current.get(cable, 0.0) + coil.coil_amp
    for zone, coil in coils.items():
        legs = [WireLeg(*cables[cable], current[cable]) for cable in fed[zone].cables]
        yield CoilVolt(zone, case, coil_volt(volt, legs), coil.min_coil_volt)


def _controller(site: Site, controller: str) -> ControllerPart:
    node = site.topology.nodes[controller]
    assert isinstance(node, ControllerNode)  # noqa: S101 - asked for controllers only
    return site.parts.need(node.part, ControllerPart)


def _is_valve(site: Site, zone: str) -> bool:
    return isinstance(site.topology.nodes[zone], ValveNode)


def _valve(site: Site, zone: str) -> ValvePart:
    node = site.topology.nodes[zone]
    assert isinstance(node, ValveNode)  # noqa: S101 - asked for valves only
    return site.parts.need(node.part, ValvePart)

"""From a checked plan to quantities, each with the plan entities that it comes from."""

from decimal import Decimal

from design.document import Plan
from design.report import CheckReport
from hydraulics.catalogue import Catalogue
from quoting.takeoff import cables, drip, drivers, pipes, sundries, trench, valves
from quoting.takeoff.fittings import fit_out
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import Quantity, TakeOff, TakeoffNote, TakeoffSettings

__all__ = ["Quantity", "TakeOff", "TakeoffNote", "TakeoffSettings", "take_off"]


def take_off(
    plan: Plan, report: CheckReport, parts: Catalogue, settings: TakeoffSettings | None = None
) -> TakeOff:
    """Everything that the plan needs bought, dug and carried.

    ``report`` is the check of this very plan: pipes, trench, cables and sleeves are taken as it
    measured them. Raises UnknownPart where a pipe, valve or cable has no part in ``parts``.
    """
    settings = settings or TakeoffSettings()
    graph = LayoutGraph(plan, report, parts)
    ground = [
        *trench.trench_quantities(report),
        *trench.spoil_quantities(graph, report, settings),
        *trench.turf_quantities(graph, report, settings),
        *trench.crossing_quantities(graph, report, settings),
    ]
    notes = (
        *trench.trench_notes(report),
        *trench.duct_notes(graph, report, settings),
        *drip.drip_notes(graph),
        *cables.core_notes(graph, settings),
    )
    return TakeOff((*ground, *_water(graph, settings), *_control(graph, settings)), notes)


def _water(graph: LayoutGraph, settings: TakeoffSettings) -> list[Quantity]:
    """Pipe, fittings, heads, valves, drip."""
    out = fit_out(graph, settings)
    isolation = list(valves.isolation_quantities(graph, out, settings))
    runs = pipes.straight_runs(graph, out.through, settings)
    beds = drip.drip_beds(graph)
    fitted = [*out.fitted, *pipes.couplings(graph, runs)]
    boxes = list(valves.box_quantities(graph, settings))
    box_count = sum((box.quantity for box in boxes), Decimal(0))
    return [
        *pipes.pipe_quantities(graph, out, drip.header_metres(graph, beds), settings),
        *sundries.fitting_quantities(graph, fitted, settings),
        *sundries.swing_joint_quantities(graph),
        *sundries.joining_quantities(graph, fitted, settings),
        *drip.drip_quantities(graph, beds, settings),
        *valves.device_quantities(graph),
        *boxes,
        *isolation,
        *valves.filter_quantities(graph),
        *sundries.ground_sundries(graph, box_count, settings),
    ]


def _control(graph: LayoutGraph, settings: TakeoffSettings) -> list[Quantity]:
    return [
        *cables.cable_quantities(graph, settings),
        *cables.connector_quantity(graph, settings),
        *drivers.driver_quantities(graph),
    ]

"""Whether and how a computed line is named on the offer. The rest is in its section's price."""

from hydraulics.catalogue import Part
from quoting.pricing_inputs import CostLine

# Work as a customer would put it; work that is not here is not named.
_WORK = {
    "trench-machine": "Trenching by machine",
    "trench-hand": "Trenching by hand",
    "trench-near-service": "Careful digging by hand beside buried services",
    "bore-short": "Boring under the path",
    "bore-long": "Boring under the drive",
    "backfill": "Backfilling and compacting",
    "turf": "Lifting the turf and laying it again",
    "stake-out": "Setting out every head with you",
    "pressure-test": "Pressure test of the main",
    "flush-head": "Flushing and setting every head",
    "handover": "Walk-through and a drawing of what was built",
}
_MAIN_KINDS = ("pipe", "head", "drip", "valve", "backflow", "cable", "controller")
_MAIN_ROLES = ("valve_box", "rain_sensor", "filter_regulator")


def customer_text(line: CostLine, part: Part | None) -> tuple[str, bool]:
    """What the customer reads for this line, and whether it is named at all."""
    if line.kind == "labour":
        work = line.key.removeprefix("labour/")
        return _WORK.get(work, line.text), work in _WORK
    if line.kind == "material":
        return line.text.partition(",")[0], part is not None and _is_main_thing(part)
    return line.text, line.kind in ("subcontract", "permit")


def _is_main_thing(part: Part) -> bool:
    """Not the fittings and the small things that nobody chooses an offer by."""
    return part.kind in _MAIN_KINDS or (part.kind == "sundry" and part.role in _MAIN_ROLES)

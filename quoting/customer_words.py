"""Whether and how a computed line is named on the offer. The rest is in its section's price."""

from hydraulics.catalogue import BackflowPart, ControllerPart, FittingPart, HeadPart, Part, SundryPart
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
# What the small things are for is said once; the rest of them is in the price and not named.
_SMALL_THINGS = {
    "swing_joint": "Flexible joints under the heads",
    "valve_box": "Valve boxes with lids",
    "rain_sensor": "Rain sensor",
    "filter_regulator": "Filter and pressure regulator for the drip line",
}
_PLAIN = {
    "pipe": "Buried pipe",
    "drip": "Drip line",
    "valve": "Zone valves",
    "cable": "Buried control cable",
}
DEVICES = {
    "reduced_pressure": "reduced-pressure device",
    "double_check": "double check device",
    "pressure_vacuum_breaker": "pressure vacuum breaker",
    "atmospheric_vacuum_breaker": "atmospheric vacuum breaker",
}
FAMILIES = {
    "rotor": "gear rotor",
    "spray": "spray head",
    "rotary": "rotary head",
    "bearing": "shape-following head",
}


def customer_text(line: CostLine, part: Part | None) -> tuple[str, bool]:
    """What the customer reads for this line, and whether it is named at all.

    Plain words, the same for all sizes of a thing, so that an offer names it once. No count:
    a price beside a count tells what one of them costs.
    """
    if line.kind == "labour":
        work = line.key.removeprefix("labour/")
        return _WORK.get(work, line.text), work in _WORK
    if line.kind == "material":
        plain = _plain_words(part) if part is not None else ""
        return plain or line.text.partition(",")[0], bool(plain)
    return line.text, line.kind in ("subcontract", "permit")


def _plain_words(part: Part) -> str:
    """What the customer calls that part; nothing for what nobody chooses an offer by."""
    if isinstance(part, HeadPart):
        return f"{FAMILIES[part.family].capitalize()}s"
    if isinstance(part, ControllerPart):
        return f"Controller for up to {part.stations} zones"
    if isinstance(part, BackflowPart):
        return f"Backflow protection: {DEVICES[part.device]}"
    if isinstance(part, FittingPart | SundryPart):
        return _SMALL_THINGS.get(part.role, "")
    return _PLAIN.get(part.kind, "")

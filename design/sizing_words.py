"""Sentences on a sizing: what is not met, and what is proven."""

from collections.abc import Mapping

from hydraulics.sizing import NetworkSizing, Shortfall

PROVEN = (
    "Proven: no other choice of the parts looked at meets all needs and costs less (gap 0.0 %). The bound "
    "is a linear program that every choice that meets the needs satisfies."
)
NO_ORDER = (
    "No parts were found by which no pipe is wider than the one that feeds it; name other parts, or let go "
    "of a pipe that is to stay."
)


def proof_sentence(found: NetworkSizing) -> str:
    if found.outcome == "least":
        return PROVEN
    if found.outcome == "good":
        return (
            f"Not proven: time ran out after {found.seconds:.0f} s. This choice meets all needs; at most "
            f"{100 * found.gap:.1f} % of its cost might still be saved."
        )
    if found.outcome == "impossible":
        return "Proven: no choice of the parts looked at meets all needs."
    return (
        f"Not settled: in {found.seconds:.0f} s no choice was found that meets all needs, nor the proof that "
        "there is none."
    )


def shortfall_sentence(fault: Shortfall, part_of: Mapping[str, str]) -> str:
    if fault.kind == "pressure":
        return (
            f"Head {fault.where[0]} gets {fault.measured:.1f} kPa in case “{fault.case}” and should have "
            f"{fault.limit:.1f} kPa: {fault.by:.1f} kPa too little."
        )
    if fault.kind == "velocity":
        pipe = fault.where[0]
        return (
            f"Water runs at {fault.measured:.2f} m/s in pipe {pipe} ({part_of.get(pipe, '')}) in case "
            f"“{fault.case}”, {fault.by:.2f} m/s more than {fault.limit:.2f} m/s."
        )
    zone, low, high = fault.where
    return (
        f"In zone {zone} the pressure at {low} lies {100 * fault.measured:.1f} % below that at {high} in "
        f"case “{fault.case}”, more than {100 * fault.limit:.0f} %."
    )


def impossible_sentences(found: NetworkSizing, part_of: Mapping[str, str]) -> tuple[str, ...]:
    """Worst first; what the widest pipes allowed leave unmet."""
    if not found.shortfalls:
        return (NO_ORDER,)
    worst = sorted(found.shortfalls, key=lambda fault: (fault.kind != "pressure", -fault.by))
    return tuple(shortfall_sentence(fault, part_of) for fault in worst)

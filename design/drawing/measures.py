"""Lengths, flows and pressures as words, in the units that the reader has chosen."""

from .options import Units

# International foot, exact: 0.3048 m (NIST SP 811, appendix B.8); US gallon 3.785 412 L (same).
METRE_PER_FOOT = 0.3048
LITRE_PER_US_GALLON = 3.785411784
KPA_PER_PSI = 6.894757  # NIST SP 811, appendix B.8


def length_value(metres: float, units: Units) -> float:
    return metres / METRE_PER_FOOT if units == "us" else metres


def length_words(metres: float, units: Units) -> str:
    return f"{length_value(metres, units):.0f} ft" if units == "us" else f"{metres:.1f} m"


def depth_words(metres: float, units: Units) -> str:
    if units == "us":
        return f"{metres / METRE_PER_FOOT * 12:.0f} in"
    return f"{metres:.2f} m"


def flow_value(flow_lpm: float, units: Units) -> float:
    return flow_lpm / LITRE_PER_US_GALLON if units == "us" else flow_lpm


def pressure_value(kpa: float, units: Units) -> float:
    return kpa / KPA_PER_PSI if units == "us" else kpa


def flow_words(flow_lpm: float, units: Units) -> str:
    unit = "US gal/min" if units == "us" else "L/min"
    return f"{flow_value(flow_lpm, units):.1f} {unit}"


def pressure_words(kpa: float, units: Units) -> str:
    unit = "psi" if units == "us" else "kPa"
    return f"{pressure_value(kpa, units):.0f} {unit}"

"""Colours as eyes without one kind of receptor see them, and how far apart they then are."""

from collections.abc import Sequence
from math import dist

Rows = Sequence[Sequence[float]]

# Full loss of the red, the green and the blue receptor: Machado, Oliveira and Fernandes, "A
# Physiologically-based Model for Simulation of Color Vision Deficiency" (2009), severity 1.0.
# The figures are from memory.
BLINDNESS = {
    "none": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "red": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "green": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "blue": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
# CIE 1931 XYZ of linear sRGB, white point D65: IEC 61966-2-1.
TO_XYZ = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
WHITE = (0.9505, 1.0, 1.089)


def linear(colour: str) -> list[float]:
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]


def times(matrix: Rows, vector: Sequence[float]) -> list[float]:
    return [sum(a * b for a, b in zip(row, vector, strict=True)) for row in matrix]


def lab(light: Sequence[float]) -> tuple[float, float, float]:
    """CIE 1976 L*a*b*, by its definition in ISO/CIE 11664-4."""
    shares = [max(v, 0) / w for v, w in zip(times(TO_XYZ, light), WHITE, strict=True)]
    x, y, z = (s ** (1 / 3) if s > (6 / 29) ** 3 else s * (29 / 6) ** 2 / 3 + 4 / 29 for s in shares)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def seen_by(eyes: str, colour: str) -> tuple[float, float, float]:
    return lab(times(BLINDNESS[eyes], linear(colour)))


def apart(eyes: str, one: str, other: str) -> float:
    """Distance in L*a*b* (CIE 1976)."""
    return dist(seen_by(eyes, one), seen_by(eyes, other))

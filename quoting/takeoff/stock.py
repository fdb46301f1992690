"""Cutting pieces from the lengths that a supplier sells."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hydraulics.units import M_PER_FT

TOLERANCE_M = 1e-6


def length_words(stock_m: float) -> str:
    """A length as it is sold: 6 m, or 20 ft where only feet give a whole number.

    >>> length_words(6.0), length_words(6.096), length_words(2.5)
    ('6 m', '20 ft', '2.5 m')
    """
    feet = stock_m / M_PER_FT
    is_whole_m = abs(stock_m * 10 - round(stock_m * 10)) < 1e-6
    return f"{feet:.0f} ft" if not is_whole_m and abs(feet - round(feet)) < 1e-3 else f"{stock_m:g} m"


@dataclass(frozen=True)
class Piece:
    """A length that is needed in one piece, and the plan entity it serves."""

    length_m: float
    where: str


@dataclass(frozen=True)
class Cut:
    """One stock length with the pieces that are cut from it."""

    stock_m: float
    pieces: tuple[Piece, ...]


def cut_whole(pieces: Sequence[Piece], stock_m: Sequence[float]) -> tuple[tuple[Cut, ...], tuple[Piece, ...]]:
    """Each piece whole from one stock length: longest first into the first that has room.

    Returns the cuts, each on the shortest stock length that holds it, and the pieces that are
    longer than any stock length.
    """
    longest = max(stock_m)
    too_long = tuple(p for p in pieces if p.length_m > longest + TOLERANCE_M)
    bins: list[list[Piece]] = []
    for piece in sorted((p for p in pieces if p not in too_long), key=lambda p: -p.length_m):
        room = next((b for b in bins if _total(b) + piece.length_m <= longest + TOLERANCE_M), None)
        if room is None:
            bins.append([piece])
        else:
            room.append(piece)
    cuts = tuple(Cut(_shortest_that_holds(_total(b), stock_m), tuple(b)) for b in bins)
    return cuts, too_long


def packs_for(need_m: float, stock_m: Sequence[float]) -> Mapping[float, int]:
    """Stock lengths that together hold ``need_m``: as many of the longest as it takes, and for
    the rest the shortest one that holds it."""
    if need_m <= TOLERANCE_M:
        return {}
    longest = max(stock_m)
    full = int((need_m + TOLERANCE_M) // longest)
    packs = Counter({longest: full} if full else {})
    rest = need_m - full * longest
    if rest > TOLERANCE_M:
        packs[_shortest_that_holds(rest, stock_m)] += 1
    return packs


def _shortest_that_holds(need_m: float, stock_m: Sequence[float]) -> float:
    return min(length for length in stock_m if length >= need_m - TOLERANCE_M)


def _total(pieces: Sequence[Piece]) -> float:
    return sum(piece.length_m for piece in pieces)

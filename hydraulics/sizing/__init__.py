"""The least-cost pipe sizes that meet every need, with the proof of it (docs/pipe-sizing.md)."""

from hydraulics.sizing.proving import Shortfall
from hydraulics.sizing.result import NetworkSizing
from hydraulics.sizing.search import size_network
from hydraulics.sizing.task import Candidate, OutletNeed, SizingError, SizingTask

__all__ = [
    "Candidate",
    "NetworkSizing",
    "OutletNeed",
    "Shortfall",
    "SizingError",
    "SizingTask",
    "size_network",
]

"""Several cases side by side in flat arrays, so that one array operation serves them all."""

from collections.abc import Sequence

import numpy as np

from hydraulics.indexed import Floats, IndexedNetwork
from hydraulics.livepart import LivePart

# kPa per L/min below which a law is taken as straight, so that no conductance is infinite
LEAST_SLOPE = 1e-6


class Stack:
    """Live parts of one network, one per case, all rows in one array.

    Heads lie flat: ``size`` unknowns per case, then the known heads of each case. Arrays of
    the laws may be overwritten before solving, to vary the cases.
    """

    def __init__(self, net: IndexedNetwork, parts: Sequence[LivePart]) -> None:
        self.net, self.parts, self.cases = net, parts, len(parts)
        self.size = max((len(part.unknown) for part in parts), default=0)
        self.row_counts = np.array([len(part.rows) for part in parts])
        self.case_of_row = np.repeat(np.arange(self.cases), self.row_counts)
        self.rows = np.concatenate([part.rows for part in parts])
        self.flow = np.concatenate([part.guess_lpm for part in parts])
        self._place_heads()
        self._take_laws()
        self._take_curves()

    def _place_heads(self) -> None:
        parts, unknowns = self.parts, self.cases * self.size
        start = np.concatenate([part.start for part in parts])
        end = np.concatenate([part.end for part in parts])
        known_from = unknowns + self.case_of_row * len(self.net.head_kpa)
        unknown_from = self.case_of_row * self.size
        self.start = np.where(start >= 0, unknown_from + start, known_from - 1 - start)
        self.end = np.where(end >= 0, unknown_from + end, known_from - 1 - end)
        self.head = np.concatenate(
            (np.full(unknowns, self.net.highest_kpa), np.tile(self.net.head_kpa, self.cases))
        )
        # known ends fall into one spare cell behind the unknowns
        self.start_cell = np.minimum(self.start, unknowns)
        self.end_cell = np.minimum(self.end, unknowns)
        self.cells = np.concatenate((self.end_cell, self.start_cell))

    def _take_laws(self) -> None:
        net, rows = self.net, self.rows
        self.r, self.n, self.m = net.r[rows], net.n[rows], net.m[rows]
        self.low, self.high, self.stop_slope = net.low[rows], net.high[rows], net.stop_slope[rows]
        self.cap: Floats | None = net.cap_kpa[rows] if net.regulators else None

    def _take_curves(self) -> None:
        curve = self.net.curve_of_row[self.rows]
        self.curve_at = np.flatnonzero(curve >= 0)
        which = curve[self.curve_at]
        self.curve_flow = self.net.curve_flow[which]
        self.curve_loss = self.net.curve_loss[which]
        self.curve_slope = self.net.curve_slope[which]
        self.curve_line = np.arange(len(which))

    def drive(self, head: Floats) -> tuple[Floats, Floats | None]:
        """What each row sees of the heads at its ends, and 1 where its start still counts, else 0.

        The second is none where there is no regulator, so that all of them count.
        """
        start = head[self.start]
        if self.cap is None:
            return start - head[self.end], None
        return np.minimum(start, self.cap) - head[self.end], (start <= self.cap).astype(float)

    def losses(self, flow: Floats) -> tuple[Floats, Floats]:
        """Loss in kPa and its slope in kPa per L/min, row by row."""
        size = np.abs(flow)
        ratio = self.r * size ** (self.n - 1.0)
        minor = self.m * size
        loss = (ratio + minor) * flow
        slope = self.n * ratio + 2.0 * minor
        flat = slope < LEAST_SLOPE
        if flat.any():
            least = LEAST_SLOPE / self.n
            loss = np.where(flat, least * flow, loss)
            slope = np.where(flat, least, slope)
        if len(self.curve_at):
            self._curve_losses(flow, loss, slope)
        return loss, slope

    def _curve_losses(self, flow: Floats, loss: Floats, slope: Floats) -> None:
        at = flow[self.curve_at]
        size = np.abs(at)
        piece = (size[:, None] >= self.curve_flow[:, 1:]).sum(axis=1)
        line = self.curve_line
        grade = self.curve_slope[line, piece]
        on_curve = self.curve_loss[line, piece] + grade * (size - self.curve_flow[line, piece])
        loss[self.curve_at] = np.copysign(on_curve, at)
        slope[self.curve_at] = np.maximum(grade, LEAST_SLOPE)

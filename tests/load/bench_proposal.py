"""The proposal PDF of a 40-head plan: time, memory and size beside their goals.

Time is the median of several renders after one to warm up; memory is what the first render, with
its fonts and drawing, adds to a process that has everything imported.
"""

import statistics
import sys
import time
from pathlib import Path

from design.check import check
from design.document import Plan
from hydraulics.catalogue import Catalogue
from quoting.proposal import render_proposal
from tests.proposal.sample_proposal import sample

GOAL_S, GOAL_MEMORY_MB, GOAL_SIZE_MB = 1.0, 60.0, 1.0
RENDERS = 9
ROWS, COLUMNS, SPACING_M = 4, 10, 6.0

PARTS = Catalogue.from_dicts(
    [
        {"kind": "pipe", "code": "pe-32", "label": "Pipe", "material": "pe", "size": "32", "outside_mm": 32,
         "bore_mm": 26.2, "rating_kpa": 1000, "joint": "compression", "supplied": "coil", "stock_m": [50]},
        {"kind": "head", "code": "rotary-6", "label": "Head", "family": "rotary", "pattern": "fixed_arc",
         "rows": [{"pressure_kpa": 250, "flow_lpm": 3, "throw_m": 6}, {"pressure_kpa": 450, "flow_lpm": 4,
         "throw_m": 6.6}], "min_kpa": 250, "max_kpa": 450, "flow_scales_with_arc": True},
        {"kind": "valve", "code": "valve-25", "label": "Valve", "size": "25",
         "loss": [{"flow_lpm": 30, "loss_kpa": 20}]},
    ]
)  # fmt: skip


def forty_heads() -> Plan:
    """Four rows of ten heads, a valve to each row, on one lawn."""
    nodes = [{"id": "S", "kind": "supply", "at": [-4, 0]}]
    pipes = []
    for row in range(ROWS):
        y, before = row * SPACING_M, f"V{row}"
        nodes.append({"id": before, "kind": "valve", "at": [-2, y], "part": "valve-25"})
        pipes.append(
            {"id": f"M{row}", "from": "S", "to": before, "via": [[-4, y]] if y else [], "part": "pe-32"}
        )
        for column in range(COLUMNS):
            head = f"H{row}-{column}"
            nodes.append({"id": head, "kind": "head", "at": [column * SPACING_M, y], "part": "rotary-6",
                          "from_deg": 270, "sweep_deg": 180})  # fmt: skip
            pipes.append({"id": f"P{row}-{column}", "from": before, "to": head, "part": "pe-32"})
            before = head
    lawn = [[0, -1], [54, -1], [54, 24], [0, 24]]
    return Plan.model_validate(
        {"format": "plan/1",
         "ground": {"areas": [{"id": "lawn", "label": "Lawn", "outline": lawn}]},
         "supply": {"at": [-4, 0], "static_kpa": 500, "tests": [{"kind": "gauge", "flow_lpm": 40,
                    "residual_kpa": 420}]},
         "layout": {"nodes": nodes, "pipes": pipes}}
    )  # fmt: skip


def resident_mb(field: str) -> float:
    """``VmRSS``, what the process holds now, or ``VmHWM``, the most since the mark was reset."""
    lines = Path("/proc/self/status").read_text(encoding="ascii").splitlines()
    return next(float(line.split()[1]) / 1024 for line in lines if line.startswith(field))


def main() -> int:
    plan = forty_heads()
    data = sample(plan=plan, report=check(plan, PARTS), parts=PARTS)
    Path("/proc/self/clear_refs").write_text("5", encoding="ascii")  # resets VmHWM (Linux, proc(5))
    before = resident_mb("VmRSS")
    pdf = render_proposal(data)
    grown = resident_mb("VmHWM") - before
    times = []
    for _ in range(RENDERS):
        start = time.perf_counter()
        render_proposal(data)
        times.append(time.perf_counter() - start)
    median, size = statistics.median(times), len(pdf) / 1e6
    print(f"proposal PDF of 40 heads: median {median * 1000:.0f} ms of {RENDERS} (goal {GOAL_S:.0f} s)")
    print(f"  memory grown {grown:.1f} MB (goal {GOAL_MEMORY_MB:.0f} MB), size {size:.3f} MB (goal 1 MB)")
    return int(median >= GOAL_S or grown >= GOAL_MEMORY_MB or size >= GOAL_SIZE_MB)


if __name__ == "__main__":
    sys.exit(main())

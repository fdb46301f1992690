"""A large drawing from another program, read as the site reads it, against the library alone.

The child's start, the looking over blocks and curves, joining and thinning come on top of the
library's own reading of the same text. Goal: within the processor's time that a file is given.
"""

import io
import statistics
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import ezdxf

from design.exchange import limits

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 3
LINES, TREES = 9_000, 900


def large_drawing() -> bytes:
    """Lots of 10 m, each of four single lines, and trees as circles."""
    document = ezdxf.new("R2010")
    space = document.modelspace()
    for i in range(LINES // 4):
        x, y = i % 50 * 12, i // 50 * 12
        corners = [(x, y), (x + 10, y), (x + 10, y + 10), (x, y + 10), (x, y)]
        for a, b in pairwise(corners):
            space.add_line(a, b, dxfattribs={"layer": "lots"})
    for i in range(TREES):
        space.add_circle((i % 50 * 12, i // 50 * 12), 0.2, dxfattribs={"layer": "trees"})
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode()


def seconds(work) -> float:
    times = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    return statistics.median(times)


def read_in_child(data: bytes) -> None:
    command = [sys.executable, "-m", "design.exchange.read_file", "dxf"]
    ended = subprocess.run(command, input=data, stdout=subprocess.PIPE, cwd=ROOT, check=False)
    # 3: refused, since it has too many corners left; the reading is done by then all the same
    if ended.returncode not in (0, 3):
        raise SystemExit(f"the reader ended with {ended.returncode}")


def main() -> int:
    data = large_drawing()
    alone = seconds(lambda: ezdxf.read(io.StringIO(data.decode())))
    ours = seconds(lambda: read_in_child(data))
    print(
        f"{len(data) / 1e6:.1f} MB, {LINES} lines, {TREES} circles: the library alone {alone:.2f} s, "
        f"the site's reading {ours:.2f} s, ratio {ours / alone:.1f} (medians of {ROUNDS})"
    )
    print(f"goal: {limits.CPU_SECONDS} s of processor time; {ours / limits.CPU_SECONDS:.2f} of it")
    return 0 if ours < limits.CPU_SECONDS else 1


if __name__ == "__main__":
    sys.exit(main())

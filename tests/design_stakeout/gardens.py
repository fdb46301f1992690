"""Small plans for setting out."""

from design.document import Ground, Layout, Mark, Plan, Supply, Surface
from design.report import TrenchStretch


def plan_of(*, marks=(), buildings=(), nodes=()):
    surfaces = [
        Surface(id=f"house{n}", kind="building", outline=ring) for n, ring in enumerate(buildings, start=1)
    ]
    return Plan(
        format="plan/1",
        ground=Ground(marks=list(marks), surfaces=surfaces),
        supply=Supply(at=(0, 0), static_kpa=400),
        layout=Layout(nodes=list(nodes)),
    )


def marks_of_wall():
    return [Mark(id="A", at=(4, 15)), Mark(id="B", at=(20, 15))]


def stretch(number, *path):
    return TrenchStretch(
        id=f"T{number}", path=path, length_m=1.0, method="machine", depth_m=0.3, role="lateral",
        pipes=(), cables=(), soil="loam", surface="", why="",
    )  # fmt: skip

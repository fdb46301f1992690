"""The plan drawing on the phone: drawn anew at each size, so that labels stay readable."""

from collections.abc import Mapping
from urllib.parse import urlencode

from design.document import Mark, Plan
from design.drawing import DrawingOptions, plan_drawing, to_svg
from jobs.models import Job
from jobs.snapshot import Snapshot, read_snapshot

ZOOMS = (1, 2, 4)
# what the page calls a group of layers, and which layers of the drawing it shows
LAYER_CHOICES: dict[str, tuple[str, frozenset[str]]] = {
    "heads": ("Heads", frozenset({"devices"})),
    "wetting": ("Wetting", frozenset({"wetting"})),
    "pipes": ("Pipes", frozenset({"pipes"})),
    "trench": ("Trenches", frozenset({"trench"})),
    "cables": ("Cables", frozenset({"cables"})),
    "services": ("Buried lines", frozenset({"services"})),
}
_ALWAYS = frozenset({"ground", "marks", "labels", "scale", "legend"})
_WIDTH = 420
_TEXT = {1: 12, 2: 13, 4: 15}  # CSS px; drawn larger, words may grow a little
# what fits a thumbnail: the larger plan has the rest
_SMALL = frozenset({"ground", "marks", "labels", "scale", "devices", "wetting", "pipes", "services"})


def chosen_zoom(query: Mapping[str, str]) -> int:
    raw = query.get("zoom", "1")
    return int(raw) if raw in {str(zoom) for zoom in ZOOMS} else 1


def chosen_layers(query: Mapping[str, str]) -> frozenset[str]:
    """Names of LAYER_CHOICES to show: those not switched off by ``hide=name,name``."""
    hidden = set(query.get("hide", "").split(","))
    return frozenset(name for name in LAYER_CHOICES if name not in hidden)


def layer_links(zoom: int, layers: frozenset[str]) -> list[dict[str, object]]:
    """One link for each group of layers, which switches it on or off and leaves the others."""
    links = []
    for name, (label, _) in LAYER_CHOICES.items():
        hidden = [other for other in LAYER_CHOICES if (other in layers) == (other == name)]
        url = "?" + urlencode({"zoom": zoom, "hide": ",".join(hidden)})
        links.append({"label": label, "shown": name in layers, "url": url})
    return links


def plan_svg(job: Job, zoom: int, layers: frozenset[str]) -> str:
    """The sealed plan as an ``svg`` element; enlarged, with the pegs of its trench turns."""
    snapshot = read_snapshot(job.snapshot)
    shown = _ALWAYS.union(*(LAYER_CHOICES[name][1] for name in layers))
    plan = snapshot.plan if zoom == 1 else _with_pegs(snapshot)  # small, pegs would hide the rest
    return _drawn(job, snapshot, plan, (zoom, shown))


def small_plan_svg(job: Job) -> str:
    """The plan as a picture of its own for the job's page."""
    snapshot = read_snapshot(job.snapshot)
    return _drawn(job, snapshot, snapshot.plan, (1, _SMALL))


def _drawn(job: Job, snapshot: Snapshot, plan: Plan, look: tuple[int, frozenset[str]]) -> str:
    zoom, layers = look
    options = DrawingOptions(
        layers=layers,
        units="us" if job.quote.site.units == "us" else "metric",
        parts=snapshot.parts,
        width=_WIDTH * zoom,
        text_size=_TEXT[zoom],
        title="Plan of the job",
    )
    return to_svg(plan_drawing(plan, snapshot.report, options))


def _with_pegs(snapshot: Snapshot) -> Plan:
    """The plan with a mark at each peg that is no device, for the drawing only."""
    pegs = [
        Mark(id=stake.id, label=stake.kind, at=stake.at)
        for stake in snapshot.stakes
        if stake.kind in ("trench turn", "sleeve end")
    ]
    ground = snapshot.plan.ground.model_copy(update={"marks": [*snapshot.plan.ground.marks, *pegs]})
    return snapshot.plan.model_copy(update={"ground": ground})

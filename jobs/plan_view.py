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
    options = DrawingOptions(
        layers=shown,
        units="us" if job.quote.site.units == "us" else "metric",
        parts=snapshot.parts,
        width=_WIDTH * zoom,
        text_size=12,
        title="Plan of the job",
    )
    plan = snapshot.plan if zoom == 1 else _with_pegs(snapshot)  # small, pegs would hide the rest
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

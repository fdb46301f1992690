"""What a layer of a file can become in the garden."""

from dataclasses import dataclass

from design.drawing.ground_layer import KIND_WORDS, SERVICE_WORDS
from design.exchange.shapes import Layer

LEAVE, SAME, MARK, LEVEL = "leave", "same", "mark", "level"
COVERS = ("turf", "bed", "hedge", "vegetables", "pots")
SURFACES = ("building", "paving", "fence", "neighbour", "water", "tree", "keep_out", "future_work")
SERVICES = ("gas", "electric", "water", "telecom", "sewer", "drain", "future_drain")


@dataclass(frozen=True)
class Becoming:
    """``group`` is the list of the ground that it goes into, ``kind`` its cover or kind there."""

    code: str
    heading: str
    words: str
    group: str = ""
    kind: str = ""


def _all() -> tuple[Becoming, ...]:
    plants = [Becoming(f"area-{k}", "Planted", KIND_WORDS[k], "areas", k) for k in COVERS]
    hard = [Becoming(f"surface-{k}", "Not planted", KIND_WORDS[k], "surfaces", k) for k in SURFACES]
    buried = [Becoming(f"service-{k}", "Buried", SERVICE_WORDS[k], "services", k) for k in SERVICES]
    points = [
        Becoming(MARK, "Points", "Marks to measure from", "marks"),
        Becoming(LEVEL, "Points", "Heights of the ground", "levels"),
    ]
    return (
        Becoming(LEAVE, "", "Leave it out"),
        Becoming(SAME, "", "What it was in the plan that was taken away"),
        *plants, *hard, *buried, *points,
    )  # fmt: skip


ALL = _all()
BY_CODE = {becoming.code: becoming for becoming in ALL}


def likely(layer: Layer) -> str:
    """A first guess by what is on the layer; names are not looked at, since everybody has their own."""
    if layer.is_own:
        return SAME
    if layer.rings:
        return "area-turf"
    if layer.points and layer.heights == layer.points:
        return LEVEL
    return MARK if layer.points and not layer.lines else LEAVE


def choices_for(layer: Layer) -> list[Becoming]:
    """Those that something on the layer can become."""
    found = [BY_CODE[LEAVE]]
    if layer.is_own:
        found.append(BY_CODE[SAME])
    has_shape = bool(layer.lines or layer.rings)
    for becoming in ALL:
        if becoming.group in ("areas", "surfaces", "services") and (has_shape or becoming.kind == "tree"):
            found.append(becoming)
    if layer.points:
        found.append(BY_CODE[MARK])
    if layer.heights:
        found.append(BY_CODE[LEVEL])
    return found

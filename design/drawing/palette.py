"""One style per class name: the single source of colour and weight for page and paper.

Colours are told apart by people with any common kind of colour blindness, and no meaning rests
on colour alone: each line also has its own dash, ticks or letter, each zone its number.
"""

from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Style:
    fill: str | None = None
    stroke: str | None = None
    width: float = 0
    dash: tuple[float, ...] = ()
    fill_opacity: float = 1
    bold: bool = False
    halo: bool = False
    round_ends: bool = True


INK = "#22303a"
FAINT_INK = "#56636c"
PAPER = "#ffffff"
MAIN = "#123c69"
LATERAL = "#2b6ca8"
CABLE = "#8a3f7d"
EARTH = "#dcc29a"
EARTH_DARK = "#7a5a2a"
ALERT = "#a3261b"

# Apart in normal sight and for red-, green- and blue-blind eyes alike; tests/ hold the distance.
ZONE_COLOURS = ("#707ab3", "#ac7015", "#37a39a", "#5c1e78", "#952650", "#3e4909")

AREA_FILLS = {
    "turf": "#e6edd6",
    "bed": "#f3e6d3",
    "hedge": "#d5e0c8",
    "vegetables": "#efe9cf",
    "pots": "#f4ead9",
}
SURFACE_FILLS = {
    "building": "#d6d3ce",
    "paving": "#eeecea",
    "water": "#d3e5ef",
    "tree": "#c9d8bd",
    "future_work": "#fbf6ea",
    "keep_out": "#f7eceb",
    "neighbour": "#f4f3f1",
    "fence": "#88827b",
}
# Colours follow the common marking of buried lines (APWA uniform colour code), darkened to read
# on white; each line also carries its letter.
SERVICE_INKS = {
    "gas": ("#8a6d00", "G"),
    "electric": ("#b3261e", "E"),
    "water": ("#1d5fa8", "W"),
    "telecom": ("#b85c00", "T"),
    "sewer": ("#33691e", "S"),
    "drain": ("#4e6b3a", "D"),
    "future_drain": ("#4e6b3a", "FD"),
}


def _area_styles() -> dict[str, Style]:
    return {f"area-{k}": Style(v, "#7d8b63", 0.9) for k, v in AREA_FILLS.items()}


def _surface_styles() -> dict[str, Style]:
    styles = {f"surface-{k}": Style(v, "#88827b", 0.8) for k, v in SURFACE_FILLS.items()}
    styles["surface-building"] = Style(SURFACE_FILLS["building"], "#5f5a54", 1.4)
    styles["surface-future_work"] = Style(SURFACE_FILLS["future_work"], EARTH_DARK, 1.2, (7, 4))
    styles["surface-keep_out"] = Style(SURFACE_FILLS["keep_out"], ALERT, 1.2, (3, 3))
    styles["hatch-building"] = Style(None, "#a8a29a", 0.5)
    styles["hatch-future_work"] = Style(None, "#c4ab7c", 0.6, (4, 4))
    styles["hatch-keep_out"] = Style(None, "#cf8d86", 0.6)
    styles["hatch-water"] = Style(None, "#8fb4c9", 0.6, (8, 6))
    return styles


def _service_styles() -> dict[str, Style]:
    styles = {}
    for kind, (ink, _) in SERVICE_INKS.items():
        styles[f"service-{kind}"] = Style(None, ink, 1.4, (12, 3, 2, 3))
        styles[f"service-text-{kind}"] = Style(ink, bold=True, halo=True)
    styles["service-future_drain"] = replace(styles["service-future_drain"], dash=(4, 5))
    return styles


def _pale(ink: str) -> str:
    """The ink thinned with white."""
    return "#" + "".join(f"{round(255 - (255 - int(ink[i : i + 2], 16)) * 0.28):02x}" for i in (1, 3, 5))


def _zone_styles() -> dict[str, Style]:
    styles = {}
    for number, ink in enumerate(ZONE_COLOURS, start=1):
        styles[f"zone-{number}"] = Style(_pale(ink), PAPER, 1.6, fill_opacity=0.8)
        styles[f"wet-{number}"] = Style(None, ink, 0.45)
        styles[f"badge-{number}"] = Style(PAPER, ink, 1.8)
        styles[f"drip-{number}"] = Style(None, ink, 0.9, (1, 2.4))
        styles[f"head-{number}"] = Style(ink, PAPER, 1)
        styles[f"arc-{number}"] = Style(None, ink, 1.4)
    return styles


STYLES: dict[str, Style] = {
    **_area_styles(),
    **_surface_styles(),
    **_service_styles(),
    **_zone_styles(),
    "trench-machine": Style(None, EARTH_DARK, 7, round_ends=False),
    "trench-machine-inside": Style(None, EARTH, 6, round_ends=False),
    "trench-hand": Style(None, EARTH, 3, round_ends=False),
    "trench-hand-tick": Style(None, EARTH_DARK, 1.1, round_ends=False),
    "trench-bore": Style(None, EARTH_DARK, 8, round_ends=False),
    "trench-bore-inside": Style(None, PAPER, 5.6, round_ends=False),
    "sleeve": Style(None, INK, 1.2, (2, 2)),
    "pipe-main": Style(None, MAIN, 2),
    "pipe-lateral": Style(None, LATERAL, 2),
    "pipe-text": Style(MAIN, halo=True),
    "cable": Style(None, CABLE, 1.1, (5, 2, 1, 2)),
    "mark": Style(None, INK, 1.2),
    "supply": Style(MAIN, PAPER, 1.2),
    "valve": Style(PAPER, MAIN, 1.6),
    "controller": Style(PAPER, CABLE, 1.8),
    "controller-bar": Style(None, CABLE, 1.6),
    "own-valve": Style(None, MAIN, 1.2),
    "junction": Style(MAIN),
    "leader": Style(None, INK, 0.7),
    "label": Style(INK, halo=True),
    "badge-text": Style(INK, bold=True),
    "label-strong": Style(INK, bold=True, halo=True),
    "label-faint": Style(FAINT_INK, halo=True),
    "furniture": Style(INK, INK, 1),
    "furniture-open": Style(PAPER, INK, 1),
    "furniture-text": Style(INK),
    "finding-stop": Style(ALERT, PAPER, 1),
    "finding-warn": Style(PAPER, ALERT, 1.4),
    "finding-text-stop": Style(PAPER, bold=True),
    "finding-text-warn": Style(ALERT, bold=True),
    "note": Style("#fff8dc", "#8a6d00", 0.8),
    "axis": Style(None, FAINT_INK, 1),
    "grid": Style(None, "#dfe3e6", 0.7),
    "curve": Style(None, MAIN, 2),
    "band": Style("#dbe5ee"),
    "spare": Style(None, "#8a5310", 1.4, (2, 2)),
    "reading": Style(PAPER, INK, 1.4),
    "design-point": Style(ALERT, PAPER, 1.2),
    "design-line": Style(None, ALERT, 1, (4, 3)),
    "demand": Style("#c9791a", PAPER, 1),
    "path-pressure": Style(None, LATERAL, 2),
    "path-point": Style(PAPER, LATERAL, 1.5),
}


def zone_number(position: int) -> int:
    """Style number of the zone at that position, counted from 0; colours repeat after six."""
    return position % len(ZONE_COLOURS) + 1

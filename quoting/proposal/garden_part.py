"""What will be done, and what it will do: scope, figures, areas, water."""

from reportlab.platypus import Flowable

from .blocks import bullets, gap, heading, run_in, table, words
from .data import Figure, ProposalData
from .pictures import SupplyPicture
from .styles import HAIRLINE, Look

_TILES_ACROSS = 5
_PICTURE_SHARE, _BETWEEN = 0.4, 0.03
_FEW_AREAS, _SHORT_NAME = 5, 60  # so many areas with such names stand beside the picture


def scope_part(data: ProposalData, look: Look) -> list[Flowable]:
    if not data.scope:
        return []
    return heading("What we will do", look) + [words(text, look["paragraph"]) for text in data.scope if text]


def result_part(data: ProposalData, look: Look) -> list[Flowable]:
    story: list[Flowable] = heading("What it will do", look)
    start = len(story)
    if data.figures:
        story += [_tiles(data.figures, look), gap(4)]
    width, facts = look.text_width, []
    if data.areas and data.plan is not None and data.report is not None and _is_short(data):
        left, right = width * (1 - _PICTURE_SHARE - _BETWEEN), width * _PICTURE_SHARE
        cells = [_areas(data, left, look) + _not_watered(data, look), SupplyPicture(data, right)]
        facts.append(table([cells], [left + width * _BETWEEN, right], []))
    else:
        facts += _areas(data, width, look) + _not_watered(data, look)
        if data.plan is not None and data.report is not None:
            facts.append(SupplyPicture(data, width * 0.6))
    facts += _water(data, look)
    story += facts
    return story if len(story) > start else []


def _is_short(data: ProposalData) -> bool:
    """Whether the areas fit beside the picture, however small the page."""
    names = [text for area in data.areas for text in (area.label, area.how)] + [*data.not_watered]
    few = len(data.areas) <= _FEW_AREAS and len(data.not_watered) <= _FEW_AREAS
    return few and all(len(name) <= _SHORT_NAME for name in names)


def _tiles(figures: tuple[Figure, ...], look: Look) -> Flowable:
    cells = [[words(f.value, look["figure"]), words(f.label, look["label"])] for f in figures]
    across = min(max(len(cells), 3), _TILES_ACROSS)
    cells += [[]] * (-len(cells) % across)
    rows = [cells[i : i + across] for i in range(0, len(cells), across)]
    first = 0.27 if across > 3 else 1 / across  # an area is a longer number than a count
    widths = [look.text_width * share for share in (first, *[(1 - first) / (across - 1)] * (across - 1))]
    return table(
        rows, widths,
        [("RIGHTPADDING", (0, 0), (-1, -1), 8), ("LINEBELOW", (0, 0), (-1, -1), 0.6, HAIRLINE)],
    )  # fmt: skip


def _areas(data: ProposalData, width: float, look: Look) -> list[Flowable]:
    if not data.areas:
        return []
    rows = [[words(t, look["label"]) for t in ("Area", "Watered by", "Size")]]
    for area in data.areas:
        cells = [words(area.label, look["body"]), words(area.how, look["body"])]
        rows.append([*cells, words(area.size, look["body"])])
    lines = [("LINEBELOW", (0, 0), (-1, -1), 0.6, HAIRLINE), ("RIGHTPADDING", (0, 0), (-2, -1), 8)]
    return [table(rows, [width * 0.38, width * 0.41, width * 0.21], lines)]


def _not_watered(data: ProposalData, look: Look) -> list[Flowable]:
    if not data.not_watered:
        return []
    return [words("Not watered", look["subheading"]), *bullets(data.not_watered, look)]


def _water(data: ProposalData, look: Look) -> list[Flowable]:
    facts = [("can be relied on", data.water_available), ("used at most at one time", data.water_used)]
    said = "; ".join(f"{value} {label}" for label, value in facts if value)
    text = f"{said}. {data.water_note}" if said else data.water_note
    return [gap(4), run_in("Your water", text, look)] if text else []

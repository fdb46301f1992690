"""What will be done, and what it will do: scope, figures, areas, water."""

from reportlab.platypus import Flowable, KeepTogether

from .blocks import bullets, gap, heading, table, words
from .data import Figure, ProposalData
from .pictures import SupplyPicture
from .styles import HAIRLINE, Look

_TILES_ACROSS = 4
_PICTURE_SHARE = 0.54


def scope_part(data: ProposalData, look: Look) -> list[Flowable]:
    if not data.scope:
        return []
    return heading("What we will do", look) + [words(text, look["paragraph"]) for text in data.scope if text]


def result_part(data: ProposalData, look: Look) -> list[Flowable]:
    story: list[Flowable] = heading("What it will do", look)
    if data.figures:
        story += [_tiles(data.figures, look), gap(8)]
    if data.areas:
        story.append(_areas(data, look))
    if data.not_watered:
        story += [words("Not watered", look["subheading"]), *bullets(data.not_watered, look)]
    story += _water(data, look)
    return story if len(story) > 2 else []


def _tiles(figures: tuple[Figure, ...], look: Look) -> Flowable:
    cells = [[words(f.value, look["figure"]), words(f.label, look["label"])] for f in figures]
    cells += [[]] * (-len(cells) % _TILES_ACROSS)
    rows = [cells[i : i + _TILES_ACROSS] for i in range(0, len(cells), _TILES_ACROSS)]
    return table(
        rows, [look.text_width / _TILES_ACROSS] * _TILES_ACROSS,
        [("RIGHTPADDING", (0, 0), (-1, -1), 8), ("LINEBELOW", (0, 0), (-1, -1), 0.6, HAIRLINE)],
    )  # fmt: skip


def _areas(data: ProposalData, look: Look) -> Flowable:
    rows = [[words(t, look["label"]) for t in ("Area", "Watered by", "Size")]]
    for area in data.areas:
        cells = [words(area.label, look["body"]), words(area.how, look["body"])]
        rows.append([*cells, words(area.size, look["body"])])
    width = look.text_width
    lines = [("LINEBELOW", (0, 0), (-1, -1), 0.6, HAIRLINE), ("RIGHTPADDING", (0, 0), (-1, -1), 8)]
    return table(rows, [width * 0.42, width * 0.38, width * 0.2], lines)


def _water(data: ProposalData, look: Look) -> list[Flowable]:
    facts = [("available", data.water_available), ("used at most at one time", data.water_used)]
    cells: list[Flowable] = []
    for label, value in facts:
        if value:
            cells += [words(value, look["figure"]), words(f"water {label}", look["label"]), gap(6)]
    if data.water_note:
        cells.append(words(data.water_note, look["body"]))
    if not cells:
        return []
    width = look.text_width
    title = words("Your water", look["subheading"])
    if data.plan is None or data.report is None:
        return [KeepTogether([title, *cells])]
    picture = SupplyPicture(data, width * _PICTURE_SHARE)
    row = table([[cells, picture]], [width * (1 - _PICTURE_SHARE), width * _PICTURE_SHARE],
                [("RIGHTPADDING", (0, 0), (0, 0), 14)])  # fmt: skip
    return [gap(6), KeepTogether([title, row])]

"""The price by section, options, and stages of payment. Section totals only, never a unit price."""

from typing import Any

from reportlab.platypus import Flowable, KeepTogether

from .blocks import amount, gap, heading, pieces, table, words
from .data import OptionLine, PriceLine, ProposalData
from .styles import HAIRLINE, Look

_AMOUNT_SHARE = 0.2
_ROWS_KEPT = 12  # a price list no longer than this stands on one page
_LINES: list[tuple[Any, ...]] = [("LINEBELOW", (0, 0), (-1, -1), 0.6, HAIRLINE)]


def price_part(data: ProposalData, look: Look) -> list[Flowable]:
    rows = [row for section in data.sections for row in _rows(section, look)]
    if len(rows) <= _ROWS_KEPT:
        listed = [table(rows, _widths(look), _LINES)] if rows else []
        return [KeepTogether([*heading("Price", look)[1:], *listed, _totals(data, look)])]
    story = heading("Price", look)
    story.append(table(rows[:-1], _widths(look), _LINES))
    # The last row goes with the totals: a total never stands alone at the top of a page.
    story.append(KeepTogether([table(rows[-1:], _widths(look), _LINES), _totals(data, look)]))
    return story


def _widths(look: Look) -> list[float]:
    return [look.text_width * (1 - _AMOUNT_SHARE), look.text_width * _AMOUNT_SHARE]


def _rows(line: PriceLine, look: Look) -> list[list[Any]]:
    """The amount stands beside the label; what it holds, and more of it, stands below."""
    first, *more = pieces(line.detail)
    cell: list[Flowable] = [words(line.label, look["cell-bold"])]
    if first:
        cell.append(words(first, look["small"]))
    rows: list[list[Any]] = [[cell, amount(line.amount, look["amount"])]]
    return rows + [[words(text, look["small"]), ""] for text in more]


def _totals(data: ProposalData, look: Look) -> Flowable:
    lines = []
    if data.subtotal:
        lines.append(PriceLine("Subtotal", data.subtotal))
    if data.discount:
        lines.append(data.discount)
    lines += data.taxes
    rows: list[list[Any]] = [
        [words(line.label, look["body"]), amount(line.amount, look["amount"])] for line in lines
    ]
    label = f"Total, {data.total_note}" if data.total_note else "Total"
    rows.append([words(label, look["total-label"]), amount(data.total, look["total"])])
    style: list[tuple[Any, ...]] = [
        ("BACKGROUND", (0, -1), (-1, -1), look.wash),
        ("LINEABOVE", (0, -1), (-1, -1), 1.4, look.accent),
        ("LEFTPADDING", (0, 0), (0, -1), 8),
        ("RIGHTPADDING", (1, 0), (1, -1), 0),
        ("RIGHTPADDING", (1, -1), (1, -1), 8),
        ("TOPPADDING", (0, -1), (-1, -1), 5),
        ("BOTTOMPADDING", (0, -1), (-1, -1), 6),
    ]
    return table(rows, _widths(look), style)


def options_part(data: ProposalData, look: Look) -> list[Flowable]:
    if not data.options:
        return []
    intro = "Each price is what the whole job would cost more, or less, with that choice."
    rows = [row for option in data.options for row in _option_rows(option, look)]
    return [*heading("Options", look), words(intro, look["paragraph"]), table(rows, _widths(look), _LINES)]


def _option_rows(option: OptionLine, look: Look) -> list[list[Any]]:
    label = f"{option.label} (we suggest this)" if option.suggested else option.label
    return _rows(PriceLine(label, option.amount, option.detail), look)


def stages_part(data: ProposalData, look: Look) -> list[Flowable]:
    if not data.stages:
        return []
    width = look.text_width
    rows: list[list[Any]] = [
        [words(s.label, look["cell-bold"]), words(s.when, look["body"]), amount(s.amount, look["amount"])]
        for s in data.stages
    ]
    widths = [width * 0.3, width * (0.7 - _AMOUNT_SHARE), width * _AMOUNT_SHARE]
    validity = f"This proposal is valid until {data.valid_until}. After that day we are glad to renew it."
    return [
        *heading("Payment", look),
        table(rows, widths, _LINES),
        gap(3),
        words(validity, look["small"]),
    ]

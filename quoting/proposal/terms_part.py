"""What is not included, what is assumed, cautions, conditions, and how to say yes."""

from collections.abc import Iterable
from urllib.parse import urlsplit
from xml.sax.saxutils import quoteattr

from reportlab.platypus import Flowable, KeepTogether, Paragraph

from .blocks import bullets, gap, heading, pieces, rule, table, words
from .data import ProposalData
from .styles import INK, Look
from .wording import ACCEPTANCE, CAUTIONS
from .words import markup


def limits_part(data: ProposalData, look: Look) -> list[Flowable]:
    story: list[Flowable] = []
    for title, texts in (("Not included", data.not_included), ("What we assume", data.assumptions)):
        if texts:
            story += heading(title, look) + bullets(texts, look)
    if data.conditions:
        named = [(condition.title, condition.text) for condition in data.conditions]
        story += [*heading("Conditions", look), _named(named, look)]
    return story


def cautions_part(data: ProposalData, look: Look) -> list[Flowable]:
    return [*heading("Safety first", look), _named(CAUTIONS, look), *bullets(data.cautions, look)]


def _named(texts: Iterable[tuple[str, str]], look: Look) -> Flowable:
    """A name on the left, its text on the right; a very long text goes on in the row below."""
    width = look.text_width
    rows = []
    for title, text in texts:
        for number, piece in enumerate(pieces(text)):
            rows.append([words("" if number else title, look["cell-bold"]), words(piece, look["body"])])
    return table(rows, [width * 0.26, width * 0.74], [("RIGHTPADDING", (0, 0), (0, -1), 10)])


def acceptance_part(data: ProposalData, look: Look) -> list[Flowable]:
    block: list[Flowable] = heading("How to accept", look)[1:]
    block.append(words(data.acceptance_text or ACCEPTANCE, look["paragraph"]))
    if _is_web_address(data.accept_link):
        shown = markup(data.accept_link)
        link = f"<a href={quoteattr(data.accept_link)} color='#{look.heading.hexval()[2:]}'>{shown}</a>"
        block.append(Paragraph(f"Or accept it on line: {link}", look["paragraph"]))
    reference = f"{data.quote_number}, revision {data.revision}: {data.total}"
    block += [words(reference, look["cell-bold"]), gap(34), _signature(look)]
    return [KeepTogether([gap(8), rule(2), *block])]


def _is_web_address(link: str) -> bool:
    try:
        return urlsplit(link).scheme in {"http", "https"}
    except ValueError:
        return False


def _signature(look: Look) -> Flowable:
    width = look.text_width
    cells = [words(t, look["label"]) for t in ("Name in full", "Signature", "Date")]
    row = [cells[0], "", cells[1], "", cells[2]]
    lines = [("LINEABOVE", (c, 0), (c, 0), 0.8, INK) for c in (0, 2, 4)]
    return table([row], [width * 0.34, width * 0.03, width * 0.38, width * 0.03, width * 0.22], lines)

"""What is not included, what is assumed, cautions, conditions, and how to say yes."""

from urllib.parse import urlsplit
from xml.sax.saxutils import quoteattr

from reportlab.platypus import Flowable, Paragraph

from .blocks import bullets, gap, heading, rule, run_in, table, two_columns, words
from .data import ProposalData
from .styles import INK, Look
from .wording import ACCEPTANCE, CAUTIONS
from .words import clean, markup


def limits_part(data: ProposalData, look: Look) -> list[Flowable]:
    story: list[Flowable] = []
    for title, texts in (("Not included", data.not_included), ("What we assume", data.assumptions)):
        if texts:
            story += heading(title, look) + two_columns(texts, look)
    return story


def conditions_part(data: ProposalData, look: Look) -> list[Flowable]:
    named = [run_in(condition.title, condition.text, look) for condition in data.conditions]
    return [*heading("Conditions", look), *named] if named else []


def cautions_part(data: ProposalData, look: Look) -> list[Flowable]:
    named = [run_in(title, text, look) for title, text in CAUTIONS]
    return [*heading("Safety first", look), *named, *bullets(data.cautions, look)]


def acceptance_part(data: ProposalData, look: Look) -> list[Flowable]:
    """For the caller to keep on one page."""
    ways = [clean(way).replace(" ", "\u00a0") for way in (data.company.email, data.company.phone)]
    reach = " or ".join(way for way in ways if way)
    how = data.acceptance_text or ACCEPTANCE
    how += f" Send us the signed page, or ask us first: {reach}." if reach else ""
    block: list[Flowable] = [*heading("How to accept", look)[1:], words(how, look["paragraph"])]
    if _is_web_address(data.accept_link):
        shown = markup(data.accept_link)
        link = f"<a href={quoteattr(data.accept_link)} color='#{look.heading.hexval()[2:]}'>{shown}</a>"
        block.append(Paragraph(f"Or accept it on line: {link}", look["paragraph"]))
    reference = f"{data.quote_number}, revision {data.revision}: {data.total}"
    block += [words(reference, look["cell-bold"]), gap(26), _signature(look)]
    return [gap(3), rule(2), *block]


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

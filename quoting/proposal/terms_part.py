"""What is not included, what is assumed, cautions, conditions, and how to say yes."""

from urllib.parse import urlsplit
from xml.sax.saxutils import quoteattr

from reportlab.platypus import Flowable, KeepTogether, Paragraph

from .blocks import bullets, gap, heading, rule, table, words
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
        story += heading("Conditions", look)
        for condition in data.conditions:
            title = words(condition.title, look["subheading"])
            title.keepWithNext = True
            story += [title, words(condition.text, look["paragraph"])]
    return story


def cautions_part(data: ProposalData, look: Look) -> list[Flowable]:
    story = heading("Safety first", look)
    width = look.text_width
    rows = [[words(title, look["cell-bold"]), words(text, look["body"])] for title, text in CAUTIONS]
    style = [("RIGHTPADDING", (0, 0), (0, -1), 10)]
    story.append(table(rows, [width * 0.26, width * 0.74], style))
    return story + bullets(data.cautions, look)


def acceptance_part(data: ProposalData, look: Look) -> list[Flowable]:
    block: list[Flowable] = heading("Saying yes", look)[1:]
    block.append(words(data.acceptance_text or ACCEPTANCE, look["paragraph"]))
    if _is_web_address(data.accept_link):
        link = f"<a href={quoteattr(data.accept_link)} color='#{look.heading.hexval()[2:]}'>"
        block.append(Paragraph(f"On line: {link}{markup(data.accept_link)}</a>", look["paragraph"]))
    reference = f"{data.quote_number}, revision {data.revision}: {data.total}"
    block += [words(reference, look["cell-bold"]), gap(34), _signature(look)]
    return [gap(10), rule(4), KeepTogether(block)]


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

"""First page: who offers what to whom, the drawing of the garden, and the price."""

from reportlab.platypus import Flowable, KeepTogether

from .blocks import Heading, amount, gap, table, words
from .data import ProposalData
from .logo import logo_flowable
from .pictures import COVER_LAYERS, PlanPicture
from .styles import HAIRLINE, Look

_GAP = 6.0
_SHORT_TITLE = 70  # characters that fill two lines at most


def cover(data: ProposalData, look: Look) -> list[Flowable]:
    title = f"Proposal for {data.customer_name}"
    style = look["title" if len(title) <= _SHORT_TITLE else "title-long"]
    story: list[Flowable] = [_letterhead(data, look), gap(12), Heading(title, style)]
    story.append(words(data.promise, look["promise"]))
    story += [_parties(data, look), gap(6)]
    price = _price(data, look)
    if data.plan is not None:
        below = price.wrap(look.text_width, look.page_size[1])[1] + 2 * _GAP
        story += [PlanPicture(data, COVER_LAYERS, below), gap(_GAP)]
    story.append(KeepTogether([price]))
    return story


def _letterhead(data: ProposalData, look: Look) -> Flowable:
    company = data.company
    logo = logo_flowable(company.logo)
    left: list[Flowable] = [logo, gap(4)] if logo else []
    left.append(words(company.name, look["company"]))
    address = ", ".join(line for line in company.address if line)
    left += [words(address, look["small"])] if address else []
    reach = " · ".join(way for way in (company.phone, company.email) if way)
    right = [words(line, look["small-right"]) for line in (reach, company.licence, company.insurance) if line]
    width = look.text_width
    return table(
        [[left, right]], [width * 0.56, width * 0.44],
        [("LINEBELOW", (0, 0), (-1, -1), 2, look.accent), ("BOTTOMPADDING", (0, 0), (-1, -1), 8)],
    )  # fmt: skip


def _parties(data: ProposalData, look: Look) -> Flowable:
    site = [line for line in (data.site_name, *data.site_address) if line]
    customer = [line for line in data.customer_address if line]
    number = f"{data.quote_number}, revision {data.revision}"
    columns = [
        ("Proposal", [number, f"issued {data.issued_on}", f"valid until {data.valid_until}"]),
        ("Customer", [data.customer_name, *customer]),
        ("Site", site or customer),
    ]
    cells = [
        [words(title, look["label"]), *(words(line, look["body"]) for line in lines)]
        for title, lines in columns
    ]
    third = look.text_width / 3
    return table([cells], [third] * 3, [("RIGHTPADDING", (0, 0), (-1, -1), 10)])


def _price(data: ProposalData, look: Look) -> Flowable:
    label = "Price" if not data.total_note else f"Price, {data.total_note}"
    left = [words(label, look["grand-label"]), amount(data.total, look["grand"])]
    right = [
        words(f"This price holds until {data.valid_until}.", look["body"]),
        words("What it includes, and how to accept it, is on the next pages.", look["small"]),
    ]
    width = look.text_width
    return table(
        [[left, right]], [width * 0.5, width * 0.5],
        [
            ("BACKGROUND", (0, 0), (-1, -1), look.wash),
            ("LINEBEFORE", (0, 0), (0, -1), 3, look.accent),
            ("LINEBELOW", (0, 0), (-1, -1), 0.6, HAIRLINE),
            ("LEFTPADDING", (0, 0), (-1, -1), 12),
            ("TOPPADDING", (0, 0), (-1, -1), 9),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 9),
            ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
        ],
    )  # fmt: skip

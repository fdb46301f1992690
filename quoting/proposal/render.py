"""From a proposal's data to the bytes of its PDF."""

from functools import partial
from io import BytesIO

from .data import ProposalData
from .page import CountingCanvas, ProposalDocument, shortened
from .story import story_of
from .styles import look_of


def render_proposal(data: ProposalData) -> bytes:
    """The PDF. The same data always give the same bytes, so that a digest can be kept of them."""
    look = look_of(data)
    out = BytesIO()
    foot = (
        f"Proposal {shortened(data.quote_number)}, revision {data.revision} · {shortened(data.customer_name)}"
    )
    document = ProposalDocument(out, data, look)
    document.build(story_of(data, look), canvasmaker=partial(CountingCanvas, foot=foot, look=look))
    return out.getvalue()

"""The plan drawing on quote pages and in the customer's offer."""

from collections.abc import Iterable

from design.drawing import CUSTOMER_LAYERS, DrawingOptions, plan_drawing, to_svg
from quoting.scope_words import Subject

PAGE_WIDTH = 900
CUSTOMER_WIDTH = 480  # so that its words can be read on a phone, where it is 360 pixels wide


def customer_svg(subject: Subject) -> str:
    """The drawing in plain words, without findings, notes, cables and sizes."""
    options = DrawingOptions(
        layers=CUSTOMER_LAYERS,
        units=subject.units,
        parts=subject.parts,
        plain=True,
        width=CUSTOMER_WIDTH,
        title="Your plan",
    )
    return to_svg(plan_drawing(subject.plan, subject.report, options))


def office_svg(subject: Subject, marked: Iterable[str] = ()) -> str:
    """The drawing with everything on it; ``marked`` are ids of plan entities to point out."""
    options = DrawingOptions(
        units=subject.units,
        parts=subject.parts,
        highlight=frozenset(marked),
        interactive=True,
        width=PAGE_WIDTH,
    )
    return to_svg(plan_drawing(subject.plan, subject.report, options))

"""The plan drawing on quote pages and in the customer's offer."""

from collections.abc import Iterable

from design.drawing import CUSTOMER_LAYERS, DrawingOptions, plan_drawing, to_svg
from quoting.scope_words import Subject

PAGE_WIDTH = 900


def customer_svg(subject: Subject) -> str:
    """The drawing without findings, notes and cables."""
    options = DrawingOptions(
        layers=CUSTOMER_LAYERS, units=subject.units, parts=subject.parts, width=PAGE_WIDTH, title="Your plan"
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

"""What other apps say on the page that compares two plan revisions. Each adds its own when it is ready."""

from collections.abc import Callable
from dataclasses import dataclass

from office.models import Person
from sites.models import PlanRevision


@dataclass(frozen=True)
class ComparisonTable:
    """Rows of name, before, after and difference, ready to read; ``total`` is the last of them.

    ``sentence`` says instead why there is no table, or what it rests on.
    """

    rows: tuple[tuple[str, str, str, str], ...]
    total: tuple[str, str, str, str] | None
    sentence: str


Table = Callable[[Person, PlanRevision, PlanRevision], ComparisonTable]
_panels: list[tuple[str, Table]] = []


def add_comparison_panel(title: str, table: Table) -> None:
    _panels.append((title, table))


def comparison_panels(
    person: Person, before: PlanRevision, after: PlanRevision
) -> list[tuple[str, ComparisonTable]]:
    return [(title, table(person, before, after)) for title, table in _panels]

"""Boxes on a site's page that other apps fill: quotes, jobs. Each app adds its own when it is ready."""

from collections.abc import Callable
from dataclasses import dataclass

from office.models import Person
from office.navigation import PanelRow
from sites.models import Site

Rows = Callable[[Person, Site], list[PanelRow]]
Action = Callable[[Person, Site], tuple[str, str] | None]


@dataclass(frozen=True)
class SitePanel:
    """``rows(person, site)`` fills the box; an empty one says ``empty``. ``action(person, site)``
    gives label and address of a button below, or none."""

    title: str
    rows: Rows
    empty: str
    audience: str
    order: int
    action: Action | None


_panels: list[SitePanel] = []


def add_site_panel(
    title: str,
    rows: Rows,
    *,
    empty: str,
    audience: str = "is_office",
    order: int = 50,
    action: Action | None = None,
) -> None:
    _panels.append(SitePanel(title, rows, empty, audience, order, action))
    _panels.sort(key=lambda panel: panel.order)


def site_panels(person: Person, site: Site) -> list[dict[str, object]]:
    """The boxes that this person may see, filled for the site."""
    return [
        {
            "title": panel.title,
            "rows": panel.rows(person, site),
            "empty": panel.empty,
            "action": panel.action(person, site) if panel.action else None,
        }
        for panel in _panels
        if getattr(person, panel.audience)
    ]

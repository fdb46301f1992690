"""The main menu, and the panels of the daily page. Each app adds its own when it is ready."""

from collections.abc import Callable
from dataclasses import dataclass

from django.urls import reverse


@dataclass(frozen=True)
class Entry:
    """One menu entry; ``audience`` is a property of Person, such as ``is_office``."""

    label: str
    url_name: str
    audience: str
    order: int


@dataclass(frozen=True)
class Panel:
    """One box of the daily page. ``rows(person)`` gives ``PanelRow``s; an empty box says ``empty``."""

    title: str
    rows: Callable[..., list["PanelRow"]]
    audience: str
    order: int
    empty: str


@dataclass(frozen=True)
class PanelRow:
    text: str
    url: str
    detail: str = ""
    urgent: bool = False


@dataclass(frozen=True)
class Start:
    """Something that a day begins with: a button, or a search box where ``searches`` says what it finds."""

    label: str
    url_name: str
    audience: str
    searches: str


_entries: list[Entry] = []
_starts: list[Start] = []
_settings: list[Entry] = []
_panels: list[Panel] = []


def add_entry(label: str, url_name: str, *, audience: str = "is_office", order: int = 50) -> None:
    _entries.append(Entry(label, url_name, audience, order))
    _entries.sort(key=lambda entry: entry.order)


def add_setting(label: str, url_name: str, *, audience: str = "is_owner", order: int = 50) -> None:
    """A page that is set once and seldom opened: it is linked from the company's page."""
    _settings.append(Entry(label, url_name, audience, order))
    _settings.sort(key=lambda entry: entry.order)


def settings_for(user: object) -> list[dict[str, str]]:
    return [
        {"label": entry.label, "url": reverse(entry.url_name)}
        for entry in _settings
        if getattr(user, entry.audience)
    ]


def add_start(label: str, url_name: str, *, audience: str = "is_office", searches: str = "") -> None:
    """A button on top of the daily page; with ``searches`` a box whose text goes there as ``q``."""
    _starts.append(Start(label, url_name, audience, searches))


def starts_for(user: object) -> list[dict[str, str]]:
    return [
        {"label": start.label, "url": reverse(start.url_name), "searches": start.searches}
        for start in _starts
        if getattr(user, start.audience)
    ]


def add_panel(
    title: str,
    rows: Callable[..., list[PanelRow]],
    *,
    empty: str,
    audience: str = "is_office",
    order: int = 50,
) -> None:
    _panels.append(Panel(title, rows, audience, order, empty))
    _panels.sort(key=lambda panel: panel.order)


def entries_for(user: object, path: str) -> list[dict[str, object]]:
    """Menu entries that this person may open, the current one marked."""
    if not getattr(user, "is_authenticated", False):
        return []
    found = []
    for entry in _entries:
        if getattr(user, entry.audience):
            url = reverse(entry.url_name)
            found.append({"label": entry.label, "url": url, "current": url != "/" and path.startswith(url)})
    return found


def panels_for(user: object) -> list[dict[str, object]]:
    return [
        {"title": panel.title, "rows": panel.rows(user), "empty": panel.empty}
        for panel in _panels
        if getattr(user, panel.audience)
    ]

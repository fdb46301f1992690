"""Every form that a person reaches by following links, with the fields it would send."""

from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

from django.test import Client
from django.urls import Resolver404, resolve

MOST_PAGES = 150


@dataclass
class Form:
    page: str
    action: str
    method: str
    fields: dict[str, list[str]]
    files: list[str]


class _Reader(HTMLParser):
    """Links and forms of one page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.page, self.links, self.forms = page, [], []
        self._form: Form | None = None
        self._name = ""

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        if tag == "a" and given.get("href"):
            self.links.append(urljoin(self.page, given["href"]))
        elif tag == "form":
            action = urljoin(self.page, given.get("action") or "")
            self._form = Form(self.page, action, (given.get("method") or "get").lower(), {}, [])
            self.forms.append(self._form)
        elif self._form is not None and given.get("name"):
            self._field(tag, given)
        elif tag == "option" and self._form is not None and self._name and "selected" in given:
            self._form.fields[self._name] = [given.get("value") or ""]

    def _field(self, tag, given):
        name, kind = given["name"], given.get("type", "text")
        if tag == "input" and kind == "file":
            self._form.files.append(name)
        elif tag == "input" and kind in ("checkbox", "radio"):
            if "checked" in given:
                self._form.fields.setdefault(name, []).append(given.get("value") or "on")
        elif tag in ("input", "textarea", "select", "button"):
            self._form.fields.setdefault(name, []).append(given.get("value") or "")
        self._name = name if tag in ("select", "textarea") else ""

    def handle_data(self, data):
        if self._form is not None and self._name and self.lasttag == "textarea":
            self._form.fields[self._name] = [data.removeprefix("\n")]

    def handle_endtag(self, tag):
        if tag == "form":
            self._form = None
        if tag in ("select", "textarea"):
            self._name = ""


def _shape(path: str) -> str:
    """The name of the address, whichever row it is about; empty for none of ours."""
    try:
        return resolve(path).view_name
    except Resolver404:
        return ""


def crawl(client: Client, start: str = "/") -> Iterator[tuple[str, "_Reader"]]:
    """One page of each kind, read."""
    queue, seen = [start], set()
    while queue and len(seen) < MOST_PAGES:
        page = queue.pop(0)
        parts = urlsplit(page)
        shape = _shape(parts.path)
        if not shape or shape in seen or parts.netloc or "logout" in page:
            continue
        seen.add(shape)
        answer = client.get(page, follow=True)
        if "text/html" not in answer.headers.get("Content-Type", ""):
            continue
        reader = _Reader(answer.request["PATH_INFO"])
        reader.feed(answer.content.decode())
        queue += reader.links
        yield page, reader


def forms_of(client: Client, start: str = "/") -> list[Form]:
    """One form of each address that takes one."""
    found: dict[str, Form] = {}
    for _, reader in crawl(client, start):
        for form in reader.forms:
            found.setdefault(_shape(urlsplit(form.action).path), form)
    return list(found.values())

"""What the drawing board's page carries for its scripts."""

from typing import Any

from django.urls import reverse

from design.document import Area, Service, Surface
from design.survey.reduce import reduce_plane
from hydraulics.catalogue import Catalogue, DripPart, HeadPart, PipePart
from office.models import Person
from parts.services import catalogue
from sites.drafts import Drawing, drawing_for
from sites.frozen import frozen_words
from sites.models import Site
from sites.photo_services import photos_on_plan
from sites.survey_page import plane_of

ENDPOINTS = ("check", "draft", "keep", "discard", "wetting", "place", "measure")
PART_KINDS = ("valve", "cable", "controller", "meter", "backflow")
ARCS = {"fixed_arc": "fixed", "full_circle": "full", "by_bearing": "by_bearing"}


def board_data(site: Site, person: Person) -> dict[str, Any]:
    """The drawing, the parts to draw with, the photos that have a place, and where to ask."""
    drawing = drawing_for(site=site, person=person)
    return {
        **drawing_data(drawing),
        "person": person.pk,
        "site": {
            "id": site.pk, "name": site.name, "customer": site.customer.name,
            "units": "us" if site.units == "us" else "metric",
        },
        "parts": part_choices(catalogue()),
        "choices": _choices(),
        "photos": photos_on_plan(site),
        "weak_points": _weak_points(site),
        "report": None,  # the page asks for it once it is painted
        "urls": _urls(site),
        "frozen": _frozen(site, drawing),
    }  # fmt: skip


def drawing_data(drawing: Drawing) -> dict[str, Any]:
    return {
        "document": drawing.document,
        "began_from": drawing.began_from,
        "draft_version": drawing.draft_version,
        "name": drawing.name,
        "saved_at": drawing.saved_at.isoformat() if drawing.saved_at else None,
    }


def part_choices(parts: Catalogue) -> dict[str, list[dict[str, Any]]]:
    """The parts that can be drawn, by what they are drawn as."""
    found: dict[str, list[dict[str, Any]]] = {name: [] for name in ("head", "pipe", "sleeve", *PART_KINDS)}
    for part in sorted(parts.values(), key=lambda part: part.label):
        row: dict[str, Any] = {"code": part.code, "label": part.label}
        if isinstance(part, HeadPart | DripPart):
            found["head"].append({**row, **_throw(part)})
        elif isinstance(part, PipePart):
            found["pipe"].append({**row, "short": part.size, "bore_mm": part.bore_mm})
        elif part.kind == "sundry" and part.role == "sleeve":
            found["sleeve"].append(row)
        elif part.kind in PART_KINDS:
            found[part.kind].append(row)
    return found


def _throw(part: HeadPart | DripPart) -> dict[str, Any]:
    """How a head wets; its reach is that of the row in the middle, where most of them run."""
    if isinstance(part, DripPart):
        nothing = {"reach_m": None, "least_reach_m": None, "most_reach_m": None}
        return {"arc": "drip", "own_valve": False, **nothing}
    rows = part.rising_rows
    throws = [row.throw_m for row in rows]
    return {
        "arc": ARCS[part.pattern],
        "own_valve": part.own_valve,
        "reach_m": rows[len(rows) // 2].throw_m,
        "least_reach_m": part.min_throw_m or min(throws),
        "most_reach_m": max(throws),
    }


def _choices() -> dict[str, list[tuple[str, str]]]:
    fields = {"cover": (Area, "cover"), "soil": (Area, "soil"), "surface": (Surface, "kind"),
              "service": (Service, "kind")}  # fmt: skip
    return {
        name: [(value, value.replace("_", " ")) for value in _values(model, field)]
        for name, (model, field) in fields.items()
    }


def _values(model: Any, field: str) -> tuple[str, ...]:
    values: tuple[str, ...] = model.model_fields[field].annotation.__args__
    return values


def _weak_points(site: Site) -> list[dict[str, Any]]:
    """Measured points of the newest visit that are unsure."""
    visit = site.visits.select_related("survey").order_by("-visited_on", "-pk").first()
    if visit is None or not hasattr(visit, "survey"):
        return []
    return [{"id": p.point, "at": list(p.at)} for p in reduce_plane(plane_of(visit.survey)).weak]


def _urls(site: Site) -> dict[str, str | None]:
    newest = site.plans.order_by("-number").values_list("number", flat=True).first()
    here = {name: reverse(f"sites:board-{name}", args=[site.pk]) for name in ENDPOINTS}
    return {
        **here,
        "site": reverse("sites:site", args=[site.pk]),
        "plan": reverse("sites:plan", args=[site.pk, newest]) if newest else None,
        "compare": reverse("sites:compare", args=[site.pk]) if newest and newest > 1 else None,
    }


def _frozen(site: Site, drawing: Drawing) -> str:
    began_from = site.plans.defer("document").filter(number=drawing.began_from).first()
    words = frozen_words(began_from) if began_from else ""
    return f"{words}; what you draw here becomes a new revision." if words else ""

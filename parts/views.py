"""Pages of the parts book. For owner and office: they show what parts cost us."""

from typing import Any, cast

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from office.access import office_only, person_of
from office.versions import Clash
from parts import services
from parts.access import get_part_for, parts_for, search_parts
from parts.clash import clash_rows
from parts.forms import KindForm, PriceForm, SheetForm
from parts.models import Category, Part
from parts.prices import price_text
from parts.sheet_fields import sheet_fields
from parts.sheet_text import read
from parts.technical import KIND_NAMES, USUAL_CATEGORY, PartInvalid

PER_PAGE = 50


@require_safe
@office_only
def part_list(request: HttpRequest) -> HttpResponse:
    words, category = request.GET.get("q", "")[:100], request.GET.get("category", "")
    category = category if category in Category.values else ""
    found = search_parts(parts_for(person_of(request)), words, category)
    if not request.GET.get("unused"):
        found = found.filter(active=True)
    page = Paginator(found, PER_PAGE).get_page(request.GET.get("page"))
    prices = services.best_prices(timezone.localdate(), [part.code for part in page])
    context = {
        "page": page,
        "rows": [(part, prices.get(part.code)) for part in page],
        "q": words,
        "category": category,
        "unused": request.GET.get("unused", ""),
        "categories": Category.choices,
    }
    template = "parts/_list.html" if getattr(request, "htmx", False) else "parts/list.html"
    return render(request, template, context)


@require_safe
@office_only
def part_detail(request: HttpRequest, code: str) -> HttpResponse:
    part = get_part_for(person_of(request), code)
    return _part_page(request, part, PriceForm())


@require_POST
@office_only
def price_add(request: HttpRequest, code: str) -> HttpResponse:
    part = get_part_for(person_of(request), code)
    form = PriceForm(request.POST)
    form.instance.part = part
    if not form.is_valid():
        return _part_page(request, part, form, status=422)
    data = form.cleaned_data
    try:
        services.add_price(part=part, by=person_of(request), **data)
    except ValidationError:
        form.add_error(
            "valid_from", f"{data['supplier']} has a price from that day already; choose another day."
        )
        return _part_page(request, part, form, status=422)
    messages.success(request, "The price is kept; earlier ones stay as history.")
    return redirect("parts:part", code=part.code)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def part_edit(request: HttpRequest, code: str) -> HttpResponse:
    part = get_part_for(person_of(request), code)
    if request.method != "POST":
        return _sheet_page(request, SheetForm(part.kind, stored=part), part)
    form = SheetForm(part.kind, request.POST, stored=part)
    if not form.is_valid():
        return _sheet_page(request, form, part, status=422)
    try:
        services.update_part(
            part,
            began_from=form.cleaned_data["began_from"] or 0,
            data=form.technical_data(),
            category=form.cleaned_data["category"],
            active=form.cleaned_data["active"],
            by=person_of(request),
        )
    except PartInvalid as error:
        form.show_problems(error.problems)
        return _sheet_page(request, form, part, status=422)
    except Clash as clash:
        return _clash_page(request, form, clash)
    messages.success(request, "Saved. Plans that use the part are judged by the new data from now on.")
    return redirect("parts:part", code=part.code)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def part_add(request: HttpRequest) -> HttpResponse:
    kind = request.GET.get("kind", "")
    if kind not in KIND_NAMES:
        return render(request, "parts/choose_kind.html", {"form": KindForm()})
    form = SheetForm(kind, request.POST or None, initial={"active": True, "category": USUAL_CATEGORY[kind]})
    if request.method == "POST" and form.is_valid():
        try:
            part = services.create_part(
                data=form.technical_data(),
                category=form.cleaned_data["category"],
                active=form.cleaned_data["active"],
                by=person_of(request),
            )
        except PartInvalid as error:
            form.show_problems(error.problems)
        else:
            messages.success(request, "The part is in the book. Add its price next.")
            return redirect("parts:part", code=part.code)
    return _sheet_page(request, form, None, status=422 if request.method == "POST" else 200)


def _part_page(request: HttpRequest, part: Part, form: PriceForm, status: int = 200) -> HttpResponse:
    best = services.best_prices(timezone.localdate(), [part.code]).get(part.code)
    fields = [
        (field.label, read(field, part.data[field.name]))
        for field in sheet_fields(part.kind)
        if field.name not in ("code", "label") and part.data.get(field.name) not in (None, "", [])
    ]
    context = {
        "part": part,
        "kind_name": KIND_NAMES[part.kind],
        "sheet": fields,
        "prices": [(row, price_text(row.price)) for row in part.prices.select_related("supplier")],
        "best": best,
        "form": form,
    }
    return render(request, "parts/part.html", context, status=status)


def _sheet_page(
    request: HttpRequest, form: SheetForm, part: Part | None, status: int = 200, **more: Any
) -> HttpResponse:
    context = {"form": form, "part": part, "kind_name": KIND_NAMES[form.kind], **more}
    return render(request, "parts/edit.html", context, status=status)


def _clash_page(request: HttpRequest, form: SheetForm, clash: Clash) -> HttpResponse:
    """What was typed stays; saving again from here replaces what the page now shows beside it."""
    current = cast(Part, clash.current)
    rows = clash_rows(form, SheetForm(form.kind, stored=current))
    form.begin_from(current.version)
    form.add_error(None, clash)
    return _sheet_page(request, form, current, status=409, clash=rows)

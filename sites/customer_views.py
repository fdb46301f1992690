"""Pages of customers: search, add, look, edit."""

from typing import Any, cast

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import Count
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from sites import services
from sites.access import customers_for, get_customer_for
from sites.forms import CustomerForm
from sites.models import Customer
from sites.search import search_customers

PER_PAGE = 30


@require_safe
@office_only
def customer_list(request: HttpRequest) -> HttpResponse:
    words = request.GET.get("q", "")[:200]
    found = search_customers(customers_for(person_of(request)), words)
    page = Paginator(
        found.annotate(number_of_sites=Count("sites")).order_by("name", "pk"), PER_PAGE
    ).get_page(request.GET.get("page"))
    template = "sites/_customers.html" if getattr(request, "htmx", False) else "sites/customers.html"
    return render(request, template, {"page": page, "q": words})


@require_safe
@office_only
def customer_detail(request: HttpRequest, pk: int) -> HttpResponse:
    customer = get_customer_for(person_of(request), pk)
    sites = customer.sites.annotate(number_of_plans=Count("plans")).order_by("name", "pk")
    return render(request, "sites/customer.html", {"customer": customer, "sites": sites})


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def customer_add(request: HttpRequest) -> HttpResponse:
    form = CustomerForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        customer = services.create_customer(by=person_of(request), **form.typed())
        messages.success(request, "Customer added. Add the site next.")
        return redirect("sites:customer", pk=customer.pk)
    status = 422 if request.method == "POST" else 200
    return render(request, "sites/customer_edit.html", {"form": form}, status=status)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def customer_edit(request: HttpRequest, pk: int) -> HttpResponse:
    customer = get_customer_for(person_of(request), pk)
    form = CustomerForm(request.POST or None, instance=customer)
    context: dict[str, Any] = {"form": form, "customer": customer}
    if request.method != "POST":
        return render(request, "sites/customer_edit.html", context)
    if not form.is_valid():
        return render(request, "sites/customer_edit.html", context, status=422)
    try:
        services.update_customer(
            customer,
            began_from=form.cleaned_data["began_from"] or 0,
            by=person_of(request),
            **form.typed(),
        )
    except Clash as clash:
        current = cast(Customer, clash.current)
        context["clash"] = clash_rows(form, CustomerForm(instance=current))
        form.begin_from(current.version)
        return render(request, "sites/customer_edit.html", context, status=409)
    messages.success(request, "Saved.")
    return redirect("sites:customer", pk=customer.pk)

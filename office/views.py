"""The daily page, the company's profile, its people, and who did what."""

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from office import services
from office.access import owner_only, person_of, staff_only
from office.company import get_company
from office.forms import CompanyForm, PersonForm
from office.models import AuditEvent, Person
from office.navigation import panels_for, settings_for, starts_for


@require_safe
@staff_only
def day(request: HttpRequest) -> HttpResponse:
    person = person_of(request)
    return render(request, "office/day.html", {"panels": panels_for(person), "starts": starts_for(person)})


@require_http_methods(["GET", "POST"])
@owner_only
def company_edit(request: HttpRequest) -> HttpResponse:
    form = CompanyForm(request.POST or None, instance=get_company())
    if request.method == "POST" and form.is_valid():
        fields = {name: form.cleaned_data[name] for name in form.Meta.fields}
        try:
            services.update_company(
                by=person_of(request), began_from=form.cleaned_data["began_from"], fields=fields
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, "Saved.")
            return redirect("office:company")
    status = 422 if request.method == "POST" else 200
    context = {"form": form, "settings": settings_for(person_of(request))}
    return render(request, "office/company.html", context, status=status)


@require_safe
@owner_only
def people(request: HttpRequest) -> HttpResponse:
    return render(
        request, "office/people.html", {"people": Person.objects.order_by("-is_active", "role", "name")}
    )


@require_http_methods(["GET", "POST"])
@owner_only
def person_add(request: HttpRequest) -> HttpResponse:
    form = PersonForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        person = services.add_person(
            by=person_of(request),
            name=data["name"],
            email=data["email"],
            role=data["role"],
            password=data["password"],
        )
        messages.success(request, f"{person} can log in now.")
        return redirect("office:people")
    status = 422 if request.method == "POST" else 200
    return render(request, "office/person.html", {"form": form}, status=status)


@require_http_methods(["GET", "POST"])
@owner_only
def person_edit(request: HttpRequest, pk: int) -> HttpResponse:
    person = get_object_or_404(Person, pk=pk)
    mark = services.person_mark(person)
    form = PersonForm(request.POST or None, instance=person, initial={"began_from": mark})
    if request.method == "POST" and form.is_valid():
        fields = {name: form.cleaned_data[name] for name in form.Meta.fields}
        try:
            services.update_person(
                by=person_of(request),
                person=person,
                fields=fields,
                password=form.cleaned_data["password"],
                began_from=form.cleaned_data["began_from"] or mark,
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, "Saved.")
            return redirect("office:people")
    status = 422 if request.method == "POST" else 200
    return render(request, "office/person.html", {"form": form, "person": person}, status=status)


@require_safe
@owner_only
def audit_trail(request: HttpRequest) -> HttpResponse:
    pages = Paginator(AuditEvent.objects.select_related("person"), 50)
    return render(request, "office/audit.html", {"page": pages.get_page(request.GET.get("page"))})

"""The page of limits, for the owner: all of them, and one to be moved."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from hydraulics.limits import BadLimit
from office.access import owner_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from sites.limit_forms import LimitForm
from sites.limit_page import limit_row, limit_rows
from sites.limit_services import move_limit


@require_safe
@owner_only
def limit_list(request: HttpRequest) -> HttpResponse:
    rows = limit_rows()
    return render(
        request, "sites/limits.html", {"rows": rows, "moved": [row for row in rows if row.is_moved]}
    )


@require_http_methods(["GET", "HEAD", "POST"])
@owner_only
def limit_edit(request: HttpRequest, name: str) -> HttpResponse:
    row = limit_row(name)
    if row is None:
        raise Http404("There is no such limit.")
    form = LimitForm(request.POST or None, row=row)
    if request.method != "POST":
        return render(request, "sites/limit.html", {"form": form, "row": row})
    if not form.is_valid():
        return render(request, "sites/limit.html", {"form": form, "row": row}, status=422)
    try:
        move_limit(name=name, by=person_of(request), **form.cleaned_data)
    except BadLimit as refusal:
        form.add_error("value", str(refusal))
        return render(request, "sites/limit.html", {"form": form, "row": row}, status=422)
    except Clash:
        return _clash(request, name, form)
    messages.success(request, "Saved. Every check from now on judges by it.")
    return redirect("sites:limits")


def _clash(request: HttpRequest, name: str, form: LimitForm) -> HttpResponse:
    """What stands now beside what was typed, ready to be saved over it."""
    current = limit_row(name)
    if current is None:
        raise Http404("There is no such limit.")
    rows = clash_rows(form, LimitForm(row=current))
    typed = {name: form.data.get(name, "") for name in form.fields} | {"began_from": current.version}
    again = LimitForm(typed, row=current)
    context = {"form": again, "row": current, "clash": rows, "is_clash": True}
    return render(request, "sites/limit.html", context, status=409)
